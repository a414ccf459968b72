#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "bench/trial_other_habits.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::bench {

// One person's eyes, ruler, scales and meter: what they make of what is really there, without any slip. The same habit
// bends every reading it touches the same way. Depends on the seed alone.
class OtherEyes {
 public:
  // `often`: how much more often than trial_other_habits.h says people have these habits; 0: everything is seen as it
  // is.
  OtherEyes(const knowledge::Knowledge&, std::uint64_t seed, double often);

  // May be "cannot tell" where the meter lacks the range.
  [[nodiscard]] evidence::Value seen(int trait, const evidence::Value& there) const;

 private:
  enum class Rounding { none, five_mm, quarter_inch };

  [[nodiscard]] double measured(const knowledge::Trait&, double number) const;
  [[nodiscard]] evidence::Value metered(int trait, const evidence::Value& there) const;
  [[nodiscard]] evidence::Value without_diode_range(int trait) const;
  [[nodiscard]] evidence::Value counted(int trait, const evidence::Value& there) const;
  [[nodiscard]] std::string colour(const std::string& lead) const;
  [[nodiscard]] std::string base_colour(const std::string& name) const;
  [[nodiscard]] std::string mark(const std::string& mark) const;

  const knowledge::Knowledge* knowledge_;
  std::uint64_t seed_;
  bool biased_ = false;
  double size_factor_ = 1.0;
  double mass_factor_ = 1.0;
  Rounding rounding_ = Rounding::none;
  bool cheap_meter_ = false;
  double lead_ohms_ = 0.0;
  bool no_diode_range_ = false;
  bool diode_on_ohms_ = false;
  bool poor_colours_ = false;
  bool counts_stubs_ = false;
  bool worn_letters_ = false;
};

}  // namespace loomkey::bench
