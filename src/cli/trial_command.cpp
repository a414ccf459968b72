#include <unistd.h>

#include <algorithm>
#include <functional>
#include <thread>

#include "base/text.h"
#include "bench/trial.h"
#include "bench/typical_verdicts.h"
#include "catalogue/atomic_file.h"
#include "cli/commands.h"
#include "report/trial_document.h"

namespace loomkey::cli {
namespace {

unsigned cores() { return std::max(1U, std::thread::hardware_concurrency()); }

Result<bench::TrialOptions> trial_options(const TrialWords& words) {
  bench::TrialOptions options;
  options.seed = words.seed;
  options.cases = words.cases;
  options.by_turns = words.every_part;
  options.absent_classes = words.absent_classes;
  if (words.mistakes == "own") options.mistakes = {bench::Mistakes::own};
  if (words.mistakes == "other") options.mistakes = {bench::Mistakes::other};
  options.threads = cores();
  if (words.wrong.empty()) {
    if (words.without_meter)
      return fail(ErrorKind::usage, "--no-meter says how the observers of --wrong look; give both");
    return options;
  }
  options.observers.clear();
  for (const int wrong : words.wrong) {
    options.observers.push_back({.wrong = wrong / 100.0,
                                 .cannot_tell = words.cannot_tell / 100.0,
                                 .meter = !words.without_meter,
                                 .doubts = true});
  }
  return options;
}

std::function<void(int, int)> progress_of(const Shell& shell, const std::string& what) {
  if (!shell.terminal.progress) return {};
  return [what, last = -1](int done, int total) mutable {
    const int per_cent = total > 0 ? done * 100 / total : 100;
    if (per_cent == last) return;
    last = per_cent;
    const std::string text = "\r" + std::to_string(per_cent) + " % of the " + what + (done >= total ? "\n" : "");
    [[maybe_unused]] const auto lost = write_all(STDERR_FILENO, text, "standard error");
  };
}

Result<ExitCode> write_verdicts(const bench::Workbench& bench, const std::string& file, const Shell& shell) {
  bench::VerdictOptions options;
  options.threads = cores();
  options.progress = progress_of(shell, "parts");
  const std::string text = report::verdicts_json(bench.knowledge(), bench::typical_verdicts(bench.model(), options));
  if (file == "-") return printed(shell, text);
  if (auto written = catalogue::write_atomically(file, text); !written) return tl::unexpected(written.error());
  shell.tell("written: " + printable(file));
  return ExitCode::answered;
}

}  // namespace

Result<ExitCode> run_trial(const CommandLine& line, const Shell& shell) {
  auto options = trial_options(line.trial);
  if (!options) return tl::unexpected(options.error());
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  if (!line.trial.verdicts.empty()) return write_verdicts(*bench, line.trial.verdicts, shell);
  options->progress = progress_of(shell, "trial");
  const bench::TrialReport outcome = bench::run_trial(bench->model(), *options);
  if (line.json) return printed(shell, report::trial_json(bench->knowledge(), outcome));
  return printed(shell, report::trial_document(bench->knowledge(), outcome));
}

}  // namespace loomkey::cli
