#pragma once

#include <string>
#include <vector>

#include "bench/finding.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::report {

// The finding as JSON "loomkey/finding/1" (schema/finding.schema.json), two spaces deep, pure ASCII, ending in a
// newline. `notes`: what the reader of the case took where the text left it open.
//
// Weights have six decimals, so that prior_db plus the weights is total_db, and 10^(total_db / 10) is the ratio to "not
// in the catalogue". Probabilities have six significant digits and never reach 1. Invalid UTF-8 becomes U+FFFD.
std::string finding_json(const knowledge::Knowledge&, const evidence::Case&, const bench::Finding&,
                         const std::vector<std::string>& notes = {});

}  // namespace loomkey::report
