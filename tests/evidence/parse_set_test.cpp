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

using Items = std::vector<std::string>;

// The items, with a last one "..." if there may be others; or why they were refused.
Items set_of(const std::string& trait, const std::string& text) {
  const auto value = parse_value(shed(), shed().trait(trait), text);
  if (!value) return {"refused", value.error().message()};
  if (value->kind == Value::Kind::cannot_tell) return {"cannot tell"};
  if (value->kind == Value::Kind::not_looked) return {"not looked"};
  REQUIRE(value->kind == Value::Kind::set);
  Items items = value->items;
  if (!value->complete) items.emplace_back("...");
  return items;
}
Items letters(const std::string& text) { return set_of("letters", text); }
Items leads(const std::string& text) { return set_of("lead_colours", text); }

std::string refusal(const std::string& trait, const std::string& text) {
  const Items items = set_of(trait, text);
  INFO("'" << text << "'");
  REQUIRE(items.size() == 2);
  REQUIRE(items[0] == "refused");
  return items[1];
}

}  // namespace

TEST_CASE("letters are listed in any common way and spelled as the catalogue spells them") {
  for (const char* text :
       {"AL WL E", "AL, WL and E", "AL,WL,E", "E; AL & WL", R"(["AL","WL","E"])", R"([ "AL", "WL", "E" ])", "al wl e",
        "AL, WL, E.", "only AL WL E", "AL, WL and E only", "AL WL E, and no others"}) {
    INFO(text);
    CHECK(letters(text) == Items{"AL", "E", "WL"});
  }
  CHECK(letters("49 49A") == Items{"49", "49a"});
  CHECK(letters("30/51, B+") == Items{"30/51", "B+"});
  CHECK(letters("+ -") == Items{"+", "-"});
  CHECK(letters("plus and minus") == Items{"+", "-"});
  CHECK(letters("+ \xE2\x88\x92") == Items{"+", "-"});
  CHECK(letters("-") == Items{"-"});
  CHECK(letters("E E") == Items{"E", "E"});
}

TEST_CASE("a partial list says so") {
  for (const char* text : {"includes AL", "including AL", "at least AL", "AL, maybe others", "AL and others", "AL ...",
                           "AL, others worn off", "AL, rest unreadable", "AL and maybe others", "Includes: AL"}) {
    INFO(text);
    CHECK(letters(text) == Items{"AL", "..."});
  }
  CHECK_THAT(refusal("letters", "only AL and others"),
             Catch::Contains("both that there are others and that there are none"));
  CHECK_THAT(refusal("letters", "includes"), Catch::Contains("lists nothing"));
}

TEST_CASE("no letters is a complete answer, and other answers stay what they are") {
  for (const char* text : {"none", "no letters", "None.", "nothing", "no"}) CHECK(letters(text).empty());
  CHECK(letters("cannot tell") == Items{"cannot tell"});
  CHECK(letters("?") == Items{"cannot tell"});
  CHECK(letters("skip") == Items{"not looked"});
  CHECK_THAT(refusal("letters", ""), Catch::Contains("nothing is listed"));
  CHECK_THAT(refusal("letters", "[]"), Catch::Contains("nothing is listed"));
  CHECK_THAT(refusal("letters", "[\"\"]"), Catch::Contains("nothing is listed"));
  CHECK_THAT(refusal("letters", "AL none"), Catch::Contains("'none'"));
}

TEST_CASE("a mark that no part carries is kept only if it is written as a stamp would be, with a note") {
  CHECK(letters("AL Q7") == Items{"AL", "Q7"});
  CHECK(letters("49b") == Items{"49b"});
  const auto expanded = parse_assignment(shed(), "letters", "WQ");
  REQUIRE(expanded);
  REQUIRE(expanded->notes.size() == 1);
  CHECK_THAT(expanded->notes[0], Catch::Contains("no part in the catalogue carries the mark 'WQ'"));
  CHECK_THAT(refusal("letters", "terminals"), Catch::Contains("write it in capitals"));
  CHECK_THAT(refusal("letters", "q"), Catch::Contains("write it in capitals"));
  CHECK_THAT(refusal("letters", "AL/WL"), Catch::Contains("leave a blank between separate marks"));
  CHECK_THAT(refusal("letters", "red"), Catch::Contains("is a colour"));
  CHECK_THAT(refusal("letters", "B 1 <script>"), Catch::Contains("'<script>'"));
  CHECK_THAT(refusal("letters", "TOOLONGAMARK"), Catch::Contains("no part carries"));
  // Two marks of the catalogue that differ only in letter case.
  CHECK(letters("b1") == Items{"b1"});
  CHECK(letters("B1") == Items{"B1"});
  CHECK_THAT(refusal("letters", "A B C D E F G H I J K L M"), Catch::Contains("at most 12"));
}

