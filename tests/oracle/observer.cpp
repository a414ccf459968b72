#include "oracle/observer.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

namespace loomkey::oracle {

using knowledge::Claim;
using knowledge::Range;
using knowledge::Special;
using knowledge::Trait;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

double on_axis(const Trait& trait, double value) {
  if (!trait.log_scale) return value;
  return value > 0.0 ? std::log(value) : -infinity;
}

// Height of the unnormalised trapezium: one on [from, to], falling to zero over `shoulder`.
double height(double from, double to, double shoulder, double at) {
  if (at < from) return std::max(0.0, 1.0 - (from - at) / shoulder);
  if (at > to) return std::max(0.0, 1.0 - (at - to) / shoulder);
  return 1.0;
}

}  // namespace

double range_mass(const Trait& trait, const Range& range, bool verify, const inference::Settings& settings, double low,
                  double high) {
  if (!(low < high)) return 0.0;
  double shoulder = trait.log_scale ? std::log(1.0 + trait.soft) : trait.soft;
  if (verify) shoulder *= settings.verify_widening;
  const double from = on_axis(trait, range.low);
  const double to = on_axis(trait, range.high);
  std::vector<double> corners = {from - shoulder, from, to, to + shoulder};
  const double start = std::clamp(on_axis(trait, low), corners.front(), corners.back());
  const double end = std::clamp(on_axis(trait, high), corners.front(), corners.back());
  corners.push_back(start);
  corners.push_back(end);
  std::sort(corners.begin(), corners.end());
  // The density is straight between corners, so its value in the middle times the width is exact.
  double area = 0.0;
  double inside = 0.0;
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
    const double middle = (corners[i] + corners[i + 1]) / 2.0;
    const double piece = (corners[i + 1] - corners[i]) * height(from, to, shoulder, middle);
    area += piece;
    if (middle > start && middle < end) inside += piece;
  }
  return inside / area;
}

double shown_number(const Trait& trait, const Claim& claim, const inference::Settings& settings, double low,
                    double high) {
  double chance = 0.0;
  for (const Range& range : claim.ranges) {
    if (!trait.low_ohm) {
      chance += range.share * range_mass(trait, range, claim.verify, settings, low, high);
      continue;
    }
    // Three in ten readings below 0.3 ohm are shown as plain zero.
    const double below = range_mass(trait, range, claim.verify, settings, low, std::min(high, 0.3));
    const double above = range_mass(trait, range, claim.verify, settings, std::max(low, 0.3), high);
    chance += range.share * (0.7 * below + above);
  }
  if (trait.low_ohm) {
    // Three in ten true zeros show some number within 0.12 ohm.
    const double overlap = std::max(0.0, std::min(high, 0.12) - std::max(low, -0.12));
    chance += claim.special[static_cast<std::size_t>(Special::zero)] * 0.3 * overlap / 0.24;
  }
  return chance;
}

double shown_special(const Trait& trait, const Claim& claim, const inference::Settings& settings, Special special) {
  const double share = claim.special[static_cast<std::size_t>(special)];
  if (!trait.low_ohm || special != Special::zero) return share;
  double chance = 0.7 * share;
  for (const Range& range : claim.ranges) {
    chance += 0.3 * range.share * range_mass(trait, range, claim.verify, settings, -infinity, 0.3);
  }
  return chance;
}

namespace {

int specials_allowed(const Trait& trait) {
  return static_cast<int>(std::count(trait.allows.begin(), trait.allows.end(), true));
}

}  // namespace

double uniform_number(const Trait& trait, double low, double high) {
  const double from = on_axis(trait, trait.low);
  const double to = on_axis(trait, trait.high);
  const double numbers = specials_allowed(trait) == 0 ? 1.0 : 0.7;
  const double inside = std::min(on_axis(trait, high), to) - std::max(on_axis(trait, low), from);
  return numbers * std::max(0.0, inside) / (to - from);
}

double uniform_special(const Trait& trait, Special special) {
  if (!trait.allows[static_cast<std::size_t>(special)]) return 0.0;
  return 0.3 / specials_allowed(trait);
}

double Items::stray(const std::string& item) const {
  double total = 0.0;
  for (const auto& entry : frequency) total += entry.second;
  const auto found = frequency.find(item);
  const double share = found == frequency.end() ? 0.0 : found->second / total;
  return 0.7 * share + 0.3 / (static_cast<double>(frequency.size()) + 1.0);
}

