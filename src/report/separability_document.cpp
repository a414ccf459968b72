#include "report/separability_document.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "report/json_numbers.h"
#include "report/words.h"

namespace loomkey::report {

using bench::Equipment;
using bench::PairSeparation;
using bench::Separability;
using knowledge::Knowledge;
using Json = nlohmann::ordered_json;

namespace {

const knowledge::Part& part_at(const Knowledge& knowledge, int part) {
  return knowledge.parts[static_cast<std::size_t>(part)];
}

std::string trait_id(const Knowledge& knowledge, int trait) {
  return trait < 0 ? "" : knowledge.traits[static_cast<std::size_t>(trait)].id;
}

std::string advice_id(const Knowledge& knowledge, int part) {
  const int advice = part_at(knowledge, part).advice;
  return advice < 0 ? "" : knowledge.advice[static_cast<std::size_t>(advice)].id;
}

std::string family_id(const Knowledge& knowledge, int family) {
  return knowledge.families[static_cast<std::size_t>(family)].id;
}

std::string one_decimal(double value) { return fmt::format("{:.1f}", value); }

// The tools that a stage brings, by their names in the catalogue.
std::string tools_of(const Knowledge& knowledge, Equipment stage) {
  std::vector<std::string> names;
  for (std::size_t tool = 0; tool < knowledge.tools.size(); ++tool) {
    for (std::size_t t = 0; t < knowledge.traits.size(); ++t) {
      const auto effort = static_cast<std::size_t>(knowledge.traits[t].effort);
      if (knowledge.efforts[effort].tool != static_cast<int>(tool)) continue;
      if (bench::equipment_for(knowledge, static_cast<int>(t)) != stage) continue;
      names.push_back(knowledge.tools[tool].name);
      break;
    }
  }
  return names.empty() ? "nothing more" : listed(names);
}

// Two ids side by side leave no room for the rest: the second stands under the first.
Table pairs_table(const Knowledge& knowledge, const Separability& found) {
  Table table;
  table.columns = {{"part and part", false, true}, {"by look", true},           {"with ruler", true},
                   {"with meter", true},           {"best trait", false, true}, {"alone", true}};
  for (const PairSeparation& pair : found.pairs) {
    const bool none = pair.best_decibans < 0.05;
    table.rows.push_back({part_at(knowledge, pair.part_a).id, one_decimal(pair.with(Equipment::nothing)),
                          one_decimal(pair.with(Equipment::simple_tools)), one_decimal(pair.with(Equipment::meter)),
                          none ? "none" : trait_id(knowledge, pair.best_trait), one_decimal(pair.best_decibans)});
    table.rows.push_back({"and " + part_at(knowledge, pair.part_b).id, "", "", "", "", ""});
  }
  return table;
}

Json pair_json(const Knowledge& knowledge, const PairSeparation& pair) {
  return {{"part_a", part_at(knowledge, pair.part_a).id},
          {"part_b", part_at(knowledge, pair.part_b).id},
          {"by_look", shown_weight(pair.with(Equipment::nothing))},
          {"with_ruler", shown_weight(pair.with(Equipment::simple_tools))},
          {"with_meter", shown_weight(pair.with(Equipment::meter))},
          {"best_trait", pair.best_trait < 0 ? Json(nullptr) : Json(trait_id(knowledge, pair.best_trait))},
          {"best_decibans", shown_weight(pair.best_decibans)}};
}

std::string csv_cell(std::string_view text) {
  const std::string plain = printable(text);
  if (plain.find_first_of(",\"") == std::string::npos) return plain;
  std::string out = "\"";
  for (const char c : plain) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

}  // namespace

Document separability_document(const Knowledge& knowledge, const Separability& found) {
  Document page;
  page.title = "Pairs that can hardly be told apart";
  page.blocks.emplace_back(Paragraph{fmt::format(
      "Of {} pairs of parts that need different advice, {} {} not separated: no single trait is expected to give "
      "{:.0f} "
      "decibans, and all traits together give less than {:.0f}. Ten decibans make the right one ten times likelier.",
      found.compared, found.pairs.size(), found.pairs.size() == 1 ? "is" : "are", found.options.best_below,
      found.options.together_below)});
  KeyValues legend;
  legend.rows.emplace_back("by look", "decibans of all traits for eyes and hands, added up");
  legend.rows.emplace_back("with ruler", "the same with " + tools_of(knowledge, Equipment::simple_tools));
  legend.rows.emplace_back("with meter", "the same with " + tools_of(knowledge, Equipment::meter));
  legend.rows.emplace_back("best trait", "the best single one of any kind; alone: its decibans");
  page.blocks.emplace_back(std::move(legend));
  if (!found.pairs.empty()) {
    page.blocks.emplace_back(pairs_table(knowledge, found));
    page.blocks.emplace_back(
        Paragraph{"Hardest first. The sums take every trait to speak for itself, and of the two parts the one that is "
                  "harder to tell; the parts are good and faulty as they are brought in. 'loomkey compare A B' shows "
                  "what each of them claims."});
  }
  return page;
}

std::string separability_json(const Knowledge& knowledge, const Separability& found) {
  Json pairs = Json::array();
  for (const PairSeparation& pair : found.pairs) pairs.push_back(pair_json(knowledge, pair));
  Json families = Json::array();
  for (int high = 0; high < static_cast<int>(knowledge.families.size()); ++high) {
    for (int low = 0; low <= high; ++low) {
      const PairSeparation& pair = found.families[bench::family_pair(low, high)];
      if (pair.part_a < 0) continue;
      Json entry = {{"family_a", family_id(knowledge, low)}, {"family_b", family_id(knowledge, high)}};
      entry.update(pair_json(knowledge, pair));
      families.push_back(std::move(entry));
    }
  }
  const Json out = {{"schema", "loomkey/separability/1"}, {"catalogue", knowledge.hash},
                    {"below", found.options.best_below},  {"together", found.options.together_below},
                    {"compared", found.compared},         {"pairs", std::move(pairs)},
                    {"families", std::move(families)}};
  return out.dump(2, ' ', true, Json::error_handler_t::replace) + "\n";
}

std::string separability_csv(const Knowledge& knowledge, const Separability& found) {
  std::string out =
      "part_a,part_b,name_a,name_b,advice_a,advice_b,by_look_db,with_ruler_db,with_meter_db,best_trait,best_trait_db\n";
  for (const PairSeparation& pair : found.pairs) {
    const std::vector<std::string> cells = {csv_cell(part_at(knowledge, pair.part_a).id),
                                            csv_cell(part_at(knowledge, pair.part_b).id),
                                            csv_cell(part_at(knowledge, pair.part_a).name),
                                            csv_cell(part_at(knowledge, pair.part_b).name),
                                            csv_cell(advice_id(knowledge, pair.part_a)),
                                            csv_cell(advice_id(knowledge, pair.part_b)),
                                            fmt::format("{:.3f}", pair.with(Equipment::nothing)),
                                            fmt::format("{:.3f}", pair.with(Equipment::simple_tools)),
                                            fmt::format("{:.3f}", pair.with(Equipment::meter)),
                                            csv_cell(trait_id(knowledge, pair.best_trait)),
                                            fmt::format("{:.3f}", pair.best_decibans)};
    out += join(cells, ",") + "\n";
  }
  return out;
}

}  // namespace loomkey::report
