#include <map>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "evidence/parse_value.h"
#include "evidence/shed_knowledge.h"

using namespace loomkey;
using namespace loomkey::evidence;

namespace {

const knowledge::Knowledge& shed() {
  static const knowledge::Knowledge knowledge = support::shed_knowledge();
  return knowledge;
}

// Measure by trait, as "low..high" or a single number.
using Sizes = std::map<std::string, Interval>;

Expanded expand(const std::string& name, const std::string& value) {
  auto expanded = parse_assignment(shed(), name, value);
  if (!expanded) FAIL("'" << value << "': " << expanded.error().message());
  return *expanded;
}

void check_sizes(const Expanded& expanded, const Sizes& expected) {
  CHECK(expanded.readings.size() == expected.size());
  for (const Reading& reading : expanded.readings) {
    const std::string& id = shed().traits[static_cast<std::size_t>(reading.trait)].id;
    INFO(id);
    REQUIRE(expected.count(id) == 1);
    CHECK(reading.value.interval.low == Approx(expected.at(id).low));
    CHECK(reading.value.interval.high == Approx(expected.at(id).high));
  }
}

Sizes three(double a, double b, double c) {
  return {{"size_long", {a, a}}, {"size_mid", {b, b}}, {"size_short", {c, c}}};
}

std::string refusal(const std::string& name, const std::string& value) {
  const auto expanded = parse_assignment(shed(), name, value);
  INFO("'" << value << "'");
  REQUIRE_FALSE(expanded);
  return expanded.error().message();
}

}  // namespace

TEST_CASE("three numbers are sorted, whatever stands between them") {
  for (const char* text : {"60x40x25", "60 x 40 x 25", "25 by 60 by 40 mm", "60*40*25", "60 \xC3\x97 40 \xC3\x97 25 mm",
                           "40mm x 60mm x 25mm", "60mmx40mmx25mm", "60; 40; 25", "60, 40, 25", "6 x 4 x 2.5 cm",
                           "60 long, 40 wide, 25 high", "60 mm long x 40 mm wide x 25 mm thick",
                           "2.5 cm x 60 mm x 40 mm", "60 X 40 X 25"}) {
    INFO(text);
    check_sizes(expand("size", text), three(60, 40, 25));
  }
  check_sizes(expand("size", "2 1/2 x 1 1/2 x 1/2 inch"), three(63.5, 38.1, 12.7));
  check_sizes(expand("size", "2 1/2\" x 1 1/2\" x 1/2\""), three(63.5, 38.1, 12.7));
  check_sizes(expand("size", "35,5 x 20,2 x 10"), three(35.5, 20.2, 10));
}

TEST_CASE("a diameter counts twice") {
  for (const char* text :
       {"35 dia x 45", "35 mm dia x 45 mm", "35 mm diameter, 45 long", "45 x 35 dia", "dia 35 x 45", "dia. 35 x 45",
        "diameter 35, length 45", "diameter: 35 mm, length: 45 mm", "35 mm in diameter, 45 mm long",
        "35 mm diameter and 45 mm long", "a diameter of 35 and a length of 45",
        "\xC3\x98"
        "35 x 45",
        "35 across x 45 high"}) {
    INFO(text);
    check_sizes(expand("size", text), three(45, 35, 35));
  }
  check_sizes(expand("size", "145 dia x 25"), three(145, 145, 25));
  check_sizes(expand("size", "2 in diameter x 3 in"), three(76.2, 50.8, 50.8));
  check_sizes(expand("size", "about 35 dia x 45"),
              {{"size_long", {40.5, 49.5}}, {"size_mid", {31.5, 38.5}}, {"size_short", {31.5, 38.5}}});
  check_sizes(expand("size", "30-40 dia x 50"),
              {{"size_long", {50, 50}}, {"size_mid", {30, 40}}, {"size_short", {30, 40}}});
}

TEST_CASE("of two plain numbers only the larger is used, and a note says why") {
  const Expanded two = expand("size", "2 1/2 x 1 1/2 inch");
  check_sizes(two, {{"size_long", {63.5, 63.5}}});
  REQUIRE(two.notes.size() == 1);
  CHECK_THAT(two.notes[0], Catch::Contains("a third number or the word 'dia' would make use of the other"));
  check_sizes(expand("size", "40 x 60"), {{"size_long", {60, 60}}});
}

TEST_CASE("one number is a diameter, a length, or taken as the longest measure") {
  check_sizes(expand("size", "35 dia"), {{"size_mid", {35, 35}}});
  check_sizes(expand("size", "60 long"), {{"size_long", {60, 60}}});
  CHECK_THAT(expand("size", "60 mm").notes.at(0), Catch::Contains("taken as the longest measure"));
  check_sizes(expand("diameter", "35"), {{"size_mid", {35, 35}}});
  check_sizes(expand("Length", "2 1/2 in"), {{"size_long", {63.5, 63.5}}});
  CHECK_THAT(refusal("size", "25 thick"), Catch::Contains("size_long, size_mid or size_short"));
}

