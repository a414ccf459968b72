// The raw model of one trait, against numbers worked out by hand.
#include "inference/likelihood.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "inference/model.h"
#include "oracle/tiny_catalogue.h"

using namespace loomkey;
using inference::Settings;
using knowledge::Claim;
using knowledge::Special;
using knowledge::Trait;

namespace {

Trait linear_trait() {
  Trait trait;
  trait.kind = knowledge::TraitKind::number;
  trait.log_scale = false;
  trait.low = 0.0;
  trait.high = 100.0;
  trait.soft = 2.0;
  return trait;
}

Trait log_trait() {
  Trait trait = linear_trait();
  trait.log_scale = true;
  trait.low = 1.0;
  trait.high = 1e6;
  trait.soft = 1.0;  // the shoulder reaches to half and to double
  return trait;
}

Trait low_ohm_trait() {
  Trait trait = log_trait();
  trait.low = 0.05;
  trait.soft = 0.1;
  trait.low_ohm = true;
  return trait;
}

constexpr double everything = 1e9;

}  // namespace

TEST_CASE("a claimed range has a flat top and a straight shoulder on either side, of area one together") {
  const Trait trait = linear_trait();
  const knowledge::Range range{10.0, 20.0, 1.0};
  const Settings settings;
  // Area 10 + 2: the top is 1/12 high, each shoulder holds 1/12.
  CHECK(inference::range_mass(trait, range, false, settings, 10.0, 20.0) == Approx(10.0 / 12.0));
  CHECK(inference::range_mass(trait, range, false, settings, 8.0, 10.0) == Approx(1.0 / 12.0));
  CHECK(inference::range_mass(trait, range, false, settings, 20.0, 22.0) == Approx(1.0 / 12.0));
  // From the middle of a shoulder to its inner end: (1/2 + 1) / 2 of one unit.
  CHECK(inference::range_mass(trait, range, false, settings, 9.0, 10.0) == Approx(0.75 / 12.0));
  CHECK(inference::range_mass(trait, range, false, settings, 21.0, 22.0) == Approx(0.25 / 12.0));
  CHECK(inference::range_mass(trait, range, false, settings, 12.0, 15.0) == Approx(3.0 / 12.0));
  CHECK(inference::range_mass(trait, range, false, settings, -everything, everything) == Approx(1.0));
  CHECK(inference::range_mass(trait, range, false, settings, 30.0, 40.0) == 0.0);
  CHECK(inference::range_mass(trait, range, false, settings, 15.0, 15.0) == 0.0);
  CHECK(inference::range_mass(trait, range, false, settings, 16.0, 14.0) == 0.0);
}

TEST_CASE("'verify' widens the shoulders of a range") {
  const Trait trait = linear_trait();
  Settings settings;
  settings.verify_widening = 2.5;
  // Shoulders of 5, area 15.
  CHECK(inference::range_mass(trait, {10.0, 20.0, 1.0}, true, settings, 10.0, 20.0) == Approx(10.0 / 15.0));
  CHECK(inference::range_mass(trait, {10.0, 20.0, 1.0}, true, settings, 5.0, 10.0) == Approx(2.5 / 15.0));
}

TEST_CASE("on a logarithmic axis equal ratios carry equal mass") {
  const Trait trait = log_trait();
  const Settings settings;
  // 100 to 200 is one doubling wide, and so is each shoulder: a quarter, a half and a quarter.
  CHECK(inference::range_mass(trait, {100.0, 200.0, 1.0}, false, settings, 100.0, 200.0) == Approx(0.5));
  CHECK(inference::range_mass(trait, {100.0, 200.0, 1.0}, false, settings, 50.0, 100.0) == Approx(0.25));
  CHECK(inference::range_mass(trait, {100.0, 200.0, 1.0}, false, settings, 200.0, 400.0) == Approx(0.25));
  CHECK(inference::range_mass(trait, {100.0, 200.0, 1.0}, false, settings, 100.0, 100.0 * std::sqrt(2.0)) ==
        Approx(0.25));
  CHECK(inference::range_mass(trait, {100.0, 200.0, 1.0}, false, settings, -5.0, 0.0) == 0.0);
}

TEST_CASE("the observer's error widens what was stated, relative and absolute") {
  Trait trait = linear_trait();
  trait.relative_error = 0.05;
  trait.absolute_error = 0.5;
  const auto seen = inference::with_error(trait, {20.0, 20.0});
  CHECK(seen.low == Approx(18.5));
  CHECK(seen.high == Approx(21.5));
  const auto below_zero = inference::with_error(trait, {-20.0, -10.0});
  CHECK(below_zero.low == Approx(-21.5));
  CHECK(below_zero.high == Approx(-9.0));
}

