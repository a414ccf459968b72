// Which reading is asked for next, on catalogues small enough to see the answer.
#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "inference/assess.h"
#include "oracle/tiny_catalogue.h"

using namespace loomkey;
using evidence::Case;
using evidence::Earth;
using inference::Model;
using inference::Question;
using knowledge::Price;

namespace {

std::vector<Question> questions(const Model& model, const Case& the_case = {}) {
  return inference::separating_questions(model, the_case, inference::believe(model, inference::weigh(model, the_case)));
}

const Question& question_on(const std::vector<Question>& all, int trait) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Question& q) { return q.trait == trait; });
  REQUIRE(found != all.end());
  return *found;
}

bool asks(const Model& model, const Case& the_case, int trait) {
  const auto traits = inference::askable(model, the_case);
  return std::find(traits.begin(), traits.end(), trait) != traits.end();
}

// Four parts in two pairs: `first` tells a from b, `second` tells c from d, and nothing tells the pairs apart.
struct TwoPairs {
  TwoPairs(Price ab, Price cd) {
    first = tiny.choice("first", 2);
    second = tiny.choice("second", 2);
    for (const char* id : {"a", "b"}) tiny.part(id, 1.0, tiny.advice(id, ab));
    for (const char* id : {"c", "d"}) tiny.part(id, 1.0, tiny.advice(id, cd));
    for (int p = 0; p < 4; ++p) {
      if (p < 2)
        tiny.claim_state(p, first, p);
      else
        tiny.claim(p, first, {0.5, 0.5});
      if (p < 2)
        tiny.claim(p, second, {0.5, 0.5});
      else
        tiny.claim_state(p, second, p - 2);
    }
  }
  oracle::TinyCatalogue tiny;
  int first, second;
};

}  // namespace

TEST_CASE("the trait that separates is asked for, the one that is the same for all is worth nothing") {
  oracle::TinyCatalogue tiny;
  const int same = tiny.choice("same", 2);
  const int half = tiny.choice("half", 2);
  const int separates = tiny.choice("separates", 3);
  for (int p = 0; p < 3; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, same, 0);
    tiny.claim_state(p, half, p == 0 ? 0 : 1);
    tiny.claim_state(p, separates, p);
  }
  inference::Settings settings;
  settings.prior_absent = settings.lapse_sure = settings.residual = settings.uniform_share = 0.0;
  const auto asked = questions(Model(tiny.done(), settings));
  REQUIRE(asked.size() == 3);
  CHECK(asked[0].trait == separates);
  CHECK(asked[0].gain == Approx(std::log2(3.0)));
  CHECK(asked[1].trait == half);
  CHECK(asked[1].gain == Approx(std::log2(3.0) - 2.0 / 3.0));
  CHECK(asked[2].gain == Approx(0.0).margin(1e-9));
}

TEST_CASE("gain counts advice, not parts: telling twins of one advice apart is worth nothing") {
  oracle::TinyCatalogue tiny;
  const int twins = tiny.choice("twins", 2);
  const int advice = tiny.advice("one");
  tiny.part("a", 1.0, advice);
  tiny.part("b", 1.0, advice);
  tiny.claim_state(0, twins, 0);
  tiny.claim_state(1, twins, 1);
  inference::Settings settings;
  settings.prior_absent = 0.0;
  CHECK(questions(Model(tiny.done(), settings))[0].gain == Approx(0.0).margin(1e-9));
}

TEST_CASE("of two questions worth the same bits, the one about the dearer mistake comes first") {
  const TwoPairs equal(Price::money, Price::money);
  const auto tied = questions(Model(equal.tiny.done()));
  CHECK(tied[0].gain == Approx(tied[1].gain));
  CHECK(tied[0].trait == equal.first);  // a tie goes to the earlier trait

  const TwoPairs dear(Price::money, Price::injury);
  const auto priced = questions(Model(dear.tiny.done()));
  CHECK(priced[0].gain == Approx(priced[1].gain));
  CHECK(priced[0].trait == dear.second);
  CHECK(priced[0].score > priced[1].score);

  const TwoPairs other_way(Price::injury, Price::money);
  CHECK(questions(Model(other_way.tiny.done()))[0].trait == other_way.first);
}

