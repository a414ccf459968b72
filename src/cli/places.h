#pragma once

#include <filesystem>
#include <optional>

#include "cli/terminal.h"

namespace loomkey::cli {

// $XDG_STATE_HOME/loomkey, else ~/.local/state/loomkey; nothing without a home. As the XDG rules say, a relative path
// is ignored.
std::optional<std::filesystem::path> state_folder(const Variables&);

// Inside it: the conversation that --resume goes on with, and the one before it.
inline constexpr const char* last_conversation = "last.toml";
inline constexpr const char* previous_conversation = "previous.toml";

}  // namespace loomkey::cli
