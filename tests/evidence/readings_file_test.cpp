#include "evidence/readings_file.h"

#include <string>

#include <catch2/catch.hpp>

#include "evidence/shed_knowledge.h"
#include "evidence/show.h"

using namespace loomkey;
using namespace loomkey::evidence;

namespace {

const knowledge::Knowledge& shed() {
  static const knowledge::Knowledge knowledge = support::shed_knowledge();
  return knowledge;
}

ReadingsFile read(const std::string& text) {
  auto file = read_readings_file(shed(), text, "find.toml");
  if (!file) FAIL(file.error().message());
  return *file;
}

std::string refusal(const std::string& text) {
  const auto file = read_readings_file(shed(), text, "find.toml");
  INFO(text.substr(0, 400));
  REQUIRE_FALSE(file);
  CHECK(file.error().kind == ErrorKind::input);
  CHECK(file.error().message().size() < 1500);
  return file.error().message();
}

const Reading& reading_of(const Case& find, const std::string& trait, const std::string& observer = {}) {
  for (const Reading& reading : find.readings) {
    if (reading.trait == shed().trait(trait) && reading.observer == observer) return reading;
  }
  FAIL("no reading of " << trait);
  return find.readings.front();
}

}  // namespace

TEST_CASE("a readings file gives the whole case") {
  const ReadingsFile file = read(R"(schema = 1
title = "The can under the tank"
note = "invented"
guess = "regulator"
tools = ["ruler", "meter"]
meter_leads_zeroed = true

[bike]
decade = 1967
origin = "british"
cylinders = 2
volts = "12 V"
earth_found = "plus to frame"
symptoms = ["no-charge", "bulbs blow"]

[readings]
form = "can"
fins = false
terminal_count = 3
letters = ["AL", "WL", "E"]
lead_colours = "none"
size = "35 dia x 45"
mass = { value = "about 60 g", sure = "guess" }
ohm_lowest = { value = 11.5, sure = "think so" }

[[reading]]
trait = "form"
value = "cylinder"
by = "neighbour"
sure = "guess"
)");
  const Case& find = file.find;
  CHECK(find.title == "The can under the tank");
  CHECK(file.note == "invented");
  CHECK(find.guessed_name == "regulator");
  REQUIRE(find.tools);
  CHECK(*find.tools == std::vector<int>{1, 0});
  CHECK(find.leads_zeroed);
  CHECK(find.bike.decade == 1960);
  CHECK(find.bike.volts == 12);
  CHECK(find.bike.earth_found == Earth::positive);
  CHECK(find.bike.settled_earth() == Earth::unknown);
  CHECK(find.bike.symptoms == std::vector<int>{0, 1});
  REQUIRE(find.readings.size() == 11);
  CHECK(find.readings[0].trait == shed().trait("form"));
  CHECK(find.readings[0].where == "find.toml:17");
  CHECK(show_value(shed(), reading_of(find, "fins")) == "no");
  CHECK(show_value(shed(), reading_of(find, "letters")) == "AL, E and WL");
  CHECK(reading_of(find, "letters").text == "AL, WL, E");
  CHECK(reading_of(find, "size_short").value.interval == Interval{35, 35});
  CHECK(reading_of(find, "size_short").where == "find.toml:22");
  CHECK(reading_of(find, "mass").certainty == Certainty::guess);
  CHECK(reading_of(find, "ohm_lowest").value.interval == Interval{11.5, 11.5});
  CHECK(reading_of(find, "form", "neighbour").certainty == Certainty::guess);
  CHECK(file.notes == std::vector<std::string>{"find.toml:22: size: no unit: taken as mm",
                                               "find.toml:23: mass: about: taken as 54 to 66 g",
                                               "find.toml:24: ohm_lowest: no unit: taken as ohm"});
}

TEST_CASE("the readings keep the order of the file, not of the alphabet") {
  const Case find = read("[readings]\nsize_long = '50 mm'\nform = 'can'\nfins = 'no'\n").find;
  REQUIRE(find.readings.size() == 3);
  CHECK(find.readings[0].trait == shed().trait("size_long"));
  CHECK(find.readings[2].trait == shed().trait("fins"));
}

