#include "bench/separability.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "bench/trait_divergence.h"

namespace loomkey::bench {

using inference::Model;
using knowledge::Knowledge;

namespace {

// Both directions of every stage's sum, and the best single trait.
struct Sums {
  std::array<std::array<double, 2>, equipment_count> directed{};
  int best_trait = -1;
  double best = 0.0;
};

// Pairs of parts with different advice, one entry each.
class PairTable {
 public:
  explicit PairTable(const Knowledge& knowledge) {
    const auto parts = static_cast<int>(knowledge.parts.size());
    for (int a = 0; a < parts; ++a) {
      for (int b = a + 1; b < parts; ++b) {
        if (advice(knowledge, a) != advice(knowledge, b)) pairs_.emplace_back(a, b);
      }
    }
    sums_.resize(pairs_.size());
  }

  void add(const TraitDivergence& divergence, int trait, Equipment needed) {
    for (std::size_t i = 0; i < pairs_.size(); ++i) {
      const auto [a, b] = pairs_[i];
      const double forth = divergence.decibans(a, b);
      const double back = divergence.decibans(b, a);
      Sums& sums = sums_[i];
      for (auto stage = static_cast<std::size_t>(needed); stage < equipment_count; ++stage) {
        sums.directed[stage][0] += forth;
        sums.directed[stage][1] += back;
      }
      const double mean = (forth + back) / 2.0;
      if (sums.best_trait < 0 || mean > sums.best) {
        sums.best_trait = trait;
        sums.best = mean;
      }
    }
  }

  [[nodiscard]] std::size_t size() const { return pairs_.size(); }

  [[nodiscard]] PairSeparation separation(std::size_t i) const {
    PairSeparation out;
    std::tie(out.part_a, out.part_b) = pairs_[i];
    for (std::size_t stage = 0; stage < equipment_count; ++stage) {
      // Rounding may leave a trace below zero.
      out.decibans[stage] = std::max(0.0, std::min(sums_[i].directed[stage][0], sums_[i].directed[stage][1]));
    }
    out.best_trait = sums_[i].best_trait;
    out.best_decibans = std::max(0.0, sums_[i].best);
    return out;
  }

 private:
  static int advice(const Knowledge& knowledge, int part) {
    return knowledge.parts[static_cast<std::size_t>(part)].advice;
  }

  std::vector<std::pair<int, int>> pairs_;
  std::vector<Sums> sums_;
};

bool harder(const PairSeparation& a, const PairSeparation& b) {
  return std::tuple(a.with(Equipment::meter), a.best_decibans, a.part_a, a.part_b) <
         std::tuple(b.with(Equipment::meter), b.best_decibans, b.part_a, b.part_b);
}

}  // namespace

Equipment equipment_for(const Knowledge& knowledge, int trait) {
  const auto tool_of = [&](const knowledge::Trait& of) {
    return knowledge.efforts[static_cast<std::size_t>(of.effort)].tool;
  };
  const knowledge::Trait& wanted = knowledge.traits[static_cast<std::size_t>(trait)];
  const int tool = tool_of(wanted);
  if (wanted.layer == knowledge::Layer::meter) return Equipment::meter;
  if (tool < 0) return Equipment::nothing;
  const bool reads_meter = std::any_of(knowledge.traits.begin(), knowledge.traits.end(), [&](const auto& other) {
    return other.layer == knowledge::Layer::meter && tool_of(other) == tool;
  });
  return reads_meter ? Equipment::meter : Equipment::simple_tools;
}

std::size_t family_pair(int family_a, int family_b) {
  const auto high = static_cast<std::size_t>(std::max(family_a, family_b));
  return high * (high + 1) / 2 + static_cast<std::size_t>(std::min(family_a, family_b));
}

Separability separability(const Model& model, const SeparabilityOptions& options) {
  const Knowledge& knowledge = model.knowledge();
  PairTable table(knowledge);
  for (int t = 0; t < model.trait_count(); ++t) {
    table.add(TraitDivergence(model, t), t, equipment_for(knowledge, t));
    if (options.progress) options.progress(t + 1, model.trait_count());
  }
  Separability out;
  out.options = options;
  out.compared = table.size();
  const auto family_of = [&](int part) { return knowledge.parts[static_cast<std::size_t>(part)].family; };
  out.families.resize(knowledge.families.size() * (knowledge.families.size() + 1) / 2);
  for (std::size_t i = 0; i < table.size(); ++i) {
    const PairSeparation pair = table.separation(i);
    const bool alike = pair.best_decibans < options.best_below && pair.with(Equipment::meter) < options.together_below;
    if (alike) out.pairs.push_back(pair);
    if (family_of(pair.part_a) < 0 || family_of(pair.part_b) < 0) continue;
    PairSeparation& hardest = out.families[family_pair(family_of(pair.part_a), family_of(pair.part_b))];
    if (hardest.part_a < 0 || harder(pair, hardest)) hardest = pair;
  }
  std::sort(out.pairs.begin(), out.pairs.end(), harder);
  return out;
}

}  // namespace loomkey::bench
