#include "cli/spoken.h"

#include <catch2/catch.hpp>

using namespace loomkey::cli;
using loomkey::evidence::Certainty;

namespace {

Intent intent(std::string_view line, bool letters = true) { return understand(line, letters).intent; }

void check_answer(std::string_view line, const std::string& words, std::optional<Certainty> certainty) {
  INFO(line);
  const Spoken spoken = understand(line, true);
  CHECK(spoken.intent == Intent::answer);
  CHECK(spoken.words == words);
  CHECK(spoken.certainty == certainty);
}

}  // namespace

TEST_CASE("every key has a word and a letter of its own, and both mean the same") {
  std::string letters;
  for (const Key& key : conversation_keys) {
    if (key.intent == Intent::assignment) continue;
    CHECK(intent(key.word) == key.intent);
    CHECK(intent(std::string(1, key.letter)) == key.intent);
    CHECK(letters.find(key.letter) == std::string::npos);
    letters += key.letter;
  }
}

TEST_CASE("letters are answers while letters are asked for, words stay keys") {
  CHECK(intent("b", false) == Intent::answer);
  CHECK(intent("W", false) == Intent::answer);
  CHECK(intent("back", false) == Intent::back);
  CHECK(intent("Cannot tell", false) == Intent::cannot_tell);
}

TEST_CASE("keys are known in any case and in other words") {
  CHECK(intent("  WHY ") == Intent::why);
  CHECK(intent("don't know") == Intent::cannot_tell);
  CHECK(intent("?") == Intent::cannot_tell);
  CHECK(intent("not looked") == Intent::not_looked);
  CHECK(intent("quit") == Intent::stop);
  CHECK(intent("") == Intent::nothing);
  CHECK(intent("   ") == Intent::nothing);
}

TEST_CASE("how sure an answer is stands at its end") {
  check_answer("can", "can", std::nullopt);
  check_answer("can?", "can", Certainty::think_so);
  check_answer("can ?", "can", Certainty::think_so);
  check_answer("can??", "can", Certainty::guess);
  check_answer("can think so", "can", Certainty::think_so);
  check_answer("3, guess", "3", Certainty::guess);
  check_answer("about 30 mm (think so)", "about 30 mm", Certainty::think_so);
  check_answer("can (a guess)", "can", Certainty::guess);
  check_answer("can, sure", "can", Certainty::sure);
  check_answer("box (closed)", "box (closed)", std::nullopt);
}

TEST_CASE("words that only look like a certainty are left alone") {
  check_answer("guess", "guess", std::nullopt);
  check_answer("makes pressure", "makes pressure", std::nullopt);
  CHECK(intent("not sure") == Intent::cannot_tell);
}

TEST_CASE("any reading can be given out of turn") {
  const Spoken spoken = understand("Size_Long = about 50 mm?", true);
  CHECK(spoken.intent == Intent::assignment);
  CHECK(spoken.name == "size_long");
  CHECK(spoken.words == "about 50 mm");
  CHECK(spoken.certainty == Certainty::think_so);
  const Spoken changed = understand("change form = box", true);
  CHECK(changed.intent == Intent::assignment);
  CHECK(changed.name == "form");
}

TEST_CASE("change and bike take what follows them") {
  CHECK(understand("change form", true).name == "form");
  CHECK(understand("change", true).name.empty());
  CHECK(intent("change form") == Intent::change);
  CHECK(understand("bike volts 12", true).words == "volts 12");
  CHECK(intent("bike volts = 12") == Intent::bike);
}
