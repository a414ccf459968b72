#pragma once

#include <vector>

#include "inference/model.h"
#include "inference/weigh.h"

namespace loomkey::inference {

// Probabilities over all (part, condition) pairs and "not in the catalogue". An absent part is rarely unlike everything
// else: with the chance Settings::relative_share it is a relative of a listed one, any of them by their priors, that
// differs from it in each trait with the chance Settings::relative_change. Always recomputed from the whole set of
// weights in fixed order, in double, so order never matters and taking a reading back is exact.
struct Belief {
  std::vector<double> hypothesis;  // per hypothesis
  double absent = 0.0;             // "not in the catalogue": unlike anything listed, or a relative of something
  double absent_db = 0.0;          // what all readings say for it; 0 if every absent part were unlike anything listed
  std::vector<double> relative;    // of `absent`, the relatives of each hypothesis
  std::vector<double> by_class;    // per advice record
  std::vector<double> by_part;     // per part

  [[nodiscard]] int leading_class() const;  // -1 when "not in the catalogue" leads; ties go to the smaller index
  [[nodiscard]] int leading_part() const;   // within all parts; -1 for an empty catalogue
};

// Prior times 10^(sum of weights / 10), normalised.
Belief believe(const Model&, const std::vector<WeightLine>&);

// Entropy of the belief over advice classes, "not in the catalogue" being one, in bits.
double class_entropy(const Belief&);

// Sum over all other classes (and an absent part) of their probability times the price of acting on `given_class`.
double expected_loss(const Model&, const Belief&, int given_class);

}  // namespace loomkey::inference
