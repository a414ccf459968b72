#pragma once

#include <string>
#include <vector>

#include "bench/trial_chance.h"
#include "inference/model.h"

namespace loomkey::bench {

// Where the wrong answers of a trial come from.
enum class WrongAnswers {
  any,        // every other answer alike
  plausible,  // what the trait shows on the other parts (the common background)
};

// The rule of a right answer: the same state, special answer or set; a number within a tenth.
bool same_answer(const evidence::Value& answer, const evidence::Value& truth);

// Three digits are as many as a ruler or a cheap meter gives.
double as_written(double value);

// Draws what a trait is and what an observer makes of it, by the same claims and observer models that the engine
// weighs with. Constant once made; threads share it.
class TraitSampler {
 public:
  explicit TraitSampler(const inference::Model&);

  // A true value by a claim; without a claim, by the background: as some other part claims it, or anything.
  [[nodiscard]] evidence::Value truth(int trait, const knowledge::Claim*, Chance&) const;

  // What is reported of a true value: confusions of states, error of measurement, items gone, added or misread.
  // `lead_ohms`: what the meter leads add to low resistances.
  [[nodiscard]] evidence::Value seen(int trait, const evidence::Value& truth, double lead_ohms, Chance&) const;

  // An answer that is not same_answer().
  [[nodiscard]] evidence::Value wrong(int trait, const evidence::Value& truth, WrongAnswers, Chance&) const;

 private:
  [[nodiscard]] evidence::Value anything(int trait, Chance&) const;
  [[nodiscard]] evidence::Value claimed(int trait, const knowledge::Claim&, Chance&) const;
  [[nodiscard]] evidence::Value seen_number(const knowledge::Trait&, const evidence::Value&, double lead_ohms,
                                            Chance&) const;
  [[nodiscard]] evidence::Value seen_set(int trait, const evidence::Value&, Chance&) const;
  [[nodiscard]] const std::string& stray(int trait, Chance&) const;

  struct Items {
    std::vector<std::string> known;    // every item that may be claimed or reported
    std::vector<double> stray_weight;  // how likely an item nobody claimed is this one
  };

  const inference::Model* model_;
  std::vector<Items> items_;  // per trait; empty but for sets
};

}  // namespace loomkey::bench
