#include <unistd.h>

#include <chrono>
#include <functional>

#include "base/text.h"
#include "bench/separability.h"
#include "catalogue/atomic_file.h"
#include "cli/commands.h"
#include "report/separability_document.h"

namespace loomkey::cli {
namespace {

constexpr auto patience = std::chrono::seconds(2);

// A running count, once it has taken longer than anybody likes to wait without a word.
std::function<void(int, int)> progress_of(const Shell& shell) {
  if (!shell.terminal.progress) return {};
  return [begun = std::chrono::steady_clock::now(), shown = false](int done, int total) mutable {
    if (!shown && std::chrono::steady_clock::now() - begun < patience) return;
    shown = true;
    const std::string text =
        "\r" + std::to_string(done) + " of " + std::to_string(total) + " traits" + (done >= total ? "\n" : "");
    [[maybe_unused]] const auto lost = write_all(STDERR_FILENO, text, "standard error");
  };
}

// Writes a file, or prints it where the file is "-".
Result<void> put(const Shell& shell, const std::string& file, const std::string& text) {
  if (file == "-") return shell.print(text);
  auto written = catalogue::write_atomically(file, text);
  if (written) shell.tell("written: " + printable(file));
  return written;
}

}  // namespace

Result<ExitCode> show_separability(const CommandLine& line, const Shell& shell) {
  const SeparabilityWords& words = line.separability;
  if ((words.csv == "-") + (words.svg == "-") + line.json > 1) {
    return fail(ErrorKind::usage, "only one of --json, --csv - and --svg - can be printed");
  }
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  bench::SeparabilityOptions options;
  options.best_below = words.below;
  options.together_below = words.together;
  options.progress = progress_of(shell);
  const bench::Separability found = bench::separability(bench->model(), options);
  const knowledge::Knowledge& knowledge = bench->knowledge();
  if (!words.csv.empty()) {
    if (auto done = put(shell, words.csv, report::separability_csv(knowledge, found)); !done) {
      return tl::unexpected(done.error());
    }
  }
  if (!words.svg.empty()) {
    if (auto done = put(shell, words.svg, report::separability_svg(knowledge, found)); !done) {
      return tl::unexpected(done.error());
    }
  }
  if (words.csv == "-" || words.svg == "-") return ExitCode::answered;
  if (line.json) return printed(shell, report::separability_json(knowledge, found));
  return printed(shell, report::separability_document(knowledge, found));
}

}  // namespace loomkey::cli
