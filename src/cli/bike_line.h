#pragma once

#include <string_view>

#include "base/result.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::cli {

// Sets what one line says of the bike: "decade 1960, volts = 12, earth measured positive". All of it is taken, or none.
Result<void> set_bike(const knowledge::Knowledge&, evidence::Bike&, std::string_view line);

}  // namespace loomkey::cli
