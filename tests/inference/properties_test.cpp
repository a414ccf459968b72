// What holds for every case. rapidcheck makes sequences of readings, changes and withdrawals on the catalogue of
// tests/replays and shrinks one that fails to its shortest form, printed as lines for a replay file; seeded loops do
// the same on random catalogues.
#include <algorithm>
#include <cmath>
#include <memory>

#include <catch2/catch.hpp>
#include <rapidcheck/catch.h>

#include "inference/assess.h"
#include "inference/steps.h"
#include "oracle/random_knowledge.h"
#include "oracle/tiny_catalogue.h"

using namespace loomkey;
using evidence::Case;
using evidence::Certainty;
using evidence::Reading;
using evidence::Value;
using inference::Model;
using inference::Settings;
using knowledge::Special;
using knowledge::TraitKind;
using replay::Step;

namespace {

const knowledge::Knowledge& catalogue() {
  static const auto shared = oracle::replay_catalogue();
  return *shared;
}

// A value of the trait from a handful of small numbers, so that rapidcheck can shrink it.
Value value_of(const knowledge::Trait& trait, int kind, int pick, double low, double width) {
  Value value;
  if (kind == 0) {
    value.kind = Value::Kind::cannot_tell;
  } else if (trait.kind == TraitKind::choice) {
    value.kind = Value::Kind::state;
    value.state = pick % static_cast<int>(trait.states.size());
  } else if (trait.kind == TraitKind::number && kind == 1) {
    value.kind = Value::Kind::special;
    value.special = static_cast<Special>(pick % 4);
    if (!trait.allows[static_cast<std::size_t>(value.special)]) value.special = Special::does_not_apply;
  } else if (trait.kind == TraitKind::number) {
    value.kind = Value::Kind::interval;
    value.interval = {low, low * (1.0 + width)};
  } else {
    const std::vector<std::string> letters = {"AL", "E", "WL", "B", "L", "+", "-", "8", "F"};
    const std::vector<std::string> colours = {"white",  "green",       "brown",        "yellow",
                                              "purple", "white/green", "green/yellow", "dark"};
    const auto& items = trait.items == knowledge::SetItems::letters ? letters : colours;
    value.kind = Value::Kind::set;
    value.complete = kind != 1;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if ((pick >> i & 1) != 0) value.items.push_back(items[i]);
    }
    std::sort(value.items.begin(), value.items.end());
  }
  return value;
}

rc::Gen<Step> any_step() {
  // In thousandths, because rapidcheck shrinks whole numbers best.
  const auto numbers = rc::gen::tuple(rc::gen::inRange(0, static_cast<int>(catalogue().traits.size())),
                                      rc::gen::inRange(0, 10), rc::gen::inRange(0, 512), rc::gen::inRange(1, 100000),
                                      rc::gen::inRange(0, 1000), rc::gen::inRange(0, 3), rc::gen::inRange(0, 4));
  return rc::gen::map(numbers, [](const auto& drawn) {
    const auto& [trait, kind, pick, low, width, certainty, observer] = drawn;
    Step step;
    step.kind = kind == 9 ? Step::Kind::forget : Step::Kind::read;
    step.reading.trait = trait;
    step.reading.value =
        value_of(catalogue().traits[static_cast<std::size_t>(trait)], kind, pick, low / 1000.0, width / 1000.0);
    step.reading.certainty = static_cast<Certainty>(certainty);
    if (observer == 3) step.reading.observer = "seller";
    return step;
  });
}

// At most 16 steps: every step is judged in every rotation of the readings.
rc::Gen<std::vector<Step>> any_sequence() {
  return rc::gen::withSize(
      [](int size) { return rc::gen::resize(std::min(size, 16), rc::gen::container<std::vector<Step>>(any_step())); });
}

inference::Belief belief_of(const Model& model, const Case& the_case) {
  return inference::believe(model, inference::weigh(model, the_case));
}

double log_odds_db(double p) { return 10.0 * std::log10(p / (1.0 - p)); }

}  // namespace

