#pragma once

#include <vector>

#include "inference/model.h"

namespace loomkey::bench {

// How far one answer about one trait is expected to speak for a part against another, for all pairs at once. Parts that
// show the trait alike form one kind, and what holds for two kinds holds for all their parts.
//
// decibans(a, b) is the Kullback-Leibler divergence of a's answers from b's, 10 sum_o P(o|a) log10(P(o|a) / P(o|b)):
// conditions by their shares, lapse of a sure observer and residual included. Sets have too many answers to list; for a
// pair they are the sets that either of the two claims, and one more for all others.
class TraitDivergence {
 public:
  TraitDivergence(const inference::Model&, int trait);

  [[nodiscard]] int kind(int part) const { return kind_[static_cast<std::size_t>(part)]; }
  [[nodiscard]] double of_kinds(int a, int b) const {
    return decibans_[static_cast<std::size_t>(a) * kinds_ + static_cast<std::size_t>(b)];
  }
  [[nodiscard]] double decibans(int part_a, int part_b) const { return of_kinds(kind(part_a), kind(part_b)); }

 private:
  std::size_t kinds_ = 0;
  std::vector<int> kind_;         // per part
  std::vector<double> decibans_;  // [kind][kind]
};

}  // namespace loomkey::bench
