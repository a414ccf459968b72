#include <limits>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "evidence/parse_value.h"
#include "evidence/shed_knowledge.h"

using namespace loomkey;
using namespace loomkey::evidence;
using knowledge::Special;

namespace {

const knowledge::Knowledge& shed() {
  static const knowledge::Knowledge knowledge = support::shed_knowledge();
  return knowledge;
}

Value value_of(const std::string& trait, const std::string& text) {
  const auto value = parse_value(shed(), shed().trait(trait), text);
  if (!value) FAIL("'" << text << "': " << value.error().message());
  return *value;
}

std::string refusal(const std::string& trait, const std::string& text) {
  const auto value = parse_value(shed(), shed().trait(trait), text);
  REQUIRE_FALSE(value);
  return value.error().message();
}

}  // namespace

TEST_CASE("a measured number is an interval in the unit of the trait") {
  const Value inch = value_of("size_long", "2 1/2 inch");
  CHECK(inch.kind == Value::Kind::interval);
  CHECK(inch.interval == Interval{63.5, 63.5});
  CHECK(value_of("size_long", "45-55").interval == Interval{45, 55});
  CHECK(value_of("size_long", "about 35").interval.low == Approx(31.5));
  CHECK(value_of("mass", "1 lb 4 oz").interval.low == Approx(566.99));
  CHECK(value_of("ohm_lowest", "4k7").interval == Interval{4700, 4700});
  CHECK(value_of("diode_drop", "550").interval == Interval{0.55, 0.55});
  CHECK(value_of("diode_drop", "550 mV").interval == Interval{0.55, 0.55});
  CHECK(value_of("capacitance", "220 nF").interval == Interval{0.22, 0.22});
}

TEST_CASE("the special answers of a meter have many spellings") {
  for (const auto& [text, special] :
       std::vector<std::pair<std::string, Special>>{{"OL", Special::over_range},
                                                    {"O.L", Special::over_range},
                                                    {"0L", Special::over_range},
                                                    {"over range", Special::over_range},
                                                    {"over-range", Special::over_range},
                                                    {"over-range (OL)", Special::over_range},
                                                    {"open", Special::over_range},
                                                    {"infinite", Special::over_range},
                                                    {"inf", Special::over_range},
                                                    {"\xE2\x88\x9E", Special::over_range},
                                                    {"0", Special::zero},
                                                    {"0.0", Special::zero},
                                                    {"0 ohm", Special::zero},
                                                    {"zero", Special::zero},
                                                    {"short", Special::zero},
                                                    {"jumps", Special::jumps},
                                                    {"jumps about", Special::jumps},
                                                    {"unstable", Special::jumps},
                                                    {"na", Special::does_not_apply},
                                                    {"N/A", Special::does_not_apply},
                                                    {"does not apply", Special::does_not_apply},
                                                    {"none", Special::does_not_apply}}) {
    INFO("'" << text << "'");
    const Value value = value_of("ohm_lowest", text);
    CHECK(value.kind == Value::Kind::special);
    CHECK(value.special == special);
  }
  CHECK(value_of("ohm_lowest", "cannot tell").kind == Value::Kind::cannot_tell);
  CHECK(value_of("ohm_lowest", "not measured").kind == Value::Kind::not_looked);
}

TEST_CASE("a special answer that the trait does not allow is refused") {
  CHECK_THAT(refusal("size_long", "OL"),
             Catch::StartsWith("'OL' makes no sense for 'size_long': expected 3 to 600 mm"));
  CHECK_THAT(refusal("size_long", "none"), Catch::Contains("makes no sense"));
  CHECK_THAT(refusal("size_long", "zero"), Catch::Contains("makes no sense"));
  CHECK_THAT(refusal("size_long", "0"), Catch::Contains("outside what"));
}

TEST_CASE("a number outside what can be read is refused, and the unit that was taken is named") {
  CHECK_THAT(refusal("size_long", "700 mm"),
             Catch::Contains("700 mm is outside what 'size_long' can be (3 to 600 mm)"));
  CHECK_THAT(refusal("size_long", "2"), Catch::Contains("no unit: taken as mm"));
  CHECK_THAT(refusal("size_long", "35 m"), Catch::Contains("35000 mm is outside"));
  CHECK_THAT(refusal("ohm_lowest", "10 milliohm"), Catch::Contains("write 'zero' if the meter shows nothing else"));
  CHECK_THAT(refusal("size_long", "500-700"), Catch::Contains("outside"));
  CHECK_THAT(refusal("size_long", "1-50"), Catch::Contains("outside"));
  for (const char* text : {"-35", "-inf", "-OL", "nan", "1e999", "35 furlongs", "big", "", "35;", "60x40"}) {
    INFO(text);
    CHECK_FALSE(refusal("size_long", text).empty());
    CHECK_FALSE(refusal("ohm_lowest", text).empty());
  }
}

TEST_CASE("ends that only an 'about' or a range from zero carried too far are cut") {
  CHECK(value_of("size_long", "about 590").interval == Interval{531, 600});
  CHECK(value_of("ohm_lowest", "0-5 ohm").interval == Interval{0.05, 5});
  const auto expanded = parse_assignment(shed(), "ohm_lowest", "0-5 ohm");
  REQUIRE(expanded);
  REQUIRE(expanded->notes.size() == 1);
  CHECK_THAT(expanded->notes[0], Catch::Contains("is cut to what 'ohm_lowest' can be"));
}

TEST_CASE("one measure may be compared with a familiar thing") {
  CHECK(value_of("size_long", "like a matchbox").interval == Interval{53 * 0.8, 53 * 1.2});
  CHECK(value_of("size_mid", "about as thick as a 35 mm film canister").interval == Interval{31 * 0.85, 31 * 1.15});
  CHECK_THAT(refusal("size_short", "like a bank card"), Catch::Contains("has no such measure"));
  CHECK_FALSE(refusal("mass", "like a matchbox").empty());
}
