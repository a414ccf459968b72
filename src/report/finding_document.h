#pragma once

#include "bench/finding.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

namespace loomkey::report {

// The verdict page: the answer and how sure, what it means, cautions, candidates; for a part with at least half of the
// belief what it is, its condition, checks, look-alikes and substitutes; the sum of reasons, what would change it, the
// next questions, and the basis. While the case is open, candidates, questions and reasons come first. Connecting steps
// are shown only for a settled or likely part on a measured earth.
Document finding_document(const knowledge::Knowledge&, const evidence::Case&, const bench::Finding&);

// The short answer to "what do you think so far": candidates, and the check that would decide between the first two.
Document candidates_document(const knowledge::Knowledge&, const evidence::Case&, const bench::Finding&);

// One part's column of weights beside the leader's and against "not in the catalogue", to be added up again by hand,
// and every condition of it. The finding must carry the part among its candidates (bench::Amount); if not, the page
// says so.
Document why_document(const knowledge::Knowledge&, const evidence::Case&, const bench::Finding&, int part);

}  // namespace loomkey::report
