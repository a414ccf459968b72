#include <algorithm>
#include <array>
#include <optional>

#include "electrical/number_text.h"
#include "electrical/quantity.h"
#include "evidence/familiar.h"
#include "evidence/parsed.h"
#include "evidence/size.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Knowledge;
using knowledge::Special;
using knowledge::Trait;

constexpr auto over_range_words = std::to_array<std::string_view>(
    {"ol", "o l", "o.l", "0l", "0.l", "over range", "overrange", "over limit", "overload", "open", "open circuit",
     "infinite", "infinity", "inf", "no continuity", "no path"});
constexpr auto zero_words =
    std::to_array<std::string_view>({"zero", "nought", "short", "shorted", "dead short", "short circuit"});
constexpr auto jumps_words = std::to_array<std::string_view>(
    {"jumps", "jumping", "jumpy", "unstable", "unsteady", "erratic", "wanders", "never settles", "will not settle"});
constexpr auto not_applicable_words = std::to_array<std::string_view>(
    {"na", "n/a", "n.a", "n a", "not applicable", "does not apply", "doesn't apply", "none"});

std::optional<Special> special_of(const std::string& words) {
  for (std::size_t i = 0; i < knowledge::special_count; ++i) {
    if (words == words_of(knowledge::special_names[i])) return static_cast<Special>(i);
  }
  if (is_one_of(over_range_words, words)) return Special::over_range;
  if (is_one_of(zero_words, words)) return Special::zero;
  if (is_one_of(jumps_words, words)) return Special::jumps;
  if (is_one_of(not_applicable_words, words)) return Special::does_not_apply;
  return std::nullopt;
}

bool allows(const Trait& trait, Special special) { return trait.allows[static_cast<std::size_t>(special)]; }

// "; or OL, zero"
std::string other_answers(const Trait& trait) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < knowledge::special_count; ++i) {
    if (trait.allows[i]) names.emplace_back(knowledge::special_names[i]);
  }
  names.emplace_back("cannot tell");
  return "; or " + either(names);
}

std::string limits_of(const Trait& trait) {
  return electrical::short_number(trait.low) + " to " + electrical::short_number(trait.high) + " " + trait.unit;
}

Value special_value(Special special) {
  Value value;
  value.kind = Value::Kind::special;
  value.special = special;
  return value;
}

}  // namespace

Result<Parsed> within_limits(const Trait& trait, Interval interval, bool approximate) {
  const std::string shown = electrical::short_number(interval.low) +
                            (interval.low == interval.high ? "" : " to " + electrical::short_number(interval.high)) +
                            " " + trait.unit;
  const bool apart = interval.high < trait.low || interval.low > trait.high;
  const bool stretched = approximate || interval.low == 0.0;
  if (apart || (interval.high > trait.high && !approximate) || (interval.low < trait.low && !stretched)) {
    return fail(ErrorKind::input, shown + " is outside what '" + trait.name + "' can be (" + limits_of(trait) + ")" +
                                      (apart && interval.high < trait.low && allows(trait, Special::zero)
                                           ? ": write 'zero' if the meter shows nothing else"
                                           : ""));
  }
  Parsed parsed;
  parsed.value.kind = Value::Kind::interval;
  parsed.value.interval = {std::max(interval.low, trait.low), std::min(interval.high, trait.high)};
  if (parsed.value.interval != interval) {
    parsed.notes.push_back(shown + " is cut to what '" + trait.name + "' can be (" + limits_of(trait) + ")");
  }
  return parsed;
}

Result<Parsed> parse_number(const Knowledge& knowledge, int trait_index, std::string_view text) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(trait_index)];
  const std::string words = words_of(text);
  Parsed parsed;
  if (words.empty()) return fail(ErrorKind::input, "no answer for '" + trait.name + "'");
  if (const auto kind = answer_without_content(words)) {
    parsed.value.kind = *kind;
    return parsed;
  }
  if (const auto special = special_of(words)) {
    if (allows(trait, *special)) {
      parsed.value = special_value(*special);
      return parsed;
    }
    return fail(ErrorKind::input, quoted(text) + " makes no sense for '" + trait.name + "': expected " +
                                      limits_of(trait) + other_answers(trait));
  }
  const auto dimension = electrical::dimension_of(trait.unit);
  if (!dimension) return fail(ErrorKind::catalogue, "'" + trait.name + "' has the unknown unit " + quoted(trait.unit));
  if (const auto measure = size_measure_of(knowledge, trait_index)) {
    if (const auto thing = familiar_size(knowledge, text)) return familiar_measure(knowledge, *thing, *measure);
  }
  const auto measured = electrical::parse_quantity(text, *dimension);
  if (!measured) {
    return fail(measured.error().kind, "'" + trait.name + "': " + measured.error().what + other_answers(trait));
  }
  if (measured->high == 0.0 && allows(trait, Special::zero)) {
    parsed.value = special_value(Special::zero);
    return parsed;
  }
  auto limited = within_limits(trait, {measured->low, measured->high}, measured->approximate);
  const auto& explanation = measured->explanation;
  if (!limited) {
    Error error = limited.error();
    if (!measured->unit_stated) error.what += "; " + explanation;
    return tl::unexpected(error);
  }
  if (!explanation.empty()) limited->notes.insert(limited->notes.begin(), explanation);
  return limited;
}

}  // namespace loomkey::evidence
