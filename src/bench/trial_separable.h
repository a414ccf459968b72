#pragma once

#include <vector>

#include "inference/model.h"

namespace loomkey::bench {

// How well looks alone tell one part from the parts that need other advice.
struct LooksApart {
  int part = -1;
  int nearest = -1;     // the part of another class that is hardest to tell from it; -1 without one
  double decibans = 0;  // expected weight of evidence against that one
};

// For every part the expected decibans of all readings by eye, ruler and magnet together, against the part of another
// advice class that they reject least, known before any trial: those of TraitDivergence, added up over the traits.
std::vector<LooksApart> looks_apart(const inference::Model&);

}  // namespace loomkey::bench
