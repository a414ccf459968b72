#pragma once

#include "catalogue/draft.h"

namespace loomkey::catalogue {

// The small files that the rest refers to. Each takes the root table of its file and reads all of it.
void parse_bases(Draft& draft, TableReader file);
void parse_efforts(Draft& draft, TableReader file);  // tools too
void parse_groups(Draft& draft, TableReader file);
void parse_colours(Draft& draft, TableReader file);
void parse_familiar(Draft& draft, TableReader file);
void parse_symptoms(Draft& draft, TableReader file);
void parse_cautions(Draft& draft, TableReader file);

}  // namespace loomkey::catalogue
