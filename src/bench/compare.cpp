#include "bench/compare.h"

#include <algorithm>
#include <cmath>

#include "inference/answer_table.h"
#include "inference/belief.h"
#include "inference/question.h"

namespace loomkey::bench {

using inference::AnswerTable;
using inference::Belief;
using inference::Model;

namespace {

constexpr double least_bits = 0.01;

// Belief that knows nothing but that it is one of these parts.
Belief even_belief(const Model& model, const std::vector<int>& parts) {
  Belief belief;
  const auto& hypotheses = model.hypotheses();
  belief.hypothesis.assign(hypotheses.size(), 0.0);
  for (std::size_t h = 0; h < hypotheses.size(); ++h) {
    if (std::find(parts.begin(), parts.end(), hypotheses[h].part) == parts.end()) continue;
    const auto& part = model.knowledge().parts[static_cast<std::size_t>(hypotheses[h].part)];
    belief.hypothesis[h] =
        part.conditions[static_cast<std::size_t>(hypotheses[h].condition)].share / static_cast<double>(parts.size());
  }
  return belief;
}

std::vector<double> part_row(const Model& model, const Belief& belief, const AnswerTable& table, int trait, int part) {
  std::vector<double> row(table.size(), 0.0);
  double mass = 0.0;
  for (std::size_t h = 0; h < model.hypotheses().size(); ++h) {
    if (model.hypotheses()[h].part != part) continue;
    mass += belief.hypothesis[h];
    const auto& own = table.row(model.trait(trait).code[h]);
    for (std::size_t a = 0; a < row.size(); ++a) row[a] += belief.hypothesis[h] * own[a];
  }
  for (double& value : row) value /= mass;
  return row;
}

// Mean of the two Kullback-Leibler divergences, in decibans: the weight of evidence one answer is expected to give.
double expected_decibans(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - b[i]) * 10.0 * std::log10(a[i] / b[i]);
  return sum / 2.0;
}

}  // namespace

std::vector<Separation> compare(const Model& model, const std::vector<int>& parts) {
  const Belief belief = even_belief(model, parts);
  std::vector<Separation> out;
  for (int t = 0; t < model.trait_count(); ++t) {
    const AnswerTable table(model, t, belief);
    std::vector<std::vector<double>> rows;
    for (const int p : parts) rows.push_back(part_row(model, belief, table, t, p));
    Separation separation{t, 0.0, 0.0};
    double pairs = 0.0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      for (std::size_t j = i + 1; j < parts.size(); ++j) {
        separation.bits += inference::pair_gain(model, belief, t, parts[i], parts[j]);
        separation.decibans += expected_decibans(rows[i], rows[j]);
        pairs += 1.0;
      }
    }
    separation.bits /= pairs;
    separation.decibans /= pairs;
    if (separation.bits >= least_bits) out.push_back(separation);
  }
  std::stable_sort(out.begin(), out.end(), [&](const Separation& a, const Separation& b) {
    return a.bits / model.effort(a.trait) > b.bits / model.effort(b.trait);
  });
  return out;
}

}  // namespace loomkey::bench
