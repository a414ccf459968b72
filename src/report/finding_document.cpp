#include "report/finding_document.h"

#include <algorithm>

#include "report/finding_words.h"
#include "report/part_sections.h"
#include "report/question_text.h"
#include "report/reasons.h"
#include "report/words.h"

namespace loomkey::report {

using bench::Finding;
using evidence::Case;
using inference::Status;
using knowledge::Knowledge;

namespace {

constexpr double hardly_a_candidate = 0.005;

void add_answer(Document& document, const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  document.blocks.push_back(Paragraph{headline(knowledge, finding)});
  document.blocks.push_back(Paragraph{meaning(knowledge, the_case, finding)});
  if (finding.status == Status::not_in_catalogue) document.blocks.push_back(Bullets{what_to_record()});
  for (const std::string& words : {label_disagreement(the_case, finding), earth_disagreement(the_case, finding)}) {
    if (!words.empty()) document.blocks.push_back(Note{Note::Kind::caution, words});
  }
}

void add_candidates(Document& document, const Knowledge& knowledge, const Finding& finding) {
  document.blocks.push_back(Heading{"Candidates"});
  Table table;
  table.columns = {{"chance", true}, {"part"}, {"id", false, true}};
  double rest = 1.0 - finding.absent;
  bool absent_shown = false;
  const auto add_absent = [&] {
    table.rows.push_back({percent(finding.absent), "not in the catalogue", ""});
    absent_shown = true;
  };
  for (const auto& candidate : finding.candidates) {
    if (!absent_shown && finding.absent > candidate.probability) add_absent();
    if (candidate.probability < hardly_a_candidate && table.rows.size() > 1) continue;
    const auto& part = knowledge.parts[static_cast<std::size_t>(candidate.part)];
    table.rows.push_back({percent(candidate.probability), part.name, part.id});
    rest -= candidate.probability;
  }
  if (!absent_shown) add_absent();
  if (rest >= 0.01) table.rows.push_back({percent(rest), "all others together", ""});
  document.blocks.push_back(std::move(table));
}

void add_question_values(Document& document, const Knowledge& knowledge, const inference::Question& question) {
  const auto& trait = knowledge.traits[static_cast<std::size_t>(question.trait)];
  KeyValues values;
  for (const Choice& choice : choices_of(knowledge, question)) values.rows.emplace_back(choice.value, choice.name);
  if (!values.rows.empty()) document.blocks.push_back(std::move(values));
  if (const std::string how = how_to_write(knowledge, trait); !how.empty()) document.blocks.push_back(Paragraph{how});
}

void add_questions(Document& document, const Knowledge& knowledge, const Finding& finding) {
  if (finding.questions.empty()) return;
  document.blocks.push_back(Heading{finding.status == Status::likely ? "Next questions, to rule out something else"
                                                                     : "Next questions, best first"});
  for (std::size_t i = 0; i < finding.questions.size(); ++i) {
    const auto& question = finding.questions[i];
    const auto& trait = knowledge.traits[static_cast<std::size_t>(question.trait)];
    document.blocks.push_back(
        Paragraph{std::to_string(i + 1) + ". " + trait.ask + " [" + trait.id + "] " + stopped(trait.how)});
    if (!trait.hazard.empty()) document.blocks.push_back(Note{Note::Kind::caution, hazard_words(trait)});
    // The best question in full; the others would bury it.
    if (i == 0) {
      add_question_values(document, knowledge, question);
    } else if (trait.kind == knowledge::TraitKind::choice) {
      std::vector<std::string> values;
      for (const Choice& choice : choices_of(knowledge, question)) values.push_back(choice.value);
      document.blocks.push_back(Paragraph{"Answers: " + listed(values, "or") + "."});
    }
  }
  document.blocks.push_back(Paragraph{"'cannot tell' is an answer to each of them, and costs nothing."});
}

void add_change(Document& document, const Knowledge& knowledge, const Finding& finding) {
  const std::string deciding = deciding_words(knowledge, finding);
  if (deciding.empty()) return;
  document.blocks.push_back(Heading{"What would change it"});
  document.blocks.push_back(Paragraph{deciding});
}

void add_part(Document& document, const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  add_what_it_is(document, knowledge, the_case, finding);
  add_later_cautions(document, knowledge, finding);
  add_checks(document, knowledge, finding);
  add_look_alikes(document, knowledge, knowledge.parts[static_cast<std::size_t>(finding.part)]);
  add_substitutes(document, knowledge, finding);
}

}  // namespace

Document finding_document(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  Document document;
  document.title = the_case.title.empty() ? "What is it?" : the_case.title;
  const bool named = is_named(finding);
  add_answer(document, knowledge, the_case, finding);
  if (finding.status == Status::open) {
    add_candidates(document, knowledge, finding);
    add_questions(document, knowledge, finding);
    add_reasons(document, knowledge, the_case, finding);
    if (named) {
      add_urgent_cautions(document, knowledge, finding);
      add_part(document, knowledge, the_case, finding);
    }
    add_change(document, knowledge, finding);
  } else {
    if (named) add_urgent_cautions(document, knowledge, finding);
    add_candidates(document, knowledge, finding);
    if (named) add_part(document, knowledge, the_case, finding);
    add_reasons(document, knowledge, the_case, finding);
    // A verdict of "cannot tell yet" has named its check at the top.
    if (finding.status != Status::cannot_tell) add_change(document, knowledge, finding);
    add_questions(document, knowledge, finding);
  }
  add_basis(document, knowledge, finding, named);
  return document;
}

Document candidates_document(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  Document document;
  document.title = "So far";
  document.blocks.push_back(Paragraph{headline(knowledge, finding)});
  if (finding.contradicting) document.blocks.push_back(Paragraph{meaning(knowledge, the_case, finding)});
  add_candidates(document, knowledge, finding);
  if (const std::string deciding = deciding_words(knowledge, finding); !deciding.empty()) {
    document.blocks.push_back(Paragraph{deciding});
  }
  return document;
}

}  // namespace loomkey::report
