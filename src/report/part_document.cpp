#include <algorithm>

#include "base/text.h"
#include "report/catalogue_document.h"
#include "report/finding_words.h"
#include "report/part_sections.h"
#include "report/words.h"

namespace loomkey::report {

using knowledge::Claim;
using knowledge::Layer;
using knowledge::Part;

namespace {

void add_row(KeyValues& list, const std::string& key, const std::string& value) {
  if (!value.empty()) list.rows.emplace_back(key, value);
}

std::string numbers(const std::vector<int>& values, const std::string& unit) {
  std::vector<std::string> out;
  for (const int value : values) out.push_back(std::to_string(value) + unit);
  return listed(out, "or");
}

KeyValues names_of(const Knowledge& knowledge, const Part& part) {
  KeyValues list;
  add_row(list, "id", part.id);
  if (part.family >= 0) {
    const auto& family = knowledge.families[static_cast<std::size_t>(part.family)];
    add_row(list, "family", family.name + (family.does.empty() ? "" : ": " + family.does));
  }
  add_row(list, "also called", join(part.aliases, ", "));
  add_row(list, "wrongly called", join(part.called, ", "));
  std::vector<std::string> foreign;
  for (const auto& [language, term] : part.foreign) foreign.push_back(language + ": " + term);
  add_row(list, "in other languages", join(foreign, ", "));
  add_row(list, "replaced by", join(part.successors, ", "));
  return list;
}

KeyValues place_of(const Knowledge& knowledge, const Part& part) {
  KeyValues list;
  if (part.advice >= 0) {
    const auto& advice = knowledge.advice[static_cast<std::size_t>(part.advice)];
    add_row(list, "function", advice.function);
    add_row(list, "is it needed", advice.needed);
    add_row(list, "price of error",
            "acting on this for another part may cost " + std::string(price_words(advice.price)));
  }
  add_row(list, "not needed when", part.redundant_when);
  add_row(list, "in use", era_words(part) + (part.retrofit ? "; fitted to older bikes too" : ""));
  add_row(list, "built into bikes", join(part.origins, ", "));
  add_row(list, "sold in", join(part.markets, ", "));
  add_row(list, "system", numbers(part.volts, " V"));
  add_row(list, "cylinders", numbers(part.cylinders, ""));
  add_row(list, "usually sits", part.where);
  add_row(list, "strays to", part.strays);
  add_row(list, "works with", join(partner_names(knowledge, part), "; "));
  add_row(list, "note", part.note);
  return list;
}

void add_claims(Document& document, const Knowledge& knowledge, int part, Layer layer, const std::string& title) {
  KeyValues list;
  for (std::size_t t = 0; t < knowledge.traits.size(); ++t) {
    const auto& trait = knowledge.traits[t];
    if (trait.layer != layer) continue;
    const Claim* claim = knowledge.claim(part, 0, static_cast<int>(t));
    // What every silent part is taken to claim would fill the page with "no".
    const bool silent = trait.unless_stated && claim == &*trait.unless_stated;
    if (claim == nullptr || silent) continue;
    list.rows.emplace_back(trait.name, claim_words(trait, *claim));
  }
  if (list.rows.empty()) return;
  document.blocks.push_back(Heading{title});
  document.blocks.push_back(std::move(list));
}

void add_conditions(Document& document, const Knowledge& knowledge, const Part& part) {
  document.blocks.push_back(Heading{"Conditions, as such parts are brought in"});
  for (const auto& condition : part.conditions) {
    KeyValues list;
    add_row(list, condition.name, percent(condition.share));
    add_row(list, "the rider sees", condition.sees);
    std::vector<std::string> symptoms;
    for (const int s : condition.symptoms) symptoms.push_back(knowledge.symptoms[static_cast<std::size_t>(s)].name);
    add_row(list, "goes with", listed(symptoms, "or"));
    for (const Claim& claim : condition.claims) {
      const auto& trait = knowledge.traits[static_cast<std::size_t>(claim.trait)];
      add_row(list, trait.name, claim_words(trait, claim));
    }
    document.blocks.push_back(std::move(list));
  }
}

void add_advice(Document& document, const Knowledge& knowledge, const Part& part) {
  if (part.advice < 0) return;
  const auto& advice = knowledge.advice[static_cast<std::size_t>(part.advice)];
  if (!advice.cautions.empty()) document.blocks.push_back(Heading{"Cautions"});
  for (const int index : advice.cautions) {
    const auto& caution = knowledge.cautions[static_cast<std::size_t>(index)];
    document.blocks.push_back(Note{Note::Kind::caution, sentence(caution.hazard) + ". " + caution.text});
  }
  if (advice.substitutes.empty()) return;
  document.blocks.push_back(Heading{"What may take its place today"});
  for (const auto& substitute : advice.substitutes) {
    KeyValues list;
    add_row(list, "fit", substitute.what);
    add_row(list, "if", join(substitute.when, "; "));
    add_row(list, "not if", join(substitute.not_when, "; "));
    document.blocks.push_back(std::move(list));
  }
  document.blocks.push_back(Note{Note::Kind::note,
                                 "connecting steps depend on the bike: they are shown with a verdict, "
                                 "once the earth has been measured."});
}

void add_confusions(Document& document, const Knowledge& knowledge, int part) {
  KeyValues list;
  for (const auto& set : knowledge.confusions) {
    if (!set.holds(part)) continue;
    std::vector<std::string> others;
    for (const int p : set.parts) {
      if (p != part) others.push_back(knowledge.parts[static_cast<std::size_t>(p)].id);
    }
    add_row(list, set.name, set.tell + " Among them: " + join(others, ", ") + ".");
  }
  if (list.rows.empty()) return;
  document.blocks.push_back(Heading{"Mixed up with, several at a time"});
  document.blocks.push_back(std::move(list));
}

}  // namespace

Document part_document(const Knowledge& knowledge, int index) {
  const Part& part = knowledge.parts[static_cast<std::size_t>(index)];
  Document document;
  document.title = sentence(part.name);
  document.blocks.push_back(names_of(knowledge, part));
  document.blocks.push_back(place_of(knowledge, part));
  add_advice(document, knowledge, part);
  add_claims(document, knowledge, index, Layer::look, "How it looks");
  add_claims(document, knowledge, index, Layer::meter, "What a meter reads on a good one");
  add_conditions(document, knowledge, part);
  if (!part.checks.empty()) document.blocks.push_back(Heading{"How to check it with a meter"});
  add_meter_checks(document, part);
  add_look_alikes(document, knowledge, part);
  add_confusions(document, knowledge, index);
  KeyValues basis = basis_rows(knowledge, part);
  add_row(basis, "catalogue", short_hash(knowledge));
  if (basis.rows.empty()) return document;
  document.blocks.push_back(Heading{"What this rests on"});
  document.blocks.push_back(std::move(basis));
  return document;
}

Document parts_list_document(const Knowledge& knowledge, const std::vector<int>& parts) {
  Document document;
  document.title = "Parts";
  std::vector<int> families;
  for (const int p : parts) {
    const int family = knowledge.parts[static_cast<std::size_t>(p)].family;
    if (std::find(families.begin(), families.end(), family) == families.end()) families.push_back(family);
  }
  std::sort(families.begin(), families.end());
  for (const int family : families) {
    document.blocks.push_back(
        Heading{family < 0 ? "other" : knowledge.families[static_cast<std::size_t>(family)].name});
    KeyValues list;
    for (const int p : parts) {
      const Part& part = knowledge.parts[static_cast<std::size_t>(p)];
      if (part.family == family) list.rows.emplace_back(part.id, part.name);
    }
    document.blocks.push_back(std::move(list));
  }
  const std::string count = std::to_string(parts.size()) + (parts.size() == 1 ? " part" : " parts");
  document.blocks.push_back(Paragraph{parts.empty() ? "No part." : count + "."});
  return document;
}

}  // namespace loomkey::report
