#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "evidence/parse_value.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// The three size traits in the order longest, middle, shortest; -1 where the catalogue lacks one.
inline constexpr std::array<std::string_view, 3> size_trait_ids = {"size_long", "size_mid", "size_short"};
std::array<int, 3> size_traits(const knowledge::Knowledge& knowledge);

// Which of the three measures a trait is (0 longest), or nothing.
std::optional<std::size_t> size_measure_of(const knowledge::Knowledge& knowledge, int trait);

// Reads all measures at once: "60x40x25", "35 dia x 45", "2 1/2 x 1 1/2 inch", "like a matchbox". Three numbers are
// sorted; a diameter counts twice; of two numbers without the word diameter only the larger says which measure it is.
// A unit serves every number that has none of its own.
Result<Expanded> parse_size(const knowledge::Knowledge& knowledge, std::string_view text);

}  // namespace loomkey::evidence
