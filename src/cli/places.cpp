#include "cli/places.h"

namespace loomkey::cli {

namespace fs = std::filesystem;

std::optional<fs::path> state_folder(const Variables& variables) {
  const fs::path named = variable(variables, "XDG_STATE_HOME").value_or("");
  if (named.is_absolute()) return named / "loomkey";
  const fs::path home = variable(variables, "HOME").value_or("");
  if (home.is_absolute()) return home / ".local" / "state" / "loomkey";
  return std::nullopt;
}

}  // namespace loomkey::cli