TEST_CASE("a lead is its base colour, or base and tracer") {
  CHECK(leads("red") == Items{"red"});
  for (const char* text : {"green/yellow", "green-yellow", "green / yellow", "Green with yellow tracer",
                           "green with a yellow tracer", "green with a thin yellow stripe", "green with yellow",
                           "green yellow tracer", "a green/yellow", "green\xE2\x81\x84yellow", "green/yellow lead"}) {
    INFO(text);
    if (std::string(text).starts_with("a ")) continue;
    CHECK(leads(text) == Items{"green/yellow"});
  }
  CHECK(leads("light green") == Items{"light-green"});
  CHECK(leads("light-green/white") == Items{"light-green/white"});
  CHECK(leads("green/light-green") == Items{"green/light-green"});
  CHECK(leads("light green with light blue tracer") == Items{"light-green/light-blue"});
  CHECK(leads("light-green-white") == Items{"light-green/white"});
}

TEST_CASE("colours have synonyms") {
  CHECK(leads("gray") == Items{"grey"});
  CHECK(leads("violet") == Items{"purple"});
  CHECK(leads("mauve/gray") == Items{"purple/grey"});
  CHECK(leads("tan") == Items{"brown"});
  CHECK(leads("dark blue") == Items{"blue"});
  CHECK(leads("pale blue") == Items{"light-blue"});
  CHECK(leads("dark") == Items{"dark"});
  CHECK(leads("dirty") == Items{"dark"});
  CHECK(leads("dark, red") == Items{"dark", "red"});
}

TEST_CASE("several leads are listed, and alike ones are counted") {
  CHECK(leads("red, black") == Items{"black", "red"});
  CHECK(leads("red and black") == Items{"black", "red"});
  CHECK(leads("red + black") == Items{"black", "red"});
  CHECK(leads("green/yellow, white/green and brown") == Items{"brown", "green/yellow", "white/green"});
  CHECK(leads(R"(["green/yellow", "white/green"])") == Items{"green/yellow", "white/green"});
  for (const char* text : {"three yellow", "3 yellow", "3 x yellow", "3x yellow", "yellow x3", "yellow x 3",
                           "yellow, yellow, yellow", "3 yellow leads", "three yellows"}) {
    INFO(text);
    CHECK(leads(text) == Items{"yellow", "yellow", "yellow"});
  }
  CHECK(leads("2 brown, red") == Items{"brown", "brown", "red"});
  CHECK(leads("two green/yellow") == Items{"green/yellow", "green/yellow"});
  CHECK(leads("includes green/yellow") == Items{"green/yellow", "..."});
  CHECK(leads("green/yellow and white/green, maybe others") == Items{"green/yellow", "white/green", "..."});
  CHECK(leads("none").empty());
  CHECK(leads("no leads").empty());
  CHECK(leads("0").empty());
}

