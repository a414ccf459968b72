// Weights of evidence, against numbers worked out by hand.
#include <cmath>

#include <catch2/catch.hpp>

#include "inference/assess.h"
#include "oracle/tiny_catalogue.h"

using namespace loomkey;
using evidence::Case;
using evidence::Certainty;
using inference::Model;
using inference::Settings;

namespace {

// Two parts of equal prior that differ in a choice of two states.
struct TwoParts {
  TwoParts() {
    form = tiny.choice("form", 2);
    fins = tiny.choice("fins", 2);
    a = tiny.part("a");
    b = tiny.part("b");
    for (const int t : {form, fins}) {
      tiny.claim_state(a, t, 0);
      tiny.claim_state(b, t, 1);
    }
  }
  oracle::TinyCatalogue tiny;
  int form, fins, a, b;
};

double decibans(double ratio) { return 10.0 * std::log10(ratio); }

double weight_of(const Model& model, const Case& the_case, std::size_t h) {
  double sum = 0.0;
  for (const auto& line : inference::weigh(model, the_case)) sum += line.weight[h];
  return sum;
}

}  // namespace

TEST_CASE("a lone reading weighs the logarithm of its chance against the background") {
  const TwoParts two;
  const Model model(two.tiny.done());
  Case the_case;
  the_case.readings = {oracle::saw_state(two.form, 0)};
  // b = .5; sure: e = .03, residual .05. P(o | a) = .97 (.95 + .05 * .5) + .03 * .5.
  const double for_a = 0.97 * (0.95 + 0.05 * 0.5) + 0.03 * 0.5;
  const double for_b = 0.97 * (0.05 * 0.5) + 0.03 * 0.5;
  CHECK(weight_of(model, the_case, 0) == Approx(decibans(for_a / 0.5)).epsilon(1e-12));
  CHECK(weight_of(model, the_case, 1) == Approx(decibans(for_b / 0.5)).epsilon(1e-12));
}

TEST_CASE("the less sure the observer, the less a reading weighs") {
  const TwoParts two;
  const Model model(two.tiny.done());
  double last = 100.0;
  for (const Certainty certainty : {Certainty::sure, Certainty::think_so, Certainty::guess}) {
    Case the_case;
    the_case.readings = {oracle::saw_state(two.form, 0, certainty)};
    const double e = inference::lapse(model.settings(), certainty);
    const double expected = decibans(((1 - e) * (0.95 + 0.05 * 0.5) + e * 0.5) / 0.5);
    const double weight = weight_of(model, the_case, 0);
    CHECK(weight == Approx(expected).epsilon(1e-12));
    CHECK(weight < last);
    last = weight;
  }
}

TEST_CASE("readings of different groups add up; in one group the repeated share counts once") {
  TwoParts two;
  Case the_case;
  the_case.readings = {oracle::saw_state(two.form, 0), oracle::saw_state(two.fins, 0)};
  const Model apart(two.tiny.done());
  const double r = (0.97 * (0.95 + 0.05 * 0.5) + 0.03 * 0.5) / 0.5;
  CHECK(weight_of(apart, the_case, 0) == Approx(decibans(r * r)).epsilon(1e-12));

  const int shape = two.tiny.group("shape", 0.04, 0.5);
  two.tiny.trait(two.form).group = two.tiny.trait(two.fins).group = shape;
  const Model together(two.tiny.done());
  // n = 2, overlap .5: a = (1 + .5) / 2; switched .04.
  CHECK(weight_of(together, the_case, 0) == Approx(decibans(0.96 * std::pow(r * r, 0.75) + 0.04)).epsilon(1e-12));
}

