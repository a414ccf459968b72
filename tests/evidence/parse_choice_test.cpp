#include <string>
#include <utility>
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

std::string state_of(const std::string& trait, const std::string& text) {
  const int index = shed().trait(trait);
  const auto value = parse_value(shed(), index, text);
  if (!value) return "refused: " + value.error().message();
  if (value->kind == Value::Kind::cannot_tell) return "cannot tell";
  if (value->kind == Value::Kind::not_looked) return "not looked";
  REQUIRE(value->kind == Value::Kind::state);
  return shed().traits[static_cast<std::size_t>(index)].states[static_cast<std::size_t>(value->state)].id;
}

}  // namespace

TEST_CASE("a state is known by its id, its name, or the unique beginning of its id") {
  for (const auto& [text, state] :
       std::vector<std::pair<std::string, std::string>>{{"can", "can"},
                                                        {" Can ", "can"},
                                                        {"a can", "can"},
                                                        {"cans", "can"},
                                                        {"the cylinder", "cylinder"},
                                                        {"small closed round can, not twice as long as wide", "can"},
                                                        {"cyl", "cylinder"},
                                                        {"fin", "finned-block"},
                                                        {"finned block", "finned-block"},
                                                        {"finned_block", "finned-block"},
                                                        {"bar, stick or narrow tray", "stick"},
                                                        {"longer closed cyl", "cylinder"},
                                                        {"other", "other"}}) {
    INFO("'" << text << "'");
    CHECK(state_of("form", text) == state);
  }
}

TEST_CASE("an answer that may mean several states, or none, is refused and the choices are listed") {
  CHECK_THAT(state_of("form", "st"), Catch::StartsWith("refused: 'st' may be 'stud' or 'stick' for 'overall form'"));
  CHECK_THAT(state_of("form", "cilinder"), Catch::Contains("Did you mean 'cylinder' (longer closed cylinder)?"));
  CHECK_THAT(state_of("form", "cilinder"), Catch::Contains("Choices: can, cylinder, finned-block, stud, stick, other"));
  // One adjective is no answer, though a name begins with it; but it is a hint.
  CHECK_THAT(state_of("form", "metal"), Catch::Contains("'metal' is no answer to 'overall form'. Did you mean 'stud'"));
  CHECK_THAT(state_of("form", "c"), Catch::StartsWith("refused"));
  CHECK_THAT(state_of("form", ""), Catch::StartsWith("refused: no answer for"));
  CHECK_THAT(state_of("form", "   "), Catch::StartsWith("refused"));
  CHECK_THAT(state_of("form", "35"), Catch::StartsWith("refused"));
  CHECK_THAT(state_of("form", "na"), Catch::StartsWith("refused"));
  CHECK_THAT(state_of("form", std::string(100000, 'c')), Catch::Contains("longer than 500 characters"));
  CHECK_THAT(state_of("form", "\x1B[31mcan"), Catch::Contains("'?[31mcan'"));
  CHECK_THAT(state_of("form", "\xFF\xFE"), Catch::StartsWith("refused"));
}

TEST_CASE("'cannot tell' and 'not looked' answer every question") {
  for (const char* trait : {"form", "fins", "coil_count"}) {
    for (const char* text : {"cannot tell", "can't tell", "Cant tell", "can\xE2\x80\x99t tell", "?", "don't know",
                             "dont know", "unsure", "Unknown", "cannot-tell", "cannot tell."}) {
      INFO(trait << " '" << text << "'");
      CHECK(state_of(trait, text) == "cannot tell");
    }
    for (const char* text : {"not looked", "skip", "not checked", "later"})
      CHECK(state_of(trait, text) == "not looked");
  }
}

TEST_CASE("yes and no have many spellings") {
  for (const char* text : {"yes", "Y", "true", "1", "yep"}) CHECK(state_of("fins", text) == "yes");
  for (const char* text : {"no", "N", "false", "0", "none", "absent"}) CHECK(state_of("fins", text) == "no");
  CHECK_THAT(state_of("fins", "maybe"), Catch::StartsWith("refused: 'maybe' is no answer to 'fins'"));
  CHECK_THAT(state_of("fins", "2"), Catch::StartsWith("refused"));
}

