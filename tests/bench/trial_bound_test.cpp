#include "bench/trial_bound.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "bench/trial_knowledge.h"

using namespace loomkey;
using bench::channel_capacity;

namespace {

double binary_entropy(double p) { return -p * std::log2(p) - (1.0 - p) * std::log2(1.0 - p); }

}  // namespace

// Capacities that every textbook of information theory carries.
TEST_CASE("channel capacity agrees with the closed forms", "[trial]") {
  SECTION("noiseless") {
    CHECK(channel_capacity({{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}) == Approx(2.0).margin(2e-3));
  }
  SECTION("binary symmetric: 1 - h(p)") {
    CHECK(channel_capacity({{0.9, 0.1}, {0.1, 0.9}}) == Approx(1.0 - binary_entropy(0.1)).margin(2e-3));
  }
  SECTION("binary erasure: 1 - p") {
    CHECK(channel_capacity({{0.7, 0.3, 0.0}, {0.0, 0.3, 0.7}}) == Approx(0.7).margin(2e-3));
  }
  SECTION("Z-channel: log2(1 + (1 - p) p^(p / (1 - p)))") {
    CHECK(channel_capacity({{1.0, 0.0}, {0.5, 0.5}}) == Approx(std::log2(1.0 + 0.5 * 0.5)).margin(2e-3));
  }
  SECTION("rows alike carry nothing, nor does no row") {
    CHECK(channel_capacity({{0.2, 0.8}, {0.2, 0.8}}) == Approx(0.0).margin(2e-3));
    CHECK(channel_capacity({}) == 0.0);
  }
}

TEST_CASE("the bound follows its formula", "[trial]") {
  const auto model = support::clean_model();
  const bench::QuestionBound bound = bench::question_bound(model, {.wrong = 0.0, .cannot_tell = 0.2});
  const double absent = model.settings().prior_absent;
  double entropy = -absent * std::log2(absent);
  for (int p = 0; p < support::trial_parts; ++p) {
    const double chance = (1.0 - absent) * (1 + p) / 36.0;
    entropy -= chance * std::log2(chance);
  }
  CHECK(bound.entropy == Approx(entropy));
  const double sure = model.settings().class_threshold;
  CHECK(bound.residue == Approx(binary_entropy(sure) + (1.0 - sure) * std::log2(8.0)));
  CHECK(bound.capacity <= 0.8 * 3.0 + 1e-3);  // eight states, one answer in five missing
  CHECK(bound.capacity > 0.8 * 2.7);
  CHECK(bound.questions == Approx((bound.entropy - bound.residue) / bound.capacity));
}

TEST_CASE("mistakes and silence raise the bound", "[trial]") {
  const auto model = support::clean_model();
  const auto questions = [&](double wrong, double silent) {
    return bench::question_bound(model, {.wrong = wrong, .cannot_tell = silent}).questions;
  };
  CHECK(questions(0.1, 0.2) > questions(0.0, 0.2));
  CHECK(questions(0.2, 0.2) > questions(0.1, 0.2));
  CHECK(questions(0.1, 0.4) == Approx(questions(0.1, 0.0) / 0.6).epsilon(0.001));
}

TEST_CASE("the best trait is one that the observer can read", "[trial]") {
  const auto knowledge = support::clean_knowledge();
  knowledge->traits.erase(knowledge->traits.begin(), knowledge->traits.begin() + 11);
  for (auto& part : knowledge->parts) {
    const auto shift = [](std::vector<knowledge::Claim>& claims) {
      std::erase_if(claims, [](const auto& claim) { return claim.trait < 11; });
      for (auto& claim : claims) claim.trait -= 11;
    };
    shift(part.claims);
    for (auto& condition : part.conditions) shift(condition.claims);
  }
  const inference::Model model(knowledge);
  CHECK(bench::question_bound(model, {.meter = true}).trait == 0);
  CHECK(bench::question_bound(model, {.meter = false}).trait == -1);
  CHECK(bench::question_bound(model, {.meter = false}).questions == 0.0);
}
