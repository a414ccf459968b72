// How far a case has got, on catalogues made for each outcome.
#include "inference/assess.h"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "oracle/tiny_catalogue.h"

using namespace loomkey;
using evidence::Case;
using inference::assess;
using inference::Model;
using inference::Question;
using inference::Settings;
using inference::Status;
using knowledge::Price;

namespace {

// Twenty parts, every one with a state of its own in each of twelve traits.
struct Twenty {
  Twenty() {
    for (int t = 0; t < 12; ++t) traits.push_back(tiny.choice(oracle::numbered("t", t), 20));
    for (int p = 0; p < 20; ++p) {
      tiny.part(oracle::numbered("part-", p));
      for (const int t : traits) tiny.claim_state(p, t, p);
    }
  }

  [[nodiscard]] Case read(int part, int count, int from = 0) const {
    Case the_case;
    for (int i = 0; i < count; ++i)
      the_case.readings.push_back(oracle::saw_state(traits[static_cast<std::size_t>(from + i)], part));
    return the_case;
  }

  oracle::TinyCatalogue tiny;
  std::vector<int> traits;
};

}  // namespace

TEST_CASE("with nothing read the case is open and has questions") {
  const Twenty twenty;
  const auto result = assess(Model(twenty.tiny.done()), {});
  CHECK(result.status == Status::open);
  REQUIRE_FALSE(result.questions.empty());
  CHECK(std::is_sorted(result.questions.begin(), result.questions.end(),
                       [](const Question& a, const Question& b) { return a.score > b.score; }));
  CHECK(result.questions.front().purpose == Question::Purpose::separate);
}

TEST_CASE("a class that is safe on few readings is likely until checks have ruled an absent part out") {
  const Twenty twenty;
  inference::Settings settings;
  settings.absent_ruled_out = 0.0;  // otherwise two clean readings are enough
  const Model model(twenty.tiny.done(), settings);
  const auto two = assess(model, twenty.read(7, 2));
  CHECK(two.belief.by_class[7] > 0.9);
  CHECK(two.status == Status::likely);
  CHECK(two.advice_class == 7);
  CHECK(two.checks_left > 0);
  REQUIRE_FALSE(two.questions.empty());
  for (const auto& question : two.questions) CHECK(question.purpose == Question::Purpose::check);
  CHECK(two.loss < model.settings().loss_limit);

  int checks = two.checks_left;
  for (int count = 3; count <= 8; ++count) {
    const auto more = assess(model, twenty.read(7, count));
    CHECK(more.checks_left <= checks);
    checks = more.checks_left;
  }
  const auto settled = assess(model, twenty.read(7, 8));
  CHECK(settled.status == Status::settled);
  CHECK(settled.questions.empty());
}

TEST_CASE("a likely class with nothing left to check is settled") {
  oracle::TinyCatalogue tiny;
  const int form = tiny.choice("form", 40);
  const int kind = tiny.choice("kind", 40);
  for (int p = 0; p < 40; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, form, p);
    tiny.claim_state(p, kind, p);
  }
  Case the_case;
  the_case.readings = {oracle::saw_state(form, 3), oracle::saw_state(kind, 3)};
  const auto result = assess(Model(tiny.done()), the_case);
  CHECK(result.belief.by_class[3] > 0.9);
  CHECK(result.status == Status::settled);
  CHECK(result.checks_left == 0);
}

TEST_CASE("confidence is not enough where a mistake is dear") {
  Twenty twenty;
  Settings settings;
  settings.class_threshold = 0.6;
  const auto cheap = assess(Model(twenty.tiny.done(), settings), twenty.read(7, 1));
  const double sure = cheap.belief.by_class[7];
  CHECK(sure > 0.5);
  CHECK(sure < 0.9);
  for (auto& advice : twenty.tiny.knowledge.advice) advice.price = Price::injury;
  const auto dear = assess(Model(twenty.tiny.done(), settings), twenty.read(7, 1));
  CHECK(dear.belief.by_class[7] == sure);
  CHECK(dear.loss == Approx(10.0 * cheap.loss));
  CHECK(dear.status == Status::open);
  // Where the likeliest error does no harm the price is small again.
  for (int c = 0; c < 20; ++c) twenty.tiny.knowledge.advice[7].harmless_if.push_back(c);
  const auto harmless = assess(Model(twenty.tiny.done(), settings), twenty.read(7, 1));
  CHECK(harmless.loss < dear.loss);
}

