#include "bench/diff_fields.h"

#include <array>
#include <charconv>

#include "base/text.h"

namespace loomkey::bench {

using namespace knowledge;

namespace {

using Words = std::vector<std::string>;

template <typename Items>
std::string id_at(const Items& items, int index) {
  return index < 0 ? "" : items[static_cast<std::size_t>(index)].id;
}

template <typename Items>
std::string ids_at(const Items& items, const std::vector<int>& indices) {
  Words out;
  for (const int index : indices) out.push_back(id_at(items, index));
  return join(out, ", ");
}

std::string whole_numbers(const std::vector<int>& numbers) {
  Words out;
  for (const int number : numbers) out.push_back(std::to_string(number));
  return join(out, ", ");
}

std::string exact_numbers(const std::vector<double>& numbers) {
  Words out;
  for (const double number : numbers) out.push_back(exact(number));
  return join(out, ", ");
}

std::string yes_no(bool value) { return value ? "yes" : "no"; }

std::string brought_in(const Part& part) {
  for (const auto& [word, weight] : brought_in_words) {
    if (part.brought_in == weight) return word;
  }
  return exact(part.brought_in);
}

// Seven digits are enough to see any change that was meant.
std::string per_cent(double share) {
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), static_cast<float>(share * 100.0));
  return std::string(text.data(), end.ptr) + " %";
}

std::string price_id(Price price) {
  constexpr std::array<const char*, 5> ids = {"harmless", "money", "burnt-part", "burnt-loom", "injury"};
  return ids[static_cast<std::size_t>(price)];
}

std::string partners(const Knowledge& k, const Part& part) {
  Words out;
  for (const Partner& partner : part.works_with) {
    out.push_back(partner.part >= 0 ? id_at(k.parts, partner.part) : "family:" + id_at(k.families, partner.family));
  }
  return join(out, ", ");
}

// Numbered, as they have no ids.
void add_checks(const Knowledge& k, const Part& part, Fields& out) {
  for (std::size_t i = 0; i < part.checks.size(); ++i) {
    const MeterCheck& check = part.checks[i];
    const std::string which = "check " + std::to_string(i + 1);
    out.push_back({which, check.how});
    out.push_back({which + ", good", check.good});
    out.push_back({which + ", bad", check.bad});
    out.push_back({which + ", caveat", check.caveat});
    out.push_back({which + ", basis", id_at(k.bases, check.basis)});
  }
}

void add_look_alikes(const Knowledge& k, const Part& part, Fields& out) {
  Words order;
  for (const LookAlike& look_alike : part.look_alikes) {
    const std::string other = id_at(k.parts, look_alike.part);
    order.push_back(other);
    out.push_back({"tell from " + other, look_alike.tell});
    out.push_back({"tell from " + other + ", trait", id_at(k.traits, look_alike.trait)});
  }
  out.push_back({"mistaken for", join(order, ", ")});
}

void add_substitutes(const Knowledge& k, const Advice& advice, Fields& out) {
  for (std::size_t i = 0; i < advice.substitutes.size(); ++i) {
    const Substitute& substitute = advice.substitutes[i];
    const std::string which = "substitute " + std::to_string(i + 1);
    out.push_back({which, substitute.what});
    out.push_back({which + ", if", join(substitute.when, "; ")});
    out.push_back({which + ", not if", join(substitute.not_when, "; ")});
    out.push_back({which + ", connect", substitute.connect});
    out.push_back({which + ", connect with positive earth", substitute.connect_positive});
    out.push_back({which + ", connect with negative earth", substitute.connect_negative});
    out.push_back({which + ", basis", id_at(k.bases, substitute.basis)});
  }
}

std::string foreign_terms(const Part& part) {
  Words out;
  for (const auto& [language, term] : part.foreign) out.push_back(language + ": " + term);
  return join(out, ", ");
}

