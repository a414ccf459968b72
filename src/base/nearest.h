#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loomkey {

// Edits (insert, delete, replace, swap of neighbours: restricted Damerau-Levenshtein distance) between two words.
// Letter case is ignored.
int edit_distance(std::string_view a, std::string_view b);

// The known name closest to `word`, if it is close enough to be a slip of the finger (about a third of its length).
// Ties go to the name that comes first in `known`.
std::optional<std::string> nearest(std::string_view word, std::span<const std::string> known);

// " Did you mean 'x'?" or nothing.
std::string did_you_mean(std::string_view word, std::span<const std::string> known);

}  // namespace loomkey
