#pragma once

#include "bench/finding.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

namespace loomkey::report {

// The sum behind the answer: every line in decibans for the leader and the next candidate, from prior to total, the
// misfits that were outweighed, and the readings that said nothing.
void add_reasons(Document&, const knowledge::Knowledge&, const evidence::Case&, const bench::Finding&);

}  // namespace loomkey::report
