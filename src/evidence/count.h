#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "base/result.h"
#include "knowledge/trait.h"

namespace loomkey::evidence {

// Reads a number of things ("9 coils", "five or six", "more than 7") as the state of a trait whose states are counts
// ("3", "5-6", "12+"). Nothing if the trait does not count or the text holds no number; an error if no single state
// covers the number or the text counts something else.
std::optional<Result<std::size_t>> read_count(const knowledge::Trait& trait, std::string_view text);

}  // namespace loomkey::evidence
