#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "base/result.h"

namespace loomkey::catalogue {

// What the search for the default catalogue may look at. The caller fills it from the real environment.
struct Surroundings {
  std::optional<std::string> loomkey_catalogue;  // LOOMKEY_CATALOGUE
  std::optional<std::string> loomkey_overlay;    // LOOMKEY_OVERLAY
  std::optional<std::string> xdg_data_home;      // XDG_DATA_HOME
  std::optional<std::string> home;               // HOME
  std::filesystem::path executable;              // the running program, links resolved; may be empty
};

// The catalogue to use when no option names one: the file that LOOMKEY_CATALOGUE names, else the first that exists of
// ../share/loomkey/catalogue.sqlite beside the folder of the program, loomkey/catalogue.sqlite under the user's data
// folder ($XDG_DATA_HOME, else ~/.local/share), and catalogue.sqlite beside the program (the build tree). The error
// lists where it looked. The file is not opened.
Result<std::filesystem::path> locate_catalogue(const Surroundings& surroundings);

// The overlay to use when no option names one: the folder that LOOMKEY_OVERLAY names, else loomkey/overlay under the
// user's data folder if it exists, else none. Naming a folder that does not exist is an error.
Result<std::optional<std::filesystem::path>> locate_overlay(const Surroundings& surroundings);

}  // namespace loomkey::catalogue
