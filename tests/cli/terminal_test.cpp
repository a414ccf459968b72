#include "cli/terminal.h"

#include <catch2/catch.hpp>

using namespace loomkey::cli;

namespace {

constexpr Streams at_a_terminal = {
    .input_is_terminal = true, .output_is_terminal = true, .messages_are_terminal = true, .columns = 120};

}  // namespace

TEST_CASE("text is never wider than 80 columns, nor than the terminal") {
  CHECK(judge_terminal(at_a_terminal, {{"TERM", "xterm"}}).width == 80);
  CHECK(judge_terminal({.columns = 50}, {}).width == 50);
  CHECK(judge_terminal({.columns = 5}, {}).width == 24);
  CHECK(judge_terminal({}, {}).width == 80);
}

TEST_CASE("COLUMNS is respected where it is a number") {
  CHECK(judge_terminal(at_a_terminal, {{"COLUMNS", "60"}}).width == 60);
  CHECK(judge_terminal({}, {{"COLUMNS", "40"}}).width == 40);
  for (const char* nonsense : {"", "0", "-5", "many", "60x", "99999999999999999999"}) {
    CHECK(judge_terminal({.columns = 70}, {{"COLUMNS", nonsense}}).width == 70);
  }
}

TEST_CASE("terminal codes need a capable terminal and no wish against them") {
  CHECK(judge_terminal(at_a_terminal, {{"TERM", "xterm"}}).escapes);
  CHECK_FALSE(judge_terminal(at_a_terminal, {{"TERM", "xterm"}, {"NO_COLOR", "1"}}).escapes);
  CHECK(judge_terminal(at_a_terminal, {{"TERM", "xterm"}, {"NO_COLOR", ""}}).escapes);
  CHECK_FALSE(judge_terminal(at_a_terminal, {{"TERM", "dumb"}}).escapes);
  CHECK_FALSE(judge_terminal(at_a_terminal, {}).escapes);
  CHECK_FALSE(judge_terminal({.input_is_terminal = true}, {{"TERM", "xterm"}}).escapes);
}

TEST_CASE("a conversation needs a terminal at both ends") {
  CHECK(judge_terminal(at_a_terminal, {{"TERM", "xterm"}}).can_ask);
  CHECK(judge_terminal(at_a_terminal, {{"TERM", "dumb"}}).can_ask);
  CHECK_FALSE(judge_terminal(at_a_terminal, {{"TERM", "dumb"}}).line_editing);
  CHECK_FALSE(judge_terminal({.output_is_terminal = true}, {{"TERM", "xterm"}}).can_ask);
  CHECK_FALSE(judge_terminal({.input_is_terminal = true}, {{"TERM", "xterm"}}).can_ask);
}
