#include "report/words.h"

#include <catch2/catch.hpp>

#include "evidence/parse_value.h"
#include "report/sum.h"
#include "support/report_cases.h"

using namespace loomkey::report;
using loomkey::evidence::Value;
using loomkey::support::report_knowledge;

TEST_CASE("nothing is ever certain") {
  CHECK(percent(1.0) == ">99 %");
  CHECK(percent(0.9901) == ">99 %");
  CHECK(percent(0.99) == "99 %");
  CHECK(percent(0.934) == "93 %");
  CHECK(percent(0.0) == "<1 %");
  CHECK(percent(0.0099) == "<1 %");
}

TEST_CASE("how sure has four words") {
  CHECK(sureness(1.0) == "very likely");
  CHECK(sureness(0.98) == "very likely");
  CHECK(sureness(0.9799) == "likely");
  CHECK(sureness(0.90) == "likely");
  CHECK(sureness(0.8999) == "probably");
  CHECK(sureness(0.60) == "probably");
  CHECK(sureness(0.5999) == "perhaps");
}

TEST_CASE("colours are named in words") {
  CHECK(colour_words("green/yellow") == "green with a yellow tracer");
  CHECK(colour_words("light-green") == "light green");
  CHECK(colour_words("dark") == "too dark to tell");
}

TEST_CASE("quantities take the unit a rider would use") {
  CHECK(quantity(4700, "ohm") == "4.7 kohm");
  CHECK(quantity(0.5, "ohm") == "0.5 ohm");
  CHECK(quantity(1500, "g") == "1.5 kg");
  CHECK(quantity(45, 55, "mm") == "45 to 55 mm");
  CHECK(quantity(100, 3e6, "ohm") == "100 ohm to 3 Mohm");
  CHECK(quantity(0, 2000, "ohm") == "0 to 2 kohm");
}

TEST_CASE("lists read as a sentence does") {
  CHECK(listed({}) == "");
  CHECK(listed({"a"}) == "a");
  CHECK(listed({"a", "b"}) == "a and b");
  CHECK(listed({"a", "b", "c"}, "or") == "a, b or c");
}

TEST_CASE("a value is written as a readings file takes it") {
  const auto knowledge = report_knowledge();
  const auto round_trip = [&](const std::string& trait, const std::string& words) {
    const int index = knowledge.trait(trait);
    const auto value = loomkey::evidence::parse_value(knowledge, index, words);
    REQUIRE(value);
    const auto again = loomkey::evidence::parse_value(
        knowledge, index, value_text(knowledge.traits[static_cast<std::size_t>(index)], *value));
    REQUIRE(again);
    CHECK(*again == *value);
  };
  round_trip("form", "can");
  round_trip("blades", "3+");
  round_trip("letters", "B, L");
  round_trip("letters", "includes L");
  round_trip("letters", "E or L, WL");
  round_trip("letters", "on a label: includes E or L");
  round_trip("letters", "none");
  round_trip("lead_colours", "green/yellow, dark");
  round_trip("size_long", "1 3/4 inch");
  round_trip("size_long", "about 45 mm");
  round_trip("size_long", "40-50 mm");
  round_trip("ohm_lowest", "4.7 kohm");
  round_trip("ohm_lowest", "ol");
  round_trip("ohm_lowest", "jumps");
  round_trip("form", "cannot tell");
  round_trip("form", "not looked");
}

TEST_CASE("a claim is worded by how often it holds") {
  const auto knowledge = report_knowledge();
  const auto words = [&](const std::string& part, const std::string& trait) {
    const int index = knowledge.trait(trait);
    return claim_words(knowledge.traits[static_cast<std::size_t>(index)],
                       *knowledge.claim(knowledge.part(part), 0, index));
  };
  CHECK(words("flasher", "form") == "nearly always small closed round can; rarely closed box, flat sides");
  CHECK(words("zener", "form") == "base with its own stud");
  CHECK(words("flasher", "lead_colours") == "green with a yellow tracer and light green");
  CHECK(words("zener", "lead_colours") == "no leads");
  CHECK(words("capacitor", "ohm_lowest") == "over-range (OL)");
}

TEST_CASE("a column of decibans adds up as it is shown") {
  const std::vector<std::vector<double>> columns = {
      {0.05, 0.05, 0.05, 0.05}, {-0.05, -0.05, -0.05}, {1.24, -3.46, 0.0, 7.77, 2.349}, {}, {12.04}};
  for (const auto& column : columns) {
    const std::vector<std::string> shown = column_that_adds_up(column);
    REQUIRE(shown.size() == column.size() + 1);
    long sum = 0;
    double exact = 0.0;
    for (std::size_t i = 0; i < column.size(); ++i) {
      sum += std::lround(std::stod(shown[i]) * 10.0);
      exact += column[i];
      CHECK(std::abs(std::stod(shown[i]) - column[i]) < 0.1);
    }
    CHECK(sum == std::lround(std::stod(shown.back()) * 10.0));
    CHECK(std::stod(shown.back()) == Approx(exact).margin(0.0501));
  }
}

TEST_CASE("decibans are told as odds") {
  CHECK(odds_words(10.0) == "10 to 1");
  CHECK(odds_words(-10.0) == "1 to 10");
  CHECK(odds_words(3.0103) == "2.0 to 1");
  CHECK(odds_words(70.0) == "more than 10000 to 1");
}
