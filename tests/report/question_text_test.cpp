#include "report/question_text.h"

#include <catch2/catch.hpp>

#include "evidence/parse_value.h"
#include "inference/question.h"
#include "report/page_checks.h"
#include "support/report_cases.h"

using namespace loomkey;
using namespace loomkey::report;
using namespace loomkey::support;

namespace {

// Every question that can be asked at the start.
std::vector<inference::Question> all_questions(const std::shared_ptr<const knowledge::Knowledge>& knowledge) {
  const inference::Model model(knowledge);
  return inference::separating_questions(model, {}, inference::believe(model, {}));
}

const inference::Question& question_on(const std::vector<inference::Question>& questions, int trait) {
  return *std::find_if(questions.begin(), questions.end(), [&](const auto& q) { return q.trait == trait; });
}

}  // namespace

TEST_CASE("every choice is understood as the answer it stands for") {
  const auto knowledge = std::make_shared<const knowledge::Knowledge>(report_knowledge());
  for (const auto& question : all_questions(knowledge)) {
    const auto& trait = knowledge->traits[static_cast<std::size_t>(question.trait)];
    const std::vector<Choice> choices = all_choices_of(*knowledge, question);
    CHECK_FALSE(choices.empty());
    for (const Choice& choice : choices) {
      INFO(trait.id << " = " << choice.value);
      const auto value = evidence::parse_value(*knowledge, question.trait, choice.value);
      REQUIRE(value);
      CHECK(value->informs());
      if (value->kind == evidence::Value::Kind::interval) {
        CHECK(value->interval.low < value->interval.high);
        CHECK(value->interval.low >= trait.low);
        CHECK(value->interval.high <= trait.high);
      }
    }
  }
}

TEST_CASE("yes and no are their own keys, since 1 is written for yes") {
  auto changed = report_knowledge();
  const auto trait = std::find_if(changed.traits.begin(), changed.traits.end(), [](const auto& t) {
    return t.kind == knowledge::TraitKind::choice && t.states.front().id == "can";
  });
  REQUIRE(trait != changed.traits.end());
  const auto index = static_cast<int>(trait - changed.traits.begin());
  trait->states[0].id = "no";
  trait->states[1].id = "yes";
  const auto knowledge = std::make_shared<const knowledge::Knowledge>(std::move(changed));
  const std::vector<Choice> choices = choices_of(*knowledge, question_on(all_questions(knowledge), index));
  REQUIRE(choices.size() >= 2);
  for (const Choice& choice : choices) CHECK(choice.key == choice.value);
}

TEST_CASE("the examples of how to write a value are understood") {
  const auto knowledge = report_knowledge();
  for (std::size_t t = 0; t < knowledge.traits.size(); ++t) {
    const auto& trait = knowledge.traits[t];
    if (trait.kind != knowledge::TraitKind::number) continue;
    std::string text = how_to_write(knowledge, trait);
    text = text.substr(text.find(": ") + 2);
    text.pop_back();
    for (std::string example : split(text, ',')) {
      example = trim(example);
      const std::string lead = "or what it is as big as: ";
      if (example.starts_with(lead)) example = example.substr(lead.size());
      INFO(example);
      CHECK(evidence::parse_value(knowledge, static_cast<int>(t), example));
    }
  }
  const int letters = knowledge.trait("letters");
  CHECK(evidence::parse_value(knowledge, letters, "AL, WL, E"));
  CHECK(evidence::parse_value(knowledge, letters, "includes WL"));
  CHECK(evidence::parse_value(knowledge, knowledge.trait("lead_colours"), "includes green/yellow, black"));
}

TEST_CASE("a choice of words is numbered, a choice of figures keeps its figures") {
  const auto knowledge = std::make_shared<const knowledge::Knowledge>(report_knowledge());
  const auto questions = all_questions(knowledge);
  const auto form = choices_of(*knowledge, question_on(questions, knowledge->trait("form")));
  REQUIRE(form.size() == 3);
  CHECK(form[1].key == "2");
  CHECK(form[1].value == "box");
  CHECK(form[1].name == "closed box, flat sides");
  const auto blades = choices_of(*knowledge, question_on(questions, knowledge->trait("blades")));
  REQUIRE(blades.size() == 4);
  CHECK(blades[2].key == "2");
  CHECK(blades[2].value == "2");
  CHECK(blades[3].key == "3+");
}

TEST_CASE("a number offers its special answers by word, a set the likeliest sets under a sign") {
  const auto knowledge = std::make_shared<const knowledge::Knowledge>(report_knowledge());
  const auto questions = all_questions(knowledge);
  const auto ohms = choices_of(*knowledge, question_on(questions, knowledge->trait("ohm_lowest")));
  REQUIRE(ohms.size() == 4);
  CHECK(ohms[0].key == "ol");
  CHECK(ohms[0].name == "over-range (OL)");
  const auto letters = choices_of(*knowledge, question_on(questions, knowledge->trait("letters")));
  REQUIRE_FALSE(letters.empty());
  CHECK(letters[0].key == "#1");
}

TEST_CASE("a question shows how to look, its hazard and its choices within the width") {
  const auto knowledge = std::make_shared<const knowledge::Knowledge>(report_knowledge());
  const auto questions = all_questions(knowledge);
  for (const auto& question : questions) {
    for (const std::size_t width : {24U, 40U, 80U}) {
      for (const std::string& line : question_lines(*knowledge, question, width)) CHECK(display_width(line) <= width);
    }
  }
  const auto ask = [&](const std::string& trait) {
    return join(question_lines(*knowledge, question_on(questions, knowledge->trait(trait)), 80), "\n");
  };
  CHECK(in_order(ask("form"), "What shape is it?", "Leave leads out of it."));
  CHECK(in_order(ask("form"), "1   small closed round can", "3   base with its own stud"));
  CHECK(contains(ask("ohm_lowest"), "CAUTION: Every wire off first."));
  CHECK(contains(ask("size_long"), "1 3/4 inch"));
  CHECK(contains(ask("lead_colours"), "green with a yellow tracer and light green"));
}

TEST_CASE("hostile wording of a question reaches no terminal") {
  const ReportCase given = spoilt_case();
  for (const auto& question : all_questions(given.knowledge)) {
    for (const std::string& line : question_lines(*given.knowledge, question, 60)) {
      CHECK(is_clean(line));
      CHECK(display_width(line) <= 60);
    }
  }
}
