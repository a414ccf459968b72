#include "electrical/quantity.h"

#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using namespace loomkey;
using namespace loomkey::electrical;

namespace {

struct Case {
  const char* text;
  double low;
  double high;
};

void check_all(Dimension dimension, const std::vector<Case>& cases) {
  for (const Case& expected : cases) {
    INFO("'" << expected.text << "'");
    const auto measured = parse_quantity(expected.text, dimension);
    if (!measured) FAIL(measured.error().message());
    CHECK(measured->low == Approx(expected.low).epsilon(1e-12));
    CHECK(measured->high == Approx(expected.high).epsilon(1e-12));
  }
}

void check_refused(Dimension dimension, const std::vector<std::pair<std::string, std::string>>& cases) {
  for (const auto& [text, part_of_message] : cases) {
    INFO("'" << text << "'");
    const auto measured = parse_quantity(text, dimension);
    REQUIRE_FALSE(measured);
    CHECK(measured.error().kind == ErrorKind::input);
    CHECK_THAT(measured.error().message(), Catch::Contains(part_of_message));
  }
}

}  // namespace

TEST_CASE("a length is read in the units and forms people write") {
  check_all(Dimension::length, {{"35", 35, 35},
                                {"35mm", 35, 35},
                                {" 35 mm. ", 35, 35},
                                {"35.5 MM", 35.5, 35.5},
                                {"35,5 mm", 35.5, 35.5},
                                {".5 in", 12.7, 12.7},
                                {"2.5 cm", 25, 25},
                                {"2.5 centimetres", 25, 25},
                                {"0.035 m", 35, 35},
                                {"1 in", 25.4, 25.4},
                                {"1 in.", 25.4, 25.4},
                                {"2 inches", 50.8, 50.8},
                                {"2 ins", 50.8, 50.8},
                                {"2\"", 50.8, 50.8},
                                {"2''", 50.8, 50.8},
                                {"1/4 in", 6.35, 6.35},
                                {"1/2\"", 12.7, 12.7},
                                {"2 1/2 inch", 63.5, 63.5},
                                {"2-1/2 in", 63.5, 63.5},
                                {"2 & 1/2 in", 63.5, 63.5},
                                {"2 and a half inches", 63.5, 63.5},
                                {"two and a half inches", 63.5, 63.5},
                                {"2\xC2\xBD in", 63.5, 63.5},
                                {"an inch", 25.4, 25.4},
                                {"an inch and a half", 38.1, 38.1},
                                {"1 inch and 3/8", 34.925, 34.925},
                                {"half an inch", 12.7, 12.7},
                                {"a half inch", 12.7, 12.7},
                                {"a quarter of an inch", 6.35, 6.35},
                                {"three quarters of an inch", 19.05, 19.05},
                                {"3 eighths inch", 9.525, 9.525},
                                {"2 cm 5 mm", 25, 25},
                                {"+35", 35, 35},
                                {"1e2 mm", 100, 100}});
}

TEST_CASE("a range keeps both ends and shares its unit") {
  check_all(Dimension::length, {{"45-55", 45, 55},
                                {"45 - 55 mm", 45, 55},
                                {"45mm-55mm", 45, 55},
                                {"45 mm to 55", 45, 55},
                                {"45 to 55", 45, 55},
                                {"45..55", 45, 55},
                                {"45\xE2\x80\x93"
                                 "55",
                                 45, 55},
                                {"from 45 to 55", 45, 55},
                                {"between 45 and 55", 45, 55},
                                {"between 45 & 55 mm", 45, 55},
                                {"between 1 cm and 25 mm", 10, 25},
                                {"2 to 2.5 in", 50.8, 63.5},
                                {"1/2-3/4 in", 12.7, 19.05},
                                {"1-1 1/2 in", 25.4, 38.1},
                                {"2 cm to 35 mm", 20, 35},
                                {"between an inch and a half and two inches", 38.1, 50.8},
                                {"35 +- 2 mm", 33, 37},
                                {"35 +/- 2", 33, 37},
                                {"35 \xC2\xB1 2", 33, 37}});
}

