// What age, dirt and other owners do to a part, and what a cheap meter does to a figure: each stands here as a sentence
// that the shipped vocabulary and the engine's settings must bear out. Common practice, no source.
#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "catalogue/sources.h"
#include "evidence/parse_value.h"
#include "inference/weigh.h"
#include "oracle/tiny_catalogue.h"
#include "support/real_data.h"

using namespace loomkey;
using evidence::Case;
using inference::Model;

namespace {

const knowledge::Knowledge& shipped() {
  static const knowledge::Knowledge knowledge = catalogue::read_sources(support::real_data()).knowledge;
  return knowledge;
}

// The shipped traits, colours and groups with two invented parts: "this", and "that" which differs in what a test says.
struct TwoParts {
  TwoParts() {
    auto& knowledge = tiny.knowledge;
    const auto advice = knowledge.advice;
    knowledge = shipped();
    knowledge.parts.clear();
    knowledge.families.clear();
    knowledge.confusions.clear();
    knowledge.advice = advice;
    for (auto& trait : knowledge.traits) trait.unless_stated = {};
    tiny.part("this");
    tiny.part("that");
  }
  [[nodiscard]] int trait(const std::string& id) const { return shipped().trait(id); }
  void states(const std::string& id, const std::string& here, const std::string& there) {
    for (const int part : {0, 1}) {
      const auto value = evidence::parse_value(shipped(), trait(id), part == 0 ? here : there);
      REQUIRE(value);
      if (value->kind == evidence::Value::Kind::state) tiny.claim_state(part, trait(id), value->state);
      if (value->kind == evidence::Value::Kind::set) tiny.claim_set(part, trait(id), value->items);
      if (value->kind == evidence::Value::Kind::interval)
        tiny.claim_range(part, trait(id), value->interval.low, value->interval.high);
      if (value->kind == evidence::Value::Kind::special) {
        knowledge::Claim claim;
        claim.trait = trait(id);
        claim.special[static_cast<std::size_t>(value->special)] = 1.0;
        tiny.claim(part, claim);
      }
    }
  }

  using Said = std::vector<std::pair<std::string, std::string>>;

  // Decibans for "this" over "that".
  [[nodiscard]] double lead(const Said& said, bool zeroed = false) const {
    const Model model(tiny.done());
    Case the_case;
    the_case.leads_zeroed = zeroed;
    for (const auto& [id, words] : said) {
      const auto expanded = evidence::parse_assignment(shipped(), id, words);
      INFO(id << " = " << words << (expanded ? "" : expanded.error().what));
      REQUIRE(expanded);
      for (const auto& reading : expanded->readings) the_case.readings.push_back(reading);
    }
    double sum = 0.0;
    for (const auto& line : inference::weigh(model, the_case)) sum += line.weight[0] - line.weight[1];
    return sum;
  }
  [[nodiscard]] double lead(const std::string& id, const std::string& words) const { return lead({{id, words}}); }

  oracle::TinyCatalogue tiny;
};

}  // namespace

TEST_CASE("a colour that fades into another speaks against a part less than one that never does") {
  TwoParts two;
  two.states("lead_colours", "yellow", "blue, blue");
  CHECK(two.lead("lead_colours", "white") > two.lead("lead_colours", "purple") + 5.0);
  TwoParts red;
  red.states("lead_colours", "red", "green");
  for (const char* faded : {"brown", "orange", "pink"}) {
    INFO(faded);
    CHECK(red.lead("lead_colours", faded) > 5.0);
  }
}

TEST_CASE("a lead too dirty to tell moves nothing between parts with as many leads") {
  TwoParts two;
  two.states("lead_colours", "red, green", "red, blue");
  CHECK(std::abs(two.lead("lead_colours", "red, dark")) < 0.5);
  CHECK(two.lead("lead_colours", "red, green") > 8.0);
}

TEST_CASE("overspray and dirt on a surface speak weakly: painted alloy still may be alloy") {
  TwoParts two;
  two.states("finish", "bare-alloy", "dark-paint");
  CHECK(two.lead("finish", "dark-paint") > -13.0);
  TwoParts never;
  never.states("finish", "glass", "dark-paint");
  CHECK(two.lead("finish", "dark-paint") > never.lead("finish", "dark-paint") + 1.0);
}

