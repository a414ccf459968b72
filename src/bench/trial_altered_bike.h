#pragma once

#include <cstdint>

#include "bench/trial_chance.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::bench {

// What somebody did to one part and its wiring before it was found: leads replaced by plain black and red ones, new
// terminals, another place, paint, a lead gone or added. Depends on the seed alone.
class AlteredBike {
 public:
  // `has_leads`: the part has leads by the catalogue. `often`: how much more often than trial_other_habits.h says; 0
  // leaves every bike as it was made.
  AlteredBike(const knowledge::Knowledge&, bool has_leads, std::uint64_t seed, double often);

  // What a trait has become of its value by the catalogue.
  [[nodiscard]] evidence::Value after(int trait, const evidence::Value& before) const;

 private:
  [[nodiscard]] evidence::Value colours_after(evidence::Value, Chance) const;
  [[nodiscard]] evidence::Value choice_after(int trait, const evidence::Value&) const;
  [[nodiscard]] evidence::Value with_state(int trait, const evidence::Value& before, const char* state) const;

  const knowledge::Knowledge* knowledge_;
  bool has_leads_;
  std::uint64_t seed_;
  bool rewired_ = false;
  bool recoloured_ = false;
  bool new_terminals_ = false;
  bool moved_ = false;
  bool painted_ = false;
  bool lead_gone_ = false;
  bool lead_added_ = false;
};

}  // namespace loomkey::bench
