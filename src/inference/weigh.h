#pragma once

#include <string>
#include <vector>

#include "evidence/reading.h"
#include "inference/model.h"

namespace loomkey::inference {

// One line of a verdict's sum: some readings that are weighed together, and what they do to every hypothesis, in
// decibans against the common background (so a part unlike anything listed stands at exactly 0).
struct WeightLine {
  enum class Kind { context, guessed_name, readings };

  Kind kind = Kind::readings;
  std::vector<int> readings;     // indices into Case::readings
  std::vector<int> groups;       // groups (indices into Knowledge::groups) weighed here; empty for a lone trait
  std::vector<double> weight;    // decibans, per hypothesis
  std::vector<double> relative;  // the same for an unlisted relative of each
};

// Weighs a case. Lines come in a fixed order (context, guessed name, then by trait), whatever the order of readings.
//
// A lone reading: w = 10 log10( P(o | h) / b(o) ), P(o | h) = (1 - e) sum_s P(o | s) P(s | h) + e b(o).
// A group: 10 log10( (1 - g) exp(a sum ln r_k) + g ), with r_k the single ratios, g the chance that somebody changed
// the whole group, and a = (1 + (n - 1)(1 - overlap)) / n for n readings, so that repeated evidence counts once. Low
// resistances share one unknown lead offset: the groups that hold them are weighed together, as a mixture over it.
// An unlisted relative of h differs in each trait with the chance c (Settings::relative_change) and then shows the
// background: r_k becomes (1 - c) r_k + c. Context and a guessed name say nothing about it.
std::vector<WeightLine> weigh(const Model&, const evidence::Case&);

// The lines without one informing reading; only those of the line that held it are made again (their `readings` are
// left empty).
std::vector<WeightLine> weigh_without(const Model&, const evidence::Case&, const std::vector<WeightLine>&, int reading);

// Chance of a plain mistake for a certainty.
double lapse(const Settings&, evidence::Certainty);

// The ratio P(o | profile) / b(o) of all readings of one trait, per profile of the trait. Several observers of one
// trait share its true state.
std::vector<double> trait_ratios(const Model&, const std::vector<const evidence::Reading*>&, double lead_ohms);
std::vector<double> trait_ratios(const Model&, const std::vector<const evidence::Reading*>&, double lead_ohms,
                                 double& background);

// Decibans of bike context for one hypothesis, clamped to half the limit either way. Judgement, from memory.
double context_weight(const Model&, const evidence::Bike&, const Hypothesis&);

// Decibans of a guessed name for one part, at most Settings::guess_limit_db, never below 0.
double guess_weight(const Model&, const std::string& guessed_name, int part);

// Per hypothesis, the chance that the group was changed, given the readings of that group so far; 0 for a group without
// readings. Used to judge the next question inside the group.
std::vector<double> switched_chance(const Model&, const evidence::Case&, int group);

}  // namespace loomkey::inference