TEST_CASE("two values for one trait by the same observer are refused, naming both lines") {
  CHECK_THAT(refusal("[readings]\nform = 'can'\nfins = 'no'\nform = 'stud'\n"),
             Catch::Contains("'form' is given twice, in lines 2 and 4: keep one of them") &&
                 Catch::StartsWith("find.toml:4:"));
  CHECK_THAT(refusal("[bike]\nvolts = 6\n[readings]\nform = 'can'\n\n\"form\" = 'stud'\n"),
             Catch::Contains("lines 4 and 6"));
  CHECK_THAT(refusal("[readings]\nform = 'can'\n[bike]\nvolts=6\n[readings]\nfins = 'no'\n"),
             Catch::Contains("lines 1 and 5"));
  CHECK_THAT(refusal("title = 'a'\ntitle = 'b'\n"), Catch::Contains("lines 1 and 2"));
  CHECK_THAT(refusal("[readings]\nletters = [\n  'AL',\n]\nletters = 'WL'\n"), Catch::Contains("lines 2 and 5"));
  CHECK_THAT(refusal("[[reading]]\ntrait = 'form'\nvalue = 'can'\nvalue = 'stud'\n"), Catch::Contains("lines 3 and 4"));
  CHECK_THAT(refusal("[readings]\nform = 'can'\n[[reading]]\ntrait = 'form'\nvalue = 'stud'\n"),
             Catch::Contains("two values for 'form' by the same observer, in lines 2 and 4"));
  CHECK_THAT(refusal("[readings]\nsize = '60x40x25'\nsize_mid = 40\n"),
             Catch::Contains("two values for 'size_mid' by the same observer, in lines 2 and 3"));
  CHECK_THAT(refusal("[readings]\nsize_mid = 40\ndiameter = 40\n"), Catch::Contains("lines 2 and 3"));
  CHECK_THAT(refusal("[readings]\ncoil_count = 9\ncoil-count = 9\n"), Catch::Contains("lines 2 and 3"));
  CHECK_THAT(refusal("[[reading]]\ntrait = 'form'\nvalue = 'can'\nby = 'Ann'\n[[reading]]\ntrait = 'form'\nvalue = "
                     "'can'\nby = ' Ann '\n"),
             Catch::Contains("lines 2 and 6"));
}

TEST_CASE("two observers may differ") {
  const Case find = read("[readings]\nform = 'can'\n[[reading]]\ntrait = 'form'\nvalue = 'stud'\nby = 'Ann'\n").find;
  CHECK(find.readings.size() == 2);
}

TEST_CASE("a diameter and a length of one observer are one statement") {
  const Case find = read("[readings]\nlength = 25\nform = 'can'\ndiameter = { value = 145, sure = 'guess' }\n").find;
  REQUIRE(find.readings.size() == 4);
  CHECK(reading_of(find, "size_long").value.interval == Interval{145, 145});
  CHECK(reading_of(find, "size_mid").value.interval == Interval{145, 145});
  CHECK(reading_of(find, "size_short").value.interval == Interval{25, 25});
  CHECK(reading_of(find, "size_short").certainty == Certainty::guess);
  const Case two = read("[readings]\nlength = 25\n[[reading]]\ntrait = 'diameter'\nvalue = 145\nby = 'Ann'\n").find;
  CHECK(reading_of(two, "size_long").value.interval == Interval{25, 25});
  CHECK(reading_of(two, "size_mid", "Ann").value.interval == Interval{145, 145});
}

