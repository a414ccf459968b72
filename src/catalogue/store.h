#pragma once

#include <filesystem>

#include "base/result.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// Compiles the knowledge into one SQLite file. Equal knowledge gives byte for byte the same file. The file appears
// whole or not at all, and only after it has been read back and compared. `knowledge.hash` is not looked at: the hash
// is computed here and stored.
Result<void> write_catalogue(const knowledge::Knowledge& knowledge, const std::filesystem::path& out);

}  // namespace loomkey::catalogue
