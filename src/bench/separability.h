#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

#include "inference/model.h"

namespace loomkey::bench {

// What the person has, from one stage to the next: eyes and hands; every tool that reads no meter trait as well (ruler,
// magnet, scales); the meter too.
enum class Equipment { nothing, simple_tools, meter };
inline constexpr std::size_t equipment_count = 3;

// The first stage at which a trait can be read.
Equipment equipment_for(const knowledge::Knowledge&, int trait);

// How far two parts can be told apart, in expected decibans (see TraitDivergence).
struct PairSeparation {
  int part_a = -1;
  int part_b = -1;
  // All traits that can be read with this much at hand, added up as if each spoke for itself; of the two parts the one
  // that is harder to tell from the other.
  std::array<double, equipment_count> decibans{};
  // The best trait of any kind, as `compare` counts it: the mean over the two parts.
  int best_trait = -1;
  double best_decibans = 0.0;

  [[nodiscard]] double with(Equipment at_hand) const { return decibans[static_cast<std::size_t>(at_hand)]; }
};

struct SeparabilityOptions {
  double best_below = 5.0;       // decibans; odds of a good three to one from the best single answer
  double together_below = 20.0;  // decibans; from here on the trial calls parts separable
  std::function<void(int done, int total)> progress = {};
};

struct Separability {
  SeparabilityOptions options;
  std::size_t compared = 0;  // pairs of parts with different advice
  // Those that no single trait separates by `best_below`, nor all of them together by `together_below`; hardest first.
  std::vector<PairSeparation> pairs;
  // For every two families, the first not behind the second, the pair of parts with different advice that is hardest to
  // separate with everything at hand; part_a is -1 where there is none. See family_pair().
  std::vector<PairSeparation> families;
};

// Index into Separability::families of two families, in either order.
std::size_t family_pair(int family_a, int family_b);

// All pairs of parts that name different advice.
Separability separability(const inference::Model&, const SeparabilityOptions& = {});

}  // namespace loomkey::bench
