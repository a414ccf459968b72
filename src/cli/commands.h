#pragma once

#include <filesystem>

#include "base/result.h"
#include "bench/workbench.h"
#include "cli/command_line.h"
#include "cli/exit_codes.h"
#include "cli/shell.h"

namespace loomkey::cli {

// One function a command: does what the command line asks for, prints the result, and says how it ended.

Result<ExitCode> identify(const CommandLine&, const Shell&);
Result<ExitCode> why(const CommandLine&, const Shell&);

Result<ExitCode> list_parts(const CommandLine&, const Shell&);
Result<ExitCode> search_parts(const CommandLine&, const Shell&);
Result<ExitCode> show_part(const CommandLine&, const Shell&);
Result<ExitCode> compare_parts(const CommandLine&, const Shell&);
Result<ExitCode> show_traits(const CommandLine&, const Shell&);
Result<ExitCode> show_settings(const CommandLine&, const Shell&);

Result<ExitCode> build_catalogue(const CommandLine&, const Shell&);
Result<ExitCode> check_catalogue(const CommandLine&, const Shell&);
Result<ExitCode> print_template(const CommandLine&, const Shell&);
Result<ExitCode> run_trial(const CommandLine&, const Shell&);
Result<ExitCode> show_separability(const CommandLine&, const Shell&);
Result<ExitCode> compare_catalogues(const CommandLine&, const Shell&);
Result<ExitCode> show_catalogue(const CommandLine&, const Shell&);

Result<ExitCode> generate(const CommandLine&, const Shell&);

// The catalogue that the option, the environment or the place of the program names.
Result<std::filesystem::path> catalogue_path(const CommandLine&, const Shell&);

// The same, opened, with the overlay that the option, the environment or the user's data folder names. What is wrong
// with the overlay is told, and left out.
Result<bench::Workbench> open_workbench(const CommandLine&, const Shell&);

// Tells every mistake of a folder on a line of its own, so that an editor can step through them.
ExitCode list_mistakes(const std::vector<Error>& errors, const std::string& folder, const Shell&);

// Prints a text and ends well.
Result<ExitCode> printed(const Shell&, std::string_view text);
Result<ExitCode> printed(const Shell&, const report::Document&);

}  // namespace loomkey::cli