TEST_CASE("a low resistance is shown as plain zero three times in ten") {
  const Trait trait = low_ohm_trait();
  const Settings settings;
  Claim claim;
  claim.ranges = {{0.1, 0.2, 1.0}};
  // All of the claim, shoulders included, lies below 0.3 ohm.
  CHECK(inference::special_chance(trait, claim, settings, Special::zero) == Approx(0.3));
  CHECK(inference::number_chance(trait, claim, settings, 0.01, 10.0) == Approx(0.7));
  Claim higher;
  higher.ranges = {{1.0, 2.0, 1.0}};
  CHECK(inference::special_chance(trait, higher, settings, Special::zero) == 0.0);
  CHECK(inference::number_chance(trait, higher, settings, 0.01, 10.0) == Approx(1.0));
}

TEST_CASE("a true zero is shown as a small number three times in ten") {
  const Trait trait = low_ohm_trait();
  const Settings settings;
  Claim claim;
  claim.special[static_cast<std::size_t>(Special::zero)] = 1.0;
  CHECK(inference::special_chance(trait, claim, settings, Special::zero) == Approx(0.7));
  CHECK(inference::number_chance(trait, claim, settings, -1.0, 1.0) == Approx(0.3));
  // Evenly within 0.12 ohm of zero.
  CHECK(inference::number_chance(trait, claim, settings, 0.0, 0.06) == Approx(0.3 * 0.06 / 0.24));
  CHECK(inference::number_chance(trait, claim, settings, 0.12, 0.5) == 0.0);
}

TEST_CASE("zero is zero where no meter leads are in the way") {
  Trait trait = linear_trait();
  Claim claim;
  claim.ranges = {{0.1, 0.2, 0.4}};
  claim.special[static_cast<std::size_t>(Special::zero)] = 0.6;
  CHECK(inference::special_chance(trait, claim, {}, Special::zero) == Approx(0.6));
}

TEST_CASE("the uniform part spreads 70 % of a number along its axis and the rest over the answers that make sense") {
  Trait trait = log_trait();
  trait.allows = {true, false, true, false};
  CHECK(inference::uniform_number_chance(trait, 1.0, 1e6) == Approx(0.7));
  CHECK(inference::uniform_number_chance(trait, 10.0, 1000.0) == Approx(0.7 / 3.0));
  CHECK(inference::uniform_number_chance(trait, 1e7, 1e8) == 0.0);
  CHECK(inference::uniform_special_chance(trait, Special::over_range) == Approx(0.15));
  CHECK(inference::uniform_special_chance(trait, Special::zero) == 0.0);
  CHECK(inference::uniform_special_chance(trait, Special::jumps) == Approx(0.15));
}

TEST_CASE("the uniform part of a number that has no other answers still sums to one") {
  CHECK(inference::uniform_number_chance(linear_trait(), 0.0, 100.0) == Approx(1.0));
}

TEST_CASE("a state is seen through the observer's confusions") {
  oracle::TinyCatalogue tiny;
  const int form = tiny.choice("form", 3);
  tiny.trait(form).seen = {{0.9, 0.1, 0.0}, {0.2, 0.8, 0.0}, {0.0, 0.0, 1.0}};
  Claim claim;
  claim.states = {0.5, 0.3, 0.2};
  const inference::ItemModel no_items;
  const auto chance = [&](int state) {
    return inference::value_chance(tiny.trait(form), claim, no_items, {}, oracle::saw_state(form, state).value, 0.0);
  };
  CHECK(chance(0) == Approx(0.5 * 0.9 + 0.3 * 0.2));
  CHECK(chance(1) == Approx(0.5 * 0.1 + 0.3 * 0.8));
  CHECK(chance(2) == Approx(0.2));
  // Uniform over true states, seen the same way: the first column over three.
  CHECK(inference::uniform_value_chance(tiny.trait(form), no_items, oracle::saw_state(form, 0).value, 0.0) ==
        Approx((0.9 + 0.2) / 3.0));
}

TEST_CASE("two expected letters against two seen ones: every matching, summed by hand") {
  Settings settings;
  settings.set_missing = 0.1;
  settings.set_extra = 0.2;
  const inference::ItemModel items(nullptr, knowledge::SetItems::letters, {{"B", 3.0}, {"E", 3.0}});
  // Strays: 70 % by frequency (a half each), 30 % over the two known letters and "any other".
  const double stray_b = 0.7 * 0.5 + 0.1;
  const double stray_f = 0.1;
  CHECK(items.stray("B") == Approx(stray_b));
  CHECK(items.stray("F") == Approx(stray_f));
  // B read as B .95; a worn E passes for B or F, .015 each.
  CHECK(items.reported("B", "B") == 0.95);
  CHECK(items.reported("E", "F") == 0.015);
  CHECK(items.reported("E", "B") == 0.015);
  CHECK(items.reported("B", "F") == 0.0);
  const double none = std::exp(-0.2);
  const double by_hand = 0.1 * 0.1 * none * (0.2 * stray_b) * (0.2 * stray_f)  // both gone, both strays
                         + 0.9 * 0.95 * 0.1 * none * (0.2 * stray_f)           // B is B; E gone, F a stray
                         + 0.1 * 0.9 * 0.015 * none * (0.2 * stray_f)          // B gone; E read as B, F a stray
                         + 0.1 * 0.9 * 0.015 * none * (0.2 * stray_b)          // B gone; E read as F, B a stray
                         + 0.9 * 0.95 * 0.9 * 0.015 * none;                    // B is B, E read as F
  CHECK(inference::set_chance(items, settings, {"B", "E"}, {"B", "F"}, true) == Approx(by_hand).epsilon(1e-12));
}