TEST_CASE("a group never costs a part more than its switch: somebody may have changed the whole of it") {
  TwoParts two;
  const int shape = two.tiny.group("shape", 0.10, 0.0);
  two.tiny.trait(two.form).group = two.tiny.trait(two.fins).group = shape;
  Settings settings;
  settings.residual = settings.lapse_sure = 0.0;
  const Model model(two.tiny.done(), settings);
  Case the_case;
  the_case.readings = {oracle::saw_state(two.form, 1), oracle::saw_state(two.fins, 1)};
  CHECK(weight_of(model, the_case, 0) == Approx(-10.0).epsilon(1e-12));
  // The chance that it was changed, should the part be a after all, is then one.
  CHECK(inference::switched_chance(model, the_case, shape)[0] == Approx(1.0));
  CHECK(inference::switched_chance(model, Case{}, shape)[0] == 0.0);
}

TEST_CASE("two observers who agree weigh less than two traits: they share one true state") {
  TwoParts two;
  const Model model(two.tiny.done());
  Case the_case;
  the_case.readings = {oracle::saw_state(two.form, 0), oracle::saw_state(two.form, 0)};
  the_case.readings[1].observer = "seller";
  const double e = 0.03;
  const double yes = (1 - e) * 1.0 + e * 0.5;
  const double no = e * 0.5;
  // Shared truth: both right about state 0, or both wrong about state 1.
  const double a = yes * yes;
  const double b = no * no;
  const double background = (a + b) / 2;  // claimed and uniform alike
  CHECK(weight_of(model, the_case, 0) == Approx(decibans(0.95 * a / background + 0.05)).epsilon(1e-12));
  Case one;
  one.readings = {the_case.readings[0]};
  CHECK(weight_of(model, the_case, 0) < 2.0 * weight_of(model, one, 0));
}

TEST_CASE("two measurements far apart cannot both be right") {
  oracle::TinyCatalogue tiny;
  const int length = tiny.number("length", 1.0, 1000.0);
  const int a = tiny.part("a");
  const int b = tiny.part("b");
  tiny.claim_range(a, length, 40.0, 50.0);
  tiny.claim_range(b, length, 100.0, 120.0);
  const Model model(tiny.done());
  Case agree;
  agree.readings = {oracle::saw_number(length, 44, 44), oracle::saw_number(length, 45, 45)};
  agree.readings[1].observer = "seller";
  Case differ = agree;
  differ.readings[1].value.interval = {110.0, 110.0};
  CHECK(weight_of(model, agree, 0) > 3.0);
  // One of them lapsed, and nothing says which.
  CHECK(weight_of(model, differ, 0) == Approx(weight_of(model, differ, 1)).margin(3.0));
}

TEST_CASE("low readings share one unknown offset of the meter leads") {
  oracle::TinyCatalogue tiny;
  std::vector<int> ohms;
  for (const char* id : {"pair-1", "pair-2"}) {
    ohms.push_back(tiny.number(id, 0.05, 1e5, "meter"));
    tiny.trait(ohms.back()).low_ohm = true;
    tiny.trait(ohms.back()).relative_error = 0.02;
    tiny.trait(ohms.back()).absolute_error = 0.02;
  }
  const int low = tiny.part("low");
  const int high = tiny.part("high");
  for (const int t : ohms) {
    tiny.claim_range(low, t, 0.5, 0.6);
    tiny.claim_range(high, t, 0.9, 1.0);
  }
  const Model model(tiny.done());
  // 0.95 may be 0.95 or, with leads of 0.4 ohm, 0.55.
  Case the_case;
  the_case.readings = {oracle::saw_number(ohms[0], 0.95, 0.95)};
  const double forgiven = weight_of(model, the_case, 0);
  the_case.leads_zeroed = true;
  CHECK(weight_of(model, the_case, 0) < forgiven);
  // A second reading that is 0.4 too high as well is no second coincidence; one that is right speaks against an offset.
  the_case.leads_zeroed = false;
  Case both = the_case;
  both.readings.push_back(oracle::saw_number(ohms[1], 0.95, 0.95));
  Case one_each = the_case;
  one_each.readings.push_back(oracle::saw_number(ohms[1], 0.55, 0.55));
  const auto lines = inference::weigh(model, both);
  CHECK(lines.size() == 1);
  CHECK(lines.front().readings.size() == 2);
  CHECK(weight_of(model, both, 0) > forgiven - 2.0);
  CHECK(weight_of(model, one_each, 0) > weight_of(model, one_each, 1) - 3.0);
  CHECK(weight_of(model, one_each, 1) < weight_of(model, both, 1));
}

