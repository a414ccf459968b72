#include "bench/trial.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "bench/trial_knowledge.h"

using namespace loomkey;
using bench::ObserverType;
using bench::run_trial;
using bench::TrialOptions;
using bench::TrialReport;

namespace {

TrialOptions only(const ObserverType& type, int cases) {
  TrialOptions options;
  options.cases = cases;
  options.observers = {type};
  options.mistakes = {bench::Mistakes::own};
  options.absent_classes = 0;
  return options;
}

bool same_tally(const bench::Tally& a, const bench::Tally& b) {
  return a.cases == b.cases && a.right_class == b.right_class && a.right_part == b.right_part &&
         a.declared == b.declared && a.confidently_wrong == b.confidently_wrong && a.questions == b.questions &&
         a.checks == b.checks && a.ended == b.ended && a.answers == b.answers && a.wrong_answers == b.wrong_answers;
}

}  // namespace

TEST_CASE("one seed gives one report, with one thread or three", "[trial]") {
  const auto model = support::clean_model();
  TrialOptions options;
  options.seed = 7;
  options.cases = 40;
  options.absent_classes = 3;
  options.absent_cases = 4;
  options.threads = 1;
  const TrialReport one = run_trial(model, options);
  options.threads = 3;
  const TrialReport three = run_trial(model, options);
  REQUIRE(one.observers.size() == 12);
  for (std::size_t i = 0; i < one.observers.size(); ++i) {
    CHECK(same_tally(one.observers[i].all, three.observers[i].all));
    CHECK(one.observers[i].confusions == three.observers[i].confusions);
    CHECK(one.observers[i].asked == three.observers[i].asked);
    CHECK(one.observers[i].calibration.overall_error == three.observers[i].calibration.overall_error);
  }
  REQUIRE(one.by_mistakes.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(one.by_mistakes[i].absent.objects == 12);
    CHECK(one.by_mistakes[i].absent.confident == three.by_mistakes[i].absent.confident);
    CHECK(one.by_mistakes[i].absent.questions == three.by_mistakes[i].absent.questions);
  }
}

TEST_CASE("another seed gives other conversations", "[trial]") {
  const auto model = support::clean_model();
  TrialOptions options = only({.wrong = 0.2}, 60);
  const TrialReport one = run_trial(model, options);
  options.seed = 2;
  CHECK_FALSE(one.observers[0].asked == run_trial(model, options).observers[0].asked);
}

TEST_CASE("without wrong answers parts that look different are told apart", "[trial]") {
  const auto model = support::clean_model();
  const TrialReport report = run_trial(model, only({.wrong = 0.0, .cannot_tell = 0.2}, 400));
  const bench::ObserverReport& observer = report.observers[0];
  CHECK(observer.all.share(observer.all.right_class) > 0.99);
  CHECK(observer.all.share(observer.all.right_part) > 0.99);
  CHECK(observer.all.confidently_wrong == 0);
  CHECK(report.separable_parts() == support::trial_parts);
  CHECK(report.separable_prior == Approx(1.0));
  CHECK(same_tally(observer.all, observer.separable));
}

TEST_CASE("the mean number of questions stays above the bound", "[trial]") {
  const auto model = support::clean_model();
  for (const double wrong : {0.0, 0.1, 0.2}) {
    const TrialReport report = run_trial(model, only({.wrong = wrong}, 200));
    CHECK(report.observers[0].bound_ratio > 1.0);
  }
}

TEST_CASE("more wrong answers never help, and ask for more questions", "[trial]") {
  const auto model = support::clean_model();
  const auto at = [&](double wrong) { return run_trial(model, only({.wrong = wrong}, 300)).observers[0].all; };
  const bench::Tally none = at(0.0);
  const bench::Tally some = at(0.1);
  const bench::Tally many = at(0.4);
  CHECK(none.right_class >= some.right_class);
  CHECK(some.right_class > many.right_class);
  CHECK(none.questions < some.questions);
  CHECK(some.questions < many.questions);
}