TEST_CASE("'about' widens by ten percent either way and says so") {
  for (const char* text :
       {"about 35", "~35", "~ 35", "ca. 35", "ca 35", "c. 35", "roughly 35 mm", "around 35", "35ish", "35-ish mm",
        "35 mm or so", "approx. 35", "approximately 35", "35 approx", "circa 35", "about ~35", "35 ish"}) {
    INFO("'" << text << "'");
    const auto measured = parse_quantity(text, Dimension::length);
    if (!measured) FAIL(measured.error().message());
    CHECK(measured->approximate);
    CHECK(measured->low == Approx(31.5));
    CHECK(measured->high == Approx(38.5));
    CHECK_THAT(measured->explanation, Catch::Contains("about: taken as 31.5 to 38.5 mm"));
  }
  const auto range = parse_quantity("about 45-55", Dimension::length);
  REQUIRE(range);
  CHECK(range->low == Approx(40.5));
  CHECK(range->high == Approx(60.5));
  CHECK_FALSE(parse_quantity("35", Dimension::length)->approximate);
}

TEST_CASE("without a unit the likelier is taken and shown") {
  struct Guess {
    const char* text;
    double low;
    const char* explanation;
  };
  for (const Guess& guess : std::vector<Guess>{{"35", 35, "no unit: taken as mm"},
                                               {"4", 4, "no unit: taken as mm"},
                                               {"5.5", 5.5, "no unit: taken as mm"},
                                               {"2.5", 63.5, "no unit: taken as inch (63.5 mm)"},
                                               {"1/2", 12.7, "no unit: taken as inch (12.7 mm)"},
                                               {"2 1/2", 63.5, "no unit: taken as inch (63.5 mm)"},
                                               {"5 1/2", 139.7, "no unit: taken as inch (139.7 mm)"},
                                               {"2 to 2.5", 50.8, "no unit: taken as inch (50.8 to 63.5 mm)"},
                                               {"45-55", 45, "no unit: taken as mm"},
                                               {"35 mm", 35, ""}}) {
    INFO("'" << guess.text << "'");
    const auto measured = parse_quantity(guess.text, Dimension::length);
    REQUIRE(measured);
    CHECK(measured->low == Approx(guess.low));
    CHECK(measured->explanation == guess.explanation);
    CHECK(measured->unit_stated == std::string(guess.explanation).empty());
  }
  CHECK(parse_quantity("120", Dimension::mass)->explanation == "no unit: taken as g");
  CHECK(parse_quantity("4.7", Dimension::resistance)->explanation == "no unit: taken as ohm");
  CHECK(parse_quantity("0.2", Dimension::capacitance)->explanation == "no unit: taken as uF");
  CHECK(parse_quantity("0.55", Dimension::voltage)->explanation == "no unit: taken as V");
  const auto millivolts = parse_quantity("550", Dimension::voltage);
  CHECK(millivolts->low == 0.55);
  CHECK(millivolts->explanation == "no unit: taken as mV (0.55 V)");
}

TEST_CASE("weights may be metric or avoirdupois") {
  check_all(Dimension::mass, {{"120 g", 120, 120},
                              {"1.2kg", 1200, 1200},
                              {"1 kg 200 g", 1200, 1200},
                              {"half a kilo", 500, 500},
                              {"1 lb", 453.59237, 453.59237},
                              {"4 oz", 113.3980925, 113.3980925},
                              {"1 lb 4 oz", 566.9904625, 566.9904625},
                              {"1lb 4oz", 566.9904625, 566.9904625},
                              {"1 lb, 4 oz", 566.9904625, 566.9904625},
                              {"1 lb and 4 oz", 566.9904625, 566.9904625},
                              {"2 pounds", 907.18474, 907.18474},
                              {"a pound and a half", 680.388555, 680.388555}});
}

