#include "bench/trial_observer.h"

#include <array>
#include <cmath>

#include <catch2/catch.hpp>

#include "bench/trial_knowledge.h"

using namespace loomkey;
using bench::Chance;
using bench::Observer;
using bench::TraitSampler;
using bench::WrongAnswers;
using evidence::Value;

TEST_CASE("a seed gives the numbers that the standard fixes", "[trial]") {
  // The 10000th number of a default-seeded mt19937_64 is given in the C++ standard: 9981545732273789042.
  Chance chance(5489);
  double last = 0.0;
  for (int i = 0; i < 10000; ++i) last = chance.uniform();
  CHECK(last == static_cast<double>(9981545732273789042ULL >> 11U) / 9007199254740992.0);
}

TEST_CASE("draws keep to their weights and ranges", "[trial]") {
  Chance chance(3);
  int second = 0;
  double events = 0;
  double square = 0;
  constexpr int draws = 20000;
  const std::vector<double> weights = {1.0, 3.0, 0.0};
  for (int i = 0; i < draws; ++i) {
    const std::size_t drawn = chance.pick(weights);
    CHECK(drawn < 2);
    if (drawn == 1) ++second;
    events += chance.count(0.3);
    const double slip = chance.slip();
    CHECK(std::abs(slip) <= 1.5);
    square += slip * slip;
  }
  CHECK(second == Approx(0.75 * draws).epsilon(0.03));
  CHECK(events == Approx(0.3 * draws).epsilon(0.05));
  CHECK(std::sqrt(square / draws) == Approx(0.5).epsilon(0.03));
}

TEST_CASE("mistakes persist: the same trait gets the same answer, whenever it is asked", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  const Observer one(model, sampler, {.wrong = 0.3}, {2, 1}, 99);
  const Observer again(model, sampler, {.wrong = 0.3}, {2, 1}, 99);
  for (int t = model.trait_count() - 1; t >= 0; --t) CHECK(one.answer(t).value == again.answer(t).value);
  for (int t = 0; t < model.trait_count(); ++t) CHECK(one.answer(t).value == again.answer(t).value);
}

TEST_CASE("a worse observer makes all the mistakes of a better one", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  int differ = 0;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const Observer good(model, sampler, {.wrong = 0.0}, {1, 0}, seed);
    const Observer middling(model, sampler, {.wrong = 0.1}, {1, 0}, seed);
    const Observer bad(model, sampler, {.wrong = 0.2}, {1, 0}, seed);
    for (int t = 0; t < model.trait_count(); ++t) {
      const Value value = middling.answer(t).value;
      if (value == good.answer(t).value) continue;
      CHECK(bad.answer(t).value == value);
      ++differ;
    }
  }
  // A tenth of 200 x 12 answers.
  CHECK(differ == Approx(240).margin(60));
}

TEST_CASE("a wrong answer is never the true one", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  for (const WrongAnswers kind : {WrongAnswers::any, WrongAnswers::plausible}) {
    for (std::uint64_t seed = 0; seed < 100; ++seed) {
      const bench::ObserverType liar = {.wrong = 1.0, .cannot_tell = 0.0, .wrong_answers = kind};
      const Observer observer(model, sampler, liar, {5, 0}, seed);
      for (int t = 0; t < model.trait_count(); ++t) {
        const Value truth = observer.truth(t);
        const Value told = observer.answer(t).value;
        if (truth.kind == Value::Kind::interval && told.kind == Value::Kind::interval) {
          CHECK(std::abs(told.interval.low / truth.interval.low - 1.0) > 0.099);
        } else {
          CHECK_FALSE(told == truth);
        }
      }
    }
  }
}

