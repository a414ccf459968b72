#include "report/words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.h"
#include "electrical/number_text.h"
#include "evidence/wording.h"

namespace loomkey::report {

using evidence::Certainty;
using evidence::Earth;
using evidence::Value;
using knowledge::Price;
using knowledge::SetItems;
using knowledge::Trait;

namespace {

struct Scaled {
  double factor;
  std::string unit;
};

// The larger unit, once figures in the trait's own would grow long.
Scaled scaled(double value, const std::string& unit) {
  const double size = std::abs(value);
  if (unit == "ohm" && size >= 1e6) return {1e6, "Mohm"};
  if (unit == "ohm" && size >= 1e3) return {1e3, "kohm"};
  if (unit == "g" && size >= 1e3) return {1e3, "kg"};
  return {1.0, unit};
}

std::string spaces_for_hyphens(std::string text) {
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

std::string state_text(const Trait& trait, int state, bool as_id) {
  if (state < 0 || static_cast<std::size_t>(state) >= trait.states.size()) return "?";
  const auto& found = trait.states[static_cast<std::size_t>(state)];
  return as_id ? found.id : found.name;
}

std::string complete_words(const Trait& trait, const Value& value) {
  const std::string items = set_words(trait, value.items);
  const std::string place = value.added ? "on a label: " : "";
  if (!value.complete) return place + "includes " + items;
  return value.items.empty() ? items : place + items + ", no others";
}

}  // namespace

std::string percent(double probability) {
  if (probability > 0.99) return ">99 %";
  if (!(probability >= 0.01)) return "<1 %";
  return fmt::format("{:.0f} %", probability * 100.0);
}

std::string sureness(double probability) {
  if (probability >= 0.98) return "very likely";
  if (probability >= 0.90) return "likely";
  return probability >= 0.60 ? "probably" : "perhaps";
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string stopped(std::string text) {
  if (!text.empty() && std::string_view(".!?:").find(text.back()) == std::string_view::npos) text += '.';
  return text;
}

std::string listed(const std::vector<std::string>& items, std::string_view last_link) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const bool last = i + 1 == items.size();
    if (i > 0) out.append(last ? " " : ", ");
    if (i > 0 && last) out.append(last_link).append(" ");
    out += items[i];
  }
  return out;
}

std::string figure(double value) { return electrical::short_number(value); }

std::string quantity(double value, const std::string& unit) {
  const Scaled shown = scaled(value, unit);
  return trim(figure(value / shown.factor) + " " + shown.unit);
}

std::string quantity(double low, double high, const std::string& unit) {
  const Scaled from = scaled(low, unit);
  const Scaled to = scaled(high, unit);
  if (from.unit != to.unit && low != 0.0) return quantity(low, unit) + " to " + quantity(high, unit);
  return trim(figure(low / to.factor) + " to " + figure(high / to.factor) + " " + to.unit);
}

std::string colour_words(const std::string& colour) {
  if (colour == "dark") return "too dark to tell";
  const std::vector<std::string> pieces = split(colour, '/');
  std::string out = spaces_for_hyphens(pieces.front());
  if (pieces.size() > 1) out += " with a " + spaces_for_hyphens(pieces[1]) + " tracer";
  return out;
}

std::string set_words(const Trait& trait, const std::vector<std::string>& items) {
  if (items.empty()) return trait.none_name.empty() ? "none" : trait.none_name;
  std::vector<std::string> words;
  for (const std::string& item : items) {
    auto alternatives = evidence::alternatives_of(item);
    if (trait.items == SetItems::colours) {
      std::transform(alternatives.begin(), alternatives.end(), alternatives.begin(), colour_words);
    }
    words.push_back(join(alternatives, " or "));
  }
  return listed(words);
}

std::string value_words(const Trait& trait, const Value& value) {
  switch (value.kind) {
    case Value::Kind::state:
      return state_text(trait, value.state, false);
    case Value::Kind::interval:
      if (value.interval.low == value.interval.high) return quantity(value.interval.low, trait.unit);
      return quantity(value.interval.low, value.interval.high, trait.unit);
    case Value::Kind::special:
      return knowledge::special_names[static_cast<std::size_t>(value.special)];
    case Value::Kind::set:
      return complete_words(trait, value);
    case Value::Kind::cannot_tell:
      return "cannot tell";
    case Value::Kind::not_looked:
      break;
  }
  return "not looked";
}

std::string value_text(const Trait& trait, const Value& value) {
  switch (value.kind) {
    case Value::Kind::state:
      return state_text(trait, value.state, true);
    case Value::Kind::interval: {
      const std::string low = electrical::exact_number(value.interval.low);
      const std::string high = electrical::exact_number(value.interval.high);
      return trim((low == high ? low : low + "-" + high) + " " + trait.unit);
    }
    case Value::Kind::special:
      return knowledge::special_ids[static_cast<std::size_t>(value.special)];
    case Value::Kind::set: {
      const std::string items = value.items.empty() ? "none" : join(value.items, ", ");
      return (value.added ? "on a label: " : "") + (value.complete ? items : "includes " + items);
    }
    case Value::Kind::cannot_tell:
      return "cannot tell";
    case Value::Kind::not_looked:
      break;
  }
  return "not looked";
}

std::string reading_words(const knowledge::Knowledge& knowledge, const evidence::Reading& reading) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(reading.trait)];
  std::string out = trait.name + ": " + value_words(trait, reading.value);
  if (reading.value.informs() && reading.certainty != Certainty::sure) {
    out += " (" + std::string(evidence::certainty_name(reading.certainty)) + ")";
  }
  if (!reading.observer.empty()) out += " [" + reading.observer + "]";
  return out;
}

std::string_view earth_words(Earth earth) {
  if (earth == Earth::unknown) return "unknown";
  return earth == Earth::positive ? "positive" : "negative";
}

std::string_view price_words(Price price) {
  switch (price) {
    case Price::harmless:
      return "no harm";
    case Price::money:
      return "wasted money";
    case Price::burnt_part:
      return "a burnt part";
    case Price::burnt_loom:
      return "a burnt loom";
    case Price::injury:
      break;
  }
  return "an injury";
}

std::string era_words(const knowledge::Part& part) {
  // An era that reaches into the years in which the catalogue is kept is open.
  constexpr int still_made = 2020;
  const std::string last = part.last_year >= still_made ? "today" : std::to_string(part.last_year);
  return std::to_string(part.first_year) + " to " + last;
}

std::string short_hash(const knowledge::Knowledge& knowledge) { return knowledge.hash.substr(0, 12); }

}  // namespace loomkey::report
