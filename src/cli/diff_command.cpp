#include <memory>
#include <system_error>

#include "base/text.h"
#include "bench/catalogue_diff.h"
#include "catalogue/catalogue.h"
#include "catalogue/content_hash.h"
#include "catalogue/overlay.h"
#include "catalogue/sources.h"
#include "cli/commands.h"
#include "report/diff_document.h"

namespace loomkey::cli {
namespace {

namespace fs = std::filesystem;
using Side = std::shared_ptr<const knowledge::Knowledge>;

// One side of the comparison; nothing where the mistakes of a folder have been told instead.
Result<Side> read_folder(const CommandLine& line, const Shell& shell, const std::string& folder) {
  catalogue::SourceReport report;
  if (catalogue::is_overlay(folder)) {
    const auto path = catalogue_path(line, shell);
    if (!path) return tl::unexpected(path.error());
    const auto shipped = catalogue::open_catalogue(*path);
    if (!shipped) return tl::unexpected(shipped.error());
    catalogue::Overlaid overlaid = catalogue::apply_overlay(*shipped->knowledge(), folder);
    report.knowledge = std::move(overlaid.knowledge);
    report.errors = std::move(overlaid.report.mistakes);
  } else {
    report = catalogue::read_sources(folder);
  }
  if (!report.ok()) {
    list_mistakes(report.errors, printable(folder), shell);
    return nullptr;
  }
  report.knowledge.hash = catalogue::content_hash(report.knowledge);
  return std::make_shared<const knowledge::Knowledge>(std::move(report.knowledge));
}

Result<Side> read_side(const CommandLine& line, const Shell& shell, const std::string& name) {
  std::error_code unknown;
  if (fs::is_directory(name, unknown)) return read_folder(line, shell, name);
  const auto opened = catalogue::open_catalogue(name);
  if (!opened) return tl::unexpected(opened.error());
  return opened->knowledge();
}

}  // namespace

Result<ExitCode> compare_catalogues(const CommandLine& line, const Shell& shell) {
  const auto was = read_side(line, shell, line.words.front());
  if (!was) return tl::unexpected(was.error());
  const auto is = read_side(line, shell, line.words.back());
  if (!is) return tl::unexpected(is.error());
  if (!*was || !*is) return exit_code(ErrorKind::catalogue);
  const bench::CatalogueDiff diff = bench::catalogue_diff(**was, **is);
  const report::Compared compared{**was, **is, diff};
  const auto shown =
      line.json ? printed(shell, report::diff_json(compared)) : printed(shell, report::diff_document(compared));
  if (!shown) return shown;
  return diff.identical() ? ExitCode::answered : ExitCode::open;
}

}  // namespace loomkey::cli
