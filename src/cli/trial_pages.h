#pragma once

#include <string>

#include "bench/trial.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

namespace loomkey::cli {

// What a trial found: how often the verdict was right, after how many questions, how well the stated confidence fits,
// and what happens to parts that the catalogue does not hold.
report::Document trial_document(const knowledge::Knowledge&, const bench::TrialReport&);

// The same with every class, confusion and question, as JSON "loomkey/trial/1".
std::string trial_json(const knowledge::Knowledge&, const bench::TrialReport&);

}  // namespace loomkey::cli