TEST_CASE("order, change, undo and silence: every sequence of readings keeps the engine's promises") {
  const Settings settings;
  const auto shared = oracle::replay_catalogue();
  const Model model(shared, settings);
  const oracle::Oracle judge(*shared, settings);
  rc::prop("a sequence of readings, changes and withdrawals", [&] {
    const auto steps = *any_sequence();
    const std::string complaint = replay::broken_promise(model, judge, steps);
    if (!complaint.empty()) RC_FAIL(complaint);
  });
}

TEST_CASE("a failing sequence shrinks to the steps that matter, as lines for a replay file") {
  const auto result = rc::detail::checkTestable(
      [] {
        const auto steps = *any_sequence();
        // False on purpose: some sequence does read form s2.
        RC_ASSERT(std::none_of(steps.begin(), steps.end(), [](const Step& step) {
          return step.kind == Step::Kind::read && replay::text_of(catalogue(), step).rfind("read form s2", 0) == 0;
        }));
      },
      rc::detail::TestMetadata{});
  rc::detail::FailureResult failure;
  REQUIRE(result.match(failure));
  REQUIRE(failure.counterExample.size() == 1);
  REQUIRE(failure.counterExample.front().second == "[read form s2]");
}

TEST_CASE("random catalogues keep the promises too") {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    CAPTURE(seed);
    oracle::Dice dice(seed);
    const auto shared = std::make_shared<knowledge::Knowledge>(oracle::random_knowledge(dice));
    const Settings settings = oracle::random_settings(dice);
    const Model model(shared, settings);
    const oracle::Oracle judge(*shared, settings);
    oracle::CaseRules rules;
    rules.readings = 5;
    REQUIRE(replay::broken_promise(model, judge, oracle::random_case(dice, *shared, rules)) == "");
  }
}

TEST_CASE("'not in the catalogue' stands at exactly 0 dB whatever is read") {
  // Its probability moves only because the others do: absent odds against any hypothesis are prior odds times that
  // hypothesis' own weight. A hypothesis that states nothing about what was read keeps its prior odds, bit for bit.
  const auto shared = oracle::replay_catalogue();
  const Model model(shared);
  Case the_case;
  const int volts = shared->trait("volts");
  the_case.readings = {oracle::saw_number(volts, 13.0, 14.0), oracle::saw_state(shared->trait("fins"), 1)};
  const int control = shared->part("control");
  for (const auto& line : inference::weigh(model, the_case)) {
    for (std::size_t h = 0; h < model.hypotheses().size(); ++h) {
      if (model.hypotheses()[h].part == control) REQUIRE(line.weight[h] == 0.0);
    }
  }
}

TEST_CASE("absurd values leave every probability a probability") {
  const auto shared = oracle::replay_catalogue();
  const Settings settings;
  const Model model(shared, settings);
  const oracle::Oracle judge(*shared, settings);
  const std::vector<std::pair<double, double>> intervals = {
      {1e300, 1e300}, {-1e300, 1e300},       {0.0, 0.0},   {1e-300, 1e-300},   {5e-324, 1.7e308},   {-5.0, -4.0},
      {35.0, 35.0},   {35.0, 35.0000000001}, {400.0, 5.0}, {1.7e308, 1.7e308}, {-1.7e308, -1.7e308}};
  for (const auto& [low, high] : intervals) {
    for (int t = 0; t < model.trait_count(); ++t) {
      if (shared->traits[static_cast<std::size_t>(t)].kind != TraitKind::number) continue;
      CAPTURE(low, high, shared->traits[static_cast<std::size_t>(t)].id);
      Case the_case;
      the_case.readings = {oracle::saw_number(t, low, high), oracle::saw_state(shared->trait("form"), 0)};
      REQUIRE(replay::broken_promise(model, judge, the_case) == "");
      const auto assessment = inference::assess(model, the_case);
      REQUIRE(assessment.loss >= 0.0);
      for (const auto& question : assessment.questions) REQUIRE(std::isfinite(question.score));
    }
  }
  // A reading without any width, where the observer's error has none either, tells nothing and breaks nothing.
  auto exact = std::make_shared<knowledge::Knowledge>(*shared);
  const auto length = static_cast<std::size_t>(shared->trait("length"));
  exact->traits[length].relative_error = exact->traits[length].absolute_error = 0.0;
  const Model exact_model(exact, settings);
  Case the_case;
  the_case.readings = {oracle::saw_number(static_cast<int>(length), 40.0, 40.0)};
  REQUIRE(belief_of(exact_model, the_case).absent == Approx(settings.prior_absent).margin(1e-12));
}