TEST_CASE("resistances take codes, prefixes and the ohm sign") {
  check_all(Dimension::resistance, {{"4k7", 4700, 4700},
                                    {"4.7k", 4700, 4700},
                                    {"4.7 k", 4700, 4700},
                                    {"4.7 kohm", 4700, 4700},
                                    {"4.7 k ohms", 4700, 4700},
                                    {"4.7 kilohm", 4700, 4700},
                                    {"4,7 kohm", 4700, 4700},
                                    {"1M", 1e6, 1e6},
                                    {"1M5", 1.5e6, 1.5e6},
                                    {"2 Mohm", 2e6, 2e6},
                                    {"2 MOHM", 2e6, 2e6},
                                    {"2 megohms", 2e6, 2e6},
                                    {"2 meg", 2e6, 2e6},
                                    {"0R5", 0.5, 0.5},
                                    {"4R7", 4.7, 4.7},
                                    {"0.5 ohm", 0.5, 0.5},
                                    {"0.5R", 0.5, 0.5},
                                    {"500 milliohm", 0.5, 0.5},
                                    {"500 milli-ohms", 0.5, 0.5},
                                    {"5 \xE2\x84\xA6", 5, 5},
                                    {"5\xCE\xA9", 5, 5},
                                    {"5 k\xCE\xA9", 5000, 5000},
                                    {"5 M\xCE\xA9", 5e6, 5e6},
                                    {"1-2 k", 1000, 2000},
                                    {"800 ohm to 1.2k", 800, 1200},
                                    {"0", 0, 0}});
}

TEST_CASE("one unit serves both ends of a range") {
  CHECK(parse_quantity("1 to 1.2k", Dimension::resistance)->low == 1000);
  check_refused(Dimension::resistance, {{"800 to 1.2k", "give each number its unit"}});
}

TEST_CASE("capacitances and voltages take their prefixes") {
  check_all(Dimension::capacitance, {{"0.2 uF", 0.2, 0.2},
                                     {"0.2 \xC2\xB5"
                                      "F",
                                      0.2, 0.2},
                                     {"0.2 \xCE\xBC"
                                      "F",
                                      0.2, 0.2},
                                     {"220 nF", 0.22, 0.22},
                                     {"220n", 0.22, 0.22},
                                     {"4n7", 0.0047, 0.0047},
                                     {"2u2", 2.2, 2.2},
                                     {"2u2 F", 2.2, 2.2},
                                     {"470 pF", 0.00047, 0.00047},
                                     {".2 MFD", 0.2, 0.2},
                                     {".2 mfd", 0.2, 0.2},
                                     {".2 MF", 0.2, 0.2},
                                     {"4.7 mF", 4700, 4700},
                                     {"4700 microfarads", 4700, 4700}});
  CHECK_THAT(parse_quantity("4.7 mF", Dimension::capacitance)->explanation, Catch::Contains("millifarads"));
  check_all(Dimension::voltage, {{"12.6 V", 12.6, 12.6},
                                 {"12.6v", 12.6, 12.6},
                                 {"550 mV", 0.55, 0.55},
                                 {"12 volts DC", 12, 12},
                                 {"12 V DC", 12, 12}});
  CHECK(parse_quantity("550 mV", Dimension::voltage)->low == 0.55);
}