TEST_CASE("an observer who is always wrong is right no more often than by chance", "[trial]") {
  const auto model = support::clean_model();
  const TrialReport report = run_trial(model, only({.wrong = 1.0, .cannot_tell = 0.0}, 300));
  const bench::Tally& tally = report.observers[0].all;
  CHECK(tally.share(tally.right_class) < 1.0 / support::trial_parts);
}

TEST_CASE("an observer who never can tell learns nothing and is never told anything", "[trial]") {
  const auto model = support::clean_model();
  const TrialReport report = run_trial(model, only({.wrong = 0.0, .cannot_tell = 1.0}, 50));
  const bench::Tally& tally = report.observers[0].all;
  CHECK(tally.declared == 0);
  CHECK(tally.ended[static_cast<std::size_t>(inference::Status::settled)] == 0);
}

TEST_CASE("without a meter no meter reading is asked", "[trial]") {
  const auto model = support::clean_model();
  const int ohms = model.knowledge().trait("ohms");
  const TrialReport report = run_trial(model, only({.wrong = 0.4, .meter = false}, 100));
  for (const auto& asked : report.observers[0].asked) CHECK(asked.trait != ohms);
}

TEST_CASE("in turns every part is brought equally often", "[trial]") {
  const auto model = support::clean_model();
  TrialOptions options = only({.wrong = 0.0}, 3 * support::trial_parts);
  options.by_turns = true;
  const TrialReport report = run_trial(model, options);
  for (const auto& one : report.observers[0].classes) CHECK(one.tally.cases == 3);
}

TEST_CASE("by frequency a part brought in more often comes more often", "[trial]") {
  const auto model = support::clean_model();
  const TrialReport report = run_trial(model, only({.wrong = 0.0}, 720));
  for (const auto& one : report.observers[0].classes) {
    // Part p has the share (1 + p) / 36 of 720 objects, 20 (1 + p); five standard deviations to either side.
    const double expected = 20.0 * (1 + one.advice_class);
    CHECK(one.tally.cases == Approx(expected).margin(5.0 * std::sqrt(expected)));
  }
}

TEST_CASE("a class taken out of a clean catalogue is recognised as missing", "[trial]") {
  const auto model = support::clean_model();
  TrialOptions options = only({}, 0);
  options.absent_classes = support::trial_parts;
  options.absent_cases = 10;
  options.mistakes = {bench::Mistakes::own, bench::Mistakes::other};
  const TrialReport report = run_trial(model, options);
  REQUIRE(report.by_mistakes.size() == 2);
  for (const bench::MistakesReport& mistakes : report.by_mistakes) {
    CHECK(mistakes.absent_observer.mistakes == mistakes.mistakes);
    CHECK(mistakes.absent.objects == 80);
    CHECK(mistakes.absent_classes.size() == 8);
    CHECK(mistakes.absent.confident <= 4);
    CHECK(mistakes.absent.not_in_catalogue > 60);
    CHECK(mistakes.absent_separable.objects == mistakes.absent.objects);
  }
}

TEST_CASE("taking a class out leaves every other part as it was", "[trial]") {
  const auto knowledge = support::clean_knowledge();
  const auto rest = bench::without_class(*knowledge, 3);
  REQUIRE(rest.parts.size() == 7);
  CHECK(rest.part("part-3") == -1);
  CHECK(rest.parts[3].id == "part-4");
  CHECK(rest.parts[3].advice == 4);
  CHECK(rest.advice.size() == knowledge->advice.size());
}

TEST_CASE("parts that look alike are not counted as separable", "[trial]") {
  const auto knowledge = support::clean_knowledge();
  for (auto& claim : knowledge->parts[1].claims) {
    if (knowledge->traits[static_cast<std::size_t>(claim.trait)].layer == knowledge::Layer::look) {
      claim = *knowledge->claim(0, 0, claim.trait);
    }
  }
  const inference::Model model(knowledge);
  const auto apart = bench::looks_apart(model);
  CHECK(apart[0].nearest == 1);
  CHECK(apart[1].nearest == 0);
  CHECK(apart[0].decibans == Approx(0.0).margin(1e-9));
  CHECK(apart[2].decibans > 60.0);
  knowledge->parts[1].advice = 0;
  CHECK(bench::looks_apart(inference::Model(knowledge))[0].decibans > 60.0);
}

