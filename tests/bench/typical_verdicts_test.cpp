#include "bench/typical_verdicts.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "bench/trial_knowledge.h"

using namespace loomkey;
using bench::typical_answer;
using bench::typical_verdicts;
using evidence::Value;

TEST_CASE("the typical answer is the likeliest one", "[typical]") {
  const auto knowledge = support::clean_knowledge();
  auto& claims = knowledge->parts[3].claims;
  const int size = knowledge->trait("size");
  const int letters = knowledge->trait("letters");
  claims[0].states = {0.1, 0.4, 0.4, 0.1, 0, 0, 0, 0};
  claims[static_cast<std::size_t>(letters)].sets = {{{"A"}, 0.3}, {{"B", "C"}, 0.7}};
  CHECK(typical_answer(*knowledge, 3, 0).value.state == 1);
  CHECK(typical_answer(*knowledge, 3, letters).value.items == std::vector<std::string>{"B", "C"});

  auto& sizes = claims[static_cast<std::size_t>(size)];
  sizes.ranges = {{10.0, 20.0, 0.3}, {50.0, 200.0, 0.5}};
  sizes.special[0] = 0.2;
  const Value middle = typical_answer(*knowledge, 3, size).value;
  CHECK(middle.kind == Value::Kind::interval);
  CHECK(middle.interval.low == Approx(100.0));  // the geometric mean of 50 and 200
  knowledge->traits[static_cast<std::size_t>(size)].log_scale = false;
  CHECK(typical_answer(*knowledge, 3, size).value.interval.high == Approx(125.0));
  sizes.special[0] = 0.6;
  CHECK(typical_answer(*knowledge, 3, size).value.kind == Value::Kind::special);
  sizes.ranges.clear();
  CHECK(typical_answer(*knowledge, 3, size).value.special == knowledge::Special::over_range);
}

TEST_CASE("of what a part does not state, the typical answer is that nobody can tell", "[typical]") {
  const auto knowledge = support::clean_knowledge();
  knowledge->parts[3].claims.erase(knowledge->parts[3].claims.begin());
  CHECK(typical_answer(*knowledge, 3, 0).value.kind == Value::Kind::cannot_tell);
}

TEST_CASE("every part of a clean catalogue is settled as itself", "[typical]") {
  const auto model = support::clean_model();
  const auto verdicts = typical_verdicts(model);
  REQUIRE(verdicts.size() == support::trial_parts);
  for (int p = 0; p < support::trial_parts; ++p) {
    const bench::Outcome& verdict = verdicts[static_cast<std::size_t>(p)];
    CHECK(verdict.object.part == p);
    CHECK(verdict.called_part == p);
    CHECK(verdict.right_class());
    CHECK(verdict.declared());
    CHECK_FALSE(verdict.asked.empty());
  }
}

TEST_CASE("the verdicts are the same with any number of threads, and progress is told for each", "[typical]") {
  const auto model = support::clean_model();
  const auto one = typical_verdicts(model, {.threads = 1});
  int calls = 0;
  bench::VerdictOptions options;
  options.threads = 3;
  options.progress = [&](int done, int total) {
    CHECK(done == ++calls);
    CHECK(total == support::trial_parts);
  };
  const auto three = typical_verdicts(model, options);
  CHECK(calls == support::trial_parts);
  for (std::size_t p = 0; p < one.size(); ++p) {
    CHECK(one[p].asked == three[p].asked);
    CHECK(one[p].confidence == three[p].confidence);
  }
}

TEST_CASE("a part described as another is called by the other's name", "[typical]") {
  const auto knowledge = support::clean_knowledge();
  knowledge->parts[2].claims = knowledge->parts[5].claims;
  const auto verdicts = typical_verdicts(inference::Model(knowledge));
  CHECK(verdicts[2].called_part == 5);  // brought in more often
  CHECK_FALSE(verdicts[2].right_class());
  CHECK(verdicts[2].status != inference::Status::settled);
}
