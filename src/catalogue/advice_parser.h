#pragma once

#include <vector>

#include "catalogue/draft.h"

namespace loomkey::catalogue {

// Both read every file of their folder and leave what they read sorted by id.
void parse_families(Draft& draft, std::vector<TableReader> files);
void parse_advice(Draft& draft, std::vector<TableReader> files);

}  // namespace loomkey::catalogue
