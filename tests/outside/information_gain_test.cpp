// Entropy and gain against the worked example that textbooks share: fourteen days, four attributes, play or not.
// Source in words: the article Induction of Decision Trees (Machine Learning 1, 1986), worked through in chapter 3 of
// the textbook Machine Learning (1997). Three decimals are printed, worked out from rounded intermediate values, so one
// in the last place is the tolerance.
#include <algorithm>
#include <map>

#include <catch2/catch.hpp>

#include "oracle/tiny_catalogue.h"
#include "outside/interview.h"
#include "outside/rows.h"

using namespace loomkey;

namespace {

constexpr double tolerance = 0.001;
const std::vector<std::string> attributes = {"outlook", "temperature", "humidity", "wind"};

struct Days {
  Days() {
    const auto days = outside::reference_rows("play_tennis.csv");
    for (const auto& attribute : attributes) {
      auto& values = states[attribute];
      for (const auto& day : days) values.push_back(day.at(attribute));
      std::sort(values.begin(), values.end());
      values.erase(std::unique(values.begin(), values.end()), values.end());
      table.state_counts.push_back(static_cast<int>(values.size()));
    }
    for (const auto& day : days) {
      table.rows.emplace_back();
      for (const auto& attribute : attributes) table.rows.back().push_back(state(attribute, day.at(attribute)));
      table.advice_class.push_back(day.at("play") == "yes" ? 1 : 0);
    }
    table.class_count = 2;
  }

  [[nodiscard]] int state(const std::string& attribute, const std::string& value) const {
    const auto& values = states.at(attribute);
    return static_cast<int>(std::find(values.begin(), values.end(), value) - values.begin());
  }

  std::map<std::string, std::vector<std::string>> states;
  outside::Table table;
};

double published(const std::string& id) {
  return std::stod(outside::row_of(outside::reference_rows("worked_examples.csv"), id).at("value"));
}

double gain_of(const std::vector<inference::Question>& questions, const std::string& attribute) {
  const auto trait = std::find(attributes.begin(), attributes.end(), attribute) - attributes.begin();
  const auto found = std::find_if(questions.begin(), questions.end(), [&](const auto& q) { return q.trait == trait; });
  REQUIRE(found != questions.end());
  return found->gain;
}

}  // namespace

TEST_CASE("entropy and gain agree with the published example of the fourteen days") {
  const Days days;
  REQUIRE(days.table.rows.size() == 14);
  const inference::Model model(outside::knowledge_of(days.table), outside::certainty());
  const auto belief = inference::believe(model, {});
  CHECK(inference::class_entropy(belief) == Approx(published("WE-001")).margin(tolerance));
  const auto questions = inference::separating_questions(model, {}, belief);
  CHECK(gain_of(questions, "outlook") == Approx(published("WE-002")).margin(tolerance));
  CHECK(gain_of(questions, "humidity") == Approx(published("WE-003")).margin(tolerance));
  CHECK(gain_of(questions, "wind") == Approx(published("WE-004")).margin(tolerance));
  CHECK(gain_of(questions, "temperature") == Approx(published("WE-005")).margin(tolerance));
  // With equal efforts the engine asks what the published tree asks at its root.
  CHECK(attributes[static_cast<std::size_t>(questions.front().trait)] == "outlook");

  SECTION("and so does the sunny branch") {
    evidence::Case sunny;
    sunny.readings = {oracle::saw_state(0, days.state("outlook", "sunny"))};
    const auto then = inference::believe(model, inference::weigh(model, sunny));
    const auto next = inference::separating_questions(model, sunny, then);
    CHECK(gain_of(next, "humidity") == Approx(published("WE-006")).margin(tolerance));
    CHECK(gain_of(next, "temperature") == Approx(published("WE-007")).margin(tolerance));
    CHECK(gain_of(next, "wind") == Approx(published("WE-008")).margin(tolerance));
    CHECK(attributes[static_cast<std::size_t>(next.front().trait)] == "humidity");
  }
}

TEST_CASE("the published example notices one changed day") {
  Days days;
  days.table.advice_class[0] = 1 - days.table.advice_class[0];
  const inference::Model model(outside::knowledge_of(days.table), outside::certainty());
  const auto belief = inference::believe(model, {});
  CHECK(inference::class_entropy(belief) != Approx(published("WE-001")).margin(tolerance));
  CHECK(gain_of(inference::separating_questions(model, {}, belief), "outlook") !=
        Approx(published("WE-002")).margin(tolerance));
}
