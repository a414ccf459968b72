#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// A commented TOML skeleton for a new part of a family: valid TOML as it stands, with CHANGE-ME and 0 where something
// is to be filled in, the states of every look in comments, and what the family already says. An unknown family names
// the nearest known one.
Result<std::string> part_template(const knowledge::Knowledge& knowledge, std::string_view family);

}  // namespace loomkey::catalogue
