#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "evidence/reading.h"

// How people write what they know of a bike. "Unknown" gives nothing (an empty string, no number).
namespace loomkey::evidence {

Result<std::optional<int>> read_decade(std::string_view text);
Result<std::string> read_origin(std::string_view text);
Result<std::string> read_market(std::string_view text);
Result<std::optional<int>> read_cylinders(std::string_view text);
Result<std::optional<int>> read_volts(std::string_view text);
Result<Earth> read_earth(std::string_view text);

}  // namespace loomkey::evidence
