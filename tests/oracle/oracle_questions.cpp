#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "oracle/oracle.h"

// The judge's side of the questions: what each answer would do to the belief, worked out answer by answer.
namespace loomkey::oracle {

using evidence::Case;
using evidence::Value;
using knowledge::Claim;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

// No answer is impossible: a question must not promise certainty about an absent part.
constexpr double least_chance = 1e-9;

double entropy(const std::vector<double>& chances) {
  const double total = std::accumulate(chances.begin(), chances.end(), 0.0);
  double bits = 0.0;
  for (const double chance : chances) {
    if (chance > 0.0) bits -= chance / total * std::log2(chance / total);
  }
  return bits;
}

void normalise(std::vector<double>& row) {
  const double total = std::accumulate(row.begin(), row.end(), 0.0);
  for (double& value : row) value /= total;
}

// Bits about "a or b", at odds pa : pb, that an answer with these chances brings.
double bits_about_pair(double pa, const std::vector<double>& a, double pb, const std::vector<double>& b) {
  const double total = pa + pb;
  double after = 0.0;
  for (std::size_t o = 0; o < a.size(); ++o) {
    const double chance = (pa * a[o] + pb * b[o]) / total;
    if (chance > 0.0) after += chance * entropy({pa * a[o], pb * b[o]});
  }
  return entropy({pa, pb}) - after;
}

}  // namespace

// Chances of the answers under every pair's claim (empty without one) and, last, under the uniform part of the
// background.
std::vector<std::vector<double>> Oracle::raw_rows(int trait_index, const std::vector<Value>& answers) const {
  const Trait& trait = knowledge_.traits[static_cast<std::size_t>(trait_index)];
  constexpr double infinity = std::numeric_limits<double>::infinity();
  std::size_t last_bin = 0;
  for (std::size_t a = 0; a < answers.size(); ++a) {
    if (answers[a].kind == Value::Kind::interval) last_bin = a;
  }
  const auto row_of = [&](const Claim* claim) {
    std::vector<double> row;
    for (std::size_t a = 0; a < answers.size(); ++a) {
      const Value& answer = answers[a];
      if (answer.kind == Value::Kind::not_looked) {
        row.push_back(std::max(1.0 - std::accumulate(row.begin(), row.end(), 0.0), least_chance));
      } else if (answer.kind == Value::Kind::interval) {
        // The bins cut the value as it is shown; the outermost take all that lies beyond.
        const double low = a == 0 ? -infinity : answer.interval.low;
        const double high = a == last_bin ? infinity : answer.interval.high;
        row.push_back(claim != nullptr ? shown_number(trait, *claim, settings_, low, high)
                                       : uniform_number(trait, low, high));
      } else {
        row.push_back(claim != nullptr ? chance(trait_index, *claim, answer, 0.0)
                                       : uniform_chance(trait_index, answer, 0.0));
      }
    }
    return row;
  };
  std::vector<std::vector<double>> rows;
  for (const Pair& pair : pairs_) {
    const Claim* claim = knowledge_.claim(pair.part, pair.condition, trait_index);
    rows.push_back(claim != nullptr ? row_of(claim) : std::vector<double>{});
  }
  rows.push_back(row_of(nullptr));
  return rows;
}

std::vector<std::vector<double>> Oracle::answer_rows(int trait, const std::vector<Value>& answers) const {
  std::vector<std::vector<double>> rows = raw_rows(trait, answers);
  std::vector<double> background(answers.size(), 0.0);
  double stated = 0.0;
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    if (rows[i].empty()) continue;
    stated += prior(pairs_[i]);
    for (std::size_t a = 0; a < answers.size(); ++a) background[a] += prior(pairs_[i]) * rows[i][a];
  }
  const double u = stated == 0.0 ? 1.0 : uniform_share(trait);
  for (std::size_t a = 0; a < answers.size(); ++a) {
    background[a] = u * rows.back()[a] + (stated == 0.0 ? 0.0 : (1.0 - u) * background[a] / stated);
    background[a] = std::max(background[a], least_chance);
  }
  normalise(background);
  const double e = settings_.lapse_sure;
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    const Claim* claim = knowledge_.claim(pairs_[i].part, pairs_[i].condition, trait);
    if (claim == nullptr) {
      rows[i] = background;
      continue;
    }
    const double r = residual(*claim);
    normalise(rows[i]);
    for (std::size_t a = 0; a < answers.size(); ++a) {
      rows[i][a] = (1.0 - e) * ((1.0 - r) * rows[i][a] + r * background[a]) + e * background[a];
    }
  }
  rows.back() = background;
  return rows;
}

double Oracle::class_entropy(const Belief& belief) const {
  std::vector<double> chances = belief.by_class;
  chances.push_back(belief.absent);
  return entropy(chances);
}

// The same where the group of the trait may have been changed: then it shows the background.
std::vector<std::vector<double>> Oracle::predictive(const Case& the_case, int trait,
                                                    const std::vector<Value>& answers) const {
  std::vector<std::vector<double>> rows = answer_rows(trait, answers);
  const int group = knowledge_.traits[static_cast<std::size_t>(trait)].group;
  if (group < 0) return rows;
  const std::vector<double> changed = changed_group(the_case, group);
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    for (std::size_t a = 0; a < answers.size(); ++a) {
      rows[i][a] = (1.0 - changed[i]) * rows[i][a] + changed[i] * rows.back()[a];
    }
  }
  return rows;
}