TEST_CASE("of two questions worth the same, the one with less effort comes first, fetching its tool included") {
  oracle::TinyCatalogue tiny;
  const int probe = tiny.choice("probe", 2, "meter");
  const int look = tiny.choice("look", 2, "look");
  for (int p = 0; p < 2; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, probe, p);
    tiny.claim_state(p, look, p);
  }
  const Model model(tiny.done());
  const auto asked = questions(model);
  CHECK(asked[0].trait == look);
  // A probe costs 3 and 3 to fetch the meter; a look costs 1. Chances of an answer are .88 and .95.
  CHECK(asked[0].score / asked[1].score == Approx((0.95 / 1.0) / (0.88 / 6.0)));
  Case at_hand;
  at_hand.tools = {{0, 1}};
  const auto with_meter = questions(model, at_hand);
  CHECK(with_meter[0].score / with_meter[1].score == Approx((0.95 / 1.0) / (0.88 / 3.0)));
}

TEST_CASE("a tool that is not at hand rules its readings out") {
  oracle::TinyCatalogue tiny;
  const int look = tiny.choice("look", 2);
  const int length = tiny.number("length", 1.0, 100.0);
  const int ohms = tiny.number("ohms", 1.0, 100.0, "meter");
  tiny.part("a");
  const Model model(tiny.done());
  Case the_case;
  for (const int t : {look, length, ohms}) CHECK(asks(model, the_case, t));  // none named: all can be fetched
  the_case.tools = {{0}};
  CHECK(asks(model, the_case, look));
  CHECK(asks(model, the_case, length));
  CHECK_FALSE(asks(model, the_case, ohms));
  the_case.tools = std::vector<int>{};
  CHECK(asks(model, the_case, look));
  CHECK_FALSE(asks(model, the_case, length));
}

TEST_CASE("nothing is run or powered until the earth has been measured") {
  oracle::TinyCatalogue tiny;
  const int volts = tiny.number("running-volts", 1.0, 100.0, "meter");
  tiny.trait(volts).runs = true;
  tiny.part("a");
  const Model model(tiny.done());
  Case the_case;
  CHECK_FALSE(asks(model, the_case, volts));
  the_case.bike.earth_as_built = Earth::positive;
  the_case.bike.earth_found = Earth::positive;
  CHECK_FALSE(asks(model, the_case, volts));
  the_case.bike.earth_measured = Earth::positive;
  CHECK(asks(model, the_case, volts));
}

TEST_CASE("what has been read, or cannot be told, is not asked again") {
  const TwoPairs two(Price::money, Price::money);
  const Model model(two.tiny.done());
  Case the_case;
  the_case.readings = {oracle::saw_state(two.first, 0)};
  CHECK_FALSE(asks(model, the_case, two.first));
  CHECK(asks(model, the_case, two.second));
  the_case.readings.push_back(oracle::cannot_tell(two.second));
  CHECK_FALSE(asks(model, the_case, two.second));
}

TEST_CASE("a question that names letters waits until one of them has been read") {
  oracle::TinyCatalogue tiny;
  const int letters = tiny.set("letters");
  const int between = tiny.number("ohm-al-e", 0.1, 1e6, "meter");
  tiny.trait(between).asked_with = {"AL", "WL"};
  tiny.part("a");
  const Model model(tiny.done());
  Case the_case;
  CHECK_FALSE(asks(model, the_case, between));
  the_case.readings = {oracle::saw_set(letters, {"B", "E"})};
  CHECK_FALSE(asks(model, the_case, between));
  the_case.readings = {oracle::saw_set(letters, {"AL", "E"}, false)};
  CHECK(asks(model, the_case, between));
}

