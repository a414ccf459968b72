#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// What can be said of a bike: the same keys in every file, option and prompt.
struct BikeKey {
  std::string_view name;
  std::string_view meaning;
  std::string_view allowed;
};
const std::vector<BikeKey>& bike_keys();

// Sets one key from what a person wrote: "late sixties", "6 V", "plus to frame". "Unknown" takes an earlier value back.
// Fails on an unknown key or value, naming the nearest known one.
Result<void> set_bike_key(const knowledge::Knowledge& knowledge, Bike& bike, std::string_view key,
                          std::string_view value);

// The keys that are known, in the order of the table, as set_bike_key reads them back: {"decade", "1960s"}.
std::vector<std::pair<std::string, std::string>> bike_values(const knowledge::Knowledge& knowledge, const Bike& bike);

}  // namespace loomkey::evidence
