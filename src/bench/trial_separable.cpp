#include "bench/trial_separable.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "bench/trait_divergence.h"

namespace loomkey::bench {

using inference::Model;
using knowledge::Trait;

namespace {

constexpr std::array<std::string_view, 3> by_looks = {"look", "ruler", "magnet"};

}  // namespace

std::vector<LooksApart> looks_apart(const Model& model) {
  const auto& knowledge = model.knowledge();
  const std::size_t parts = knowledge.parts.size();
  std::vector<std::vector<double>> decibans(parts, std::vector<double>(parts, 0.0));
  for (int t = 0; t < model.trait_count(); ++t) {
    const Trait& trait = knowledge.traits[static_cast<std::size_t>(t)];
    const std::string& effort = knowledge.efforts[static_cast<std::size_t>(trait.effort)].id;
    if (std::find(by_looks.begin(), by_looks.end(), effort) == by_looks.end()) continue;
    const TraitDivergence divergence(model, t);
    for (std::size_t a = 0; a < parts; ++a) {
      for (std::size_t b = 0; b < parts; ++b) {
        decibans[a][b] += divergence.decibans(static_cast<int>(a), static_cast<int>(b));
      }
    }
  }
  std::vector<LooksApart> out;
  for (std::size_t a = 0; a < parts; ++a) {
    LooksApart apart{static_cast<int>(a), -1, 0.0};
    for (std::size_t b = 0; b < parts; ++b) {
      if (knowledge.parts[a].advice == knowledge.parts[b].advice) continue;
      if (apart.nearest >= 0 && decibans[a][b] >= apart.decibans) continue;
      apart.nearest = static_cast<int>(b);
      apart.decibans = decibans[a][b];
    }
    out.push_back(apart);
  }
  return out;
}

}  // namespace loomkey::bench