TEST_CASE("each observer is tried with either kind of mistakes, on the same objects", "[trial]") {
  const auto model = support::clean_model();
  TrialOptions options = only({.wrong = 0.2}, 60);
  const TrialReport own = run_trial(model, options);
  options.mistakes = {bench::Mistakes::other};
  const TrialReport other = run_trial(model, options);
  options.mistakes = {bench::Mistakes::own, bench::Mistakes::other};
  const TrialReport both = run_trial(model, options);
  REQUIRE(both.observers.size() == 2);
  CHECK(both.observers[0].type.mistakes == bench::Mistakes::own);
  CHECK(both.observers[1].type.mistakes == bench::Mistakes::other);
  CHECK(same_tally(both.observers[0].all, own.observers[0].all));
  CHECK(same_tally(both.observers[1].all, other.observers[0].all));
  CHECK_FALSE(same_tally(own.observers[0].all, other.observers[0].all));
  for (const auto& one : own.observers[0].classes) {
    for (const auto& two : other.observers[0].classes) {
      if (one.advice_class == two.advice_class) CHECK(one.tally.cases == two.tally.cases);
    }
  }
  CHECK(both.by_mistakes[0].calibration.verdicts + both.by_mistakes[1].calibration.verdicts ==
        both.calibration.verdicts);
}

TEST_CASE("good and faulty parts add up to all, in the shares of their conditions", "[trial]") {
  const auto model = support::clean_model();
  const TrialReport report = run_trial(model, only({.wrong = 0.1}, 400));
  const bench::ObserverReport& observer = report.observers[0];
  const bench::Tally& good = observer.good.tally;
  const bench::Tally& faulty = observer.faulty.tally;
  // Six in ten are good; five standard deviations to either side.
  CHECK(good.cases == Approx(240).margin(5.0 * std::sqrt(400 * 0.6 * 0.4)));
  CHECK(good.cases + faulty.cases == observer.all.cases);
  CHECK(good.right_class + faulty.right_class == observer.all.right_class);
  CHECK(good.questions + faulty.questions == observer.all.questions);
  CHECK(observer.good.calibration.verdicts + observer.faulty.calibration.verdicts == observer.calibration.verdicts);
}

TEST_CASE("wrong answers are counted: none without mistakes, every one from people who only lie", "[trial]") {
  const auto model = support::clean_model();
  TrialOptions options = only({.wrong = 1.0, .cannot_tell = 0.5}, 50);
  const bench::Tally liars = run_trial(model, options).observers[0].all;
  CHECK(liars.answers > 0);
  CHECK(liars.answers < liars.questions);
  CHECK(liars.wrong_answers == liars.answers);
  options.observers = {{.wrong = 0.0}};
  options.mistakes = {bench::Mistakes::other};
  CHECK(run_trial(model, options).observers[0].all.wrong_answers == 0);
}

TEST_CASE("an empty catalogue gives an empty report", "[trial]") {
  const auto knowledge = support::clean_knowledge();
  knowledge->parts.clear();
  CHECK(run_trial(inference::Model(knowledge), TrialOptions()).observers.empty());
}

TEST_CASE("progress is told once for every conversation", "[trial]") {
  const auto model = support::clean_model();
  TrialOptions options = only({}, 5);
  options.absent_classes = 2;
  options.absent_cases = 3;
  int calls = 0;
  int last = 0;
  options.progress = [&](int done, int total) {
    ++calls;
    last = done;
    CHECK(total == 11);
  };
  run_trial(model, options);
  CHECK(calls == 11);
  CHECK(last == 11);
}
