#include <algorithm>

#include "base/text.h"
#include "report/catalogue_document.h"
#include "report/question_text.h"
#include "report/sum.h"
#include "report/words.h"

namespace loomkey::report {

using knowledge::Knowledge;
using knowledge::Layer;
using knowledge::SetItems;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

std::string effort_name(const Knowledge& knowledge, const Trait& trait) {
  const auto effort = static_cast<std::size_t>(trait.effort);
  return effort < knowledge.efforts.size() ? knowledge.efforts[effort].name : std::string{};
}

std::string kind_words(const Trait& trait) {
  if (trait.kind == TraitKind::choice) return "choice of " + std::to_string(trait.states.size());
  if (trait.kind == TraitKind::number) return "number" + (trait.unit.empty() ? "" : ", " + trait.unit);
  return trait.items == SetItems::colours ? "set of lead colours" : "set of letters";
}

void add_row(KeyValues& list, const std::string& key, const std::string& value) {
  if (!value.empty()) list.rows.emplace_back(key, value);
}

// How often a true state is reported as another, worst first.
std::string taken_for(const Trait& trait, std::size_t state) {
  std::vector<std::pair<double, std::string>> slips;
  for (std::size_t o = 0; state < trait.seen.size() && o < trait.seen[state].size(); ++o) {
    if (o != state && trait.seen[state][o] > 0.0) slips.emplace_back(trait.seen[state][o], trait.states[o].id);
  }
  std::stable_sort(slips.begin(), slips.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::string> out;
  for (const auto& [chance, id] : slips) out.push_back(id + " " + percent(chance));
  return join(out, ", ");
}

Table states_table(const Trait& trait) {
  Table table;
  table.columns = {{"answer", false, true}, {"meaning"}, {"mistaken for"}};
  for (std::size_t s = 0; s < trait.states.size(); ++s) {
    table.rows.push_back({trait.states[s].id, trait.states[s].name, taken_for(trait, s)});
  }
  return table;
}

std::string error_words(const Trait& trait) {
  std::vector<std::string> out;
  if (trait.relative_error > 0.0) out.push_back(figure(trait.relative_error * 100.0) + " %");
  if (trait.absolute_error > 0.0) out.push_back(quantity(trait.absolute_error, trait.unit));
  return out.empty() ? std::string{} : "within " + join(out, " and ");
}

std::string special_words(const Trait& trait) {
  std::vector<std::string> out;
  for (std::size_t s = 0; s < knowledge::special_count; ++s) {
    if (!trait.allows[s]) continue;
    const std::string id = knowledge::special_ids[s];
    out.push_back(id == knowledge::special_names[s] ? id : id + " (" + knowledge::special_names[s] + ")");
  }
  return listed(out, "or");
}

std::string effort_words(const Knowledge& knowledge, const Trait& trait) {
  const auto index = static_cast<std::size_t>(trait.effort);
  if (index >= knowledge.efforts.size()) return {};
  const auto& effort = knowledge.efforts[index];
  std::string out = effort.name + " (a look is 1, this " + figure(effort.cost);
  if (effort.tool >= 0) {
    const auto& tool = knowledge.tools[static_cast<std::size_t>(effort.tool)];
    out += ", and once " + figure(tool.fetch) + " to fetch " + tool.name;
  }
  return out + ")";
}

}  // namespace

Document traits_document(const Knowledge& knowledge) {
  Document document;
  document.title = "Traits";
  for (const Layer layer : {Layer::look, Layer::meter}) {
    Table table;
    table.columns = {{"trait", false, true}, {"what it is"}, {"kind"}, {"effort"}};
    for (const Trait& trait : knowledge.traits) {
      if (trait.layer == layer)
        table.rows.push_back({trait.id, trait.name, kind_words(trait), effort_name(knowledge, trait)});
    }
    if (table.rows.empty()) continue;
    document.blocks.push_back(
        Heading{layer == Layer::look ? "Seen, felt or measured with a ruler" : "Read with a meter"});
    document.blocks.push_back(std::move(table));
  }
  document.blocks.push_back(Paragraph{"'cannot tell' and 'not looked' are answers to every one."});
  return document;
}

Document trait_document(const Knowledge& knowledge, int index) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(index)];
  Document document;
  document.title = sentence(trait.name);
  KeyValues list;
  add_row(list, "id", trait.id);
  add_row(list, "question", trait.ask);
  add_row(list, "how to look", trait.how);
  add_row(list, "kind", kind_words(trait));
  if (trait.kind == TraitKind::number) {
    add_row(list, "range", quantity(trait.low, trait.high, trait.unit));
    add_row(list, "besides figures", special_words(trait));
    add_row(list, "observers are", error_words(trait));
    if (trait.low_ohm) add_row(list, "meter leads", "their own ohms count: short them first and take that off");
  }
  add_row(list, "how to write it", how_to_write(knowledge, trait));
  add_row(list, "effort", effort_words(knowledge, trait));
  if (trait.group >= 0) {
    const auto& group = knowledge.groups[static_cast<std::size_t>(trait.group)];
    add_row(list, "weighed with", group.name);
  }
  if (!trait.asked_with.empty()) add_row(list, "asked when", "its letters include " + listed(trait.asked_with, "or"));
  if (trait.runs) add_row(list, "asked when", "the earth has been measured: it needs power or a running engine");
  if (trait.unless_stated) add_row(list, "if a part is silent", claim_words(trait, *trait.unless_stated));
  document.blocks.push_back(std::move(list));
  if (!trait.hazard.empty()) document.blocks.push_back(Note{Note::Kind::caution, hazard_words(trait)});
  if (trait.kind == TraitKind::choice) {
    document.blocks.push_back(Heading{"Answers"});
    document.blocks.push_back(states_table(trait));
  }
  return document;
}

