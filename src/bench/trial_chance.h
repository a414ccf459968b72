#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <span>

namespace loomkey::bench {

// A source of chance that gives the same numbers from the same seed on every machine; the distributions of <random> do
// not promise that, only the engine does.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : engine_(seed) {}

  // In [0, 1), on a grid of 2^-53.
  double uniform();
  double uniform(double low, double high) { return low + (high - low) * uniform(); }

  bool happens(double probability) { return uniform() < probability; }

  // One of 0 .. count - 1; `count` must not be 0.
  std::size_t below(std::size_t count);

  // An index in proportion to the weights, which need not sum to one; the last one if they are all zero.
  std::size_t pick(std::span<const double> weights);

  // Bell-shaped around 0 with standard deviation 0.5, never beyond 1.5: the sum of three uniforms.
  double slip() { return uniform() + uniform() + uniform() - 1.5; }

  // A Poisson count (Knuth's product method); `mean` is small here.
  int count(double mean);

 private:
  std::mt19937_64 engine_;
};

// A seed of its own for every purpose, so that what is drawn for one never shifts what is drawn for another
// (the finalizer of SplitMix64, a published mixing function).
std::uint64_t seed_for(std::uint64_t seed, std::uint64_t purpose);

}  // namespace loomkey::bench
