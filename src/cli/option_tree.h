#pragma once

#include <memory>

#include "cli/command_line.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the name is the library's
class App;
}

namespace loomkey::cli {

// The one place where commands and options are declared. The parser writes into `out`, which must outlive it.
std::unique_ptr<CLI::App> option_tree(CommandLine& out);

}  // namespace loomkey::cli