TEST_CASE("a partial set holds nothing against what it does not mention") {
  Settings settings;
  settings.set_missing = 0.06;
  settings.set_mention = 0.5;
  const inference::ItemModel items(nullptr, knowledge::SetItems::letters, {{"AL", 1.0}, {"E", 1.0}, {"WL", 1.0}});
  const double none = std::exp(-settings.set_extra);
  CHECK(inference::set_chance(items, settings, {"AL"}, {}, true) == Approx(0.06 * none));
  CHECK(inference::set_chance(items, settings, {"AL"}, {}, false) == Approx(0.5 * none));
  const std::vector<std::string> all = {"AL", "E", "WL"};
  CHECK(inference::set_chance(items, settings, all, {"AL"}, false) >
        10.0 * inference::set_chance(items, settings, all, {"AL"}, true));
}

TEST_CASE("leads of one colour count once, in whatever order they are told apart") {
  const auto knowledge = oracle::replay_catalogue();
  Settings settings;
  settings.set_missing = 0.1;
  settings.set_extra = 0.0;
  const inference::ItemModel items(knowledge.get(), knowledge::SetItems::colours, {{"yellow", 1.0}});
  const double read = items.reported("yellow", "yellow");
  // Kept 96 %, no tracer imagined.
  CHECK(read == Approx(0.96 * 0.99));
  const std::vector<std::string> two = {"yellow", "yellow"};
  CHECK(inference::set_chance(items, settings, two, two, true) == Approx(std::pow(0.9 * read, 2)));
  CHECK(inference::set_chance(items, settings, two, {"yellow"}, true) == Approx(2 * 0.1 * 0.9 * read));
}

TEST_CASE("a lead fades, gets dirty, loses its tracer or has it named the wrong way round") {
  const auto knowledge = oracle::replay_catalogue();  // white fades to yellow .10, brown and purple trade places .15
  const inference::ItemModel items(knowledge.get(), knowledge::SetItems::colours, {{"white", 1.0}});
  const double dark = knowledge->dark_chance;
  const double lost = knowledge->tracer_lost;
  CHECK(items.reported("brown", "purple") == Approx(0.15 * 0.99));
  CHECK(items.reported("white", "yellow") == Approx(0.10 * 0.99));
  CHECK(items.reported("brown", "dark") == Approx(dark * 0.99));
  CHECK(items.reported("white/green", "white") == Approx((1.0 - dark - 0.10) * lost));
  CHECK(items.reported("white/green", "dark") == Approx(dark));
  const double white = 1.0 - dark - 0.10;
  const double green = 1.0 - dark;
  CHECK(items.reported("white/green", "white/green") == Approx((1.0 - lost) * 0.92 * white * green));
  CHECK(items.reported("white/green", "green/white") == Approx((1.0 - lost) * 0.08 * white * green));
}

TEST_CASE("the background is 60 % what the catalogue claims, weighted by prior, and 40 % uniform") {
  oracle::TinyCatalogue tiny;
  const int form = tiny.choice("form", 2);
  const int a = tiny.part("a", 3.0);
  const int b = tiny.part("b", 1.0);
  tiny.part("silent", 4.0);
  tiny.claim_state(a, form, 0);
  tiny.claim_state(b, form, 1);
  const inference::Model model(tiny.done());
  // The silent part has no say: 3 to 1 for state 0.
  CHECK(model.background(form, oracle::saw_state(form, 0).value, 0.0) == Approx(0.6 * 0.75 + 0.4 * 0.5));
  CHECK(model.background(form, oracle::saw_state(form, 1).value, 0.0) == Approx(0.6 * 0.25 + 0.4 * 0.5));
}

TEST_CASE("a background nobody claims anything about is uniform") {
  oracle::TinyCatalogue tiny;
  const int form = tiny.choice("form", 4);
  tiny.part("a");
  const inference::Model model(tiny.done());
  CHECK(model.background(form, oracle::saw_state(form, 2).value, 0.0) == Approx(0.25));
}