TEST_CASE("inside a group that has been read, a further reading promises less") {
  oracle::TinyCatalogue tiny;
  const int first = tiny.choice("first", 4);
  const int second = tiny.choice("second", 4);
  for (int p = 0; p < 4; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim(p, first, {0.25, 0.25, 0.25, 0.25});
    tiny.claim_state(p, second, p);
  }
  Case the_case;
  the_case.readings = {oracle::saw_state(first, 0)};
  const double apart = question_on(questions(Model(tiny.done()), the_case), second).gain;
  const int group = tiny.group("shape", 0.0, 0.4);
  tiny.trait(first).group = tiny.trait(second).group = group;
  CHECK(question_on(questions(Model(tiny.done()), the_case), second).gain == Approx(0.6 * apart));
  tiny.knowledge.groups[0].overlap = 0.0;
  tiny.knowledge.groups[0].switched = 0.3;
  CHECK(question_on(questions(Model(tiny.done()), the_case), second).gain < 0.8 * apart);
}

TEST_CASE("the answers of a question are its states, its bins and special answers, or the likeliest sets and another") {
  oracle::TinyCatalogue tiny;
  const int form = tiny.choice("form", 3);
  const int length = tiny.number("length", 1.0, 1000.0);
  const int letters = tiny.set("letters");
  for (int p = 0; p < 2; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, form, p);
    tiny.claim_range(p, length, 10.0 * (p + 1), 15.0 * (p + 1));
  }
  tiny.claim_set(0, letters, {"B", "L"});
  tiny.claim_set(1, letters, {});
  const auto all = questions(Model(tiny.done()));
  CHECK(question_on(all, form).answers.size() == 3);
  const auto& bins = question_on(all, length).answers;
  CHECK(bins.back().value.kind == evidence::Value::Kind::special);
  CHECK(bins.front().value.interval.low == 1.0);
  const auto& sets = question_on(all, letters).answers;
  REQUIRE(sets.size() == 3);
  CHECK(sets.back().value.kind == evidence::Value::Kind::not_looked);
  CHECK(sets.front().chance + sets[1].chance > 0.5);
}

TEST_CASE("a check separates the leader from an absent part: a rare state does, a common one does not") {
  oracle::TinyCatalogue tiny;
  const int common = tiny.choice("common", 2);
  const int rare = tiny.choice("rare", 10);
  for (int p = 0; p < 10; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, common, 0);
    tiny.claim_state(p, rare, p);
  }
  const Model model(tiny.done());
  const auto belief = inference::believe(model, {});
  const auto checks = inference::checking_questions(model, {}, belief, 3);
  REQUIRE(checks.size() == 2);
  CHECK(checks[0].trait == rare);
  CHECK(checks[0].purpose == Question::Purpose::check);
  CHECK(checks[0].gain > 0.5);
  CHECK(checks[1].gain < 0.1);
  CHECK(inference::check_gain(model, belief, rare, 3) == Approx(checks[0].gain));
}

TEST_CASE(
    "the bits between two parts are one at even odds when a trait parts them for sure, and none when it is the same") {
  oracle::TinyCatalogue tiny;
  const int parts_them = tiny.choice("parts-them", 2);
  const int same = tiny.choice("same", 2);
  for (int p = 0; p < 2; ++p) {
    tiny.part(oracle::numbered("part-", p));
    tiny.claim_state(p, parts_them, p);
    tiny.claim_state(p, same, 0);
  }
  inference::Settings settings;
  settings.lapse_sure = settings.residual = 0.0;
  const Model model(tiny.done(), settings);
  const auto belief = inference::believe(model, {});
  CHECK(inference::pair_gain(model, belief, parts_them, 0, 1) == Approx(1.0));
  CHECK(inference::pair_gain(model, belief, same, 0, 1) == Approx(0.0).margin(1e-12));
}
