#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "inference/likelihood.h"
#include "inference/settings.h"
#include "knowledge/knowledge.h"

namespace loomkey::inference {

// One (part, condition) pair. Parts that share an advice record share a class.
struct Hypothesis {
  int part = -1;
  int condition = -1;
  int advice_class = -1;
  double prior = 0.0;  // before any context; with "not in the catalogue" they sum to one
};

// P(answer | profile) of the answers a question distinguishes.
struct AnswerRows {
  std::vector<std::vector<double>> row;  // [profile][answer]
  std::vector<double> background;        // [answer]
};

// What the engine needs to know of one trait, made once from the catalogue.
//
// Hypotheses that claim the same thing share a profile. `code` names each hypothesis' profile, or -1 if it states
// nothing: then it is the background.
struct TraitModel {
  std::vector<const knowledge::Claim*> profiles;
  std::vector<double> weight;  // prior mass behind each profile, among those that state the trait; sums to one
  std::vector<int> code;       // per hypothesis
  ItemModel items;             // sets only
  std::vector<std::vector<std::vector<int>>> sets;  // [profile][alternative]: indices into `items`

  // Answers that a question on this trait distinguishes. A number is cut into bins of equal background mass, with the
  // special answers behind them; sets have none here, their answers depend on the belief.
  std::vector<double> bin_edges;  // number: bins + 1 edges
  std::vector<int> specials;      // number: special answers behind the bins
  AnswerRows answers;
};

// Chances of one set, as it was seen, under every alternative of every claim of its trait.
struct SetChances {
  SeenSet seen;
  std::vector<std::vector<double>> under;  // [profile][alternative]
};

// The catalogue as the engine sees it: dense indices, profiles and the common background. Constant and shared.
class Model {
 public:
  explicit Model(std::shared_ptr<const knowledge::Knowledge>, const Settings& = {});

  [[nodiscard]] const knowledge::Knowledge& knowledge() const { return *knowledge_; }
  [[nodiscard]] std::shared_ptr<const knowledge::Knowledge> shared_knowledge() const { return knowledge_; }
  [[nodiscard]] const Settings& settings() const { return settings_; }
  [[nodiscard]] const std::vector<Hypothesis>& hypotheses() const { return hypotheses_; }
  [[nodiscard]] int class_count() const { return class_count_; }
  [[nodiscard]] const TraitModel& trait(int index) const { return traits_[static_cast<std::size_t>(index)]; }
  [[nodiscard]] int trait_count() const { return static_cast<int>(traits_.size()); }
  [[nodiscard]] double prior_absent() const { return settings_.prior_absent; }

  // Normalises raw chances of answers, and mixes a sure observer's lapse and each claim's residual into them.
  void finish(const std::vector<const knowledge::Claim*>& profiles, AnswerRows&) const;

  // Share of the background of a trait that is uniform: 1 if nothing claims it, and little where silence is a claim (a
  // feature that most parts lack: otherwise every "no" would speak for the catalogue, and an absent part would drown in
  // them).
  [[nodiscard]] double uniform_share(int trait) const { return uniform_share(trait, this->trait(trait)); }

  // Share of the residual that a profile leaves to the background.
  [[nodiscard]] double residual(const knowledge::Claim&) const;

  // Chance of a value under the common background b_t: the prior-weighted marginal of all claims, a share of it uniform
  // over true states, both seen through the observer model.
  [[nodiscard]] double background(int trait, const evidence::Value&, double lead_ohms) const;

  // The same few sets are asked about again and again, so what was computed is kept. Safe between threads.
  [[nodiscard]] std::shared_ptr<const SetChances> set_chances(int trait, const evidence::Value&) const;

  // Price of acting on one class's advice if another class (or, with -1, an unknown part) is true.
  [[nodiscard]] double price(int given_class, int true_class) const;

  // Cost of one reading, without fetching its tool.
  [[nodiscard]] double effort(int trait) const;

 private:
  [[nodiscard]] double uniform_share(int trait, const TraitModel&) const;
  void add_hypotheses();
  void add_trait(int trait);
  void add_choice_answers(int trait, TraitModel&) const;
  void add_number_answers(int trait, TraitModel&) const;
  void add_items(TraitModel&, knowledge::SetItems) const;

  std::shared_ptr<const knowledge::Knowledge> knowledge_;
  Settings settings_;
  std::vector<Hypothesis> hypotheses_;
  std::vector<TraitModel> traits_;
  int class_count_ = 0;
  struct SetMemo;
  std::shared_ptr<SetMemo> set_memo_;
};

// Chances of one value under every claim of its trait, without lapse and residual. Prepared once, asked often. A set
// that stands on an added label (Value::added) is the background as often as a reader who only thinks so is wrong
// (lapse_think_so), on top of that reader's own lapse.
class ValueChance {
 public:
  ValueChance(const Model&, int trait, const evidence::Value&, double lead_ohms);

  [[nodiscard]] double under(std::size_t profile) const;
  [[nodiscard]] double uniform() const;
  [[nodiscard]] double background() const;
  [[nodiscard]] double under(std::size_t profile, std::size_t alternative) const;
  [[nodiscard]] double given(const std::vector<std::string>& items) const;

 private:
  [[nodiscard]] double as_marked(double chance) const;
  [[nodiscard]] double raw_under(std::size_t profile) const;
  [[nodiscard]] double raw_uniform() const;

  const Model& model_;
  int trait_index_;
  const knowledge::Trait& trait_;
  const TraitModel& trait_model_;
  evidence::Value value_;
  double lead_ohms_;
  std::shared_ptr<const SetChances> set_;  // sets only
  double background_ = 0.0;                // of an added label
};

}  // namespace loomkey::inference