TEST_CASE("a wrong length is refused with the reason") {
  check_refused(Dimension::length, {{"", "a number is missing"},
                                    {"   ", "a number is missing"},
                                    {"mm", "expected a number, found 'mm'"},
                                    {"big", "expected a number, found 'big'"},
                                    {"-35", "negative"},
                                    {"\xE2\x88\x92"
                                     "35",
                                     "negative"},
                                    {"45 - -55", "negative"},
                                    {"nan", "no number that can be measured"},
                                    {"inf", "no number that can be measured"},
                                    {"infinity", "no number that can be measured"},
                                    {"1e999", "no number that can be measured"},
                                    {"99999999999999999999999999999999", "no number that can be measured"},
                                    {"1e12", "far too large"},
                                    {"35 furlongs", "unknown unit 'furlongs': expected mm, cm, m or inch"},
                                    {"35 milimetre", "Did you mean 'millimetre'?"},
                                    {"3 ft", "feet are not taken"},
                                    {"3'", "feet are not taken"},
                                    {"35 ohm", "'ohm' is a unit of resistance: expected mm, cm, m or inch"},
                                    {"35 kg", "'kg' is a unit of mass"},
                                    {"1,500", "can mean 1500 or 1.500"},
                                    {"1.234,5", "more than one decimal sign"},
                                    {"60,40,25", "60 x 40 x 25"},
                                    {"60 40", "what does '40' mean here?"},
                                    {"60x40", "unknown unit 'x'"},
                                    {"35 mm long", "what does 'long' mean here?"},
                                    {"2 1/7 in", "fraction"},
                                    {"4/3 in", "fraction"},
                                    {"1/0", "fraction"},
                                    {"55-45", "runs backwards"},
                                    {"between 45", "a range needs two numbers"},
                                    {"45 to", "a number is missing"},
                                    {"45-", "a number is missing"},
                                    {"5 +- 8", "tolerance is larger"},
                                    {"35 $", "cannot read '$'"},
                                    {"35 mm; drop table", "cannot read '; drop table'"},
                                    {std::string(100000, '1'), "too long"},
                                    {std::string("35\0mm", 5), "cannot read"},
                                    {"35 \x1B[31m", "cannot read '?[31m'"},
                                    {"35 \xFF\xFE",
                                     "cannot read '?"
                                     "?'"}});
}

TEST_CASE("units a thousand times apart are not guessed at") {
  check_refused(Dimension::resistance, {{"1m", "write 'Mohm' or 'milliohm'"},
                                        {"10 mohm", "write 'Mohm' or 'milliohm'"},
                                        {"10 m\xCE\xA9", "write 'Mohm' or 'milliohm'"},
                                        {"5 mm", "unit of length"}});
  check_refused(Dimension::capacitance, {{"0.2 mf", "can mean two units"}});
  check_refused(Dimension::voltage, {{"550 MV", "can mean two units"}});
  check_refused(Dimension::mass, {{"120 gr", "unknown unit 'gr'"}});
}

TEST_CASE("every message quotes a short and printable piece of the text") {
  const auto measured = parse_quantity(std::string(150, 'x') + "\x07", Dimension::length);
  REQUIRE_FALSE(measured);
  CHECK(measured.error().message().size() < 300);
  CHECK(measured.error().message().find('\x07') == std::string::npos);
}

TEST_CASE("random text gives a finite value in order, or one error") {
  const std::vector<std::string> pieces = {
      "35", "1/2", " ", "-",   "mm", "in", "\"", "about", "~",  "to", "and",      "between",  "a",    "half", "k",
      "7",  ".",   ",", "4k7", "e9", "lb", "oz", "ish",   "+-", "'",  "\xC2\xBD", "\xCE\xA9", "\xFF", "of",   "0"};
  std::mt19937 random(20240611);
  for (int round = 0; round < 20000; ++round) {
    std::string text;
    const auto count = random() % 9;
    for (unsigned i = 0; i < count; ++i) {
      text += pieces[random() % pieces.size()];
      if (random() % 2 == 0) text += ' ';
    }
    const auto dimension = static_cast<Dimension>(random() % 5);
    const auto measured = parse_quantity(text, dimension);
    INFO("'" << text << "'");
    if (measured) {
      CHECK(measured->low >= 0);
      CHECK(measured->low <= measured->high);
      CHECK(measured->high < 1e12);
    } else {
      CHECK_FALSE(measured.error().what.empty());
    }
  }
}
