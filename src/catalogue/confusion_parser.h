#pragma once

#include "catalogue/draft.h"

namespace loomkey::catalogue {

// The sets of parts that people mix up. Reads the root table of its file, after parts and traits are known.
void parse_confusions(Draft& draft, TableReader file);

}  // namespace loomkey::catalogue