TEST_CASE("without a unit one is taken for all numbers, and shown") {
  CHECK(expand("size", "60x40x25").notes == std::vector<std::string>{"size: no unit: taken as mm"});
  CHECK(expand("size", "60x40x2.5").notes == std::vector<std::string>{"size: no unit: taken as mm"});
  CHECK(expand("size", "2.5 x 1.5 x 1").notes == std::vector<std::string>{"size: no unit: taken as inch"});
  check_sizes(expand("size", "2.5 x 1.5 x 1"), three(63.5, 38.1, 25.4));
  check_sizes(expand("size", "2 1/2 x 1 x 1/2"), three(63.5, 25.4, 12.7));
  CHECK(expand("size", "60x40x25 mm").notes.empty());
  CHECK_THAT(expand("diameter", "35").notes.at(0), Catch::Equals("size_mid: no unit: taken as mm"));
  CHECK_THAT(refusal("size", "35 mm dia x 1 1/2"), Catch::Contains("give each number its unit"));
}

TEST_CASE("a familiar thing gives the interval of its spread") {
  for (const char* text : {"matchbox", "like a matchbox", "about as big as a matchbox", "the size of a matchbox",
                           "Matchbox-sized", "same size as a matchbox", "it is about the size of a matchbox."}) {
    INFO(text);
    check_sizes(expand("size", text),
                {{"size_long", {42.4, 63.6}}, {"size_mid", {28.8, 43.2}}, {"size_short", {12, 18}}});
  }
  CHECK_THAT(expand("size", "matchbox").notes.at(0),
             Catch::Equals("size: matchbox: taken as 53 x 36 x 15 mm, 20 % either way"));
  check_sizes(expand("size", "bank card"),
              {{"size_long", {86 * 0.88, 86 * 1.12}}, {"size_mid", {54 * 0.88, 54 * 1.12}}});
  check_sizes(expand("size", "like a 35 mm film canister"), {{"size_long", {51 * 0.85, 51 * 1.15}},
                                                             {"size_mid", {31 * 0.85, 31 * 1.15}},
                                                             {"size_short", {31 * 0.85, 31 * 1.15}}});
  check_sizes(expand("size", "AA cell"),
              {{"size_long", {44, 56}}, {"size_mid", {12.32, 15.68}}, {"size_short", {12.32, 15.68}}});
  CHECK_THAT(refusal("size", "like a machbox"), Catch::Contains("Did you mean 'matchbox'?"));
  CHECK_FALSE(refusal("size", "half a matchbox").empty());
  CHECK_FALSE(refusal("size", "bigger than a matchbox").empty());
}

TEST_CASE("a size that is not understood is refused") {
  for (const char* text : {"",
                           "x",
                           "xxx",
                           "big",
                           "60x",
                           "60x40x25x10",
                           "35 dia x 45 x 20",
                           "35 dia x 45 dia",
                           "60,40,25",
                           "-60x40x25",
                           "60x40x-25",
                           "60 ohm x 40",
                           "nan x 40",
                           "9999x40x25",
                           "60x40x25 furlongs",
                           "dia",
                           "35 long dia",
                           "60 40 25",
                           "0x0x0",
                           "none",
                           "OL"}) {
    INFO("'" << text << "'");
    CHECK_FALSE(refusal("size", text).empty());
  }
  CHECK_THAT(refusal("size", std::string(1000, '6')), Catch::Contains("not that long"));
}

TEST_CASE("'cannot tell' of a size is said of all three measures") {
  const Expanded expanded = expand("size", "cannot tell");
  REQUIRE(expanded.readings.size() == 3);
  for (const Reading& reading : expanded.readings) CHECK(reading.value.kind == Value::Kind::cannot_tell);
}

TEST_CASE("a diameter and a length given apart are taken together and sorted") {
  const auto dish = parse_assignments(shed(), {{"length", "25"}, {"form", "can"}, {"diameter", "145"}});
  REQUIRE(dish);
  REQUIRE(dish->readings.size() == 4);
  Expanded sizes;
  sizes.readings.assign(dish->readings.begin() + 1, dish->readings.end());
  check_sizes(sizes, three(145, 145, 25));
  const auto unsure = parse_assignments(shed(), {{"length", "cannot tell"}, {"diameter", "35"}});
  REQUIRE(unsure);
  CHECK(unsure->readings.size() == 2);
  CHECK_FALSE(parse_assignments(shed(), {{"length", "380"}, {"diameter", "350"}}));
}

TEST_CASE("names are forgiven their spelling, and unknown ones meet their nearest") {
  CHECK(expand("Size-Long", "35 mm").readings.at(0).trait == shed().trait("size_long"));
  CHECK(expand("coil count", "9").readings.at(0).trait == shed().trait("coil_count"));
  CHECK(expand("form", " a can ").readings.at(0).text == "a can");
  CHECK_THAT(refusal("fomr", "can"), Catch::Contains("unknown trait 'fomr'. Did you mean 'form'?"));
  CHECK_THAT(refusal("diametre", "35"), Catch::Contains("Did you mean 'diameter'?"));
  CHECK_THAT(refusal("qqqqqqq", "35"), Catch::Contains("Known traits: form, fins"));
  CHECK_THAT(refusal("volts", "12"), Catch::Contains("belongs to the bike keys"));
  CHECK_THAT(refusal("", "12"), Catch::Contains("unknown trait ''"));
}

TEST_CASE("a catalogue without sizes has no pseudo-traits") {
  const auto knowledge = support::SmallKnowledge().yesno("milk").build();
  CHECK_FALSE(parse_assignment(knowledge, "size", "60x40x25"));
  CHECK(parse_assignment(knowledge, "milk", "yes"));
}
