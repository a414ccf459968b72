#include "inference/belief.h"

#include <algorithm>
#include <cmath>

namespace loomkey::inference {

int Belief::leading_class() const {
  int best = -1;
  double best_chance = absent;
  for (std::size_t c = 0; c < by_class.size(); ++c) {
    if (by_class[c] > best_chance) {
      best = static_cast<int>(c);
      best_chance = by_class[c];
    }
  }
  return best;
}

int Belief::leading_part() const {
  if (by_part.empty()) return -1;
  return static_cast<int>(std::max_element(by_part.begin(), by_part.end()) - by_part.begin());
}

Belief believe(const Model& model, const std::vector<WeightLine>& lines) {
  const auto& hypotheses = model.hypotheses();
  const double to_natural = std::log(10.0) / 10.0;
  const double prior_absent = model.prior_absent();
  const double unlike_log = std::log((1.0 - model.settings().relative_share) * prior_absent);  // may be minus infinity
  const double related = model.settings().relative_share * prior_absent / (1.0 - prior_absent);
  Belief belief;
  double largest = unlike_log;
  for (std::size_t h = 0; h < hypotheses.size(); ++h) {
    double decibans = 0.0;
    double relative = 0.0;
    for (const WeightLine& line : lines) {
      decibans += line.weight[h];
      relative += line.relative[h];
    }
    belief.hypothesis.push_back(std::log(hypotheses[h].prior) + decibans * to_natural);
    belief.relative.push_back(std::log(related * hypotheses[h].prior) + relative * to_natural);
    largest = std::max({largest, belief.hypothesis[h], belief.relative[h]});
  }
  double total = 0.0;
  belief.absent = std::exp(unlike_log - largest);
  for (double& value : belief.relative) belief.absent += value = std::exp(value - largest);
  if (prior_absent > 0.0) belief.absent_db = (std::log(belief.absent / prior_absent) + largest) / to_natural;
  for (double& value : belief.hypothesis) total += value = std::exp(value - largest);
  total += belief.absent;
  belief.absent /= total;
  belief.by_class.assign(static_cast<std::size_t>(model.class_count()), 0.0);
  belief.by_part.assign(model.knowledge().parts.size(), 0.0);
  for (std::size_t h = 0; h < hypotheses.size(); ++h) {
    belief.relative[h] /= total;
    belief.hypothesis[h] /= total;
    belief.by_class[static_cast<std::size_t>(hypotheses[h].advice_class)] += belief.hypothesis[h];
    belief.by_part[static_cast<std::size_t>(hypotheses[h].part)] += belief.hypothesis[h];
  }
  return belief;
}

double class_entropy(const Belief& belief) {
  double entropy = belief.absent > 0.0 ? -belief.absent * std::log2(belief.absent) : 0.0;
  for (const double p : belief.by_class) {
    if (p > 0.0) entropy -= p * std::log2(p);
  }
  return entropy;
}

double expected_loss(const Model& model, const Belief& belief, int given_class) {
  double loss = belief.absent * model.price(given_class, -1);
  for (int c = 0; c < model.class_count(); ++c) {
    if (c != given_class) loss += belief.by_class[static_cast<std::size_t>(c)] * model.price(given_class, c);
  }
  return loss;
}

}  // namespace loomkey::inference
