#pragma once

#include <vector>

#include "inference/model.h"

namespace loomkey::bench {

// One trait on which the compared parts differ: how far a single answer is expected to part them.
struct Separation {
  int trait = -1;
  double bits = 0.0;      // mean Jensen-Shannon divergence over the pairs, at even odds
  double decibans = 0.0;  // expected weight of evidence of the right one against the wrong one, mean over the pairs
};

// Traits that separate two or three parts, the best for its effort first; traits below 0.01 bit are left out.
std::vector<Separation> compare(const inference::Model&, const std::vector<int>& parts);

}  // namespace loomkey::bench