TEST_CASE("a reading that cannot stand with the others is named, and what the others say") {
  // Look-alikes in pairs (0 and 1, 2 and 3, ...): four traits are shared, two tell the twins apart for sure, one a
  // little.
  oracle::TinyCatalogue tiny;
  std::vector<int> shared;
  for (int t = 0; t < 4; ++t) shared.push_back(tiny.choice(oracle::numbered("shared-", t), 10));
  const int form = tiny.choice("form", 20);
  const int letters = tiny.choice("letters", 20);
  const int shade = tiny.choice("shade", 2);
  for (int p = 0; p < 20; ++p) {
    tiny.part(oracle::numbered("part-", p));
    for (const int t : shared) tiny.claim_state(p, t, p / 2);
    tiny.claim_state(p, form, p);
    tiny.claim_state(p, letters, p);
    tiny.claim_state(p, shade, p % 2);
  }
  const Model model(tiny.done());
  Case the_case;
  for (const int t : shared) the_case.readings.push_back(oracle::saw_state(t, 2));
  the_case.readings.push_back(oracle::saw_state(letters, 5));  // the odd one: all else says part 4
  the_case.readings.push_back(oracle::saw_state(form, 4));
  the_case.readings.push_back(oracle::saw_state(shade, 0, evidence::Certainty::guess));
  const auto result = assess(model, the_case);
  CHECK(result.status == Status::contradicted);
  REQUIRE(result.contradicting.has_value());
  CHECK(the_case.readings[static_cast<std::size_t>(*result.contradicting)].trait == letters);
  CHECK(result.contradicted_class == 4);
  // Without it the class is safe, and its odds rise by more than the limit.
  Case without = the_case;
  without.readings.erase(without.readings.begin() + 4);
  const auto rest = inference::believe(model, inference::weigh(model, without));
  CHECK(rest.by_class[4] >= model.settings().class_threshold);
  const auto odds_db = [](double p) { return 10.0 * std::log10(p / (1.0 - p)); };
  CHECK(odds_db(rest.by_class[4]) > odds_db(result.belief.by_class[4]) + model.settings().contradiction_db);
  CHECK(assess(model, without).status != Status::contradicted);
  // It is named whatever the order.
  std::reverse(the_case.readings.begin(), the_case.readings.end());
  CHECK(assess(model, the_case).contradicting == 2);
}

TEST_CASE("two readings each way name nobody: there is no telling which is wrong") {
  const Twenty twenty;
  Case the_case = twenty.read(4, 2);
  const Case other = twenty.read(11, 2, 2);
  the_case.readings.insert(the_case.readings.end(), other.readings.begin(), other.readings.end());
  const auto result = assess(Model(twenty.tiny.done()), the_case);
  CHECK_FALSE(result.contradicting.has_value());
  CHECK(result.status == Status::open);
}

TEST_CASE("one wrong answer among many right ones is outvoted, and not called a contradiction") {
  const Twenty twenty;
  Case the_case = twenty.read(4, 7);
  the_case.readings.push_back(oracle::saw_state(twenty.traits[8], 11));
  const auto result = assess(Model(twenty.tiny.done()), the_case);
  CHECK(result.status == Status::settled);
  CHECK(result.advice_class == 4);
}

TEST_CASE("a thing that fits no part is not in the catalogue") {
  oracle::TinyCatalogue tiny;
  std::vector<int> traits;
  for (int t = 0; t < 12; ++t) traits.push_back(tiny.choice(oracle::numbered("t", t), 10));
  for (int p = 0; p < 5; ++p) {
    tiny.part(oracle::numbered("part-", p));
    for (const int t : traits) tiny.claim_state(p, t, p);
  }
  const Model model(tiny.done());
  Case the_case;
  for (const int t : traits) the_case.readings.push_back(oracle::saw_state(t, 9));
  const auto result = assess(model, the_case);
  CHECK(result.belief.absent > 0.99);
  CHECK(result.advice_class == -1);
  CHECK(result.status == Status::not_in_catalogue);
  CHECK(result.loss == 1.0);
  // One odd answer is no reason to give up: the truth may yet come back.
  Case one;
  one.readings = {the_case.readings.front()};
  const auto early = assess(model, one);
  CHECK(early.status == Status::open);
  CHECK_FALSE(early.questions.empty());
}

