#include <set>
#include <utility>

#include "base/text.h"
#include "catalogue/overlay.h"
#include "catalogue/sources.h"
#include "catalogue/store.h"
#include "catalogue/template.h"
#include "cli/commands.h"

namespace loomkey::cli {
namespace {

namespace fs = std::filesystem;

Result<void> expect_folder(const std::string& folder) {
  std::error_code unknown;
  if (fs::is_directory(folder, unknown)) return {};
  return fail(ErrorKind::catalogue, "there is no such folder of catalogue sources", folder);
}

std::string contents(const knowledge::Knowledge& knowledge) {
  return counted(knowledge.parts.size(), "part", "parts") + ", " +
         counted(knowledge.advice.size(), "advice class", "advice classes") + ", " +
         counted(knowledge.traits.size(), "trait", "traits");
}

// "adds 2 parts (a, b)"
std::string did(const std::string& verb, const std::vector<std::string>& ids, const catalogue::OverlayItems& items) {
  return verb + " " + counted(ids.size(), items.one, items.many) + " (" + join(ids, ", ") + ")";
}

// What an overlay changes, a piece a line of the info, a clause of a sentence.
std::vector<std::string> changes(const catalogue::OverlayReport& overlay) {
  std::vector<std::string> out;
  for (const catalogue::OverlayItems& items : overlay.items) {
    if (!items.added.empty()) out.push_back(did("adds", items.added, items));
    if (!items.replaced.empty()) out.push_back(did("replaces", items.replaced, items));
  }
  return out;
}

// Parts are always counted, the rest where there is any.
std::string overlay_lines(const bench::Workbench& bench) {
  const catalogue::OverlayReport& overlay = *bench.overlay();
  std::string text =
      "hash without overlay: " + bench.shipped_hash() + "\noverlay: " + printable(overlay.folder.string()) + "\n";
  for (const catalogue::OverlayItems& items : overlay.items) {
    for (const auto& [verb, ids] : {std::pair{"added", &items.added}, std::pair{"replaced", &items.replaced},
                                    std::pair{"ignored", &items.ignored}}) {
      if (ids->empty() && &items != &overlay.parts()) continue;
      text += "overlay, " + items.many + " " + verb + ": " + std::to_string(ids->size());
      text += ids->empty() ? "\n" : " (" + join(*ids, ", ") + ")\n";
    }
  }
  return text;
}

// An overlay is judged against the catalogue in use, as no part of it stands alone.
Result<ExitCode> check_overlay(const CommandLine& line, const Shell& shell, const std::string& folder) {
  CommandLine plain = line;
  plain.overlay.clear();
  plain.without_overlay = true;
  const auto bench = open_workbench(plain, shell);
  if (!bench) return tl::unexpected(bench.error());
  const catalogue::OverlayReport report = catalogue::apply_overlay(bench->knowledge(), folder).report;
  if (!report.ok()) return list_mistakes(report.mistakes, folder, shell);
  const std::vector<std::string> done = changes(report);
  return printed(shell, printable(folder) + ": no mistakes in this overlay; it " +
                            (done.empty() ? "changes nothing" : join(done, ", ")) + "\n");
}

}  // namespace

ExitCode list_mistakes(const std::vector<Error>& errors, const std::string& folder, const Shell& shell) {
  for (const Error& error : errors) shell.tell(error.message());
  shell.tell(counted(errors.size(), "mistake", "mistakes") + " in the sources under " + folder);
  return exit_code(ErrorKind::catalogue);
}

Result<ExitCode> build_catalogue(const CommandLine& line, const Shell& shell) {
  if (auto folder = expect_folder(line.from); !folder) return tl::unexpected(folder.error());
  const catalogue::SourceReport report = catalogue::read_sources(line.from);
  if (!report.ok()) return list_mistakes(report.errors, line.from, shell);
  if (auto written = catalogue::write_catalogue(report.knowledge, line.to); !written) {
    return tl::unexpected(written.error());
  }
  return printed(shell, line.to + ": " + contents(report.knowledge) + "\n");
}

Result<ExitCode> check_catalogue(const CommandLine& line, const Shell& shell) {
  const std::string& folder = line.words.front();
  if (auto there = expect_folder(folder); !there) return tl::unexpected(there.error());
  if (catalogue::is_overlay(folder)) return check_overlay(line, shell, folder);
  const catalogue::SourceReport report = catalogue::read_sources(folder);
  if (!report.ok()) return list_mistakes(report.errors, folder, shell);
  return printed(shell, folder + ": no mistakes in " + contents(report.knowledge) + "\n");
}

Result<ExitCode> print_template(const CommandLine& line, const Shell& shell) {
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const auto text = catalogue::part_template(bench->knowledge(), line.words.front());
  if (!text) return fail(ErrorKind::input, text.error().what);
  return printed(shell, *text);
}

Result<ExitCode> show_catalogue(const CommandLine& line, const Shell& shell) {
  const auto path = catalogue_path(line, shell);
  if (!path) return tl::unexpected(path.error());
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const knowledge::Knowledge& knowledge = bench->knowledge();
  std::set<int> classes;
  std::size_t conditions = 0;
  for (const auto& part : knowledge.parts) {
    classes.insert(part.advice);
    conditions += part.conditions.size();
  }
  // Lines of their own, not folded: the path and the hash are to be copied.
  std::string text = "path: " + path->string() + "\nhash: " + knowledge.hash + "\n";
  if (bench->overlay()) text += overlay_lines(*bench);
  for (const auto& [name, count] :
       {std::pair{"parts", knowledge.parts.size()}, std::pair{"conditions", conditions},
        std::pair{"advice classes", classes.size()}, std::pair{"families", knowledge.families.size()},
        std::pair{"traits", knowledge.traits.size()}, std::pair{"confusion sets", knowledge.confusions.size()}}) {
    text += std::string(name) + ": " + std::to_string(count) + "\n";
  }
  return printed(shell, text);
}

}  // namespace loomkey::cli
