#pragma once

#include <string>
#include <vector>

#include "bench/trial.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

namespace loomkey::report {

// What a trial found: how often the verdict was right, after how many questions and how far from the bound, how well
// the stated confidence fits, what is confused with what, and what happens to parts that the catalogue does not hold.
Document trial_document(const knowledge::Knowledge&, const bench::TrialReport&);

// The same with every class, part, confusion and trait, for scripts: loomkey/trial/2. Same conventions as
// finding_json.h.
std::string trial_json(const knowledge::Knowledge&, const bench::TrialReport&);

// The verdict on the typical example of each part, for comparing catalogues: loomkey/verdicts/1.
std::string verdicts_json(const knowledge::Knowledge&, const std::vector<bench::Outcome>&);

}  // namespace loomkey::report