Document comparison_document(const Knowledge& knowledge, const std::vector<int>& parts,
                             const std::vector<bench::Separation>& separations) {
  Document document;
  std::vector<std::string> names;
  for (const int p : parts) names.push_back(knowledge.parts[static_cast<std::size_t>(p)].name);
  document.title = "What tells them apart";
  KeyValues legend;
  for (std::size_t i = 0; i < names.size(); ++i) {
    legend.rows.emplace_back(std::string(1, static_cast<char>('A' + i)), names[i]);
  }
  document.blocks.push_back(std::move(legend));
  KeyValues tells;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (const auto& look_alike : knowledge.parts[static_cast<std::size_t>(parts[i])].look_alikes) {
      const auto other = std::find(parts.begin(), parts.end(), look_alike.part);
      if (other == parts.end()) continue;
      const char taken_for = static_cast<char>('A' + (other - parts.begin()));
      tells.rows.emplace_back(std::string(1, static_cast<char>('A' + i)) + ", mistaken for " + taken_for,
                              look_alike.tell);
    }
  }
  if (!tells.rows.empty()) document.blocks.push_back(std::move(tells));
  if (separations.empty()) {
    document.blocks.push_back(Paragraph{"Nothing that the catalogue asks for tells them apart."});
    return document;
  }
  Table table;
  table.columns = {{"observation"}, {"decibans", true}};
  for (std::size_t i = 0; i < parts.size(); ++i)
    table.columns.push_back({std::string(1, static_cast<char>('A' + i)), false});
  for (const auto& separation : separations) {
    const Trait& trait = knowledge.traits[static_cast<std::size_t>(separation.trait)];
    std::vector<std::string> row{trait.name + " [" + effort_name(knowledge, trait) + "]",
                                 decibans(separation.decibans)};
    for (const int p : parts) {
      const auto* claim = knowledge.claim(p, 0, separation.trait);
      row.push_back(claim == nullptr ? "nothing stated" : claim_words(trait, *claim));
    }
    table.rows.push_back(std::move(row));
  }
  document.blocks.push_back(Heading{"Observations, the best for its effort first"});
  document.blocks.push_back(std::move(table));
  document.blocks.push_back(
      Paragraph{"Decibans: how far one answer is expected to speak for the right part against the wrong one; ten make "
                "it ten times "
                "likelier. What is said of each is for a good part; readings with a meter differ on a faulty one."});
  return document;
}

}  // namespace loomkey::report
