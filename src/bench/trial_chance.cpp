#include "bench/trial_chance.h"

#include <algorithm>
#include <cmath>

namespace loomkey::bench {

double Chance::uniform() {
  constexpr int spare_bits = 11;
  constexpr double grid = 0x1.0p-53;
  return static_cast<double>(engine_() >> spare_bits) * grid;
}

std::size_t Chance::below(std::size_t count) {
  return std::min(static_cast<std::size_t>(uniform() * static_cast<double>(count)), count - 1);
}

std::size_t Chance::pick(std::span<const double> weights) {
  double total = 0.0;
  for (const double weight : weights) total += weight;
  double left = uniform() * total;
  for (std::size_t i = 0; i + 1 < weights.size(); ++i) {
    left -= weights[i];
    if (left < 0.0) return i;
  }
  return weights.size() - 1;
}

int Chance::count(double mean) {
  const double limit = std::exp(-mean);
  double product = uniform();
  int events = 0;
  while (product > limit) {
    product *= uniform();
    ++events;
  }
  return events;
}

std::uint64_t seed_for(std::uint64_t seed, std::uint64_t purpose) {
  std::uint64_t mixed = seed + (purpose + 1) * 0x9E3779B97F4A7C15U;
  mixed = (mixed ^ (mixed >> 30U)) * 0xBF58476D1CE4E5B9U;
  mixed = (mixed ^ (mixed >> 27U)) * 0x94D049BB133111EBU;
  return mixed ^ (mixed >> 31U);
}

}  // namespace loomkey::bench
