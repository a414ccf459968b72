#pragma once

#include <functional>
#include <vector>

#include "bench/trial_examiner.h"

namespace loomkey::bench {

// What a person reads who makes no mistake and holds the most typical example of a part in good order: the likeliest
// state or set, the middle of the likeliest range (geometric on a logarithmic scale), or the special answer if that is
// likelier; the first one of equals. "Cannot tell" where the part states nothing.
evidence::Reading typical_answer(const knowledge::Knowledge&, int part, int trait);

struct VerdictOptions {
  int most_questions = 40;
  unsigned threads = 2;
  std::function<void(int done, int total)> progress = {};  // called now and then, from any one thread at a time
};

// The verdict on every part of the catalogue, asked as the engine would ask such a person, with all tools at hand.
// There is no chance in it: only a change of the catalogue or of the engine moves a verdict.
std::vector<Outcome> typical_verdicts(const inference::Model&, const VerdictOptions& = {});

}  // namespace loomkey::bench