TEST_CASE("meter leads add ohms and nothing else") {
  // Volts read in the same group as a low resistance are what they are.
  oracle::TinyCatalogue tiny;
  const int group = tiny.group("meter", 0.03, 0.0);
  const int ohms = tiny.number("ohms", 0.05, 1e5, "meter");
  const int volts = tiny.number("volts", 0.1, 20.0, "meter");
  tiny.trait(ohms).low_ohm = true;
  tiny.trait(ohms).group = tiny.trait(volts).group = group;
  const int a = tiny.part("a");
  const int b = tiny.part("b");
  for (const int p : {a, b}) tiny.claim_range(p, ohms, 0.5, 4.0);
  tiny.claim_range(a, volts, 0.55, 0.65);
  tiny.claim_range(b, volts, 0.2, 0.3);
  const Model model(tiny.done());
  Case the_case;
  the_case.readings = {oracle::saw_number(ohms, 2.0, 2.0), oracle::saw_number(volts, 0.6, 0.6)};
  // Both parts agree about the ohms, so only the volts speak, as if they were read alone (but for the shared switch).
  Case alone;
  alone.readings = {the_case.readings[1]};
  const double spread_alone = weight_of(model, alone, 0) - weight_of(model, alone, 1);
  const double spread_both = weight_of(model, the_case, 0) - weight_of(model, the_case, 1);
  CHECK(spread_both == Approx(spread_alone).margin(0.5));
}

TEST_CASE("a 'verify' claim weighs less than a firm one, for and against") {
  TwoParts two;
  Case fits;
  fits.readings = {oracle::saw_state(two.form, 0)};
  Case clashes;
  clashes.readings = {oracle::saw_state(two.form, 1)};
  const Model firm(two.tiny.done());
  two.tiny.knowledge.parts[0].claims[0].verify = true;
  const Model unsure(two.tiny.done());
  CHECK(weight_of(unsure, fits, 0) < weight_of(firm, fits, 0));
  CHECK(weight_of(unsure, clashes, 0) > weight_of(firm, clashes, 0));
}

TEST_CASE("a trait that a part does not state neither helps nor harms it") {
  TwoParts two;
  two.tiny.part("silent");
  const Model model(two.tiny.done());
  Case the_case;
  the_case.readings = {oracle::saw_state(two.form, 0)};
  CHECK(weight_of(model, the_case, 2) == 0.0);
}

TEST_CASE("an otherwise damaged part keeps its looks and says nothing about meter readings") {
  oracle::TinyCatalogue tiny;
  const int form = tiny.choice("form", 2);
  const int ohms = tiny.choice("ohms", 2, "meter");
  const int a = tiny.part("a");
  const int b = tiny.part("b");
  const int damaged = tiny.fault(a, "damaged", 0.3);
  tiny.knowledge.parts[0].conditions[1].kind = knowledge::Condition::Kind::damaged;
  for (const int t : {form, ohms}) {
    tiny.claim_state(a, t, 0);
    tiny.claim_state(b, t, 1);
  }
  const Model model(tiny.done());
  Case looks;
  looks.readings = {oracle::saw_state(form, 0)};
  CHECK(weight_of(model, looks, 0) == weight_of(model, looks, static_cast<std::size_t>(damaged)));
  Case meter;
  meter.readings = {oracle::saw_state(ohms, 1)};
  CHECK(weight_of(model, meter, 0) < -5.0);
  CHECK(weight_of(model, meter, static_cast<std::size_t>(damaged)) == 0.0);
}