TEST_CASE(
    "leads that only a sleeve kept clean can be told as 'includes': what is not mentioned holds nothing against") {
  TwoParts two;
  two.states("lead_colours", "green/yellow, black, red", "green/yellow, blue");
  CHECK(two.lead("lead_colours", "includes green/yellow, black") > two.lead("lead_colours", "green/yellow, black"));
  CHECK(two.lead("lead_colours", "includes green/yellow, black") > 3.0);
}

TEST_CASE("a lost tracer speaks for the lead it may have been, though less than the tracer") {
  TwoParts two;
  two.states("lead_colours", "green/yellow", "blue/red");
  const double kept = two.lead("lead_colours", "green/yellow");
  const double lost = two.lead("lead_colours", "green");
  CHECK(lost > 3.0);
  CHECK(kept > lost);
}

TEST_CASE("a new loom cannot exclude a part, however many leads it shows") {
  TwoParts two;
  two.states("lead_count", "2", "5");
  two.states("lead_style", "cloth", "plastic");
  two.states("lead_colours", "black, red", "white, yellow, green, blue, brown");
  const double loom =
      two.lead({{"lead_count", "5"}, {"lead_style", "plastic"}, {"lead_colours", "white, yellow, green, blue, brown"}});
  CHECK(loom < -5.0);
  // The chance that somebody changed the whole group bounds what it costs this part; what it gives the other is free.
  const Model model(two.tiny.done());
  Case the_case;
  for (const auto& [id, words] : TwoParts::Said{{"lead_count", "5"}, {"lead_style", "plastic"}}) {
    the_case.readings.push_back(evidence::parse_assignment(shipped(), id, words)->readings.front());
  }
  const double floor =
      10.0 * std::log10(shipped()
                            .groups[static_cast<std::size_t>(
                                shipped().traits[static_cast<std::size_t>(two.trait("lead_count"))].group)]
                            .switched);
  for (const auto& line : inference::weigh(model, the_case)) CHECK(line.weight[0] >= floor - 1e-9);
}

TEST_CASE("a broken stub or the body counted as a terminal is one off, which costs less than two off") {
  for (const char* id : {"terminal_count", "lead_count"}) {
    TwoParts two;
    two.states(id, "2", "6");
    const double right = two.lead(id, "2");
    const double one_off = two.lead(id, "3");
    INFO(id << ": right " << right << ", one off " << one_off);
    CHECK(right > one_off);
    CHECK(one_off > 3.0);  // still speaks for two and against six
    CHECK(std::abs(two.lead(id, "4")) < 3.0);
  }
}

TEST_CASE("a size told by a familiar thing is wide, but tells a matchbox from a brick") {
  TwoParts near;
  near.states("size_long", "40 to 70 mm", "180 to 250 mm");
  near.states("size_mid", "30 to 45 mm", "90 to 130 mm");
  near.states("size_short", "10 to 25 mm", "55 to 80 mm");
  CHECK(near.lead("size", "about as big as a matchbox") > 10.0);
  TwoParts alike;
  alike.states("size_long", "48 to 52 mm", "54 to 58 mm");
  CHECK(std::abs(alike.lead("size", "about as big as a matchbox")) < 3.0);
  CHECK(alike.lead("size_long", "50 mm") > 3.0);
}

TEST_CASE("a mark that could be A or 4 speaks for either, and less than a plain one") {
  TwoParts two;
  two.states("letters", "A, E", "B, E");
  const double plain = two.lead("letters", "A, E");
  const double either = two.lead("letters", "A or 4, E");
  CHECK(either > 5.0);
  CHECK(plain >= either - 0.5);  // no part here carries a 4
  CHECK(std::abs(two.lead("letters", "A or B, E")) < 0.5);
  TwoParts worn;
  worn.states("letters", "A, E", "4, E");
  CHECK(worn.lead("letters", "A, E") > 8.0);
  CHECK(std::abs(worn.lead("letters", "A or 4, E")) < 0.5);
  TwoParts leads;
  leads.states("lead_colours", "red", "brown");
  CHECK(leads.lead("lead_colours", "red") > 5.0);
  CHECK(std::abs(leads.lead("lead_colours", "brown or red")) < 1.0);
}

