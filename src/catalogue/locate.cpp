#include "catalogue/locate.h"

#include <system_error>
#include <vector>

#include "base/text.h"

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;

bool is_there(const fs::path& path) {
  std::error_code ignored;
  return fs::exists(path, ignored);
}

// The XDG base directory rules: a relative path is to be ignored.
std::optional<fs::path> user_data(const Surroundings& surroundings) {
  if (surroundings.xdg_data_home && fs::path(*surroundings.xdg_data_home).is_absolute()) {
    return fs::path(*surroundings.xdg_data_home);
  }
  if (surroundings.home && fs::path(*surroundings.home).is_absolute()) {
    return fs::path(*surroundings.home) / ".local" / "share";
  }
  return std::nullopt;
}

}  // namespace

Result<fs::path> locate_catalogue(const Surroundings& surroundings) {
  if (surroundings.loomkey_catalogue && !surroundings.loomkey_catalogue->empty()) {
    fs::path named = *surroundings.loomkey_catalogue;
    // A file that cannot be reached is named too: opening it tells why.
    std::error_code ignored;
    if (fs::status(named, ignored).type() != fs::file_type::not_found) return named;
    // Falling back to another file would answer from a catalogue that was not asked for.
    return fail(ErrorKind::catalogue, "LOOMKEY_CATALOGUE names this file, and it does not exist", named.string());
  }
  const fs::path name = "catalogue.sqlite";
  std::vector<fs::path> places;
  const fs::path folder = surroundings.executable.parent_path();
  if (!folder.empty()) places.push_back((folder / ".." / "share" / "loomkey" / name).lexically_normal());
  if (const auto data = user_data(surroundings)) places.push_back(*data / "loomkey" / name);
  if (!folder.empty()) places.push_back(folder / name);
  std::vector<std::string> looked;
  for (fs::path& place : places) {
    if (is_there(place)) return place;
    looked.push_back(place.string());
  }
  return fail(ErrorKind::catalogue,
              "no catalogue found. Looked at: " + (looked.empty() ? std::string("nowhere") : join(looked, ", ")) +
                  ". Set LOOMKEY_CATALOGUE or build one");
}

Result<std::optional<fs::path>> locate_overlay(const Surroundings& surroundings) {
  if (surroundings.loomkey_overlay && !surroundings.loomkey_overlay->empty()) {
    fs::path named = *surroundings.loomkey_overlay;
    std::error_code ignored;
    if (fs::status(named, ignored).type() != fs::file_type::not_found) return named;
    return fail(ErrorKind::catalogue, "LOOMKEY_OVERLAY names this folder, and it does not exist", named.string());
  }
  const auto data = user_data(surroundings);
  if (!data) return std::nullopt;
  fs::path usual = *data / "loomkey" / "overlay";
  if (is_there(usual)) return usual;
  return std::nullopt;
}

}  // namespace loomkey::catalogue