namespace {

bool letters_alike(char a, char b) {
  static const std::vector<std::string> pairs = {"B8", "EF", "DO", "O0", "I1", "LI",
                                                 "S5", "A4", "BE", "PF", "WV", "CO"};
  return std::any_of(pairs.begin(), pairs.end(), [&](const std::string& pair) {
    return (pair[0] == a && pair[1] == b) || (pair[0] == b && pair[1] == a);
  });
}

double letter_reported(const std::string& item, const std::string& seen) {
  if (item == seen) return 0.95;
  if (item.size() != seen.size()) return 0.0;
  int worn = 0;
  for (std::size_t i = 0; i < item.size(); ++i) {
    if (item[i] == seen[i]) continue;
    if (!letters_alike(item[i], seen[i])) return 0.0;
    ++worn;
  }
  return worn == 1 ? 0.015 : 0.0;
}

// One colour word, no tracer.
double word_reported(const knowledge::Knowledge& knowledge, const std::string& word, const std::string& seen) {
  std::map<std::string, double> chances;
  chances["dark"] = knowledge.dark_chance;
  double kept = 1.0 - knowledge.dark_chance;
  for (const auto& colour : knowledge.colours) {
    if (colour.id != word) continue;
    for (const auto& [other, chance] : colour.becomes) {
      chances[knowledge.colours[static_cast<std::size_t>(other)].id] = chance;
      kept -= chance;
    }
  }
  if (word != "dark") chances[word] = kept;  // no lead is made "dark"
  const auto found = chances.find(seen);
  return found == chances.end() ? 0.0 : found->second;
}

std::pair<std::string, std::string> words_of(const std::string& lead) {
  const auto slash = lead.find('/');
  if (slash == std::string::npos) return {lead, ""};
  return {lead.substr(0, slash), lead.substr(slash + 1)};
}

double lead_reported(const knowledge::Knowledge& knowledge, const std::string& lead, const std::string& seen) {
  const auto [base, tracer] = words_of(lead);
  const auto [seen_base, seen_tracer] = words_of(seen);
  const auto word = [&](const std::string& a, const std::string& b) { return word_reported(knowledge, a, b); };
  const double colours = static_cast<double>(knowledge.colours.size());
  if (tracer.empty() && seen_tracer.empty()) return word(base, seen_base) * 0.99;
  if (tracer.empty()) return word(base, seen_base) * 0.01 / colours;
  if (seen_base == "dark") return seen_tracer.empty() ? word(base, "dark") : 0.0;
  if (seen_tracer.empty()) return knowledge.tracer_lost * word(base, seen_base);
  const double as_it_is = word(base, seen_base) * word(tracer, seen_tracer);
  const double swapped = word(tracer, seen_base) * word(base, seen_tracer);
  return (1.0 - knowledge.tracer_lost) * (0.92 * as_it_is + 0.08 * swapped);
}

double orderings_of_equals(const std::vector<std::string>& items) {
  std::map<std::string, int> count;
  double product = 1.0;
  for (const auto& item : items) product *= ++count[item];
  return product;
}

}  // namespace

double Items::reported(const std::string& item, const std::string& seen) const {
  return kind == knowledge::SetItems::letters ? letter_reported(item, seen) : lead_reported(*knowledge, item, seen);
}

double set_chance(const Items& items, const inference::Settings& settings, const std::vector<std::string>& expected,
                  const std::vector<std::string>& seen, bool complete) {
  const double there = complete ? 1.0 - settings.set_missing : settings.set_mention;
  std::vector<bool> explained(seen.size(), false);
  std::function<double(std::size_t)> ways = [&](std::size_t i) -> double {
    if (i == expected.size()) {
      double strays = std::exp(-settings.set_extra);
      for (std::size_t j = 0; j < seen.size(); ++j) {
        if (!explained[j]) strays *= settings.set_extra * items.stray(seen[j]);
      }
      return strays;
    }
    double sum = (1.0 - there) * ways(i + 1);
    for (std::size_t j = 0; j < seen.size(); ++j) {
      if (explained[j]) continue;
      explained[j] = true;
      sum += there * items.reported(expected[i], seen[j]) * ways(i + 1);
      explained[j] = false;
    }
    return sum;
  };
  return ways(0) / orderings_of_equals(seen);
}

double uniform_set(const Items& items, const std::vector<std::string>& seen) {
  if (seen.empty()) return 0.4;
  const double n = static_cast<double>(seen.size());
  double chance = 0.6 * std::pow(0.5, n) * std::tgamma(n + 1.0) / orderings_of_equals(seen);
  for (const auto& item : seen) chance *= items.stray(item);
  return chance;
}

}  // namespace loomkey::oracle
