#pragma once

#include <functional>
#include <vector>

#include "bench/trial_observer.h"
#include "inference/assess.h"

namespace loomkey::bench {

// How one conversation of a trial ended.
struct Outcome {
  TrialObject object;
  int true_class = -1;
  inference::Status status = inference::Status::open;  // open or likely: stopped by the limit of questions
  int called_class = -1;                               // the leading class; -1 when "not in the catalogue" leads
  int called_part = -1;                                // the likeliest part of that class; -1 likewise
  double confidence = 0.0;                             // probability of the leading class, or of "not in the catalogue"
  std::vector<int> asked;                              // traits, in order
  int checks = 0;                                      // of these, asked against "not in the catalogue"
  bool contradicted = false;                           // at some step one reading could not stand with the others

  // Settled: the program names the part and stops.
  [[nodiscard]] bool declared() const { return status == inference::Status::settled; }
  [[nodiscard]] bool right_class() const { return called_class >= 0 && called_class == true_class; }
  [[nodiscard]] bool right_part() const { return called_part >= 0 && called_part == object.part; }
};

// Asks the engine's best question until the case is settled, nothing is left worth asking, or `most_questions` were
// asked. A contradiction is only noted: simulated people do not think again, so the next question is asked.
Outcome examine(const inference::Model&, const Observer&, const ObserverType&, int most_questions);

// The same with anybody who answers: `answer` is asked once for each trait at most.
Outcome examine(const inference::Model&, TrialObject, const std::function<evidence::Reading(int trait)>& answer,
                bool has_meter, int most_questions);

}  // namespace loomkey::bench
