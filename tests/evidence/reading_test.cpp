#include <catch2/catch.hpp>

#include "evidence/parse_value.h"
#include "evidence/shed_knowledge.h"
#include "evidence/show.h"
#include "evidence/wording.h"

using namespace loomkey;
using namespace loomkey::evidence;

namespace {

const knowledge::Knowledge& shed() {
  static const knowledge::Knowledge knowledge = support::shed_knowledge();
  return knowledge;
}

Reading reading(const std::string& trait, const std::string& text, const std::string& observer = {}) {
  auto expanded = parse_assignment(shed(), trait, text);
  if (!expanded) FAIL(expanded.error().message());
  expanded->readings.at(0).observer = observer;
  return expanded->readings.at(0);
}

std::string shown(const std::string& trait, const std::string& text) {
  return show_value(shed(), reading(trait, text));
}

}  // namespace

TEST_CASE("in a conversation the later reading replaces the earlier of the same trait and observer") {
  Case find;
  add_reading(find, reading("form", "can"));
  add_reading(find, reading("fins", "no"));
  add_reading(find, reading("form", "stud"));
  add_reading(find, reading("form", "stick", "neighbour"));
  REQUIRE(find.readings.size() == 3);
  CHECK(find.readings[0].text == "stud");
  CHECK(find.readings[2].observer == "neighbour");
}

TEST_CASE("only readings that say something are evidence") {
  Case find;
  CHECK_FALSE(find.has_evidence());
  add_reading(find, reading("form", "cannot tell"));
  add_reading(find, reading("fins", "not looked"));
  CHECK_FALSE(find.has_evidence());
  add_reading(find, reading("fins", "no"));
  CHECK(find.has_evidence());
}

TEST_CASE("a reading is shown in words") {
  CHECK(shown("form", "can") == "small closed round can, not twice as long as wide");
  CHECK(shown("size_long", "27-36") == "27 to 36 mm");
  CHECK(shown("size_long", "2 1/2 in") == "63.5 mm");
  CHECK(shown("size_long", "about 35") == "31.5 to 38.5 mm");
  CHECK(shown("ohm_lowest", "4k7") == "4.7 kohm");
  CHECK(shown("ohm_lowest", "1-2 Mohm") == "1 to 2 Mohm");
  CHECK(shown("ohm_lowest", "800 ohm to 1.2k") == "800 to 1200 ohm");
  CHECK(shown("ohm_lowest", "OL") == "over-range (OL)");
  CHECK(shown("ohm_lowest", "na") == "does not apply");
  CHECK(shown("letters", "WL AL") == "AL and WL");
  CHECK(shown("letters", "none") == "no letters");
  CHECK(shown("lead_colours", "green/yellow, white/green, maybe others") ==
        "green/yellow and white/green, maybe others");
  CHECK(shown("lead_colours", "red, black, brown") == "black, brown and red");
  CHECK(shown("form", "?") == "cannot tell");
  CHECK(shown("form", "skip") == "not looked");
}

TEST_CASE("what is shown reads back as the same value") {
  for (const auto& [trait, text] :
       std::vector<std::pair<std::string, std::string>>{{"form", "stick"},
                                                        {"fins", "yes"},
                                                        {"coil_count", "9"},
                                                        {"size_long", "27-36"},
                                                        {"ohm_lowest", "4k7"},
                                                        {"ohm_lowest", "zero"},
                                                        {"ohm_lowest", "jumps"},
                                                        {"ohm_lowest", "OL"},
                                                        {"ohm_lowest", "na"},
                                                        {"letters", "includes AL, WL, E"},
                                                        {"letters", "+ -"},
                                                        {"letters", "none"},
                                                        {"lead_colours", "3 yellow"},
                                                        {"lead_colours", "includes green/yellow"},
                                                        {"lead_colours", "none"},
                                                        {"form", "cannot tell"},
                                                        {"letters", "skip"}}) {
    INFO(trait << " " << text);
    const Reading first = reading(trait, text);
    const auto again = parse_value(shed(), first.trait, show_value(shed(), first));
    if (!again) FAIL(again.error().message());
    CHECK(*again == first.value);
  }
}

TEST_CASE("quotes in messages are short and printable") {
  CHECK(quoted("can") == "'can'");
  CHECK(quoted(" a\x1B[0m ") == "'a?[0m'");
  CHECK(quoted(std::string(1000, 'x')).size() == 65);
  CHECK(quoted("\xFF") == "'?'");
  std::string umlauts;
  for (int i = 0; i < 200; ++i) umlauts += "\xC3\xBC";
  CHECK(quoted(umlauts).find('?') == std::string::npos);
}

TEST_CASE("certainty has three steps") {
  CHECK(certainty_of("Sure") == Certainty::sure);
  CHECK(certainty_of("think so") == Certainty::think_so);
  CHECK(certainty_of("think-so") == Certainty::think_so);
  CHECK(certainty_of("guess") == Certainty::guess);
  CHECK_FALSE(certainty_of("perhaps"));
  for (const Certainty certainty : {Certainty::sure, Certainty::think_so, Certainty::guess}) {
    CHECK(certainty_of(certainty_name(certainty)) == certainty);
  }
}
