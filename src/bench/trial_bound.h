#pragma once

#include <vector>

#include "bench/trial_observer.h"
#include "inference/model.h"

namespace loomkey::bench {

// The fewest questions that any way of asking could need on average, for judging the real number.
//
//   questions = (H - R) / C
//
// H  entropy of the prior over advice classes and "not in the catalogue", in bits
// R  the most uncertainty that may be left when one class has reached the threshold T (Settings::class_threshold) of
//    K classes: h(T) + (1 - T) log2(K - 1), h the binary entropy (Fano's inequality)
// C  capacity of the best single trait the observer can read: the most bits one answer can carry, over every possible
//    belief, through the observer model and this observer's mistakes, times the chance of an answer at all
//
// No real conversation reaches it: a trait can be asked only once, the belief is never the one that suits the best
// trait, and the checks against "not in the catalogue" come on top.
struct QuestionBound {
  double entropy = 0.0;
  double residue = 0.0;
  double capacity = 0.0;
  int trait = -1;  // the best one
  double questions = 0.0;
};

QuestionBound question_bound(const inference::Model&, const ObserverType&);

// Capacity in bits of a channel whose rows are the chances of its outputs, each summing to one. Blahut-Arimoto
// iteration; the upper limit of its bracket is returned, at most 0.001 bit above the capacity.
double channel_capacity(const std::vector<std::vector<double>>& rows);

}  // namespace loomkey::bench
