#pragma once

#include <string>

#include "cli/command_tree.h"

namespace loomkey::cli {

// The manual page (section 1) of the program, as troff text.
std::string man_page(const CommandNode& root, const std::string& version);

}  // namespace loomkey::cli
