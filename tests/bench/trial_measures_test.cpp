#include "bench/trial_measures.h"

#include <catch2/catch.hpp>

using namespace loomkey;
using bench::Outcome;
using bench::Verdict;

namespace {

Outcome outcome(int true_class, int called_class, double confidence, inference::Status status) {
  Outcome out;
  out.object = {true_class, 0};
  out.true_class = true_class;
  out.called_class = called_class;
  out.called_part = called_class;
  out.confidence = confidence;
  out.status = status;
  out.asked = {2, 0, 5};
  out.checks = 1;
  return out;
}

using inference::Status;

}  // namespace

TEST_CASE("calibration compares stated confidence with the share right, bin by bin", "[trial]") {
  std::vector<Verdict> verdicts;
  for (int i = 0; i < 100; ++i) verdicts.push_back({0.95, i < 90});   // stated .95, right .90
  for (int i = 0; i < 200; ++i) verdicts.push_back({0.62, i < 140});  // stated .62, right .70
  for (int i = 0; i < 99; ++i) verdicts.push_back({0.15, false});     // one too few to count
  const bench::Calibration result = bench::calibrate(verdicts);
  CHECK(result.verdicts == 399);
  CHECK(result.bins[9].count == 100);
  CHECK(result.bins[9].error() == Approx(0.05));
  CHECK(result.bins[6].mean_confidence == Approx(0.62));
  CHECK(result.bins[6].share_right == Approx(0.70));
  CHECK(result.bins[1].count == 99);
  CHECK_FALSE(result.bins[1].counts());
  REQUIRE(result.largest_error.has_value());
  CHECK(*result.largest_error == Approx(0.08));
  CHECK(*result.mean_error == Approx((100 * 0.05 + 200 * 0.08) / 300));
  CHECK(result.overall_error == Approx(std::abs((95.0 + 124.0 + 14.85) - 230.0) / 399));
}

TEST_CASE("calibration of nothing, and the edges of its bins", "[trial]") {
  const bench::Calibration nothing = bench::calibrate({});
  CHECK(nothing.verdicts == 0);
  CHECK(nothing.overall_error == 0.0);
  CHECK_FALSE(nothing.largest_error.has_value());
  const bench::Calibration edges = bench::calibrate({{0.0, false}, {0.1, false}, {0.9, true}, {1.0, true}});
  CHECK(edges.bins[0].count == 1);
  CHECK(edges.bins[1].count == 1);
  CHECK(edges.bins[9].count == 2);
}

TEST_CASE("a tally counts what was declared apart from what led", "[trial]") {
  bench::Tally tally;
  tally.add(outcome(1, 1, 0.97, Status::settled));
  tally.add(outcome(1, 2, 0.95, Status::settled));
  tally.add(outcome(1, 2, 0.60, Status::cannot_tell));
  tally.add(outcome(1, -1, 0.99, Status::not_in_catalogue));
  CHECK(tally.cases == 4);
  CHECK(tally.right_class == 1);
  CHECK(tally.declared == 2);
  CHECK(tally.share_declared(tally.declared_right_class) == Approx(0.5));
  CHECK(tally.confidently_wrong == 1);  // "not in the catalogue" names no wrong part
  CHECK(tally.mean_questions() == Approx(3.0));
  CHECK(tally.mean_checks() == Approx(1.0));
  CHECK(tally.ended[static_cast<std::size_t>(Status::settled)] == 2);
  CHECK(bench::Tally().share(0) == 0.0);
}

TEST_CASE("classes come worst first, confusions and traits most frequent first", "[trial]") {
  const std::vector<Outcome> outcomes = {
      outcome(1, 1, 0.9, Status::settled), outcome(1, 2, 0.9, Status::settled), outcome(2, 2, 0.9, Status::settled),
      outcome(3, 2, 0.9, Status::open),    outcome(3, 2, 0.9, Status::settled), outcome(3, -1, 0.9, Status::open),
  };
  const auto classes = bench::by_class(outcomes);
  REQUIRE(classes.size() == 3);
  CHECK(classes[0].advice_class == 3);
  CHECK(classes[1].advice_class == 1);
  CHECK(classes[2].advice_class == 2);
  const auto confusions = bench::confusions(outcomes);
  REQUIRE(confusions.size() == 3);
  CHECK(confusions[0] == bench::Confusion{3, 2, 2, 1});
  CHECK(bench::asked_traits(outcomes).front() == bench::AskedTrait{0, 6});
  CHECK(bench::verdicts(outcomes).size() == 5);
}
