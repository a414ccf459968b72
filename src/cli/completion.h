#pragma once

#include <string>
#include <string_view>

#include "cli/command_tree.h"

namespace loomkey::cli {

// The completion script for a shell ("bash", "zsh", "fish"). Ids of parts, traits and families are asked from the
// program itself when they are wanted, so they fit the catalogue in use.
std::string completion_script(const CommandNode& root, std::string_view shell);

}  // namespace loomkey::cli
