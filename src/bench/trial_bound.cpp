#include "bench/trial_bound.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "inference/belief.h"

namespace loomkey::bench {

using inference::Model;
using inference::TraitModel;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr double close_enough_bits = 1e-3;
constexpr int most_rounds = 5000;
constexpr int fine_bins = 48;

using Rows = std::vector<std::vector<double>>;

// Bits by which one row differs from the mean output.
double divergence_bits(const std::vector<double>& row, const std::vector<double>& output) {
  double bits = 0.0;
  for (std::size_t o = 0; o < row.size(); ++o) {
    if (row[o] > 0.0) bits += row[o] * std::log2(row[o] / output[o]);
  }
  return bits;
}

// A number is cut much finer than the engine's questions cut it, and taken without error of measurement: both can only
// make the capacity larger and the bound lower.
Rows number_rows(const Model& model, const Trait& trait, const TraitModel& trait_model) {
  Rows rows;
  const double from = trait.log_scale ? std::log(trait.low) : trait.low;
  const double to = trait.log_scale ? std::log(trait.high) : trait.high;
  const auto edge = [&](int i) {
    if (i == 0) return trait.log_scale ? 0.0 : trait.low - 10.0 * (trait.high - trait.low);
    if (i == fine_bins) return 10.0 * trait.high;
    const double at = from + (to - from) * i / fine_bins;
    return trait.log_scale ? std::exp(at) : at;
  };
  for (const knowledge::Claim* claim : trait_model.profiles) {
    std::vector<double> row;
    for (int i = 0; i < fine_bins; ++i) {
      row.push_back(inference::number_chance(trait, *claim, model.settings(), edge(i), edge(i + 1)));
    }
    for (const int special : trait_model.specials) {
      row.push_back(
          inference::special_chance(trait, *claim, model.settings(), static_cast<knowledge::Special>(special)));
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

Rows choice_rows(const Trait& trait, const TraitModel& trait_model) {
  Rows rows;
  for (const knowledge::Claim* claim : trait_model.profiles) {
    std::vector<double> row(trait.states.size(), 0.0);
    for (std::size_t s = 0; s < trait.states.size(); ++s) {
      for (std::size_t o = 0; o < row.size(); ++o) row[o] += claim->states[s] * trait.seen[s][o];
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

// Every set that somebody claims is an answer; all others are one more.
Rows set_rows(const Model& model, int index, const TraitModel& trait_model) {
  std::set<std::vector<std::string>> claimed;
  for (const knowledge::Claim* claim : trait_model.profiles) {
    for (const auto& alternative : claim->sets) claimed.insert(alternative.items);
  }
  Rows rows(trait_model.profiles.size());
  std::vector<double> rest(rows.size(), 1.0);
  for (const auto& items : claimed) {
    evidence::Value value;
    value.kind = evidence::Value::Kind::set;
    value.items = items;
    const inference::ValueChance chances(model, index, value, 0.0);
    for (std::size_t k = 0; k < rows.size(); ++k) rest[k] -= rows[k].emplace_back(chances.under(k));
  }
  for (std::size_t k = 0; k < rows.size(); ++k) rows[k].push_back(std::max(rest[k], 0.0));
  return rows;
}

Rows rows_of(const Model& model, int index) {
  const Trait& trait = model.knowledge().traits[static_cast<std::size_t>(index)];
  const TraitModel& trait_model = model.trait(index);
  if (trait.kind == TraitKind::number) return number_rows(model, trait, trait_model);
  if (trait.kind == TraitKind::set) return set_rows(model, index, trait_model);
  return choice_rows(trait, trait_model);
}

// A wrong answer is any but the one that would have been given.
void add_mistakes(Rows& rows, double wrong) {
  for (auto& row : rows) {
    double sum = 0.0;
    for (const double chance : row) sum += chance;
    if (sum <= 0.0 || row.size() < 2) continue;
    const double others = static_cast<double>(row.size() - 1);
    for (double& chance : row) chance = (1.0 - wrong) * chance / sum + wrong * (1.0 - chance / sum) / others;
  }
}

bool readable(const Model& model, const ObserverType& type, int index) {
  const Trait& trait = model.knowledge().traits[static_cast<std::size_t>(index)];
  if (trait.runs) return false;  // nobody has settled the earth in a trial
  return type.meter || trait.layer == knowledge::Layer::look;
}

}  // namespace

double channel_capacity(const Rows& rows) {
  if (rows.empty()) return 0.0;
  const std::size_t outputs = rows.front().size();
  std::vector<double> weight(rows.size(), 1.0 / static_cast<double>(rows.size()));
  std::vector<double> bits(rows.size());
  double upper = 0.0;
  for (int round = 0; round < most_rounds; ++round) {
    std::vector<double> output(outputs, 0.0);
    for (std::size_t k = 0; k < rows.size(); ++k) {
      for (std::size_t o = 0; o < outputs; ++o) output[o] += weight[k] * rows[k][o];
    }
    double total = 0.0;
    upper = 0.0;
    for (std::size_t k = 0; k < rows.size(); ++k) {
      bits[k] = divergence_bits(rows[k], output);
      upper = std::max(upper, bits[k]);
      total += weight[k] * std::exp2(bits[k]);
    }
    if (upper - std::log2(total) < close_enough_bits) break;
    for (std::size_t k = 0; k < rows.size(); ++k) weight[k] *= std::exp2(bits[k]) / total;
  }
  return upper;
}

QuestionBound question_bound(const Model& model, const ObserverType& type) {
  QuestionBound bound;
  const inference::Belief prior = inference::believe(model, {});
  bound.entropy = inference::class_entropy(prior);
  double classes = prior.absent > 0.0 ? 1.0 : 0.0;
  for (const double chance : prior.by_class) classes += chance > 0.0 ? 1.0 : 0.0;
  const double reached = model.settings().class_threshold;
  const double left = 1.0 - reached;
  if (classes > 1.0 && left > 0.0 && reached > 0.0) {
    bound.residue = -reached * std::log2(reached) - left * std::log2(left) + left * std::log2(classes - 1.0);
  }
  for (int t = 0; t < model.trait_count(); ++t) {
    if (!readable(model, type, t)) continue;
    Rows rows = rows_of(model, t);
    if (rows.empty()) continue;
    // A trait can carry no more than its answers or its profiles allow.
    const double answered = 1.0 - type.cannot_tell;
    if (answered * std::log2(static_cast<double>(std::min(rows.size(), rows.front().size()))) <= bound.capacity)
      continue;
    add_mistakes(rows, type.wrong);
    const double capacity = answered * channel_capacity(rows);
    if (capacity > bound.capacity) {
      bound.capacity = capacity;
      bound.trait = t;
    }
  }
  if (bound.capacity > 0.0) bound.questions = std::max(bound.entropy - bound.residue, 0.0) / bound.capacity;
  return bound;
}

}  // namespace loomkey::bench
