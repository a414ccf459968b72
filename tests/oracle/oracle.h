#pragma once

#include <map>
#include <vector>

#include "evidence/reading.h"
#include "inference/settings.h"
#include "knowledge/knowledge.h"
#include "oracle/observer.h"

// The judge of the engine: the same definitions, written straight down from the formulas. Every hypothesis is worked
// out on its own, every sum is spelt out, nothing is shared, sorted or remembered. It is slow and must stay so simple
// that a reader can check it against the design by eye. It uses no code of src/inference except the table of settings.
namespace loomkey::oracle {

// One (part, condition).
struct Pair {
  int part = -1;
  int condition = -1;
};

struct Belief {
  std::vector<double> pair;      // per Pair, in the order of Oracle::pairs
  double absent = 0.0;           // "not in the catalogue"
  std::vector<double> relative;  // of it, the relatives of every pair
  std::vector<double> by_class;  // per advice record
};

class Oracle {
 public:
  Oracle(const knowledge::Knowledge&, const inference::Settings&);

  // All (part, condition) pairs, by part, then condition.
  [[nodiscard]] const std::vector<Pair>& pairs() const { return pairs_; }
  [[nodiscard]] double prior(const Pair&) const;

  // P(value | claim): observer model only, no lapse, no residual.
  [[nodiscard]] double chance(int trait, const knowledge::Claim&, const evidence::Value&, double lead_ohms) const;

  // P(value) of the uniform part of the background.
  [[nodiscard]] double uniform_chance(int trait, const evidence::Value&, double lead_ohms) const;

  // b_t(value) = (1 - u) * prior-weighted marginal of the claims + u * uniform.
  [[nodiscard]] double uniform_share(int trait) const;
  [[nodiscard]] double background(int trait, const evidence::Value&, double lead_ohms) const;

  // Decibans of all readings of the case (not of context and guessed name) for every pair.
  // With `changed`, of its unlisted relatives, which differ in each trait with that chance.
  [[nodiscard]] std::vector<double> weights(const evidence::Case&, double changed = 0.0) const;

  // Prior times likelihood ratio, normalised.
  [[nodiscard]] Belief belief(const evidence::Case&) const;

  // P(answer | pair) of a question, for a sure observer, one row a pair and, last, one of the background. `answers` are
  // those that the question distinguishes; for a set the last one stands for "another set".
  [[nodiscard]] std::vector<std::vector<double>> answer_rows(int trait,
                                                             const std::vector<evidence::Value>& answers) const;

  // Entropy over advice classes and "not in the catalogue", in bits.
  [[nodiscard]] double class_entropy(const Belief&) const;

  // H(before) - sum_a P(a) H(after a), each belief after an answer worked out by Bayes' rule.
  [[nodiscard]] double expected_gain(const evidence::Case&, const Belief&, int trait,
                                     const std::vector<evidence::Value>& answers) const;

  // Mean price of the pairs of classes that a question separates; a pair counts by its probability and by the bits the
  // question brings about it.
  [[nodiscard]] double price_factor(const evidence::Case&, const Belief&, int trait,
                                    const std::vector<evidence::Value>& answers) const;

  // Bits about "this class or an absent part" at even odds.
  [[nodiscard]] double check_gain(const Belief&, int trait, int advice_class,
                                  const std::vector<evidence::Value>& answers) const;

  [[nodiscard]] double price(int given_class, int true_class) const;
  [[nodiscard]] double expected_loss(const Belief&, int given_class) const;

 private:
  using Readings = std::vector<const evidence::Reading*>;
  using ByTrait = std::map<int, Readings>;

  // What the readings of one group (or of one trait outside all groups) say.
  struct Weighed {
    std::vector<double> ratio;  // P(o | pair) / b(o), per pair
    double background = 1.0;    // b(o)
  };

  [[nodiscard]] int class_of(const Pair& pair) const;
  [[nodiscard]] double lapse(evidence::Certainty) const;
  [[nodiscard]] double residual(const knowledge::Claim&) const;
  [[nodiscard]] Items items_of(int trait) const;
  [[nodiscard]] double shared_truth(int trait, const knowledge::Claim*, const Readings&, double lead_ohms) const;
  [[nodiscard]] double unclaimed_sets(int trait, const Readings&) const;
  [[nodiscard]] std::vector<ByTrait> bundles_of(const evidence::Case&) const;
  [[nodiscard]] bool low_resistance(const ByTrait&) const;
  [[nodiscard]] Weighed weigh_bundle(const ByTrait&, double lead_ohms, double changed) const;
  [[nodiscard]] std::vector<double> absent_row(const Belief&, const std::vector<std::vector<double>>& rows) const;
  [[nodiscard]] std::vector<double> changed_group(const evidence::Case&, int group) const;
  [[nodiscard]] std::vector<std::vector<double>> raw_rows(int trait, const std::vector<evidence::Value>& answers) const;
  [[nodiscard]] std::vector<std::vector<double>> predictive(const evidence::Case&, int trait,
                                                            const std::vector<evidence::Value>& answers) const;

  const knowledge::Knowledge& knowledge_;
  const inference::Settings& settings_;
  std::vector<Pair> pairs_;
  std::vector<Items> items_;  // per trait
};

}  // namespace loomkey::oracle