// "can as box 0.08", for every slip.
std::string slips(const Trait& trait) {
  Words out;
  for (std::size_t s = 0; s < trait.seen.size(); ++s) {
    for (std::size_t o = 0; o < trait.seen[s].size(); ++o) {
      if (s == o || trait.seen[s][o] == 0.0) continue;
      out.push_back(trait.states[s].id + " as " + trait.states[o].id + " " + exact(trait.seen[s][o]));
    }
  }
  return join(out, ", ");
}

void add_number_fields(const Trait& trait, Fields& out) {
  if (trait.kind != TraitKind::number) return;
  Words specials;
  for (std::size_t i = 0; i < special_count; ++i) {
    if (trait.allows[i]) specials.emplace_back(special_ids[i]);
  }
  out.push_back({"unit", trait.unit});
  out.push_back({"scale", trait.log_scale ? "log" : "linear"});
  out.push_back({"range", exact(trait.low) + " to " + exact(trait.high)});
  out.push_back({"shoulder of a range", exact(trait.soft)});
  out.push_back({"observers' error", exact(trait.relative_error) + " of the value and " + exact(trait.absolute_error)});
  out.push_back({"besides figures", join(specials, ", ")});
  out.push_back({"meter leads count", yes_no(trait.low_ohm)});
}

}  // namespace

std::string exact(double value) {
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value);
  return {text.data(), end.ptr};
}

std::string exact_claim(const Knowledge& k, const Claim& claim) {
  const Trait& trait = k.traits[static_cast<std::size_t>(claim.trait)];
  Words out;
  for (std::size_t s = 0; s < claim.states.size(); ++s) {
    if (claim.states[s] != 0.0) out.push_back(trait.states[s].id + " " + exact(claim.states[s]));
  }
  for (const Range& range : claim.ranges) {
    out.push_back(exact(range.low) + " to " + exact(range.high) + " " + exact(range.share));
  }
  for (std::size_t i = 0; i < special_count; ++i) {
    if (claim.special[i] != 0.0) out.push_back(std::string(special_ids[i]) + " " + exact(claim.special[i]));
  }
  for (const Alternative& set : claim.sets) {
    out.push_back("(" + join(set.items, " ") + ") " + exact(set.share));
  }
  if (claim.verify) out.emplace_back("verify");
  if (claim.basis >= 0) out.push_back("basis " + id_at(k.bases, claim.basis));
  return join(out, ", ");
}

Fields fields_of(const Knowledge& k, const Part& part) {
  Fields out = {{"name", part.name},
                {"family", id_at(k.families, part.family)},
                {"advice", id_at(k.advice, part.advice)},
                {"also called", join(part.aliases, ", ")},
                {"called abroad", foreign_terms(part)},
                {"wrongly called", join(part.called, ", ")},
                {"in use", std::to_string(part.first_year) + " to " + std::to_string(part.last_year)},
                {"fitted to older bikes", yes_no(part.retrofit)},
                {"how often it is brought in", brought_in(part)},
                {"built into bikes", join(part.origins, ", ")},
                {"markets", join(part.markets, ", ")},
                {"volts", whole_numbers(part.volts)},
                {"cylinders", whole_numbers(part.cylinders)},
                {"usually sits", part.where},
                {"strays to", part.strays},
                {"works with", partners(k, part)},
                {"not needed when", part.redundant_when},
                {"note", part.note},
                {"basis", id_at(k.bases, part.basis)},
                {"replaced by", join(part.successors, ", ")},
                {"to be verified", join(part.verify, ", ")}};
  add_checks(k, part, out);
  add_look_alikes(k, part, out);
  return out;
}

Fields fields_of(const Knowledge& k, const Condition& condition) {
  return {{"name", condition.name},
          {"what the rider sees", condition.sees},
          {"share", per_cent(condition.share)},
          {"goes with", ids_at(k.symptoms, condition.symptoms)}};
}

