#include "evidence/show.h"

#include "electrical/number_text.h"

namespace loomkey::evidence {
namespace {

using knowledge::Trait;

std::string show_items(const Trait& trait, const Value& value) {
  if (value.items.empty()) return trait.none_name.empty() ? "none" : trait.none_name;
  std::string out;
  for (std::size_t i = 0; i < value.items.size(); ++i) {
    if (i > 0) out += i + 1 == value.items.size() ? " and " : ", ";
    out += value.items[i];
  }
  if (!value.complete) out += ", maybe others";
  return value.added ? out + ", on a label" : out;
}

// Ohms run over eight decades: 4700000 is hard to read.
std::string show_interval(const Trait& trait, const Interval& interval) {
  double divisor = 1.0;
  std::string unit = trait.unit;
  if (trait.unit == "ohm" && interval.low >= 1e6) {
    divisor = 1e6;
    unit = "Mohm";
  } else if (trait.unit == "ohm" && interval.low >= 1e3) {
    divisor = 1e3;
    unit = "kohm";
  }
  const std::string low = electrical::short_number(interval.low / divisor);
  const std::string high = electrical::short_number(interval.high / divisor);
  return (low == high ? low : low + " to " + high) + " " + unit;
}

}  // namespace

std::string show_value(const knowledge::Knowledge& knowledge, const Reading& reading) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(reading.trait)];
  const Value& value = reading.value;
  switch (value.kind) {
    case Value::Kind::state:
      return trait.states[static_cast<std::size_t>(value.state)].name;
    case Value::Kind::interval:
      return show_interval(trait, value.interval);
    case Value::Kind::special:
      return knowledge::special_names[static_cast<std::size_t>(value.special)];
    case Value::Kind::set:
      return show_items(trait, value);
    case Value::Kind::cannot_tell:
      return "cannot tell";
    case Value::Kind::not_looked:
      return "not looked";
  }
  return {};
}

}  // namespace loomkey::evidence
