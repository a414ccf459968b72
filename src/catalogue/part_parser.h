#pragma once

#include <vector>

#include "catalogue/claim_parser.h"
#include "catalogue/draft.h"

namespace loomkey::catalogue {

// Reads every [[part]] of the files; parts come out sorted by id. Families, advice and the vocabulary must have been
// read before.
void parse_parts(Draft& draft, std::vector<TableReader> files);

// The conditions of a part: good, its faults in the order of the file, otherwise damaged. A part brought in is good
// with chance `sound`, otherwise damaged with .08; the faults share the rest in proportion to their frequencies.
std::vector<knowledge::Condition> parse_conditions(Draft& draft, TableReader& part,
                                                   const std::vector<int>& verified_traits);

}  // namespace loomkey::catalogue
