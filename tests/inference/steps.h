#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "evidence/reading.h"
#include "inference/model.h"
#include "oracle/oracle.h"

// Sequences of what a person does at the bench, on the catalogue of oracle::replay_catalogue(). A property test makes
// them at random, and a kept one (tests/replays/*.txt) is run again for ever.
namespace loomkey::replay {

// One line of a replay file:
//   read TRAIT VALUE [think-so|guess] [by OBSERVER]     takes a reading, or changes the one this observer gave before
//   forget TRAIT                                        takes back every reading of the trait
// VALUE is a state, "LOW HIGH", ol, zero, jumps, na, "only ITEM...", "includes ITEM...", cannot-tell or not-looked.
struct Step {
  enum class Kind { read, forget };

  Kind kind = Kind::read;
  evidence::Reading reading;  // of a forgotten trait, only its index counts
};

std::string text_of(const knowledge::Knowledge&, const Step&);
void showValue(const Step&, std::ostream&);  // rapidcheck prints a counterexample with this, ready for a replay file

// Steps of a replay file; lines that start with '#' and empty ones are left out. A line that cannot be read throws
// std::runtime_error naming it.
std::vector<Step> parse(const knowledge::Knowledge&, const std::string& text);

void apply(const Step&, evidence::Case&);

// The promises of the engine that hold for every case. Empty, or what is broken.
std::string broken_promise(const inference::Model&, const oracle::Oracle&, const evidence::Case&);

// Runs the steps, judging the case after each one.
std::string broken_promise(const inference::Model&, const oracle::Oracle&, const std::vector<Step>&);

}  // namespace loomkey::replay
