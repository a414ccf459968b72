#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "inference/belief.h"
#include "inference/question.h"
#include "inference/weigh.h"

namespace loomkey::inference {

// How far a case has got.
enum class Status {
  open,              // more readings are worth their effort
  likely,            // one advice class is safe, but an absent part is not yet ruled out: checks are left
  settled,           // one advice class is safe and checked
  cannot_tell,       // nothing left that is worth its effort, and no class is safe
  contradicted,      // one reading cannot stand with the others
  not_in_catalogue,  // no part of the catalogue fits
};

// One check that best separates the first two candidates: a trait, or -1 when nothing in the catalogue separates them.
struct DecidingCheck {
  int part_a = -1;
  int part_b = -1;
  int trait = -1;
  double bits = 0.0;
};

// Everything the engine has to say of a case. A pure function of model and case.
struct Assessment {
  Status status = Status::open;
  std::vector<WeightLine> lines;
  Belief belief;
  int advice_class = -1;  // the leading class; -1 if "not in the catalogue" leads
  double loss = 1.0;      // expected price of acting on its advice
  int checks_left = 0;
  std::optional<int> contradicting;  // index into Case::readings
  std::optional<int> contradicted_class;
  std::vector<Question> questions;  // worth asking, best first
};

// Weighs a case, and says whether it is settled and what to ask next.
//
// Settled: the class reaches its threshold and the expected loss is under its limit. Then readings beyond those that
// already decide it count as checks against an absent part; while fewer than `checks_wanted` of them have been made and
// a useful one is left, the status is `likely`.
// Contradicted: not settled, but without one single reading a class would be safe, and that reading alone holds its
// odds down by at least `contradiction_db`.
Assessment assess(const Model&, const evidence::Case&);

// The check that parts the leader from the likeliest part that needs other advice; of checks that separate them about
// as well as the best, the one with the least effort.
std::optional<DecidingCheck> deciding_check(const Model&, const evidence::Case&, const Belief&);

}  // namespace loomkey::inference