TEST_CASE("wrong keys and values are refused at their place, with the nearest known name") {
  CHECK_THAT(refusal("titel = 'x'\n"), Catch::StartsWith("find.toml:1:1: unknown key 'titel'. Did you mean 'title'?"));
  CHECK_THAT(refusal("form = 'can'\n"), Catch::Equals("find.toml:1:1: 'form' belongs under [readings]"));
  CHECK_THAT(refusal("size = 'can'\n"), Catch::Equals("find.toml:1:1: 'size' belongs under [readings]"));
  CHECK_THAT(refusal("volts = 6\n"), Catch::Equals("find.toml:1:1: 'volts' belongs under [bike]"));
  CHECK_THAT(refusal("[readings]\nfomr = 'can'\n"),
             Catch::StartsWith("find.toml:2:1: unknown trait 'fomr'. Did you mean 'form'?"));
  CHECK_THAT(refusal("[readings]\nvolts = 6\n"), Catch::Contains("belongs to the bike keys"));
  CHECK_THAT(refusal("[readings]\nform = 'cann'\n"),
             Catch::StartsWith("find.toml:2:8: 'cann' is no answer to 'overall form'. Did you mean 'can'"));
  CHECK_THAT(refusal("[readings]\nsize_long = '35 furlongs'\n"), Catch::StartsWith("find.toml:2:13: "));
  CHECK_THAT(refusal("[bike]\ndecad = 1960\n"),
             Catch::StartsWith("find.toml:2:1: unknown bike key 'decad'. Did you mean 'decade'?"));
  CHECK_THAT(refusal("[bike]\nvolts = 24\n"), Catch::Contains("volts: cannot read '24'. Expected 6 or 12"));
  CHECK_THAT(refusal("[bike]\nvolts = [6]\n"), Catch::Contains("expected a single value"));
  CHECK_THAT(refusal("[bike]\nsymptoms = ['no-chrage']\n"), Catch::Contains("Did you mean 'no-charge'?"));
  CHECK_THAT(refusal("[bike]\nsymptoms = [1.5]\n"), Catch::Contains("expected a list of texts"));
  CHECK_THAT(refusal("tools = ['metre']\n"),
             Catch::Contains("unknown tool 'metre'. Did you mean 'meter'? Known tools: meter, ruler"));
  CHECK_THAT(refusal("tools = 'meter'\n"), Catch::Contains("expected a list of tools"));
  CHECK_THAT(refusal("tools = [[]]\n"), Catch::Contains("a tool cannot be a list"));
  CHECK_THAT(refusal("schema = 2\n"), Catch::Contains("reads schema 1"));
  CHECK_THAT(refusal("schema = 'x'\n"), Catch::Contains("expected 1 for 'schema', found a text"));
  CHECK_THAT(refusal("meter_leads_zeroed = 'yes'\n"), Catch::Contains("expected true or false"));
  CHECK_THAT(refusal("readings = 5\n"), Catch::Contains("expected a table [readings], found a number"));
  CHECK_THAT(refusal("[[readings]]\nform = 'can'\n"), Catch::Contains("[[reading]]"));
  CHECK_THAT(refusal("[reading]\ntrait = 'form'\n"), Catch::Contains("expected blocks [[reading]], found a table"));
  CHECK_THAT(refusal("reading = [1]\n"), Catch::Contains("found a number"));
  CHECK_THAT(refusal("bike = 'british'\n"), Catch::Contains("expected a table [bike]"));
  CHECK_THAT(refusal("[[reading]]\nvalue = 'can'\n"), Catch::Contains("names no 'trait'"));
  CHECK_THAT(refusal("[[reading]]\ntrait = 'form'\n"), Catch::Contains("has no 'value'"));
  CHECK_THAT(refusal("[[reading]]\ntrait = 'form'\nvalue = 'can'\nsurre = 'sure'\n"),
             Catch::Contains("find.toml:4:1: unknown key 'surre' in a reading. Did you mean 'sure'?"));
  CHECK_THAT(refusal("[readings]\nform = { value = 'can', sure = 'perhaps' }\n"),
             Catch::Contains("expected 'sure', 'think so' or 'guess'"));
  CHECK_THAT(refusal("[readings]\nform = { value = 'can', sure = 5 }\n"),
             Catch::Contains("expected a text for 'sure', found a number"));
  CHECK_THAT(refusal("[readings]\nform = { sure = 'sure' }\n"), Catch::Contains("has no 'value'"));
  CHECK_THAT(refusal("[readings]\nform = { value = 'can', trait = 'fins' }\n"), Catch::Contains("unknown key 'trait'"));
  CHECK_THAT(refusal("[readings]\nform = { value = { value = 'can' } }\n"),
             Catch::Contains("expected a single value for 'form', found a table"));
  CHECK_THAT(refusal("[readings]\nform = ['can']\n"),
             Catch::Contains("expected a single value for 'form', found a list"));
  CHECK_THAT(refusal("[readings]\nletters = [['AL']]\n"), Catch::Contains("list of single texts"));
  CHECK_THAT(refusal("[readings]\nletters = ['AL, WL']\n"), Catch::Contains("list of single texts"));
  CHECK_THAT(refusal("[readings]\nletters = []\n"), Catch::Contains("nothing is listed"));
  CHECK_THAT(refusal("[readings]\nform = 1979-05-27\n"), Catch::Contains("found a date or time"));
  CHECK_THAT(refusal("[readings]\nsize_long = nan\n"), Catch::Contains("no number that can be measured"));
  CHECK_THAT(refusal("[readings]\nsize_long = -5\n"), Catch::Contains("negative"));
  CHECK_THAT(refusal("[readings]\nohm_lowest = -inf\n"), Catch::Contains("cannot read '-inf'"));
  CHECK_THAT(refusal("title = '" + std::string(300, 'x') + "'\n"), Catch::Contains("longer than 200"));
}