TEST_CASE("numbers lie in the claimed range and its shoulders, and are read within the error", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  const int size = model.knowledge().trait("size");
  int inside = 0;
  constexpr int objects = 1000;
  for (std::uint64_t seed = 0; seed < objects; ++seed) {
    const Observer observer(model, sampler, {.cannot_tell = 0.0}, {3, 0}, seed);  // 40 to 44 mm
    const double truth = observer.truth(size).interval.low;
    CHECK(truth >= 40.0 / 1.05 - 1e-9);
    CHECK(truth <= 44.0 * 1.05 + 1e-9);
    if (truth >= 40.0 && truth <= 44.0) ++inside;
    CHECK(observer.answer(size).value.interval.low == Approx(truth).epsilon(0.03 * 1.5 + 0.006));
  }
  // Area of the flat part: ln 1.1 / (ln 1.1 + ln 1.05).
  CHECK(inside == Approx(objects * std::log(1.1) / (std::log(1.1) + std::log(1.05))).epsilon(0.06));
}

TEST_CASE("a set is mostly read as claimed, with items gone or added now and then", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  const int letters = model.knowledge().trait("letters");
  int exact = 0;
  int empty = 0;
  constexpr int objects = 2000;
  for (std::uint64_t seed = 0; seed < objects; ++seed) {
    const Value value = Observer(model, sampler, {.cannot_tell = 0.0}, {0, 0}, seed).answer(letters).value;
    if (value == Observer(model, sampler, {}, {0, 0}, seed).truth(letters)) ++exact;
    if (value.items.empty()) ++empty;
  }
  const auto& settings = model.settings();
  const double none_added = std::exp(-settings.set_extra);
  CHECK(empty == Approx(objects * settings.set_missing * none_added).epsilon(0.25));
  CHECK(exact > objects * (1.0 - settings.set_missing) * none_added * 0.9);
  CHECK(exact < objects * (1.0 - settings.set_missing));
}

TEST_CASE("a fault shows on the meter, and looks stay as they are", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  const int ohms = model.knowledge().trait("ohms");
  const Observer good(model, sampler, {}, {0, 0}, 5);
  const Observer open(model, sampler, {}, {0, 1}, 5);
  CHECK(good.truth(ohms).state == 0);
  CHECK(open.truth(ohms).state == 2);
  for (int t = 0; t < 9; ++t) CHECK(good.truth(t) == open.truth(t));
}

TEST_CASE("an altered part misses its claims as often as the engine allows for", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  int missed = 0;
  constexpr int objects = 3000;
  for (std::uint64_t seed = 0; seed < objects; ++seed) {
    if (Observer(model, sampler, {.altered = true}, {0, 0}, seed).truth(0).state != 0) ++missed;
  }
  // A miss is drawn from the background, which part 0 (1 of 36) and the uniform share make state 0 again at times.
  const double again = 0.7 / 36.0 + 0.3 / 8.0;
  CHECK(missed == Approx(objects * model.settings().residual * (1.0 - again)).epsilon(0.25));
}

TEST_CASE("doubt goes with mistakes: a guess is wrong more often than what they are sure of", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  std::array<int, 3> given{};
  std::array<int, 3> wrong{};
  for (std::uint64_t seed = 0; seed < 1000; ++seed) {
    const Observer observer(model, sampler, {.wrong = 0.1, .doubts = true}, {4, 0}, seed);
    const Observer perfect(model, sampler, {.wrong = 0.0, .doubts = true}, {4, 0}, seed);
    const Observer plain(model, sampler, {.wrong = 0.1}, {4, 0}, seed);
    for (int t = 0; t < model.trait_count(); ++t) {
      const evidence::Reading reading = observer.answer(t);
      CHECK(plain.answer(t).value == reading.value);
      CHECK(plain.answer(t).certainty == evidence::Certainty::sure);
      ++given[static_cast<std::size_t>(reading.certainty)];
      if (reading.value != perfect.answer(t).value) ++wrong[static_cast<std::size_t>(reading.certainty)];
    }
  }
  const auto share = [&](std::size_t i) { return static_cast<double>(wrong[i]) / given[i]; };
  CHECK(share(0) == Approx(0.044).margin(0.01));
  CHECK(share(1) == Approx(0.27).margin(0.04));
  CHECK(share(2) == Approx(0.48).margin(0.07));
}
