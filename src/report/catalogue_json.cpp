#include "report/catalogue_json.h"

#include <nlohmann/json.hpp>

#include "report/finding_words.h"
#include "report/json_numbers.h"
#include "report/question_text.h"
#include "report/words.h"

namespace loomkey::report {

using knowledge::Claim;
using knowledge::Layer;
using knowledge::Part;
using knowledge::Trait;
using knowledge::TraitKind;
using Json = nlohmann::ordered_json;

namespace {

const Part& part_at(const Knowledge& knowledge, int part) { return knowledge.parts[static_cast<std::size_t>(part)]; }
const Trait& trait_at(const Knowledge& knowledge, int trait) {
  return knowledge.traits[static_cast<std::size_t>(trait)];
}

std::string dumped(const Json& json) { return json.dump(2, ' ', true, Json::error_handler_t::replace) + "\n"; }

Json summary(const Knowledge& knowledge, const Part& part) {
  return {
      {"part", part.id},
      {"name", part.name},
      {"family", part.family < 0 ? Json(nullptr) : Json(knowledge.families[static_cast<std::size_t>(part.family)].id)},
      {"advice", part.advice < 0 ? Json(nullptr) : Json(knowledge.advice[static_cast<std::size_t>(part.advice)].id)}};
}

Json claim_json(const Knowledge& knowledge, const Claim& claim, int default_basis) {
  const Trait& trait = trait_at(knowledge, claim.trait);
  Json out = {{"trait", trait.id}, {"name", trait.name}, {"words", claim_words(trait, claim)}};
  Json states = Json::object();
  for (std::size_t s = 0; s < claim.states.size() && s < trait.states.size(); ++s) {
    if (claim.states[s] > 0.0) states[trait.states[s].id] = shown_weight(claim.states[s]);
  }
  Json special = Json::object();
  for (std::size_t s = 0; s < knowledge::special_count; ++s) {
    if (claim.special[s] > 0.0) special[knowledge::special_ids[s]] = shown_weight(claim.special[s]);
  }
  Json ranges = Json::array();
  for (const auto& range : claim.ranges) {
    ranges.push_back({{"low", range.low}, {"high", range.high}, {"share", shown_weight(range.share)}});
  }
  Json sets = Json::array();
  for (const auto& set : claim.sets) sets.push_back({{"items", set.items}, {"share", shown_weight(set.share)}});
  if (trait.kind == TraitKind::choice) out["states"] = std::move(states);
  if (trait.kind == TraitKind::number) {
    out["ranges"] = std::move(ranges);
    out["special"] = std::move(special);
    out["unit"] = trait.unit;
  }
  if (trait.kind == TraitKind::set) out["sets"] = std::move(sets);
  out["verify"] = claim.verify;
  out["basis"] = basis_words(knowledge, claim.basis < 0 ? default_basis : claim.basis);
  return out;
}

Json claims_json(const Knowledge& knowledge, int part) {
  Json out = Json::array();
  for (int t = 0; t < static_cast<int>(knowledge.traits.size()); ++t) {
    const Claim* claim = knowledge.claim(part, 0, t);
    if (claim == nullptr) continue;
    Json entry = claim_json(knowledge, *claim, part_at(knowledge, part).basis);
    const auto& silent = trait_at(knowledge, t).unless_stated;
    entry["stated"] = !(silent && claim == &*silent);
    out.push_back(std::move(entry));
  }
  return out;
}

Json conditions_json(const Knowledge& knowledge, const Part& part) {
  Json out = Json::array();
  for (const auto& condition : part.conditions) {
    Json symptoms = Json::array();
    for (const int s : condition.symptoms) symptoms.push_back(knowledge.symptoms[static_cast<std::size_t>(s)].id);
    Json claims = Json::array();
    for (const Claim& claim : condition.claims) claims.push_back(claim_json(knowledge, claim, part.basis));
    out.push_back({{"condition", condition.id},
                   {"name", condition.name},
                   {"sees", condition.sees},
                   {"share", shown_weight(condition.share)},
                   {"symptoms", std::move(symptoms)},
                   {"claims", std::move(claims)}});
  }
  return out;
}

Json advice_json(const Knowledge& knowledge, const Part& part) {
  if (part.advice < 0) return nullptr;
  const auto& advice = knowledge.advice[static_cast<std::size_t>(part.advice)];
  Json cautions = Json::array();
  for (const int index : advice.cautions) {
    const auto& caution = knowledge.cautions[static_cast<std::size_t>(index)];
    cautions.push_back({{"id", caution.id}, {"hazard", caution.hazard}, {"text", caution.text}});
  }
  Json substitutes = Json::array();
  for (const auto& substitute : advice.substitutes) {
    substitutes.push_back({{"what", substitute.what}, {"when", substitute.when}, {"not_when", substitute.not_when}});
  }
  return {{"title", advice.title},
          {"function", advice.function},
          {"needed", advice.needed},
          {"price_of_error", price_words(advice.price)},
          {"cautions", std::move(cautions)},
          {"substitutes", std::move(substitutes)},
          {"basis", basis_words(knowledge, advice.basis)}};
}

Json look_alikes_json(const Knowledge& knowledge, const Part& part) {
  Json out = Json::array();
  for (const auto& look_alike : part.look_alikes) {
    out.push_back({{"part", part_at(knowledge, look_alike.part).id},
                   {"tell", look_alike.tell},
                   {"trait", look_alike.trait < 0 ? Json(nullptr) : Json(trait_at(knowledge, look_alike.trait).id)}});
  }
  return out;
}

Json confusions_json(const Knowledge& knowledge, int part) {
  Json out = Json::array();
  for (const auto& set : knowledge.confusions) {
    if (!set.holds(part)) continue;
    Json parts = Json::array();
    for (const int p : set.parts) parts.push_back(part_at(knowledge, p).id);
    Json traits = Json::array();
    for (const int t : set.traits) traits.push_back(trait_at(knowledge, t).id);
    Json twins = Json::array();
    for (const auto& [a, b] : set.twins) {
      if (a == part || b == part) twins.push_back(part_at(knowledge, a == part ? b : a).id);
    }
    out.push_back({{"set", set.id},
                   {"name", set.name},
                   {"parts", std::move(parts)},
                   {"traits", std::move(traits)},
                   {"tell", set.tell},
                   {"twins", std::move(twins)}});
  }
  return out;
}

Json checks_json(const Knowledge& knowledge, const Part& part) {
  Json out = Json::array();
  for (const auto& check : part.checks) {
    out.push_back({{"do", check.how},
                   {"good", check.good},
                   {"bad", check.bad},
                   {"caveat", check.caveat},
                   {"basis", basis_words(knowledge, check.basis < 0 ? part.basis : check.basis)}});
  }
  return out;
}

Json trait_json(const Knowledge& knowledge, const Trait& trait) {
  const auto effort = static_cast<std::size_t>(trait.effort);
  Json out = {
      {"trait", trait.id},
      {"name", trait.name},
      {"ask", trait.ask},
      {"how", trait.how},
      {"kind", trait.kind == TraitKind::choice   ? "choice"
               : trait.kind == TraitKind::number ? "number"
                                                 : "set"},
      {"layer", trait.layer == Layer::look ? "look" : "meter"},
      {"effort", effort < knowledge.efforts.size() ? Json(knowledge.efforts[effort].id) : Json(nullptr)},
      {"group", trait.group < 0 ? Json(nullptr) : Json(knowledge.groups[static_cast<std::size_t>(trait.group)].id)},
      {"hazard", trait.hazard},
      {"write", how_to_write(knowledge, trait)}};
  Json values = Json::array();
  for (const auto& state : trait.states) values.push_back({{"value", state.id}, {"name", state.name}});
  for (std::size_t s = 0; s < knowledge::special_count; ++s) {
    if (trait.kind != TraitKind::number || !trait.allows[s]) continue;
    values.push_back({{"value", knowledge::special_ids[s]}, {"name", knowledge::special_names[s]}});
  }
  out["values"] = std::move(values);
  if (trait.kind == TraitKind::number) {
    out["unit"] = trait.unit;
    out["low"] = trait.low;
    out["high"] = trait.high;
  }
  if (trait.kind == TraitKind::set) {
    out["items"] = trait.items == knowledge::SetItems::colours ? "colours" : "letters";
  }
  return out;
}

}  // namespace

std::string part_json(const Knowledge& knowledge, int index) {
  const Part& part = part_at(knowledge, index);
  Json out = {{"schema", "loomkey/part/1"}, {"catalogue", knowledge.hash}};
  out.update(summary(knowledge, part));
  Json foreign = Json::array();
  for (const auto& [language, term] : part.foreign) foreign.push_back({{"language", language}, {"term", term}});
  Json works_with = Json::array();
  for (const std::string& name : partner_names(knowledge, part)) works_with.push_back(name);
  out["aliases"] = part.aliases;
  out["wrongly_called"] = part.called;
  out["foreign"] = std::move(foreign);
  out["successors"] = part.successors;
  out["era"] = {{"first", part.first_year}, {"last", part.last_year}};
  out["retrofit"] = part.retrofit;
  out["origins"] = part.origins;
  out["markets"] = part.markets;
  out["volts"] = part.volts;
  out["cylinders"] = part.cylinders;
  out["where"] = part.where;
  out["strays"] = part.strays;
  out["works_with"] = std::move(works_with);
  out["redundant_when"] = part.redundant_when;
  out["note"] = part.note;
  out["advice_record"] = advice_json(knowledge, part);
  out["claims"] = claims_json(knowledge, index);
  out["conditions"] = conditions_json(knowledge, part);
  out["checks"] = checks_json(knowledge, part);
  out["look_alikes"] = look_alikes_json(knowledge, part);
  out["confusion_sets"] = confusions_json(knowledge, index);
  out["basis"] = basis_words(knowledge, part.basis);
  out["verify"] = part.verify;
  return dumped(out);
}

std::string parts_json(const Knowledge& knowledge, const std::vector<int>& parts) {
  Json list = Json::array();
  for (const int p : parts) {
    const Part& part = part_at(knowledge, p);
    Json entry = summary(knowledge, part);
    entry["aliases"] = part.aliases;
    entry["era"] = {{"first", part.first_year}, {"last", part.last_year}};
    list.push_back(std::move(entry));
  }
  return dumped({{"schema", "loomkey/parts/1"}, {"catalogue", knowledge.hash}, {"parts", std::move(list)}});
}

std::string comparison_json(const Knowledge& knowledge, const std::vector<int>& parts,
                            const std::vector<bench::Separation>& separations) {
  Json compared = Json::array();
  Json tells = Json::array();
  for (const int p : parts) {
    compared.push_back(summary(knowledge, part_at(knowledge, p)));
    for (const auto& look_alike : part_at(knowledge, p).look_alikes) {
      for (const int other : parts) {
        if (look_alike.part != other) continue;
        tells.push_back({{"part", part_at(knowledge, p).id},
                         {"look_alike", part_at(knowledge, other).id},
                         {"tell", look_alike.tell}});
      }
    }
  }
  Json list = Json::array();
  for (const auto& separation : separations) {
    Json claims = Json::array();
    for (const int p : parts) {
      const Claim* claim = knowledge.claim(p, 0, separation.trait);
      claims.push_back(claim == nullptr ? Json(nullptr)
                                        : Json(claim_words(trait_at(knowledge, separation.trait), *claim)));
    }
    list.push_back({{"trait", trait_at(knowledge, separation.trait).id},
                    {"name", trait_at(knowledge, separation.trait).name},
                    {"bits", shown_weight(separation.bits)},
                    {"decibans", shown_weight(separation.decibans)},
                    {"claims", std::move(claims)}});
  }
  return dumped({{"schema", "loomkey/comparison/1"},
                 {"catalogue", knowledge.hash},
                 {"parts", std::move(compared)},
                 {"tells", std::move(tells)},
                 {"separations", std::move(list)}});
}

std::string traits_json(const Knowledge& knowledge, const std::vector<int>& traits) {
  Json list = Json::array();
  for (const int t : traits) list.push_back(trait_json(knowledge, trait_at(knowledge, t)));
  return dumped({{"schema", "loomkey/traits/1"}, {"catalogue", knowledge.hash}, {"traits", std::move(list)}});
}

}  // namespace loomkey::report
