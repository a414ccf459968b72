// The engine against its judge, on random catalogues. A failure prints its seed; `oracle_tests "[oracle]" -s` shows
// more.
#include "oracle/oracle.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "inference/assess.h"
#include "oracle/random_knowledge.h"

using namespace loomkey;
using evidence::Case;
using inference::Model;
using oracle::CaseRules;
using oracle::Dice;
using oracle::Oracle;

namespace {

// A weight is the logarithm of P(o | h) / b(o). Both engines find the mass of a stated interval as a difference of
// numbers up to one, so it carries an error of about 1e-16; on a narrow interval b(o) is small and the ratio feels it.
// 1e-9 decibans hold down to b(o) = 1e-5.
double weight_tolerance(const Oracle& oracle, const Case& the_case) {
  double tolerance = 1e-9;
  for (const auto& reading : the_case.readings) {
    if (reading.value.kind != evidence::Value::Kind::interval) continue;
    for (const double lead : {0.0, 0.2, 0.4}) {
      const double b = oracle.background(reading.trait, reading.value, lead);
      if (b > 0.0) tolerance = std::max(tolerance, 1e-14 / b);
    }
  }
  return tolerance;
}

struct World {
  explicit World(std::uint64_t seed, const CaseRules& rules)
      : dice(seed),
        knowledge(std::make_shared<knowledge::Knowledge>(oracle::random_knowledge(dice))),
        settings(oracle::random_settings(dice)),
        the_case(oracle::random_case(dice, *knowledge, rules)),
        model(knowledge, settings),
        judge(*knowledge, settings) {}

  Dice dice;
  std::shared_ptr<const knowledge::Knowledge> knowledge;
  inference::Settings settings;
  Case the_case;
  Model model;
  Oracle judge;
};

std::vector<double> total_weights(const Model& model, const std::vector<inference::WeightLine>& lines) {
  std::vector<double> total(model.hypotheses().size(), 0.0);
  for (const auto& line : lines) {
    for (std::size_t h = 0; h < total.size(); ++h) total[h] += line.weight[h];
  }
  return total;
}

std::vector<evidence::Value> values_of(const std::vector<inference::Answer>& answers) {
  std::vector<evidence::Value> values;
  for (const auto& answer : answers) values.push_back(answer.value);
  return values;
}

void compare_weights_and_beliefs(const World& world) {
  const auto lines = inference::weigh(world.model, world.the_case);
  const auto weights = total_weights(world.model, lines);
  const auto judged = world.judge.weights(world.the_case);
  const double tolerance = weight_tolerance(world.judge, world.the_case);
  REQUIRE(weights.size() == judged.size());
  for (std::size_t h = 0; h < weights.size(); ++h) {
    CAPTURE(h);
    REQUIRE(weights[h] == Approx(judged[h]).margin(tolerance).epsilon(1e-9));
  }
  const auto belief = inference::believe(world.model, lines);
  const auto judged_belief = world.judge.belief(world.the_case);
  REQUIRE(belief.absent == Approx(judged_belief.absent).margin(tolerance).epsilon(0));
  for (std::size_t h = 0; h < weights.size(); ++h) {
    REQUIRE(belief.hypothesis[h] == Approx(judged_belief.pair[h]).margin(tolerance).epsilon(0));
  }
  for (std::size_t c = 0; c < belief.by_class.size(); ++c) {
    REQUIRE(belief.by_class[c] == Approx(judged_belief.by_class[c]).margin(tolerance).epsilon(0));
    const int given = static_cast<int>(c);
    REQUIRE(inference::expected_loss(world.model, belief, given) ==
            Approx(world.judge.expected_loss(judged_belief, given)).margin(tolerance).epsilon(0));
  }
  REQUIRE(inference::class_entropy(belief) ==
          Approx(world.judge.class_entropy(judged_belief)).margin(100 * tolerance).epsilon(0));
}

}  // namespace

TEST_CASE("engine and judge agree on the background of any value", "[oracle]") {
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    World world(seed, {});
    CAPTURE(seed);
    for (int t = 0; t < world.model.trait_count(); ++t) {
      const auto value = oracle::random_value(world.dice, *world.knowledge, t, nullptr);
      if (!value.informs()) continue;
      REQUIRE(world.model.background(t, value, 0.0) == Approx(world.judge.background(t, value, 0.0)).margin(1e-13));
    }
  }
}

TEST_CASE("engine and judge agree on weights and beliefs", "[oracle]") {
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    CAPTURE(seed);
    CaseRules rules;
    rules.readings = static_cast<int>(seed % 8);
    rules.second_observer = false;
    compare_weights_and_beliefs(World(seed, rules));
  }
}

TEST_CASE("engine and judge agree when two observers read one choice or number", "[oracle]") {
  for (std::uint64_t seed = 1001; seed <= 1300; ++seed) {
    CAPTURE(seed);
    CaseRules rules;
    rules.readings = 8;
    rules.second_observer_of_sets = false;
    compare_weights_and_beliefs(World(seed, rules));
  }
}

TEST_CASE("engine and judge agree when two observers read one set", "[oracle]") {
  for (std::uint64_t seed = 2001; seed <= 2200; ++seed) {
    CAPTURE(seed);
    CaseRules rules;
    rules.readings = 10;
    compare_weights_and_beliefs(World(seed, rules));
  }
}

