#pragma once

#include <string>

#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// What the rest of the program takes for granted and no single row shows: ids are unique, shares sum to one, claims fit
// the kind of their trait, observer models are square, every part is good in its first condition and damaged in its
// last. All indices must be in range already. Empty, or what is wrong in words.
std::string check_knowledge(const knowledge::Knowledge& knowledge);

}  // namespace loomkey::catalogue
