#pragma once

#include <string>
#include <vector>

#include "cli/shell.h"

namespace loomkey::cli {

// Runs the program on the words of its command line, without its own name; returns the exit code.
int run(const std::vector<std::string>& words, const Shell& shell);

}  // namespace loomkey::cli
