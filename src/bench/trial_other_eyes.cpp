#include "bench/trial_other_eyes.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace loomkey::bench {

using evidence::Value;
using habits::Purpose;
using knowledge::Layer;
using knowledge::SetItems;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr double inch_mm = 25.4;
constexpr double quarter_inch_mm = inch_mm / 4.0;
constexpr double sixteenth_mm = inch_mm / 16.0;
constexpr double five_mm = 5.0;
constexpr double slips_to_normal = 2.0;  // Chance::slip has a standard deviation of one half

double to_step(double value, double step) { return std::max(std::round(value / step), 1.0) * step; }

Value plain_number(double number) {
  Value value;
  value.kind = Value::Kind::interval;
  value.interval = {number, number};
  return value;
}

Value over_range() {
  Value value;
  value.kind = Value::Kind::special;
  value.special = Special::over_range;
  return value;
}

bool allows_over_range(const Trait& trait) {
  return trait.kind == TraitKind::number && trait.allows[static_cast<std::size_t>(Special::over_range)];
}

// Steps of one tenth of an ohm on the first range, ten times as much on each further one.
double as_displayed(double ohms) {
  double step = 0.1;
  for (double range = habits::first_range_ohms; ohms >= range && range < habits::highest_ohms; range *= 10.0)
    step *= 10.0;
  return std::round(ohms / step) * step;
}

// A hash that is the same everywhere, unlike std::hash.
int number_of(const std::string& text) {
  unsigned number = 0;
  for (const char c : text) number = number * 31U + static_cast<unsigned char>(c);
  return static_cast<int>(number % 1000003U);
}

Value with_items(Value value, const std::set<std::string>& items) {
  value.items.assign(items.begin(), items.end());
  return value;
}

}  // namespace

OtherEyes::OtherEyes(const knowledge::Knowledge& knowledge, std::uint64_t seed, double often)
    : knowledge_(&knowledge), seed_(seed) {
  Chance measurer = habits::chance_of(seed, Purpose::measurer);
  biased_ = measurer.happens(habits::biased_measurer * often);
  size_factor_ = std::exp(habits::bias_spread * slips_to_normal * measurer.slip());
  mass_factor_ = std::exp(habits::bias_spread * slips_to_normal * measurer.slip());
  const double rounds = measurer.uniform();
  if (rounds < habits::rounds_to_5_mm) {
    rounding_ = Rounding::five_mm;
  } else if (rounds < habits::rounds_to_5_mm + habits::rounds_to_quarter_inch) {
    rounding_ = Rounding::quarter_inch;
  }
  Chance meter = habits::chance_of(seed, Purpose::meter);
  cheap_meter_ = meter.happens(habits::cheap_meter * often);
  lead_ohms_ = meter.uniform(habits::lead_ohms_low, habits::lead_ohms_high);
  no_diode_range_ = meter.happens(habits::no_diode_range);
  diode_on_ohms_ = meter.happens(habits::diode_on_ohms);
  poor_colours_ = habits::chance_of(seed, Purpose::colours).happens(habits::poor_colours * often);
  counts_stubs_ = habits::chance_of(seed, Purpose::stubs).happens(habits::counts_stubs * often);
  worn_letters_ = habits::chance_of(seed, Purpose::letters).happens(habits::worn_letters * often);
}

double OtherEyes::measured(const Trait& trait, double number) const {
  if (trait.unit == "g") {
    const double shown = number * mass_factor_;
    return shown < habits::scales_from_g ? shown : to_step(shown, habits::scales_step_g);
  }
  const double shown = number * size_factor_;
  if (rounding_ == Rounding::none) return shown;
  const bool coarse = shown >= habits::rounds_from_mm;
  if (rounding_ == Rounding::five_mm) return to_step(shown, coarse ? five_mm : 1.0);
  return to_step(shown, coarse ? quarter_inch_mm : sixteenth_mm);
}

Value OtherEyes::without_diode_range(int trait) const {
  Value value;
  value.kind = Value::Kind::cannot_tell;
  if (!diode_on_ohms_) return value;
  if (allows_over_range(knowledge_->traits[static_cast<std::size_t>(trait)])) return over_range();
  const int none = knowledge_->state(trait, "none-open");
  if (none < 0) return value;
  value.kind = Value::Kind::state;
  value.state = none;
  return value;
}

