#pragma once

#include <optional>
#include <string>
#include <vector>

#include "evidence/reading.h"
#include "inference/assess.h"
#include "inference/model.h"

// What comes out of one identification, as plain values: indices into Knowledge and Case, and numbers. Wording lives in
// `report`, terminals in `cli`.

namespace loomkey::bench {

// One (part, condition) pair of a candidate. `total_db` = `prior_db` + the sum of `line_db`, and
// P(pair) / P("not in the catalogue") = 10^((total_db - absent_db) / 10): so a verdict can be added up again by hand.
struct ConditionShare {
  int condition = -1;
  double probability = 0.0;
  double prior_db = 0.0;        // against the prior of "not in the catalogue"
  std::vector<double> line_db;  // per Finding::lines
  double total_db = 0.0;
};

struct Candidate {
  int part = -1;
  double probability = 0.0;
  std::vector<ConditionShare> conditions;  // likeliest first
};

// One line of the sum, as it weighs on the leading candidate and on the next one.
struct Reason {
  inference::WeightLine::Kind kind = inference::WeightLine::Kind::readings;
  std::vector<int> readings;   // indices into Case::readings
  double for_leader_db = 0.0;  // for the leader's likeliest condition
  double for_next_db = 0.0;    // for the next candidate's likeliest condition; 0 without one
};

// What a connecting step may be shown: only what the measured earth allows.
struct ShownSubstitute {
  int index = -1;       // into Advice::substitutes
  std::string connect;  // empty while the earth is not settled
};

struct Finding {
  inference::Status status = inference::Status::open;
  std::vector<Candidate> candidates;  // the few best, likeliest first
  double absent = 0.0;                // probability of "not in the catalogue"
  double absent_db = 0.0;             // what the readings say for it
  int part = -1;                      // the best part of the leading class; -1 if "not in the catalogue" leads
  int advice = -1;                    // its advice record
  double class_probability = 0.0;
  double loss = 0.0;  // expected price of acting on the advice, 0 to 1
  int checks_left = 0;
  std::vector<Reason> reasons;       // in the fixed order of the sum
  std::vector<int> misfits;          // readings that speak clearly against the leader, and were outweighed
  std::optional<int> contradicting;  // the reading that cannot stand with the others
  std::optional<int> without_it;     // the part that the others point to
  std::optional<inference::DecidingCheck> deciding;
  std::string deciding_tell;                   // authored wording of that check, if there is one
  std::vector<inference::Question> questions;  // next best first
  std::vector<int> cautions;                   // indices into Knowledge::cautions, most urgent first
  std::vector<ShownSubstitute> substitutes;
  bool earth_settled = false;
  bool earth_disagrees = false;  // found or as built differs from measured: somebody converted the bike, or erred
  bool label_disagrees = false;  // the part is labelled for the other earth than the one measured
};

// The largest number of candidates and questions a finding carries.
struct Amount {
  std::size_t candidates = 5;
  std::size_t questions = 3;
};

Finding identify(const inference::Model&, const evidence::Case&, const Amount& = {});

}  // namespace loomkey::bench
