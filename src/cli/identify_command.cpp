#include <algorithm>
#include <memory>
#include <system_error>

#include "base/text.h"
#include "bench/conversation.h"
#include "cli/case_sources.h"
#include "cli/commands.h"
#include "cli/conversation_screen.h"
#include "cli/places.h"
#include "cli/saved_case.h"
#include "cli/terminal_asker.h"
#include "cli/text_input.h"
#include "report/finding_document.h"
#include "report/finding_json.h"
#include "report/text.h"

namespace loomkey::cli {
namespace {

using evidence::ReadingsFile;

bool wants_conversation(const CommandLine& line, const Shell& shell) {
  const IdentifyOptions& options = line.identify;
  if (options.conversation) return true;
  return shell.terminal.can_ask && !options.one_shot && !line.json && !options.sources.any_readings();
}

Result<void> check_options(const CommandLine& line) {
  const IdentifyOptions& options = line.identify;
  if (options.conversation && line.json) {
    return fail(ErrorKind::usage, "--conversation shows text; it does not go with --json");
  }
  const auto& files = options.sources.files;
  if (options.conversation && std::find(files.begin(), files.end(), "-") != files.end()) {
    return fail(ErrorKind::usage,
                "--conversation takes the answers from standard input; it does not go with --readings -");
  }
  if (options.force && options.save.empty())
    return fail(ErrorKind::usage, "--force says how to --save; name a file there");
  return {};
}

// The file that --resume goes on with.
Result<std::string> resumed_file(const IdentifyOptions& options, const Shell& shell) {
  if (!options.resume_file.empty()) return options.resume_file;
  const auto folder = state_folder(shell.variables);
  std::error_code unknown;
  if (folder && std::filesystem::exists(*folder / last_conversation, unknown)) {
    return (*folder / last_conversation).string();
  }
  return fail(ErrorKind::input, "there is no conversation to go on with yet; 'loomkey identify' begins one");
}

Result<ExitCode> one_shot(const CommandLine& line, const Shell& shell, const bench::Workbench& bench,
                          const ReadingsFile& given) {
  const IdentifyOptions& options = line.identify;
  const bench::Finding finding = bench::identify(bench.model(), given.find, {options.candidates, options.questions});
  if (!options.save.empty()) {
    if (auto saved = save_case(bench.knowledge(), given.find, given.note, options.save); !saved) {
      return tl::unexpected(saved.error());
    }
  }
  if (!line.json) {
    for (const std::string& note : given.notes) shell.tell(note);
  }
  const std::string text =
      line.json ? report::finding_json(bench.knowledge(), given.find, finding, given.notes)
                : report::to_text(report::finding_document(bench.knowledge(), given.find, finding), shell.style());
  if (auto shown = shell.print(text); !shown) return tl::unexpected(shown.error());
  return options.exit_zero ? ExitCode::answered : exit_code(finding.status);
}

std::string farewell(const CaseKeeper& keeper, bool kept, bool finished) {
  if (keeper.where().empty()) return kept ? "" : "Nothing was answered, so nothing is kept.\n";
  return "The readings are kept in " + keeper.where() + "\n" + (finished ? "To look at them again: " : "To go on: ") +
         keeper.how_to_resume() + "\n";
}

Result<ExitCode> converse(const CommandLine& line, const Shell& shell, const bench::Workbench& bench,
                          const ReadingsFile& given) {
  const IdentifyOptions& options = line.identify;
  bench::Conversation conversation(bench.shared_model(), given.find);
  const bool goes_on_with_last = options.resume && options.resume_file.empty();
  CaseKeeper keeper(bench.knowledge(), shell.variables, options.save, given.note, !goes_on_with_last);
  const std::unique_ptr<StreamAsker> asker =
      shell.terminal.line_editing ? std::make_unique<EditingAsker>() : std::make_unique<StreamAsker>();
  for (const std::string& note : given.notes) asker->say(note + "\n");
  ConversationScreen screen(conversation, *asker, shell.style(),
                            [&](const evidence::Case& find) { return keeper.keep(find); });
  const bool begun = !given.find.readings.empty();
  const ConversationScreen::End end = screen.run(options.resume || begun);
  const bool finished = end == ConversationScreen::End::finished;
  asker->say(farewell(keeper, screen.kept(), finished));
  if (!asker->shown()) return tl::unexpected(asker->shown().error());
  if (end == ConversationScreen::End::interrupted) return ExitCode::interrupted;
  return options.exit_zero ? ExitCode::answered : exit_code(conversation.finding().status);
}

}  // namespace

Result<ExitCode> identify(const CommandLine& line, const Shell& shell) {
  if (auto checked = check_options(line); !checked) return tl::unexpected(checked.error());
  CaseSources sources = line.identify.sources;
  if (line.identify.resume) {
    auto file = resumed_file(line.identify, shell);
    if (!file) return tl::unexpected(file.error());
    sources.files.insert(sources.files.begin(), std::move(*file));
  }
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const auto given = gather_case(bench->knowledge(), sources);
  if (!given) return tl::unexpected(given.error());
  if (!line.identify.save.empty()) {
    if (auto allowed = may_save(bench->knowledge(), line.identify.save, line.identify.force); !allowed) {
      return tl::unexpected(allowed.error());
    }
  }
  return wants_conversation(line, shell) ? converse(line, shell, *bench, *given)
                                         : one_shot(line, shell, *bench, *given);
}

Result<ExitCode> why(const CommandLine& line, const Shell& shell) {
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const auto part = bench->part(line.words.front());
  if (!part) return tl::unexpected(part.error());
  const auto given = gather_case(bench->knowledge(), line.why);
  if (!given) return tl::unexpected(given.error());
  for (const std::string& note : given->notes) shell.tell(note);
  // The part asked about may be far down the list.
  const bench::Finding finding =
      bench::identify(bench->model(), given->find, {.candidates = bench->knowledge().parts.size(), .questions = 0});
  const auto page = report::why_document(bench->knowledge(), given->find, finding, *part);
  return printed(shell, page);
}

}  // namespace loomkey::cli