// What an absent part answers: as the pair it resembles, or as the background where it differs or resembles none.
std::vector<double> Oracle::absent_row(const Belief& belief, const std::vector<std::vector<double>>& rows) const {
  if (belief.absent == 0.0) return rows.back();
  double other = belief.absent;
  for (const double chance : belief.relative) other -= chance * (1.0 - settings_.relative_change);
  std::vector<double> row(rows.back().size(), 0.0);
  for (std::size_t a = 0; a < row.size(); ++a) {
    double sum = other * rows.back()[a];
    for (std::size_t i = 0; i < pairs_.size(); ++i) {
      sum += belief.relative[i] * (1.0 - settings_.relative_change) * rows[i][a];
    }
    row[a] = sum / belief.absent;
  }
  return row;
}

double Oracle::expected_gain(const Case& the_case, const Belief& belief, int trait_index,
                             const std::vector<Value>& answers) const {
  const auto rows = predictive(the_case, trait_index, answers);
  const auto absent = absent_row(belief, rows);
  double after = 0.0;
  for (std::size_t a = 0; a < answers.size(); ++a) {
    Belief then;
    then.by_class.assign(belief.by_class.size(), 0.0);
    double chance = belief.absent * absent[a];
    for (std::size_t i = 0; i < pairs_.size(); ++i) chance += belief.pair[i] * rows[i][a];
    if (chance == 0.0) continue;
    then.absent = belief.absent * absent[a] / chance;
    for (std::size_t i = 0; i < pairs_.size(); ++i) {
      then.by_class[static_cast<std::size_t>(class_of(pairs_[i]))] += belief.pair[i] * rows[i][a] / chance;
    }
    after += chance * class_entropy(then);
  }
  double gain = class_entropy(belief) - after;
  const Trait& trait = knowledge_.traits[static_cast<std::size_t>(trait_index)];
  const bool group_read =
      trait.group >= 0 && std::any_of(the_case.readings.begin(), the_case.readings.end(), [&](const auto& r) {
        return r.value.informs() && knowledge_.traits[static_cast<std::size_t>(r.trait)].group == trait.group;
      });
  if (group_read) gain *= 1.0 - knowledge_.groups[static_cast<std::size_t>(trait.group)].overlap;
  return gain;
}

double Oracle::price_factor(const Case& the_case, const Belief& belief, int trait,
                            const std::vector<Value>& answers) const {
  const auto rows = predictive(the_case, trait, answers);
  const std::size_t absent = belief.by_class.size();
  std::vector<double> mass = belief.by_class;
  mass.push_back(belief.absent);
  // Mean answer row of every class.
  std::vector<std::vector<double>> mean(mass.size(), std::vector<double>(answers.size(), 0.0));
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    const auto c = static_cast<std::size_t>(class_of(pairs_[i]));
    for (std::size_t a = 0; a < answers.size() && mass[c] > 0.0; ++a)
      mean[c][a] += belief.pair[i] * rows[i][a] / mass[c];
  }
  mean[absent] = absent_row(belief, rows);
  // Only the eight likeliest count.
  std::vector<std::size_t> order(mass.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return mass[a] > mass[b]; });
  order.resize(std::min<std::size_t>(order.size(), 8));
  const auto price_of = [&](std::size_t given, std::size_t truth) {
    if (given == absent) return 0.0;
    return price(static_cast<int>(given), truth == absent ? -1 : static_cast<int>(truth));
  };
  double priced = 0.0;
  double plain = 0.0;
  for (const std::size_t a : order) {
    for (const std::size_t b : order) {
      if (a >= b || mass[a] <= 1e-12 || mass[b] <= 1e-12) continue;
      const double bits = mass[a] * mass[b] * bits_about_pair(mass[a], mean[a], mass[b], mean[b]);
      priced += bits * (0.5 + std::max(price_of(a, b), price_of(b, a)));
      plain += bits;
    }
  }
  return plain > 0.0 ? priced / plain : 1.0;
}

double Oracle::check_gain(const Belief& belief, int trait, int advice_class, const std::vector<Value>& answers) const {
  const auto rows = answer_rows(trait, answers);
  std::vector<double> mean(answers.size(), 0.0);
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    if (class_of(pairs_[i]) != advice_class) continue;
    const double share = belief.pair[i] / belief.by_class[static_cast<std::size_t>(advice_class)];
    for (std::size_t a = 0; a < answers.size(); ++a) mean[a] += share * rows[i][a];
  }
  return bits_about_pair(1.0, mean, 1.0, absent_row(belief, rows));
}

double Oracle::price(int given_class, int true_class) const {
  const auto& given = knowledge_.advice[static_cast<std::size_t>(given_class)];
  for (const int harmless : given.harmless_if) {
    if (harmless == true_class) return settings_.price_harmless;
  }
  if (given.price == knowledge::Price::harmless) return settings_.price_harmless;
  if (given.price == knowledge::Price::money) return settings_.price_money;
  if (given.price == knowledge::Price::burnt_part) return settings_.price_burnt_part;
  if (given.price == knowledge::Price::burnt_loom) return settings_.price_burnt_loom;
  return settings_.price_injury;
}

double Oracle::expected_loss(const Belief& belief, int given_class) const {
  double loss = belief.absent * price(given_class, -1);
  for (std::size_t c = 0; c < belief.by_class.size(); ++c) {
    if (static_cast<int>(c) != given_class) loss += belief.by_class[c] * price(given_class, static_cast<int>(c));
  }
  return loss;
}

}  // namespace loomkey::oracle