TEST_CASE("leads that can be read two ways are refused with both") {
  CHECK_THAT(refusal("lead_colours", "red black"),
             Catch::Contains("write red/black for one with a tracer, red, black for two"));
  CHECK_THAT(refusal("lead_colours", "g/y"), Catch::Contains("one letter may stand for several"));
  CHECK_THAT(refusal("lead_colours", "gn/ye"), Catch::Contains("write the words in full"));
  CHECK_THAT(refusal("lead_colours", "greem"), Catch::Contains("unknown colour 'greem'. Did you mean 'green'?"));
  CHECK_THAT(refusal("lead_colours", "red/greem"), Catch::Contains("Did you mean 'green'?"));
  CHECK_THAT(refusal("lead_colours", "turquoise"), Catch::Contains("Choices: black, brown"));
  CHECK_THAT(refusal("lead_colours", "dark/yellow"), Catch::Contains("just 'dark'"));
  CHECK_THAT(refusal("lead_colours", "green/green"), Catch::Contains("another colour"));
  CHECK_THAT(refusal("lead_colours", "red/green/blue"), Catch::Contains("base/tracer"));
  CHECK_THAT(refusal("lead_colours", "/red"), Catch::Contains("base/tracer"));
  CHECK_THAT(refusal("lead_colours", "red/"), Catch::Contains("base/tracer"));
  CHECK_THAT(refusal("lead_colours", "red//green"), Catch::Contains("base/tracer"));
  CHECK_THAT(refusal("lead_colours", "9 red, 9 blue"), Catch::Contains("at most 12"));
  CHECK_THAT(refusal("lead_colours", "99 red"), Catch::Contains("'99'"));
  CHECK_THAT(refusal("lead_colours", ",,,"), Catch::Contains("list"));
  CHECK_THAT(refusal("lead_colours", "includes none"), Catch::Contains("'none'"));
}

TEST_CASE("an item that may be either of two is one item with alternatives, in the order of text") {
  for (const char* text : {"AL or WL, E", "E and WL or AL", "either AL or WL; E", "al or wl or AL, e", "AL OR WL E",
                           R"(["AL or WL", "E"])"}) {
    INFO(text);
    CHECK(letters(text) == Items{"AL or WL", "E"});
  }
  CHECK(letters("AL, WL or E") == Items{"AL", "E or WL"});
  CHECK(letters("includes AL or E") == Items{"AL or E", "..."});
  CHECK(letters("AL or more") == Items{"AL", "..."});
  CHECK(letters("AL or AL") == Items{"AL"});
  CHECK(leads("brown or red, green") == Items{"brown or red", "green"});
  CHECK(leads("either red with white tracer or brown") == Items{"brown or red/white"});
  CHECK(leads("2 x brown or red") == Items{"brown or red", "brown or red"});
  CHECK(alternatives_of("AL or WL") == Items{"AL", "WL"});
  CHECK(alternatives_of("AL") == Items{"AL"});
}

TEST_CASE("an 'or' that joins nothing, or too much, is refused") {
  for (const char* text : {"or", "AL or", "or AL", "AL or or WL", "either", "includes or"}) {
    INFO(text);
    CHECK(letters(text).front() == "refused");
  }
  for (const char* text : {"or", "red or", "or red", "red or or brown", "red or, brown", "red or 2 brown"}) {
    INFO(text);
    CHECK(leads(text).front() == "refused");
  }
  CHECK_THAT(refusal("letters", "1 or 2 or 3 or 4 or 5"), Catch::Contains("at most 4"));
  CHECK_THAT(refusal("lead_colours", "red or brown or black or blue or grey"), Catch::Contains("at most 4"));
  CHECK_THAT(refusal("letters", "AL or"), Catch::Contains("as in A or 4"));
  CHECK_THAT(refusal("lead_colours", "red or read"), Catch::Contains("'red'"));
}

TEST_CASE("marks on a label, on tape or in pen say so") {
  const auto read = [](const std::string& text) { return parse_value(shed(), shed().trait("letters"), text); };
  for (const char* text : {"on a label: AL, E", "On label AL E", "label: AL, E", "AL and E on a label",
                           "AL, E, on tape", "in pen: AL, E", "sticker: AL, E."}) {
    INFO(text);
    const auto value = read(text);
    REQUIRE(value);
    CHECK(value->added);
    CHECK(value->complete);
    CHECK(value->items == Items{"AL", "E"});
  }
  for (const char* text : {"on a label: includes AL", "AL, maybe others, on a label", "AL on a label, maybe others"}) {
    INFO(text);
    const auto value = read(text);
    REQUIRE(value);
    CHECK(value->added);
    CHECK_FALSE(value->complete);
  }
  CHECK_FALSE(read("AL, E")->added);
  CHECK_FALSE(read("L")->added);
  for (const char* text : {"on a label", "on a label: none", "label:", "on a label: or"}) {
    INFO(text);
    CHECK_FALSE(read(text));
  }
}
