#pragma once

#include <string>
#include <string_view>

#include <toml++/toml.h>

#include "base/result.h"

namespace loomkey::evidence {

// "find.toml:12:3", or "find.toml:12" without a column; just the name for a place that is not known.
std::string place_text(const std::string& name, const toml::source_position& at, bool column = true);

// Parses the text of a file that came from outside. Refuses, with one message that names the line, what is too large,
// holds NUL bytes, is not UTF-8, nests deeper than any readings file, or is not TOML; for a key that is given twice
// both lines are named.
Result<toml::table> parse_toml(std::string_view text, const std::string& name);

}  // namespace loomkey::evidence