TEST_CASE("parts that nothing separates end in 'cannot tell', with no check to name") {
  oracle::TinyCatalogue tiny;
  const int form = tiny.choice("form", 8);
  const int twins = tiny.choice("twins", 8);
  for (int p = 0; p < 8; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, form, p / 2);
    tiny.claim_state(p, twins, p / 2);
  }
  const Model model(tiny.done());
  Case the_case;
  the_case.readings = {oracle::saw_state(form, 1), oracle::saw_state(twins, 1)};
  const auto result = assess(model, the_case);
  CHECK(result.status == Status::cannot_tell);
  CHECK(result.questions.empty());
  const auto check = inference::deciding_check(model, the_case, result.belief);
  REQUIRE(check.has_value());
  CHECK(check->part_a == 2);
  CHECK(check->part_b == 3);
  CHECK(check->trait == -1);
}

TEST_CASE("the deciding check is the one that parts the first two, and among equals the least effort") {
  oracle::TinyCatalogue tiny;
  const int probe = tiny.choice("probe", 2, "meter");
  const int ruler = tiny.choice("ruler", 2, "ruler");
  const int same = tiny.choice("same", 2);
  for (int p = 0; p < 2; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, probe, p);
    tiny.claim_state(p, ruler, p);
    tiny.claim_state(p, same, 0);
  }
  const Model model(tiny.done());
  Case the_case;
  const auto check = inference::deciding_check(model, the_case, inference::believe(model, {}));
  REQUIRE(check.has_value());
  CHECK(check->trait == ruler);
  CHECK(check->bits > 0.5);
  // Once the ruler has been used it is the meter's turn.
  the_case.readings = {oracle::saw_state(ruler, 0, evidence::Certainty::guess)};
  const auto next =
      inference::deciding_check(model, the_case, inference::believe(model, inference::weigh(model, the_case)));
  REQUIRE(next.has_value());
  CHECK(next->trait == probe);
  CHECK_FALSE(inference::deciding_check(Model(oracle::TinyCatalogue().done()), {}, {}).has_value());
}

TEST_CASE("the class that leads is the one with most belief; an absent part can lead") {
  inference::Belief belief;
  belief.by_class = {0.2, 0.4, 0.4};
  belief.absent = 0.0;
  CHECK(belief.leading_class() == 1);
  belief.by_class = {0.2, 0.3, 0.0};
  belief.absent = 0.5;
  CHECK(belief.leading_class() == -1);
}

TEST_CASE("expected loss is the price of the advice over everything it could be wrong about") {
  oracle::TinyCatalogue tiny;
  const int given = tiny.advice("given", Price::burnt_loom);
  const int harmless = tiny.advice("harmless");
  const int other = tiny.advice("other");
  tiny.knowledge.advice[0].harmless_if = {harmless};
  for (const int advice : {given, harmless, other}) tiny.part(oracle::numbered("part-", advice), 1.0, advice);
  const Model model(tiny.done());
  inference::Belief belief;
  belief.by_class = {0.6, 0.2, 0.1};
  belief.absent = 0.1;
  // .1 absent and .1 other at .60, .2 harmless at .02.
  CHECK(inference::expected_loss(model, belief, given) == Approx(0.2 * 0.60 + 0.2 * 0.02));
}

TEST_CASE("a faulty part is still that part: belief sums over conditions") {
  oracle::TinyCatalogue tiny;
  const int ohms = tiny.choice("ohms", 3, "meter");
  const int coil = tiny.part("coil");
  const int other = tiny.part("other");
  const int open = tiny.fault(coil, "open", 0.4);
  tiny.claim_state(coil, ohms, 0);
  tiny.claim_state(coil, ohms, 2, open);
  tiny.claim_state(other, ohms, 1);
  const Model model(tiny.done());
  Case the_case;
  the_case.readings = {oracle::saw_state(ohms, 2)};
  const auto belief = inference::believe(model, inference::weigh(model, the_case));
  CHECK(belief.by_part[0] == Approx(belief.hypothesis[0] + belief.hypothesis[1]));
  CHECK(belief.by_part[0] > 0.8);
  CHECK(belief.hypothesis[1] > 10.0 * belief.hypothesis[0]);
}
