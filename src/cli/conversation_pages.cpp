// The small pages of a conversation: question to one trait, reasons of a question, keys.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "cli/conversation_screen.h"
#include "report/question_text.h"
#include "report/words.h"

namespace loomkey::cli {

using inference::Question;
using knowledge::Knowledge;
using report::Document;

namespace {

constexpr std::size_t candidates_in_reasons = 4;
constexpr std::size_t answers_in_reasons = 3;

// What the good part, the likeliest kind, would show.
std::string claim_of(const Knowledge& knowledge, const bench::Candidate& candidate, int trait) {
  const int condition = candidate.conditions.empty() ? 0 : candidate.conditions.front().condition;
  const knowledge::Claim* claim = knowledge.claim(candidate.part, condition, trait);
  if (claim == nullptr) return "says nothing of it";
  return report::claim_words(knowledge.traits[static_cast<std::size_t>(trait)], *claim);
}

std::string purpose_words(const Question& question) {
  const std::string bits = fmt::format("{:.2f}", question.gain);
  if (question.purpose == Question::Purpose::check) {
    return "It checks the leading part against one that is not in the catalogue, and promises " + bits +
           " bit about that.";
  }
  return "It promises " + bits + " bit about what the part is. One bit halves what is open.";
}

}  // namespace

Question question_on(const Knowledge& knowledge, int trait) {
  const knowledge::Trait& about = knowledge.traits[static_cast<std::size_t>(trait)];
  Question question;
  question.trait = trait;
  for (std::size_t s = 0; s < about.states.size(); ++s) {
    inference::Answer answer;
    answer.value.kind = evidence::Value::Kind::state;
    answer.value.state = static_cast<int>(s);
    question.answers.push_back(std::move(answer));
  }
  for (std::size_t s = 0; s < knowledge::special_count; ++s) {
    if (about.kind != knowledge::TraitKind::number || !about.allows[s]) continue;
    inference::Answer answer;
    answer.value.kind = evidence::Value::Kind::special;
    answer.value.special = static_cast<knowledge::Special>(s);
    question.answers.push_back(std::move(answer));
  }
  return question;
}

std::string chosen_value(const Knowledge& knowledge, const Question& question, const std::string& words) {
  for (const report::Choice& choice : report::choices_of(knowledge, question)) {
    if (to_lower(choice.key) == to_lower(words)) return choice.value;
  }
  return words;
}

Document question_reasons(const Knowledge& knowledge, const inference::Model& model, const bench::Finding& finding,
                          const Question& question) {
  const knowledge::Trait& trait = knowledge.traits[static_cast<std::size_t>(question.trait)];
  const knowledge::Effort& effort = knowledge.efforts[static_cast<std::size_t>(trait.effort)];
  Document page;
  page.blocks.emplace_back(
      report::Paragraph{purpose_words(question) +
                        fmt::format(" Effort {}: {}.", report::figure(model.effort(question.trait)), effort.name)});
  std::vector<report::Choice> likely = report::choices_of(knowledge, question);
  std::stable_sort(likely.begin(), likely.end(), [](const auto& a, const auto& b) { return a.chance > b.chance; });
  if (likely.size() > answers_in_reasons) likely.resize(answers_in_reasons);
  std::vector<std::string> answers;
  for (const report::Choice& choice : likely) {
    if (choice.chance > 0.0) answers.push_back(choice.name + " (" + report::percent(choice.chance) + ")");
  }
  if (!answers.empty()) page.blocks.emplace_back(report::Paragraph{"Likeliest answers: " + join(answers, "; ") + "."});
  report::KeyValues rows;
  for (std::size_t c = 0; c < finding.candidates.size() && c < candidates_in_reasons; ++c) {
    const bench::Candidate& candidate = finding.candidates[c];
    rows.rows.emplace_back(
        knowledge.parts[static_cast<std::size_t>(candidate.part)].name + ", " + report::percent(candidate.probability),
        claim_of(knowledge, candidate, question.trait));
  }
  if (!rows.rows.empty()) page.blocks.emplace_back(std::move(rows));
  return page;
}

Document keys_document(bool letters) {
  Document page;
  report::KeyValues rows;
  for (const Key& key : conversation_keys) {
    const std::string letter = letters && key.letter != ' ' ? std::string(1, key.letter) + ", " : "";
    rows.rows.emplace_back(letter + std::string(key.use), std::string(key.meaning));
  }
  page.blocks.emplace_back(report::Paragraph{
      "Answer with the key in front of a choice, or in words. How sure you are stands behind it: 'can?' or 'can, think "
      "so'; 'can?"
      "?' or 'can, guess'."});
  page.blocks.emplace_back(std::move(rows));
  if (!letters) {
    page.blocks.emplace_back(report::Paragraph{"While letters or colours are asked for, single letters are answers."});
  }
  return page;
}

}  // namespace loomkey::cli
