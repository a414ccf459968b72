#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "bench/trial_bound.h"
#include "bench/trial_measures.h"
#include "bench/trial_separable.h"

// The trial of a catalogue: simulated people hold simulated parts, answer the program's questions, some of them
// wrongly, and the verdicts are counted. It measures catalogue and engine together, on the assumption that the
// catalogue is right about the parts; it says nothing about mistakes of the catalogue itself.

namespace loomkey::bench {

// People who say how sure they are, with 0, 10 and 20 % wrong answers; with 10 % and besides 20 % "cannot tell"; with
// 10 % and no meter; and people with 10 % wrong answers who call everything sure.
std::vector<ObserverType> standard_observers();

struct TrialOptions {
  std::uint64_t seed = 1;
  int cases = 300;  // conversations per observer type
  std::vector<ObserverType> observers = standard_observers();
  // Every observer, and every class taken out, is tried once with each of these; ObserverType::mistakes is not looked
  // at.
  std::vector<Mistakes> mistakes = {Mistakes::own, Mistakes::other};
  bool by_turns = false;   // every part equally often, instead of as often as brought in
  double apart_db = 20.0;  // looks can separate a part from this many decibans on
  int most_questions = 40;
  int absent_classes = 30;  // whole classes taken out, evenly spread; 0: none
  int absent_cases = 10;    // objects of each of them
  ObserverType absent_observer = {.wrong = 0.1, .doubts = true};
  unsigned threads = 2;
  std::function<void(int done, int total)> progress = {};  // called now and then, from any one thread at a time
};

// Some of the conversations of one observer type.
struct Share {
  Tally tally;
  Calibration calibration;
};

// What one observer type made of the catalogue.
struct ObserverReport {
  ObserverType type;
  Tally all;
  Tally separable;  // parts that looks can separate
  Share good;       // parts in good order
  Share faulty;
  Calibration calibration;
  QuestionBound bound;       // through the engine's observer models, whatever the mistakes: one yardstick for all
  double bound_ratio = 0.0;  // mean questions to the bound; 0 without a bound
  std::vector<ClassTally> classes;
  std::vector<Confusion> confusions;
  std::vector<AskedTrait> asked;
};

// Objects of a class that was taken out of the catalogue.
struct AbsentTally {
  int advice_class = -1;
  int objects = 0;
  int not_in_catalogue = 0;  // "not in the catalogue" leads at the end
  int declared = 0;          // settled on some other class, whatever the confidence
  int confident = 0;         // settled on some other class with more than `confident`
  int called_most = -1;      // the class it was most often declared to be; -1 if never
  double questions = 0.0;    // in all
};

// What one kind of mistakes came to.
struct MistakesReport {
  Mistakes mistakes = Mistakes::own;
  Calibration calibration;  // all observers together
  ObserverType absent_observer;
  AbsentTally absent;                       // all classes taken out, one at a time
  AbsentTally absent_separable;             // of these, the classes whose every part looks can separate from the rest
  std::vector<AbsentTally> absent_classes;  // most often called something else first
};

struct TrialReport {
  std::uint64_t seed = 0;
  int cases = 0;
  bool by_turns = false;
  double apart_db = 0.0;
  std::vector<LooksApart> apart;  // per part
  double separable_prior = 0.0;   // share of objects brought in that looks can separate
  std::vector<ObserverReport> observers;
  Calibration calibration;  // this and the next three: all observers together
  std::vector<ClassTally> classes;
  std::vector<Confusion> confusions;
  std::vector<AskedTrait> asked;
  std::vector<MistakesReport> by_mistakes;  // in the order of TrialOptions::mistakes

  [[nodiscard]] int separable_parts() const;
};

// The same options give the same report, whatever the number of threads.
TrialReport run_trial(const inference::Model&, const TrialOptions&);

// A catalogue without the parts of one advice class. Part indices change; advice, trait and family indices do not.
knowledge::Knowledge without_class(const knowledge::Knowledge&, int advice_class);

}  // namespace loomkey::bench
