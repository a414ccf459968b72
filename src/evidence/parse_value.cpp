#include "evidence/parse_value.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "evidence/bike.h"
#include "evidence/parsed.h"
#include "evidence/size.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Knowledge;
using knowledge::TraitKind;

constexpr std::size_t longest_value = 500;

constexpr auto pseudo = std::to_array<PseudoTrait>({
    {"size", "all measures at once: 60x40x25, 35 dia x 45, 2 1/2 x 1 1/2 inch, like a matchbox"},
    {"diameter", "the diameter of a round part, the same as size_mid"},
    {"length", "the length of a part, the same as size_long"},
});

std::string name_form(std::string_view name) {
  std::string form = to_lower(trim(name));
  std::replace(form.begin(), form.end(), '-', '_');
  std::replace(form.begin(), form.end(), ' ', '_');
  return form;
}

int trait_named(const Knowledge& knowledge, std::string_view name) {
  const int trait = knowledge.trait(name_form(name));
  return trait >= 0 ? trait : knowledge.trait(trim(name));
}

bool has_sizes(const Knowledge& knowledge) {
  const auto traits = size_traits(knowledge);
  return std::none_of(traits.begin(), traits.end(), [](int trait) { return trait < 0; });
}

tl::unexpected<Error> unknown_name(const Knowledge& knowledge, std::string_view name) {
  for (const BikeKey& key : bike_keys()) {
    if (key.name == name_form(name)) {
      return fail(ErrorKind::input,
                  quoted(name) + " says something of the bike, not of the part: it belongs to the bike keys");
    }
  }
  std::vector<std::string> known;
  for (const auto& trait : knowledge.traits) known.push_back(trait.id);
  if (has_sizes(knowledge)) {
    for (const PseudoTrait& entry : pseudo) known.emplace_back(entry.name);
  }
  const std::string near = did_you_mean(name_form(name), known);
  return fail(ErrorKind::input,
              "unknown trait " + quoted(name) + "." + (near.empty() ? " Known traits: " + join(known, ", ") : near));
}

Result<Expanded> single(const Knowledge& knowledge, int trait, std::string_view text) {
  auto parsed = parse_noted(knowledge, trait, text);
  if (!parsed) return tl::unexpected(parsed.error());
  Expanded expanded;
  for (const std::string& note : parsed->notes) {
    expanded.notes.push_back(knowledge.traits[static_cast<std::size_t>(trait)].id + ": " + note);
  }
  Reading reading;
  reading.trait = trait;
  reading.value = std::move(parsed->value);
  reading.text = trim(text);
  expanded.readings.push_back(std::move(reading));
  return expanded;
}

double middle(const Reading& reading) { return (reading.value.interval.low + reading.value.interval.high) / 2.0; }

}  // namespace

std::vector<PseudoTrait> pseudo_traits() { return {pseudo.begin(), pseudo.end()}; }

Result<Parsed> parse_noted(const Knowledge& knowledge, int trait_index, std::string_view text) {
  const auto& trait = knowledge.traits[static_cast<std::size_t>(trait_index)];
  if (text.size() > longest_value) {
    return fail(ErrorKind::input,
                "the answer to '" + trait.name + "' is longer than " + std::to_string(longest_value) + " characters");
  }
  switch (trait.kind) {
    case TraitKind::choice: {
      auto value = parse_choice(trait, text);
      if (!value) return tl::unexpected(value.error());
      return Parsed{std::move(*value), {}};
    }
    case TraitKind::number:
      return parse_number(knowledge, trait_index, text);
    case TraitKind::set:
      return parse_set(knowledge, trait_index, text);
  }
  return fail(ErrorKind::catalogue, "'" + trait.name + "' is of an unknown kind");
}

Result<Value> parse_value(const Knowledge& knowledge, int trait, std::string_view text) {
  auto parsed = parse_noted(knowledge, trait, text);
  if (!parsed) return tl::unexpected(parsed.error());
  return std::move(parsed->value);
}

bool is_assignable(const Knowledge& knowledge, std::string_view name) {
  if (trait_named(knowledge, name) >= 0) return true;
  const std::string form = name_form(name);
  return has_sizes(knowledge) &&
         std::any_of(pseudo.begin(), pseudo.end(), [&](const PseudoTrait& entry) { return entry.name == form; });
}

Result<Expanded> parse_assignment(const Knowledge& knowledge, std::string_view name, std::string_view value) {
  if (!is_assignable(knowledge, name)) return unknown_name(knowledge, name);
  const int trait = trait_named(knowledge, name);
  if (trait >= 0) return single(knowledge, trait, value);
  const std::string form = name_form(name);
  if (form == "size") return parse_size(knowledge, value);
  return single(knowledge, size_traits(knowledge)[form == "diameter" ? 1 : 0], value);
}

Result<std::vector<Reading>> round_size(const Knowledge& knowledge, const Reading& diameter, const Reading& length) {
  if (diameter.value.kind != Value::Kind::interval || length.value.kind != Value::Kind::interval) {
    return std::vector<Reading>{length, diameter};
  }
  std::vector<Reading> sorted = {diameter, diameter, length};
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Reading& a, const Reading& b) { return middle(a) > middle(b); });
  const auto sizes = size_traits(knowledge);
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    sorted[i].trait = sizes[i];
    const auto& trait = knowledge.traits[static_cast<std::size_t>(sizes[i])];
    const auto checked = within_limits(trait, sorted[i].value.interval, false);
    if (!checked) return tl::unexpected(checked.error());
  }
  return sorted;
}

Result<Expanded> parse_assignments(const Knowledge& knowledge, const std::vector<Assignment>& assignments) {
  Expanded all;
  std::optional<Reading> diameter;
  std::optional<Reading> length;
  for (const Assignment& assignment : assignments) {
    auto expanded = parse_assignment(knowledge, assignment.name, assignment.value);
    if (!expanded) return expanded;
    const std::string name = name_form(assignment.name);
    if (name == "diameter" && has_sizes(knowledge)) {
      diameter = expanded->readings[0];
    } else if (name == "length" && has_sizes(knowledge)) {
      length = expanded->readings[0];
    } else {
      all.readings.insert(all.readings.end(), expanded->readings.begin(), expanded->readings.end());
    }
    all.notes.insert(all.notes.end(), expanded->notes.begin(), expanded->notes.end());
  }
  if (diameter && length) {
    const auto both = round_size(knowledge, *diameter, *length);
    if (!both) return tl::unexpected(both.error());
    all.readings.insert(all.readings.end(), both->begin(), both->end());
  } else if (diameter || length) {
    all.readings.push_back(diameter ? *diameter : *length);
  }
  return all;
}

}  // namespace loomkey::evidence
