#include "report/part_sections.h"

#include <algorithm>

#include "base/text.h"
#include "report/finding_words.h"
#include "report/words.h"

namespace loomkey::report {

using knowledge::Advice;
using knowledge::Part;

namespace {

// Caution::order up to here is about polarity, heat and short circuits (data/cautions.toml).
constexpr int urgent_order = 4;

const Part& part_of(const Knowledge& knowledge, const Finding& finding) {
  return knowledge.parts[static_cast<std::size_t>(finding.part)];
}

const Advice& advice_of(const Knowledge& knowledge, const Finding& finding) {
  return knowledge.advice[static_cast<std::size_t>(finding.advice)];
}

std::vector<Block> caution_blocks(const Knowledge& knowledge, const Finding& finding, bool urgent) {
  std::vector<Block> out;
  for (const int index : finding.cautions) {
    const auto& caution = knowledge.cautions[static_cast<std::size_t>(index)];
    if ((caution.order <= urgent_order) == urgent) {
      out.emplace_back(Note{Note::Kind::caution, sentence(caution.hazard) + ". " + caution.text});
    }
  }
  return out;
}

void append(Document& document, std::vector<Block> blocks) {
  for (Block& block : blocks) document.blocks.push_back(std::move(block));
}

void add_row(KeyValues& list, const std::string& key, const std::string& value) {
  if (!value.empty()) list.rows.emplace_back(key, value);
}

constexpr const char* supplement = "They do not replace local codes or the work of a licensed person.";

}  // namespace

void add_urgent_cautions(Document& document, const Knowledge& knowledge, const Finding& finding) {
  if (finding.cautions.empty()) return;
  std::vector<Block> blocks = caution_blocks(knowledge, finding, true);
  // Without an urgent one they stand with the checks.
  if (blocks.empty()) return;
  document.blocks.push_back(Heading{"Before you touch or connect it"});
  append(document, std::move(blocks));
  document.blocks.push_back(Paragraph{std::string("These cautions supplement care and a manual. ") + supplement});
}

void add_later_cautions(Document& document, const Knowledge& knowledge, const Finding& finding) {
  std::vector<Block> blocks = caution_blocks(knowledge, finding, false);
  if (blocks.empty()) return;
  const bool first = caution_blocks(knowledge, finding, true).empty();
  document.blocks.push_back(Heading{first ? "Cautions" : "Further cautions"});
  append(document, std::move(blocks));
  if (first)
    document.blocks.push_back(Paragraph{std::string("These cautions supplement care and a manual. ") + supplement});
}

void add_what_it_is(Document& document, const Knowledge& knowledge, const evidence::Case& the_case,
                    const Finding& finding) {
  const Part& part = part_of(knowledge, finding);
  const Advice& advice = advice_of(knowledge, finding);
  document.blocks.push_back(Heading{"What it is: " + part.name});
  KeyValues list;
  add_row(list, "function", advice.function);
  if (const Candidate* candidate = candidate_of(finding, finding.part)) {
    add_row(list, "condition", sentence(condition_words(knowledge, the_case, *candidate)));
  }
  add_row(list, "in use", era_words(part));
  add_row(list, "usually sits", part.where);
  add_row(list, "strays to", part.strays);
  add_row(list, "works with", join(partner_names(knowledge, part), "; "));
  add_row(list, "is it needed", advice.needed);
  add_row(list, "not needed when", part.redundant_when);
  add_row(list, "note", part.note);
  document.blocks.push_back(std::move(list));
}

void add_meter_checks(Document& document, const Part& part) {
  for (std::size_t i = 0; i < part.checks.size(); ++i) {
    const auto& check = part.checks[i];
    KeyValues list;
    add_row(list, "check " + std::to_string(i + 1), check.how);
    add_row(list, "good", check.good);
    add_row(list, "bad", check.bad);
    add_row(list, "mind", check.caveat);
    document.blocks.push_back(std::move(list));
  }
}

void add_checks(Document& document, const Knowledge& knowledge, const Finding& finding) {
  const Part& part = part_of(knowledge, finding);
  if (part.checks.empty()) return;
  document.blocks.push_back(Heading{"How to check it with a meter"});
  if (!finding.earth_settled) {
    document.blocks.push_back(Note{Note::Kind::note,
                                   "leave every check that needs the bike's battery or a running engine "
                                   "until the earth has been measured."});
  }
  add_meter_checks(document, part);
}

void add_look_alikes(Document& document, const Knowledge& knowledge, const Part& part) {
  if (part.look_alikes.empty()) return;
  document.blocks.push_back(Heading{"Mistaken for"});
  KeyValues list;
  for (const auto& look_alike : part.look_alikes) {
    list.rows.emplace_back(knowledge.parts[static_cast<std::size_t>(look_alike.part)].name, look_alike.tell);
  }
  document.blocks.push_back(std::move(list));
}

void add_substitutes(Document& document, const Knowledge& knowledge, const Finding& finding) {
  if (finding.substitutes.empty()) return;
  document.blocks.push_back(Heading{"What may take its place today"});
  const bool steps = may_connect(finding);
  for (const auto& shown : finding.substitutes) {
    const auto& substitute = advice_of(knowledge, finding).substitutes[static_cast<std::size_t>(shown.index)];
    KeyValues list;
    add_row(list, "fit", substitute.what);
    add_row(list, "if", join(substitute.when, "; "));
    add_row(list, "not if", join(substitute.not_when, "; "));
    if (steps) add_row(list, "connect", shown.connect.empty() ? "no steps are written for this earth" : shown.connect);
    document.blocks.push_back(std::move(list));
  }
  if (!steps) document.blocks.push_back(Note{Note::Kind::caution, why_no_steps(finding)});
}

KeyValues basis_rows(const Knowledge& knowledge, const Part& part) {
  KeyValues list;
  add_row(list, "in general", basis_words(knowledge, part.basis));
  for (const auto& [what, basis] : other_bases(knowledge, part)) add_row(list, what, basis);
  if (part.advice >= 0) {
    const Advice& advice = knowledge.advice[static_cast<std::size_t>(part.advice)];
    if (advice.basis != part.basis) add_row(list, "advice", basis_words(knowledge, advice.basis));
    for (const auto& substitute : advice.substitutes) {
      if (substitute.basis >= 0 && substitute.basis != advice.basis) {
        add_row(list, substitute.what, basis_words(knowledge, substitute.basis));
      }
    }
  }
  add_row(list, "to be verified", join(verify_words(knowledge, part), "; "));
  return list;
}

void add_basis(Document& document, const Knowledge& knowledge, const Finding& finding, bool named) {
  KeyValues list;
  if (named) list = basis_rows(knowledge, part_of(knowledge, finding));
  add_row(list, "catalogue", short_hash(knowledge));
  if (list.rows.empty()) return;
  document.blocks.push_back(Heading{"What this rests on"});
  document.blocks.push_back(std::move(list));
}

}  // namespace loomkey::report
