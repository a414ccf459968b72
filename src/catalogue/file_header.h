#pragma once

#include <filesystem>

#include "base/result.h"

namespace loomkey::catalogue {

// Judges a file by its size and first 100 bytes (SQLite's database header), before SQLite sees it: missing, no file,
// not readable, not SQLite, another program's, of a newer or older format, cut short.
Result<void> check_file_header(const std::filesystem::path& path);

}  // namespace loomkey::catalogue
