#pragma once

#include <filesystem>
#include <string_view>

#include "base/result.h"

namespace loomkey::catalogue {

// Puts `bytes` at `path`: first into a new file beside it, which is synced to disk and then renamed over the old one.
// Whatever happens, `path` holds either what it held before or all of `bytes`. A symbolic link is followed; a device or
// a folder is never replaced.
Result<void> write_atomically(const std::filesystem::path& path, std::string_view bytes);

}  // namespace loomkey::catalogue