TEST_CASE("'none' is the state that says so, and is refused where there is none or more than one") {
  CHECK(state_of("terminal_kind", "none") == "none");
  CHECK(state_of("terminal_kind", "no") == "none");
  CHECK(state_of("terminal_count", "none") == "0");
  CHECK_THAT(state_of("diode_legs", "none"), Catch::StartsWith("refused"));
  // "No" must not become "not-a-switch" because the id happens to begin so.
  CHECK_THAT(state_of("at_rest", "no"), Catch::StartsWith("refused"));
  CHECK(state_of("at_rest", "not a switch") == "not-a-switch");
}

TEST_CASE("a number is the state whose count covers it") {
  for (const auto& [trait, text, state] :
       std::vector<std::tuple<std::string, std::string, std::string>>{{"terminal_count", "8", "7+"},
                                                                      {"terminal_count", "7", "7+"},
                                                                      {"terminal_count", "7+", "7+"},
                                                                      {"terminal_count", "seven or more", "7+"},
                                                                      {"terminal_count", "more than 7", "7+"},
                                                                      {"terminal_count", "at least 9", "7+"},
                                                                      {"terminal_count", "two", "2"},
                                                                      {"terminal_count", "2 terminals", "2"},
                                                                      {"terminal_count", "0", "0"},
                                                                      {"terminal_count", "7 to 9", "7+"},
                                                                      {"coil_count", "9 coils", "8-9"},
                                                                      {"coil_count", "8", "8-9"},
                                                                      {"coil_count", "8-9", "8-9"},
                                                                      {"coil_count", "eight or nine", "8-9"},
                                                                      {"coil_count", "8 or 9 coils", "8-9"},
                                                                      {"coil_count", "5-6", "5-6"},
                                                                      {"coil_count", "between 2 and 4", "2-4"},
                                                                      {"coil_count", "12+", "12+"},
                                                                      {"coil_count", "18", "12+"},
                                                                      {"coil_count", "twelve or more", "12+"},
                                                                      {"coil_count", "laced", "laced"},
                                                                      {"diode_legs", "4", "4-5"},
                                                                      {"diode_legs", "2 paths", "2"},
                                                                      {"marks_volts", "12", "12"},
                                                                      {"marks_volts", "12 V", "12"},
                                                                      {"marks_volts", "12v", "12"},
                                                                      {"marks_volts", "6 volts", "6"},
                                                                      {"marks_volts", "50", "25-50"}}) {
    INFO(trait << " '" << text << "'");
    CHECK(state_of(trait, text) == state);
  }
}

TEST_CASE("a number that no single state covers is refused") {
  CHECK_THAT(state_of("coil_count", "7"),
             Catch::StartsWith("refused: '7' fits none of the answers to 'coils to be counted'"));
  CHECK_THAT(state_of("coil_count", "5-9"), Catch::Contains("fits no single answer"));
  CHECK_THAT(state_of("coil_count", "56"), !Catch::Contains("5-6") || Catch::Equals("12+"));
  CHECK_THAT(state_of("terminal_count", "3 or more"), Catch::Contains("fits no single answer"));
  CHECK_THAT(state_of("terminal_count", "3 bananas"), Catch::Contains("what does 'bananas' mean"));
  // The beginning of "12" is not "1".
  CHECK_THAT(state_of("marks_volts", "1"), Catch::StartsWith("refused"));
  CHECK_THAT(state_of("marks_volts", "24"), Catch::Contains("other"));
  for (const char* text : {"-1", "2.5", "1e2", "99999999999", "5 6", "nan", "1/2"}) {
    INFO(text);
    CHECK_THAT(state_of("terminal_count", text), Catch::StartsWith("refused"));
  }
}