Value OtherEyes::metered(int index, const Value& there) const {
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  if (no_diode_range_ && trait.id.starts_with("diode_")) return without_diode_range(index);
  const bool poor = habits::chance_of(seed_, Purpose::contact, index).happens(habits::poor_contact);
  if (trait.id == "ohm_pattern") {
    const int open = knowledge_->state(index, "open");
    Value value = there;
    if (poor && open >= 0) value.state = open;
    return value;
  }
  if (trait.unit != "ohm") return there;
  const bool zero = there.kind == Value::Kind::special && there.special == Special::zero;
  if (there.kind != Value::Kind::interval && !zero) return there;
  const double ohms = (zero ? 0.0 : there.interval.low) + lead_ohms_;
  if (allows_over_range(trait) && (poor || ohms > habits::highest_ohms)) return over_range();
  return plain_number(as_displayed(ohms));
}

Value OtherEyes::counted(int index, const Value& there) const {
  Chance chance = habits::chance_of(seed_, Purpose::stubs, index + 1);
  if (!chance.happens(habits::stub_there)) return there;
  const int more = chance.happens(habits::second_stub) ? 2 : 1;
  const int last = static_cast<int>(knowledge_->traits[static_cast<std::size_t>(index)].states.size()) - 1;
  Value value = there;
  value.state = std::min(there.state + more, last);
  return value;
}

std::string OtherEyes::base_colour(const std::string& name) const {
  for (const auto& row : habits::colours_taken) {
    if (std::find(row.begin(), row.end(), name) == row.end()) continue;
    Chance chance = habits::chance_of(seed_, Purpose::colours, 1 + number_of(name));
    if (!chance.happens(habits::colour_taken)) return name;
    std::vector<std::string> others;
    for (const auto& other : row) {
      if (!other.empty() && other != name) others.emplace_back(other);
    }
    return others[chance.below(others.size())];
  }
  return name;
}

std::string OtherEyes::colour(const std::string& lead) const {
  const std::size_t slash = lead.find('/');
  if (slash == std::string::npos) return base_colour(lead);
  const std::string base = base_colour(lead.substr(0, slash));
  const std::string tracer = base_colour(lead.substr(slash + 1));
  const bool lost = habits::chance_of(seed_, Purpose::colours, 1 + number_of(lead)).happens(habits::tracer_lost);
  return lost || tracer == base ? base : base + "/" + tracer;
}

std::string OtherEyes::mark(const std::string& mark) const {
  Chance chance = habits::chance_of(seed_, Purpose::letter_detail, number_of(mark));
  std::string read = mark;
  for (char& c : read) {
    for (const std::string_view row : habits::letters_taken) {
      if (row.find(c) == std::string_view::npos) continue;
      if (!chance.happens(habits::letter_taken)) break;
      const std::size_t step = 1 + chance.below(row.size() - 1);
      c = row[(row.find(c) + step) % row.size()];
      break;
    }
  }
  return read;
}

Value OtherEyes::seen(int index, const Value& there) const {
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  if (trait.layer == Layer::meter) return cheap_meter_ ? metered(index, there) : there;
  if (trait.kind == TraitKind::number) {
    const bool bent = biased_ && there.kind == Value::Kind::interval && (trait.unit == "mm" || trait.unit == "g");
    return bent ? plain_number(measured(trait, there.interval.low)) : there;
  }
  if (trait.kind == TraitKind::choice) {
    const bool stubs = counts_stubs_ && (trait.id == "terminal_count" || (trait.id == "lead_count" && there.state > 0));
    return stubs ? counted(index, there) : there;
  }
  std::set<std::string> items;
  const bool colours = trait.items == SetItems::colours;
  if (colours ? !poor_colours_ : !worn_letters_) return there;
  for (const std::string& item : there.items) items.insert(colours ? colour(item) : mark(item));
  return with_items(there, items);
}

}  // namespace loomkey::bench
