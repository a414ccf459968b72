#pragma once

#include <string>
#include <vector>

#include "inference/belief.h"
#include "inference/model.h"

namespace loomkey::inference {

// One answer a question distinguishes, and how likely it is under the belief.
struct Answer {
  evidence::Value value;  // a state, a bin of numbers, a special answer or a set; `not_looked` stands for "another set"
  double chance = 0.0;
};

// A reading that may be taken next, and what it promises.
struct Question {
  enum class Purpose {
    separate,  // tells advice classes apart
    check,     // tells the leader from "not in the catalogue"
  };

  int trait = -1;
  Purpose purpose = Purpose::separate;
  double gain = 0.0;   // expected bits about the advice class (or, for a check, leader against absent at even odds)
  double score = 0.0;  // gain x price x chance of an answer / effort
  std::vector<Answer> answers;
};

// Traits that can be asked now: not yet read (nor called "cannot tell"), tool at hand or to be fetched, no running
// engine while the earth is unsettled, letters read where the question names them.
std::vector<int> askable(const Model&, const evidence::Case&);

// All askable questions that separate advice classes, best first; ties go to the earlier trait.
// Gain: G = H(E m) - sum_c P(c) H(E m_c / P(c)), c over advice classes and "not in the catalogue".
// Pairs of classes count by the price of confusing them; a group that has readings already is judged by its own
// predictive and tempered by its overlap.
std::vector<Question> separating_questions(const Model&, const evidence::Case&, const Belief&);

// Questions that separate one class from "not in the catalogue", best first.
std::vector<Question> checking_questions(const Model&, const evidence::Case&, const Belief&, int advice_class);

// Bits by which a trait separates a class from an absent part at even odds (Jensen-Shannon divergence).
double check_gain(const Model&, const Belief&, int trait, int advice_class);

// Bits by which a trait separates two parts (their conditions weighed by belief, or by prior where belief has none) at
// even odds.
double pair_gain(const Model&, const Belief&, int trait, int part_a, int part_b);

}  // namespace loomkey::inference
