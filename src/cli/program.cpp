#include "cli/program.h"

#include <exception>

#include "cli/command_line.h"
#include "cli/commands.h"

namespace loomkey::cli {
namespace {

Result<ExitCode> obey(const CommandLine& line, const Shell& shell) {
  switch (line.command) {
    case Command::help:
      return printed(shell, help_text(command_tree(), line.help_on, shell.terminal.width));
    case Command::version:
      return printed(shell, "loomkey " LOOMKEY_VERSION "\n");
    case Command::identify:
      return identify(line, shell);
    case Command::why:
      return why(line, shell);
    case Command::parts_list:
      return list_parts(line, shell);
    case Command::parts_search:
      return search_parts(line, shell);
    case Command::parts_show:
      return show_part(line, shell);
    case Command::compare:
      return compare_parts(line, shell);
    case Command::traits:
      return show_traits(line, shell);
    case Command::settings:
      return show_settings(line, shell);
    case Command::catalogue_build:
      return build_catalogue(line, shell);
    case Command::catalogue_check:
      return check_catalogue(line, shell);
    case Command::catalogue_template:
      return print_template(line, shell);
    case Command::catalogue_trial:
      return run_trial(line, shell);
    case Command::catalogue_info:
      return show_catalogue(line, shell);
    case Command::catalogue_diff:
      return compare_catalogues(line, shell);
    case Command::catalogue_separability:
      return show_separability(line, shell);
    case Command::generate_man:
    case Command::generate_completion:
    case Command::generate_words:
      break;
  }
  return generate(line, shell);
}

int code(ExitCode exit) { return static_cast<int>(exit); }

}  // namespace

int run(const std::vector<std::string>& words, const Shell& shell) {
  try {
    const auto line = parse_command_line(words);
    const auto end = line ? obey(*line, shell) : Result<ExitCode>(tl::unexpected(line.error()));
    if (end) return code(*end);
    if (const std::string message = end.error().message(); !message.empty()) shell.tell(message);
    return code(exit_code(end.error().kind));
  } catch (const std::exception& fault) {
    // Nothing that a person can cause comes this way; what does is a mistake of ours, or no memory.
    shell.tell(std::string("a fault of the program itself: ") + fault.what());
    return code(ExitCode::fault);
  }
}

}  // namespace loomkey::cli