TEST_CASE("an item with alternatives has the sum of their chances") {
  TwoParts two;
  two.states("letters", "A, E", "B");
  const Model model(two.tiny.done());
  const auto& items = model.trait(two.trait("letters")).items;
  const auto chance = [&](const std::vector<std::string>& seen) {
    return inference::set_chance(items, model.settings(), {"A", "E"}, seen, true);
  };
  CHECK(chance({"4 or A", "E"}) == Approx(chance({"4", "E"}) + chance({"A", "E"})).epsilon(1e-12));
  CHECK(inference::uniform_set_chance(items, {"4 or A", "E"}) ==
        Approx(inference::uniform_set_chance(items, {"4", "E"}) + inference::uniform_set_chance(items, {"A", "E"}))
            .epsilon(1e-12));
}

TEST_CASE("marks on an added label weigh less than stamped ones, for and against") {
  TwoParts two;
  two.states("letters", "B, L", "AL, E, WL");
  const double stamped = two.lead("letters", "B, L");
  const double label = two.lead("letters", "on a label: B, L");
  CHECK(label > 2.0);
  CHECK(label < stamped - 3.0);
  const double against = two.lead("letters", "on a label: AL, E, WL");
  CHECK(against < -2.0);
  CHECK(against > two.lead("letters", "AL, E, WL") + 3.0);
}

TEST_CASE("where a part was found is weak either way") {
  TwoParts two;
  two.states("place", "under-seat", "headlamp");
  CHECK(two.lead("place", "under-seat") < 12.0);
  CHECK(two.lead("place", "under-seat") > 1.0);
  CHECK(two.lead("place", "headlamp") > -12.0);
  CHECK(std::abs(two.lead("place", "loose")) < 1.0);
}

TEST_CASE("a few tenths of an ohm are the meter leads' own, unless they were taken off") {
  TwoParts two;
  two.states("ohm_lowest", "0.3 to 0.5 ohm", "0.6 to 0.9 ohm");
  // 0.75 may be the first with leads of 0.3 in the way.
  CHECK(two.lead({{"ohm_lowest", "0.75 ohm"}}) > two.lead({{"ohm_lowest", "0.75 ohm"}}, true));
  TwoParts high;
  high.states("ohm_lowest", "20 to 30 ohm", "60 to 90 ohm");
  CHECK(high.lead({{"ohm_lowest", "25.3 ohm"}}) == Approx(high.lead({{"ohm_lowest", "25.3 ohm"}}, true)).margin(0.1));
}

TEST_CASE("over-range is an answer of its own, and a cheap meter's plain zero may be a small resistance") {
  TwoParts two;
  two.states("ohm_lowest", "4 to 6 ohm", "OL");
  CHECK(two.lead("ohm_lowest", "OL") < -8.0);
  CHECK(two.lead("ohm_lowest", "5 ohm") > 8.0);
  TwoParts low;
  low.states("ohm_lowest", "0.1 to 0.25 ohm", "4 to 6 ohm");
  CHECK(low.lead("ohm_lowest", "zero") > 5.0);
}

TEST_CASE("a cheap meter at low ohms cannot part 0.4 from 0.5, but parts 40 from 60") {
  TwoParts low;
  low.states("ohm_lowest", "0.38 to 0.42 ohm", "0.48 to 0.52 ohm");
  CHECK(low.lead("ohm_lowest", "0.4 ohm") < 4.0);
  TwoParts high;
  high.states("ohm_lowest", "38 to 42 ohm", "58 to 62 ohm");
  CHECK(high.lead("ohm_lowest", "40 ohm") > 8.0);
}

TEST_CASE("kohms are not ohms, and a reading that may be anything moves little") {
  TwoParts two;
  two.states("ohm_lowest", "4 to 6 ohm", "4 to 6 kohm");
  CHECK(two.lead("ohm_lowest", "5 ohm") > 8.0);
  CHECK(two.lead("ohm_lowest", "5 kohm") < -8.0);
  CHECK(std::abs(two.lead("ohm_lowest", "1 ohm to 1 Mohm")) < 3.0);
}