TEST_CASE("a guessed name is worth at most 6 dB and never speaks against a part") {
  auto shared = std::make_shared<knowledge::Knowledge>(*oracle::replay_catalogue());
  shared->families = {{"ignition", "ignition coil", "", {}}};
  for (auto& part : shared->parts) part.aliases = {"thing " + part.name};
  shared->parts[0].family = 0;
  shared->parts[0].called = {"condenser"};
  const Model model(shared);
  const double before = belief_of(model, {}).absent;
  for (const std::string guess :
       {"coil", "COIL", "thing coil", "ignition coil", "condenser", "regulator", "   ", "-", "coil coil"}) {
    CAPTURE(guess);
    for (std::size_t p = 0; p < shared->parts.size(); ++p) {
      const double weight = inference::guess_weight(model, guess, static_cast<int>(p));
      REQUIRE(weight >= 0.0);
      REQUIRE(weight <= 6.0);
    }
    Case the_case;
    the_case.guessed_name = guess;
    REQUIRE(std::abs(log_odds_db(belief_of(model, the_case).absent) - log_odds_db(before)) <= 6.0 + 1e-9);
  }
  REQUIRE(inference::guess_weight(model, "coil", 0) == 6.0);
  REQUIRE(inference::guess_weight(model, "regulator", 0) == 0.0);
}

TEST_CASE("all bike context together moves the odds of two parts by at most 10 dB") {
  auto shared = std::make_shared<knowledge::Knowledge>(*oracle::replay_catalogue());
  auto& fits = shared->parts[0];
  auto& clashes = shared->parts[1];
  fits.first_year = 1960, fits.last_year = 1975;
  clashes.first_year = 1995, clashes.last_year = 2026;
  fits.origins = fits.markets = {"british"};
  clashes.origins = clashes.markets = {"japanese"};
  fits.volts = {6}, clashes.volts = {12};
  fits.cylinders = {1}, clashes.cylinders = {4};
  fits.conditions[0].symptoms = {0};
  const Model model(shared);
  evidence::Bike bike;
  bike.decade = 1960;
  bike.origin = bike.market = "british";
  bike.volts = 6;
  bike.cylinders = 1;
  bike.symptoms = {0};
  double least = 0.0;
  double most = 0.0;
  for (const auto& h : model.hypotheses()) {
    least = std::min(least, inference::context_weight(model, bike, h));
    most = std::max(most, inference::context_weight(model, bike, h));
  }
  REQUIRE(most == 5.0);
  REQUIRE(least == -5.0);
  // One line of the sum, and only that one.
  Case the_case;
  the_case.bike = bike;
  const auto lines = inference::weigh(model, the_case);
  REQUIRE(lines.size() == 1);
  REQUIRE(lines.front().kind == inference::WeightLine::Kind::context);
  REQUIRE(inference::weigh(model, Case{}).empty());
}

TEST_CASE("context that is not known says nothing, and a part that fits every bike is never held against it") {
  const auto shared = oracle::replay_catalogue();
  const Model model(shared);
  evidence::Bike bike;
  for (const auto& h : model.hypotheses()) REQUIRE(inference::context_weight(model, bike, h) == 0.0);
  bike.origin = "british";
  bike.volts = 12;
  bike.cylinders = 2;
  bike.market = "usa";
  for (const auto& h : model.hypotheses()) REQUIRE(inference::context_weight(model, bike, h) == 0.0);
}
