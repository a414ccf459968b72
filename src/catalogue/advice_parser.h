#pragma once

#include <vector>

#include "catalogue/draft.h"

namespace loomkey::catalogue {

// Both read every file of their folder and leave the records sorted by id.
void parse_families(Draft& draft, std::vector<TableReader> files);

// Returns where each kept record stands, for the check that some part uses it.
std::vector<Place> parse_advice(Draft& draft, std::vector<TableReader> files);

}  // namespace loomkey::catalogue
