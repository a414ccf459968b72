#pragma once

#include <filesystem>

#ifndef LOOMKEY_SOURCE_DIR
#error "define LOOMKEY_SOURCE_DIR as the folder of the repository"
#endif

namespace loomkey::support {

// The sources of the shipped catalogue.
inline std::filesystem::path real_data() { return std::filesystem::path(LOOMKEY_SOURCE_DIR) / "data"; }

}  // namespace loomkey::support
