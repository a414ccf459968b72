#pragma once

#include <optional>
#include <string_view>

#include "evidence/parsed.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// The thing a text compares with: "matchbox", "like a matchbox", "about as big as a film canister". Nothing if it names
// none, or says more about it ("half a matchbox").
std::optional<std::size_t> familiar_size(const knowledge::Knowledge& knowledge, std::string_view text);

// One measure of a familiar thing (0 longest): size * (1 - spread) .. size * (1 + spread), within the trait's limits.
Result<Parsed> familiar_measure(const knowledge::Knowledge& knowledge, std::size_t thing, std::size_t measure);

// "a matchbox: taken as about 53 x 36 x 15 mm, 20 % either way"
std::string familiar_note(const knowledge::FamiliarThing& thing);

// All their names, for nearest-name search.
std::vector<std::string> familiar_names(const knowledge::Knowledge& knowledge);

}  // namespace loomkey::evidence
