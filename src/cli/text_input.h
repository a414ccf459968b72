#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "base/result.h"

namespace loomkey::cli {

inline constexpr std::size_t largest_text = 1024 * 1024;  // bytes of a readings file

// The text of a file, or of standard input for "-". Refused with one message: a file that does not exist, is a folder,
// empty, larger than `largest_text`, binary or not UTF-8 (bad input); one that the system does not let us read
// (storage).
Result<std::string> read_text(const std::string& path);

// What messages call the source of a text.
std::string source_name(const std::string& path);

}  // namespace loomkey::cli
