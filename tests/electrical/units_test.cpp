#include "electrical/units.h"

#include <limits>

#include <catch2/catch.hpp>

#include "electrical/number_text.h"
#include "electrical/plain_signs.h"

using namespace loomkey::electrical;

// Published values: the agreement of 1959 on the international yard and pound (yard 0.9144 m, pound 0.45359237 kg).
TEST_CASE("inch, ounce and pound are those of the 1959 agreement") {
  CHECK(find_unit("inch", Dimension::length)->to_base(36) == Approx(914.4).epsilon(1e-15));
  CHECK(find_unit("inch", Dimension::length)->to_base(1) == 25.4);
  CHECK(find_unit("lb", Dimension::mass)->to_base(1) == 453.59237);
  CHECK(find_unit("oz", Dimension::mass)->to_base(1) == 28.349523125);
  CHECK(find_unit("oz", Dimension::mass)->to_base(16) == find_unit("lb", Dimension::mass)->to_base(1));
}

TEST_CASE("prefixes convert without a rounding error") {
  CHECK(find_unit("mV", Dimension::voltage)->to_base(550) == 0.55);
  CHECK(find_unit("pF", Dimension::capacitance)->to_base(470) == 0.00047);
  CHECK(find_unit("milliohm", Dimension::resistance)->to_base(300) == 0.3);
}

TEST_CASE("the name of a unit is a spelling of the same unit") {
  for (const char* spelling :
       {"mm", "cm",  "metres",    "inches", "\"", "grams", "kilos", "ounces", "lbs", "ohms",   "R",     "k",
        "M",  "meg", "milliohms", "pF",     "n",  "u",     "MFD",   "MF",     "mF",  "farads", "volts", "mV"}) {
    for (int d = 0; d < 5; ++d) {
      const auto dimension = static_cast<Dimension>(d);
      const Unit* unit = find_unit(spelling, dimension);
      if (unit == nullptr) continue;
      INFO(spelling);
      const Unit* again = find_unit(unit->name, dimension);
      REQUIRE(again != nullptr);
      CHECK(again->to_base(1) == unit->to_base(1));
    }
  }
}

TEST_CASE("letter case counts only where it tells two units apart") {
  CHECK(find_unit("M", Dimension::resistance)->to_base(1) == 1e6);
  CHECK(find_unit("m", Dimension::resistance) == nullptr);
  CHECK(find_unit("KOHM", Dimension::resistance)->to_base(1) == 1e3);
  CHECK(find_unit("MM", Dimension::length)->to_base(1) == 1);
  CHECK(find_unit("", Dimension::length) == nullptr);
  CHECK(find_unit("s", Dimension::length) == nullptr);
}

TEST_CASE("every base unit names its dimension") {
  for (int d = 0; d < 5; ++d) {
    const auto dimension = static_cast<Dimension>(d);
    CHECK(dimension_of(base_unit(dimension)) == dimension);
    CHECK(find_unit(base_unit(dimension), dimension)->to_base(1) == 1);
  }
  CHECK_FALSE(dimension_of("furlong"));
}

TEST_CASE("numbers are written in full and read back the same") {
  CHECK(exact_number(35) == "35");
  CHECK(exact_number(0.00047) == "0.00047");
  CHECK(exact_number(1e7) == "10000000");
  CHECK(exact_number(0.1 + 0.2) == "0.30000000000000004");
  CHECK(exact_number(std::numeric_limits<double>::denorm_min()).size() > 300);
  CHECK(short_number(4700123) == "4700000");
  CHECK(short_number(63.49999) == "63.5");
  CHECK(short_number(0.00047) == "0.00047");
  CHECK(short_number(0) == "0");
}

TEST_CASE("typographic signs become plain ones and all else is kept") {
  CHECK(plain_signs("2\xC2\xBD\xE2\x80\xB3 \xC3\x97 1\xE2\x80\x9D") == "2 1/2\" x 1\"");
  CHECK(plain_signs("5 k\xE2\x84\xA6") == "5 kohm");
  CHECK(plain_signs("\xC3\xBC\xFF plain") == "\xC3\xBC\xFF plain");
  CHECK(plain_signs("").empty());
}
