#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "inference/assess.h"
#include "oracle/random_knowledge.h"

// The question engine let loose on data that it was not made for.
namespace loomkey::outside {

// A catalogue of choice traits: one row of states a part, -1 where nothing is recorded.
struct Table {
  std::vector<int> state_counts;       // per trait
  std::vector<std::vector<int>> rows;  // [part][trait]
  std::vector<int> advice_class;       // per part
  int class_count = 0;
};

// Every part claims exactly its states. Equal prior, price and effort for all.
std::shared_ptr<const knowledge::Knowledge> knowledge_of(const Table&);

// Lapse, residual, uniform share and chance of an absent part all zero: answers are facts.
inference::Settings certainty();

// What an observer answers about a trait: a state, or nothing for "cannot tell".
using Observer = std::function<std::optional<int>(int trait)>;

struct Ending {
  int questions = 0;
  int leading_class = -1;
  double confidence = 0.0;
};

struct Rules {
  double enough = 0.95;      // stop when a class has reached this
  double least_gain = 0.02;  // or no question promises so many bits
  int most_questions = 200;
  oracle::Dice* random_order = nullptr;  // ask any question that is left, instead of the best
};

Ending interview(const inference::Model&, const Observer&, const Rules&);

// The same by the whole assessment: questions as the program would put them, until it has nothing left to ask.
struct Verdict {
  inference::Status status = inference::Status::open;
  int advice_class = -1;
  int questions = 0;
};
Verdict identify(const inference::Model&, const Observer&, int most_questions);

// Chances of an answer that is wrong for sure, of a lapse (any state at random, the right one among them: the mistake
// that the engine reckons with), and of "cannot tell".
struct Noise {
  double wrong = 0.0;
  double lapse = 0.0;
  double unknown = 0.0;
};

// Answers by a row of states; what is not recorded in it cannot be told.
Observer observer_of(const Table&, std::vector<int> truth, Noise, oracle::Dice&);

}  // namespace loomkey::outside