TEST_CASE("a file that is no readings file at all gets one message") {
  CHECK(refusal("") == "find.toml: the file holds no readings");
  CHECK(refusal("\n\n  # only a comment\n") == "find.toml: the file holds no readings");
  CHECK(refusal("\xEF\xBB\xBF") == "find.toml: the file holds no readings");
  CHECK_THAT(refusal(std::string((1U << 20U) + 1, ' ')), Catch::Contains("larger than 1 MiB"));
  CHECK_THAT(refusal(std::string("title = 'a'\nnote = '\0'\n", 23)),
             Catch::StartsWith("find.toml:2:9: there is a NUL byte here"));
  CHECK_THAT(refusal("title = 'a'\nnote = '\xFF'\n"), Catch::StartsWith("find.toml:2:9: this byte is not UTF-8"));
  CHECK_THAT(refusal("title = 'a'\nform can\n"), Catch::StartsWith("find.toml:2:"));
  CHECK_THAT(refusal("title = 'a'\nform can\n"), Catch::Contains("this is not TOML"));
  CHECK_THAT(refusal("\x7F"
                     "ELF\x02\x01\x01"),
             Catch::Contains("not TOML"));
  CHECK_THAT(refusal("[readings\nform = 'can'\n"), Catch::Contains("not TOML"));
  CHECK_THAT(refusal("<html></html>"), Catch::Contains("not TOML"));
}

TEST_CASE("nesting that would exhaust the stack is refused") {
  std::string dots = "a";
  for (int i = 0; i < 400000; ++i) dots += ".a";
  CHECK_THAT(refusal(dots + " = 1\n"), Catch::Contains("that many dots"));
  CHECK_THAT(refusal("[" + dots + "]\n"), Catch::Contains("that many dots"));
  CHECK_THAT(refusal("x = {" + dots + " = 1}\n"), Catch::Contains("that many dots"));
  CHECK_THAT(refusal("x = " + std::string(500000, '[')), Catch::Contains("not TOML"));
  CHECK_FALSE(refusal("x = " + std::string(200, '[') + std::string(200, ']')).empty());
  std::string many = "x = ";
  for (int i = 0; i < 250; ++i)
    many += "[{a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a = \n";
  CHECK_FALSE(refusal(many).empty());
  CHECK(read("note = '....................................................................................'\n")
            .note.size() > 80);
}

TEST_CASE("a thousand readings are taken and no more") {
  std::string text;
  for (int i = 0; i < 1001; ++i)
    text += "[[reading]]\ntrait = 'form'\nvalue = 'can'\nby = 'p" + std::to_string(i) + "'\n";
  CHECK_THAT(refusal(text), Catch::Contains("more than 1,000 readings"));
  const std::size_t last = text.rfind("[[reading]]");
  CHECK(read(text.substr(0, last)).find.readings.size() == 1000);
}

TEST_CASE("strange but sound files are taken") {
  CHECK(read("[bike]\nvolts = 6\n").find.bike.volts == 6);
  CHECK(read("[readings]\n").find.readings.empty());
  CHECK(read("\xEF\xBB\xBF[readings]\r\nform = 'can'\r\n").find.readings.size() == 1);
  CHECK(read("readings = { form = 'can', fins = true }\n").find.readings.size() == 2);
  CHECK(read("readings.form = 'can'\n").find.readings.size() == 1);
  CHECK(read("[readings]\nletters = [49, '49a']\n").find.readings[0].value.items ==
        std::vector<std::string>{"49", "49a"});
  CHECK(read("[readings]\nohm_lowest = inf\n").find.readings[0].value.special == knowledge::Special::over_range);
  CHECK(read("[readings]\nohm_lowest = 0\n").find.readings[0].value.special == knowledge::Special::zero);
  CHECK(read("[readings]\nsize_long = 1e2\n").find.readings[0].value.interval == Interval{100, 100});
  CHECK(read("[readings]\nfins = { value = true }\n").find.readings.size() == 1);
}
