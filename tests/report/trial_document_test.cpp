#include "report/trial_document.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "bench/trial_knowledge.h"
#include "report/page_checks.h"
#include "report/text.h"

using namespace loomkey;
using support::contains;

namespace {

bench::TrialReport small_trial(const inference::Model& model) {
  bench::TrialOptions options;
  options.cases = 30;
  options.absent_classes = 2;
  options.absent_cases = 5;
  return bench::run_trial(model, options);
}

std::string words_of(const knowledge::Knowledge& knowledge, const bench::TrialReport& report) {
  return report::to_text(report::trial_document(knowledge, report));
}

}  // namespace

TEST_CASE("a trial page names every observer, fits 80 columns and says what it does not measure") {
  const auto model = support::clean_model();
  const std::string page = words_of(model.knowledge(), small_trial(model));
  CHECK(support::widest_line(page) <= 80);
  CHECK(support::is_clean(page));
  const std::string words = support::unfolded(page);
  for (const std::string observer : {"A 0 % wrong, own mistakes; ", "B 10 % wrong, ", "C 20 % wrong, ", ", always sure",
                                     "G 0 % wrong, other mistakes; 0.0 % all told"}) {
    CHECK(contains(words, observer));
  }
  CHECK(contains(words, "It does not measure whether the catalogue is right about the world."));
  CHECK(contains(words, "8 of 8 parts; 100.0 % of what is brought in."));
  CHECK(contains(words, "2 classes, one at a time;"));
  CHECK(contains(words, "all 10 "));
  for (const std::string section :
       {"Good parts and faulty parts", "Calibration, own mistakes", "Calibration, other mistakes",
        "Classes taken out of the catalogue, own mistakes", "Classes taken out of the catalogue, other mistakes"}) {
    CHECK(contains(words, section));
  }
}

TEST_CASE("bins and classes with too little behind them say so") {
  const auto model = support::clean_model();
  bench::TrialReport report = small_trial(model);
  CHECK(contains(support::unfolded(words_of(model.knowledge(), report)), "too few verdicts"));
  report.by_mistakes[0].calibration.bins[4].count = bench::verdicts_for_calibration - 1;
  CHECK(contains(words_of(model.knowledge(), report), "40 to 50 % (too few)"));
  report.by_mistakes[0].calibration.bins[4].count = bench::verdicts_for_calibration;
  CHECK_FALSE(contains(words_of(model.knowledge(), report), "40 to 50 % (too few)"));
}

TEST_CASE("right verdicts of each observer are told by what was stated, without losing one below 50 %") {
  const auto model = support::clean_model();
  bench::TrialReport report = small_trial(model);
  for (auto& observer : report.observers) observer.calibration = {};
  auto& bins = report.observers[1].calibration.bins;
  bins[0] = {2, 0.05, 0.5};
  bins[4] = {3, 0.45, 1.0};
  bins[9] = {40, 0.96, 0.925};
  CHECK(contains(support::unfolded(words_of(model.knowledge(), report)), "B 4 of 5 - - - - 37 of 40"));
}

TEST_CASE("a trial without conversations or without absent classes leaves those pages out") {
  const auto model = support::clean_model();
  const std::string nothing = words_of(model.knowledge(), bench::TrialReport{});
  CHECK(contains(nothing, "Trial of the catalogue"));
  CHECK_FALSE(contains(nothing, "Calibration"));
  bench::TrialReport report = small_trial(model);
  for (auto& mistakes : report.by_mistakes) mistakes.absent = {};
  CHECK_FALSE(contains(words_of(model.knowledge(), report), "taken out"));
}

TEST_CASE("the trial's JSON carries the numbers of the report") {
  const auto model = support::clean_model();
  const bench::TrialReport report = small_trial(model);
  const auto json = nlohmann::json::parse(report::trial_json(model.knowledge(), report));
  CHECK(json["schema"] == "loomkey/trial/2");
  CHECK(json["seed"] == report.seed);
  CHECK(json["parts"].size() == 8);
  REQUIRE(json["observers"].size() == report.observers.size());
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    CHECK(json["observers"][i]["all"]["right_class"] == report.observers[i].all.right_class);
    CHECK(json["observers"][i]["all"]["ended"].size() == bench::status_count);
    CHECK(json["observers"][i]["bound"]["ratio"].get<double>() == Approx(report.observers[i].bound_ratio).margin(1e-6));
  }
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    const auto& one = json["observers"][i];
    const bench::ObserverReport& observer = report.observers[i];
    CHECK(one["observer"]["mistakes"] == (i < 6 ? "own" : "other"));
    CHECK(one["all"]["wrong_answers"] == observer.all.wrong_answers);
    CHECK(one["good"]["right_part"] == observer.good.tally.right_part);
    CHECK(one["faulty"]["cases"] == observer.faulty.tally.cases);
    CHECK(one["faulty"]["calibration"]["verdicts"] == observer.faulty.calibration.verdicts);
    CHECK(one["good"]["ratio"].get<double>() ==
          Approx(observer.good.tally.mean_questions() / observer.bound.questions).margin(1e-5));
  }
  REQUIRE(json["by_mistakes"].size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& mistakes = json["by_mistakes"][i];
    CHECK(mistakes["mistakes"] == (i == 0 ? "own" : "other"));
    CHECK(mistakes["absent"]["objects"] == 10);
    CHECK(mistakes["absent"]["confident"] == report.by_mistakes[i].absent.confident);
    CHECK(mistakes["absent"]["classes"].size() == 2);
    CHECK(mistakes["calibration"]["verdicts"] == report.by_mistakes[i].calibration.verdicts);
  }
  CHECK(json["calibration"]["bins"].size() == bench::calibration_bins);
}
