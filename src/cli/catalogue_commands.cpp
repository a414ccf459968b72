#include <set>
#include <utility>

#include "catalogue/locate.h"
#include "catalogue/sources.h"
#include "catalogue/store.h"
#include "catalogue/template.h"
#include "cli/commands.h"

namespace loomkey::cli {
namespace {

namespace fs = std::filesystem;

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

// Every mistake on a line of its own, so that an editor can step through them.
ExitCode list_mistakes(const std::vector<Error>& errors, const std::string& folder, const Shell& shell) {
  for (const Error& error : errors) shell.tell(error.message());
  shell.tell(counted(errors.size(), "mistake", "mistakes") + " in the sources under " + folder);
  return exit_code(ErrorKind::catalogue);
}

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

}  // namespace

Result<fs::path> catalogue_path(const CommandLine& line, const Shell& shell) {
  if (!line.catalogue.empty()) return fs::path(line.catalogue);
  catalogue::Surroundings surroundings;
  surroundings.loomkey_catalogue = variable(shell.variables, "LOOMKEY_CATALOGUE");
  surroundings.xdg_data_home = variable(shell.variables, "XDG_DATA_HOME");
  surroundings.home = variable(shell.variables, "HOME");
  surroundings.executable = executable_path();
  return catalogue::locate_catalogue(surroundings);
}

Result<bench::Workbench> open_workbench(const CommandLine& line, const Shell& shell) {
  const auto path = catalogue_path(line, shell);
  if (!path) return tl::unexpected(path.error());
  return bench::Workbench::open(*path);
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
  const auto bench = bench::Workbench::open(*path);
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
  for (const auto& [name, count] :
       {std::pair{"parts", knowledge.parts.size()}, std::pair{"conditions", conditions},
        std::pair{"advice classes", classes.size()}, std::pair{"families", knowledge.families.size()},
        std::pair{"traits", knowledge.traits.size()}, std::pair{"confusion sets", knowledge.confusions.size()}}) {
    text += std::string(name) + ": " + std::to_string(count) + "\n";
  }
  return printed(shell, text);
}

}  // namespace loomkey::cli
