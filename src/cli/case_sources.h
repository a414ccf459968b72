#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "cli/command_line.h"
#include "evidence/reading.h"
#include "evidence/readings_file.h"
#include "knowledge/knowledge.h"

namespace loomkey::cli {

// "can (think so)" -> "can" and `think_so`. Only brackets at the end that say how sure somebody is are taken off.
struct Sureness {
  std::string words;
  std::optional<evidence::Certainty> certainty;
};
Sureness split_bracketed_certainty(std::string_view text);

// The case that the options and their files describe together. Two files that contradict each other, or two values for
// one trait by the same observer, are refused naming both places. What an option says stands above what a file says.
Result<evidence::ReadingsFile> gather_case(const knowledge::Knowledge&, const CaseSources&);

}  // namespace loomkey::cli
