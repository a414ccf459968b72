#include "inference/likelihood.h"

#include <algorithm>
#include <cmath>

namespace loomkey::inference {

using evidence::Interval;
using evidence::Value;
using knowledge::Claim;
using knowledge::Range;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

// A cheap meter shows anything below this as plain zero now and then.
constexpr double zero_shown_below_ohm = 0.3;
constexpr double zero_shown_chance = 0.3;
// A true zero is a contact or a wire: its own resistance, and how often the meter shows it as a number.
constexpr double true_zero_high_ohm = 0.12;
constexpr double true_zero_as_number = 0.3;
constexpr double number_share_of_uniform = 0.7;

double axis(const Trait& trait, double value) {
  if (!trait.log_scale) return value;
  return std::log(std::max(value, trait.low * 1e-3));
}

// Integral from minus infinity to `at` of a trapezium with flat top [low, high] and shoulders of width `shoulder`,
// scaled to area one.
double trapezium_cdf(double low, double high, double shoulder, double at) {
  const double area = (high - low) + shoulder;
  if (at <= low - shoulder) return 0.0;
  if (at >= high + shoulder) return 1.0;
  if (at < low) {
    const double rise = at - (low - shoulder);
    return rise * rise / (2.0 * shoulder) / area;
  }
  if (at <= high) return (shoulder / 2.0 + (at - low)) / area;
  const double fall = (high + shoulder) - at;
  return 1.0 - fall * fall / (2.0 * shoulder) / area;
}

double special_share(const Claim& claim, Special special) { return claim.special[static_cast<std::size_t>(special)]; }

}  // namespace

double range_mass(const Trait& trait, const Range& range, bool verify, const Settings& settings, double low,
                  double high) {
  if (high <= low) return 0.0;
  const double widening = verify ? settings.verify_widening : 1.0;
  const double shoulder = (trait.log_scale ? std::log1p(trait.soft) : trait.soft) * widening;
  const double from = axis(trait, range.low);
  const double to = axis(trait, range.high);
  return trapezium_cdf(from, to, shoulder, axis(trait, high)) - trapezium_cdf(from, to, shoulder, axis(trait, low));
}

Interval with_error(const Trait& trait, Interval stated) {
  return {stated.low - (trait.relative_error * std::abs(stated.low) + trait.absolute_error),
          stated.high + (trait.relative_error * std::abs(stated.high) + trait.absolute_error)};
}

double number_chance(const Trait& trait, const Claim& claim, const Settings& settings, double low, double high) {
  double chance = 0.0;
  for (const Range& range : claim.ranges) {
    double mass = range_mass(trait, range, claim.verify, settings, low, high);
    if (trait.low_ohm && low < zero_shown_below_ohm) {
      mass -= zero_shown_chance *
              range_mass(trait, range, claim.verify, settings, low, std::min(high, zero_shown_below_ohm));
    }
    chance += range.share * mass;
  }
  if (trait.low_ohm) {
    const double overlap = std::min(high, true_zero_high_ohm) - std::max(low, -true_zero_high_ohm);
    if (overlap > 0.0) {
      chance += special_share(claim, Special::zero) * true_zero_as_number * overlap / (2.0 * true_zero_high_ohm);
    }
  }
  return chance;
}

double special_chance(const Trait& trait, const Claim& claim, const Settings& settings, Special special) {
  const double share = special_share(claim, special);
  if (!trait.low_ohm || special != Special::zero) return share;
  double chance = share * (1.0 - true_zero_as_number);
  for (const Range& range : claim.ranges) {
    chance +=
        range.share * zero_shown_chance * range_mass(trait, range, claim.verify, settings, -1.0, zero_shown_below_ohm);
  }
  return chance;
}

double uniform_number_chance(const Trait& trait, double low, double high) {
  const double from = axis(trait, trait.low);
  const double to = axis(trait, trait.high);
  const double inside = std::min(axis(trait, high), to) - std::max(axis(trait, low), from);
  const bool numbers_only = std::count(trait.allows.begin(), trait.allows.end(), true) == 0;
  return (numbers_only ? 1.0 : number_share_of_uniform) * std::max(inside, 0.0) / (to - from);
}

double uniform_special_chance(const Trait& trait, Special special) {
  const auto allowed = std::count(trait.allows.begin(), trait.allows.end(), true);
  if (allowed == 0 || !trait.allows[static_cast<std::size_t>(special)]) return 0.0;
  return (1.0 - number_share_of_uniform) / static_cast<double>(allowed);
}

double value_chance(const Trait& trait, const Claim& claim, const ItemModel& items, const Settings& settings,
                    const Value& value, double lead_ohms) {
  switch (value.kind) {
    case Value::Kind::state: {
      double chance = 0.0;
      for (std::size_t s = 0; s < claim.states.size(); ++s) {
        chance += claim.states[s] * trait.seen[s][static_cast<std::size_t>(value.state)];
      }
      return chance;
    }
    case Value::Kind::interval: {
      const Interval seen = with_error(trait, value.interval);
      const double lead = trait.low_ohm ? lead_ohms : 0.0;
      return number_chance(trait, claim, settings, seen.low - lead, seen.high - lead);
    }
    case Value::Kind::special:
      return special_chance(trait, claim, settings, value.special);
    case Value::Kind::set: {
      double chance = 0.0;
      for (const auto& alternative : claim.sets) {
        chance += alternative.share * set_chance(items, settings, alternative.items, value.items, value.complete);
      }
      return chance;
    }
    case Value::Kind::cannot_tell:
    case Value::Kind::not_looked:
      break;
  }
  return 1.0;
}

double uniform_value_chance(const Trait& trait, const ItemModel& items, const Value& value, double lead_ohms) {
  switch (value.kind) {
    case Value::Kind::state: {
      double chance = 0.0;
      for (const auto& row : trait.seen) chance += row[static_cast<std::size_t>(value.state)];
      return chance / static_cast<double>(trait.seen.size());
    }
    case Value::Kind::interval: {
      const Interval seen = with_error(trait, value.interval);
      const double lead = trait.low_ohm ? lead_ohms : 0.0;
      return uniform_number_chance(trait, seen.low - lead, seen.high - lead);
    }
    case Value::Kind::special:
      return uniform_special_chance(trait, value.special);
    case Value::Kind::set:
      return uniform_set_chance(items, value.items);
    case Value::Kind::cannot_tell:
    case Value::Kind::not_looked:
      break;
  }
  return 1.0;
}

}  // namespace loomkey::inference