TEST_CASE("engine and judge agree on what every question promises", "[oracle]") {
  int questions = 0;
  for (std::uint64_t seed = 3001; seed <= 3250; ++seed) {
    CAPTURE(seed);
    CaseRules rules;
    rules.readings = static_cast<int>(seed % 5);
    rules.second_observer = false;
    World world(seed, rules);
    const auto belief = inference::believe(world.model, inference::weigh(world.model, world.the_case));
    const auto judged = world.judge.belief(world.the_case);
    const double tolerance = std::max(1e-9, 100 * weight_tolerance(world.judge, world.the_case));
    for (const auto& question : inference::separating_questions(world.model, world.the_case, belief)) {
      CAPTURE(question.trait);
      const auto values = values_of(question.answers);
      const double gain = world.judge.expected_gain(world.the_case, judged, question.trait, values);
      REQUIRE(question.gain == Approx(gain).margin(tolerance).epsilon(0));
      REQUIRE(question.gain >= 0.0);
      double total = 0.0;
      for (const auto& answer : question.answers) total += answer.chance;
      REQUIRE(total == Approx(1.0).margin(1e-12));
      ++questions;
      if (gain < 1e-4) continue;  // the price factor is a ratio of two gains, and has no meaning without one
      const auto& trait = world.knowledge->traits[static_cast<std::size_t>(question.trait)];
      const auto& effort = world.knowledge->efforts[static_cast<std::size_t>(trait.effort)];
      const bool fetched =
          effort.tool < 0 ||
          std::any_of(world.the_case.readings.begin(), world.the_case.readings.end(), [&](const auto& r) {
            const auto& other = world.knowledge->traits[static_cast<std::size_t>(r.trait)];
            return world.knowledge->efforts[static_cast<std::size_t>(other.effort)].tool == effort.tool;
          });
      const double cost =
          effort.cost + (fetched ? 0.0 : world.knowledge->tools[static_cast<std::size_t>(effort.tool)].fetch);
      const double answered = 1.0 - (trait.layer == knowledge::Layer::meter ? world.settings.cannot_tell_meter
                                                                            : world.settings.cannot_tell_look);
      const double factor = world.judge.price_factor(world.the_case, judged, question.trait, values);
      REQUIRE(question.score == Approx(gain * factor * answered / cost).margin(1e-7).epsilon(1e-7));
    }
  }
  REQUIRE(questions > 500);
}

TEST_CASE("engine and judge agree on how far a check separates the leader from an absent part", "[oracle]") {
  for (std::uint64_t seed = 4001; seed <= 4150; ++seed) {
    CAPTURE(seed);
    CaseRules rules;
    rules.readings = 2;
    rules.second_observer = false;
    World world(seed, rules);
    const auto belief = inference::believe(world.model, inference::weigh(world.model, world.the_case));
    const auto judged = world.judge.belief(world.the_case);
    for (std::size_t c = 0; c < belief.by_class.size(); ++c) {
      if (belief.by_class[c] < 1e-6)
        continue;  // a class without belief is weighed by its prior, which is no concern here
      const int advice = static_cast<int>(c);
      for (const auto& question : inference::checking_questions(world.model, world.the_case, belief, advice)) {
        const double bits = world.judge.check_gain(judged, question.trait, advice, values_of(question.answers));
        REQUIRE(question.gain == Approx(bits).margin(1e-8).epsilon(0));
        REQUIRE(inference::check_gain(world.model, belief, question.trait, advice) ==
                Approx(question.gain).margin(1e-12));
      }
    }
  }
}

TEST_CASE("bins of a number follow one another from end to end and share the background about equally", "[oracle]") {
  for (std::uint64_t seed = 5001; seed <= 5060; ++seed) {
    CAPTURE(seed);
    const World world(seed, {});
    inference::Belief belief = inference::believe(world.model, {});
    for (const auto& question : inference::separating_questions(world.model, {}, belief)) {
      const auto& trait = world.knowledge->traits[static_cast<std::size_t>(question.trait)];
      if (trait.kind != knowledge::TraitKind::number) continue;
      CAPTURE(question.trait);
      double reached = trait.low;
      double number = 0.0;
      for (const auto& answer : question.answers) {
        if (answer.value.kind != evidence::Value::Kind::interval) continue;
        REQUIRE(answer.value.interval.low == reached);
        REQUIRE(answer.value.interval.high >= reached);
        reached = answer.value.interval.high;
        number += answer.chance;
      }
      REQUIRE(reached == trait.high);
      // The edges are read off a grid, so a steep claim may put more than a twelfth into one bin, but never nearly all
      // of a number that the catalogue spreads out.
      const auto rows = world.judge.answer_rows(question.trait, values_of(question.answers));
      for (std::size_t a = 0; a < question.answers.size(); ++a) {
        if (question.answers[a].value.kind == evidence::Value::Kind::interval)
          REQUIRE(rows.back()[a] <= 0.8 * number + 1e-9);
      }
    }
  }
}

TEST_CASE("the judge notices a wrong weight, belief or gain", "[oracle]") {
  // A judge that agrees with anything is none: each kind of slip must show.
  CaseRules rules;
  rules.readings = 4;
  rules.second_observer = false;
  int noticed = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    World world(seed, rules);
    inference::Settings other = world.settings;
    other.lapse_sure += 1e-4;
    other.lapse_think_so += 1e-4;
    other.lapse_guess += 1e-4;
    const Model slipped(world.knowledge, other);
    const auto weights = total_weights(slipped, inference::weigh(slipped, world.the_case));
    const auto judged = world.judge.weights(world.the_case);
    for (std::size_t h = 0; h < weights.size(); ++h) {
      if (std::abs(weights[h] - judged[h]) > 1e-6) {
        ++noticed;
        break;
      }
    }
  }
  REQUIRE(noticed > 15);
}