Fields fields_of(const Knowledge& k, const Advice& advice) {
  Fields out = {{"title", advice.title},
                {"function", advice.function},
                {"is it needed", advice.needed},
                {"price of error", price_id(advice.price)},
                {"harmless if it is", ids_at(k.advice, advice.harmless_if)},
                {"cautions", ids_at(k.cautions, advice.cautions)},
                {"basis", id_at(k.bases, advice.basis)}};
  add_substitutes(k, advice, out);
  return out;
}

Fields fields_of(const Knowledge&, const Family& family) { return {{"name", family.name}, {"does", family.does}}; }

Fields fields_of(const Knowledge& k, const ConfusionSet& set) {
  Words twins;
  for (const auto& [a, b] : set.twins) twins.push_back(id_at(k.parts, a) + " and " + id_at(k.parts, b));
  return {{"name", set.name},
          {"parts", ids_at(k.parts, set.parts)},
          {"traits", ids_at(k.traits, set.traits)},
          {"what tells them apart", set.tell},
          {"twins", join(twins, ", ")}};
}

Fields fields_of(const Knowledge& k, const Trait& trait) {
  constexpr std::array<const char*, 3> kinds = {"choice", "number", "set"};
  Words states;
  for (const State& state : trait.states) states.push_back(state.id + ": " + state.name);
  Fields out = {{"name", trait.name},
                {"question", trait.ask},
                {"how to look", trait.how},
                {"kind", kinds[static_cast<std::size_t>(trait.kind)]},
                {"read with", trait.layer == Layer::meter ? "a meter" : "eyes, hands and simple tools"},
                {"effort", id_at(k.efforts, trait.effort)},
                {"weighed with", id_at(k.groups, trait.group)},
                {"hazard", trait.hazard},
                {"needs power or a running engine", yes_no(trait.runs)},
                {"answers", join(states, "; ")},
                {"mistaken", slips(trait)},
                {"asked with the letters", join(trait.asked_with, ", ")},
                {"if a part is silent", trait.unless_stated ? exact_claim(k, *trait.unless_stated) : ""}};
  if (trait.kind == TraitKind::set) {
    out.push_back({"items", trait.items == SetItems::colours ? "colours" : "letters"});
    out.push_back({"the empty set", trait.none_name});
  }
  add_number_fields(trait, out);
  return out;
}

Fields fields_of(const Knowledge& k, const Effort& effort) {
  return {{"name", effort.name}, {"cost", exact(effort.cost)}, {"tool", id_at(k.tools, effort.tool)}};
}

Fields fields_of(const Knowledge&, const Tool& tool) {
  return {{"name", tool.name}, {"cost of fetching it", exact(tool.fetch)}};
}

Fields fields_of(const Knowledge&, const Group& group) {
  return {{"name", group.name},
          {"chance that all of it was changed", exact(group.switched)},
          {"share that only repeats", exact(group.overlap)}};
}

Fields fields_of(const Knowledge& k, const Colour& colour) {
  Words out;
  for (const auto& [other, chance] : colour.becomes) out.push_back(id_at(k.colours, other) + " " + exact(chance));
  return {{"reported as", join(out, ", ")}};
}

Fields fields_of(const Knowledge&, const FamiliarThing& thing) {
  return {{"names", join(thing.names, ", ")},
          {"size in mm", exact_numbers(thing.size)},
          {"about as big", exact(thing.spread)}};
}

Fields fields_of(const Knowledge&, const Symptom& symptom) { return {{"name", symptom.name}}; }

Fields fields_of(const Knowledge&, const Basis& basis) {
  constexpr std::array<const char*, 4> kinds = {"standard", "handbook", "practice", "memory"};
  return {{"text", basis.text}, {"kind", kinds[static_cast<std::size_t>(basis.kind)]}};
}

Fields fields_of(const Knowledge&, const Caution& caution) {
  return {{"text", caution.text}, {"hazard", caution.hazard}, {"rank", std::to_string(caution.order)}};
}

}  // namespace loomkey::bench
