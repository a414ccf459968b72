#pragma once

#include <cstdint>
#include <random>

#include "evidence/reading.h"
#include "inference/settings.h"
#include "knowledge/knowledge.h"

// Catalogues, settings and cases made from a seed: small, but with everything that the format can say. Equal seeds give
// equal results, so a failing test needs to print nothing but its seed.
namespace loomkey::oracle {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  int from(int low, int high) { return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1)); }
  double real(double low, double high) { return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53; }
  bool chance(double p) { return real(0.0, 1.0) < p; }

  template <typename T>
  const T& pick(const std::vector<T>& items) {
    return items[static_cast<std::size_t>(from(0, static_cast<int>(items.size()) - 1))];
  }

 private:
  std::mt19937_64 engine_;
};

// 2 to 7 parts with good, faulty and damaged conditions, 4 to 9 traits of every kind, groups, families, "verify"
// claims, unstated traits, prices.
knowledge::Knowledge random_knowledge(Dice&);

// Every probability and limit of the engine moved about within sensible bounds.
inference::Settings random_settings(Dice&);

struct CaseRules {
  int readings = 5;
  bool second_observer = true;  // may read a trait that the first has read
  bool second_observer_of_sets = true;
};

// Readings that mostly describe one of the parts and are sometimes plain nonsense.
evidence::Case random_case(Dice&, const knowledge::Knowledge&, const CaseRules& = {});

// One value a person might give for a trait: what a claim says, or anything at all.
evidence::Value random_value(Dice&, const knowledge::Knowledge&, int trait, const knowledge::Claim*);

}  // namespace loomkey::oracle
