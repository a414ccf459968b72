#include <system_error>

#include "base/text.h"
#include "catalogue/locate.h"
#include "cli/commands.h"

namespace loomkey::cli {
namespace {

namespace fs = std::filesystem;

// A broken overlay is told in full by 'catalogue check'.
constexpr std::size_t most_told = 5;

catalogue::Surroundings surroundings(const Shell& shell) {
  catalogue::Surroundings out;
  out.loomkey_catalogue = variable(shell.variables, "LOOMKEY_CATALOGUE");
  out.loomkey_overlay = variable(shell.variables, "LOOMKEY_OVERLAY");
  out.xdg_data_home = variable(shell.variables, "XDG_DATA_HOME");
  out.home = variable(shell.variables, "HOME");
  out.executable = executable_path();
  return out;
}

Result<std::optional<fs::path>> overlay_path(const CommandLine& line, const Shell& shell) {
  if (line.without_overlay) return std::nullopt;
  if (line.overlay.empty()) return catalogue::locate_overlay(surroundings(shell));
  std::error_code unknown;
  if (fs::is_directory(line.overlay, unknown)) return fs::path(line.overlay);
  return fail(ErrorKind::catalogue, "there is no such overlay folder", printable(line.overlay));
}

// Everything else of overlay and catalogue is in use, so this is no error; but nobody shall miss it.
void tell_left_out(const catalogue::OverlayReport& overlay, const Shell& shell) {
  const auto& left_out = overlay.left_out;
  for (std::size_t i = 0; i < left_out.size() && i < most_told; ++i) shell.tell(left_out[i].message());
  if (left_out.size() <= most_told) return;
  shell.tell(std::to_string(left_out.size() - most_told) +
             " more things are ignored; 'loomkey catalogue check' lists all mistakes of " +
             printable(overlay.folder.string()));
}

}  // namespace

Result<fs::path> catalogue_path(const CommandLine& line, const Shell& shell) {
  if (!line.catalogue.empty()) return fs::path(line.catalogue);
  return catalogue::locate_catalogue(surroundings(shell));
}

Result<bench::Workbench> open_workbench(const CommandLine& line, const Shell& shell) {
  const auto path = catalogue_path(line, shell);
  if (!path) return tl::unexpected(path.error());
  const auto overlay = overlay_path(line, shell);
  if (!overlay) return tl::unexpected(overlay.error());
  auto bench = bench::Workbench::open(*path, *overlay);
  if (bench && bench->overlay()) tell_left_out(*bench->overlay(), shell);
  return bench;
}

}  // namespace loomkey::cli
