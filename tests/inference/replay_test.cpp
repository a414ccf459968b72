// Sequences that once went wrong, or that pin something down, run again for ever. Add one: paste the steps that a
// failing property printed into a file of tests/replays and say in its first line what went wrong.
#include <filesystem>
#include <fstream>
#include <sstream>

#include <catch2/catch.hpp>

#include "inference/steps.h"
#include "oracle/tiny_catalogue.h"

using namespace loomkey;

namespace {

std::string text_of_file(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("every kept replay holds what the engine promises") {
  const auto knowledge = oracle::replay_catalogue();
  const inference::Settings settings;
  const inference::Model model(knowledge, settings);
  const oracle::Oracle judge(*knowledge, settings);
  int replays = 0;
  for (const auto& entry : std::filesystem::directory_iterator(REPLAYS_DIR)) {
    if (entry.path().extension() != ".txt") continue;
    CAPTURE(entry.path().filename().string());
    const auto steps = replay::parse(*knowledge, text_of_file(entry.path()));
    REQUIRE_FALSE(steps.empty());
    REQUIRE(replay::broken_promise(model, judge, steps) == "");
    ++replays;
  }
  REQUIRE(replays >= 1);
}

TEST_CASE("a replay line reads back as it was written") {
  const auto knowledge = oracle::replay_catalogue();
  for (const std::string line : {"read form s1 guess", "read length 35 45.5", "read ohm-low ol think-so by seller",
                                 "read letters only AL E", "read leads includes white/green guess by seller",
                                 "read volts cannot-tell", "read letters only", "forget form"}) {
    const auto steps = replay::parse(*knowledge, line);
    REQUIRE(steps.size() == 1);
    REQUIRE(replay::text_of(*knowledge, steps.front()) == line);
  }
}

TEST_CASE("a replay line that cannot be read is named") {
  const auto knowledge = oracle::replay_catalogue();
  for (const std::string line :
       {"read colour s1", "look form s1", "read form s9", "read length 35", "read letters AL"}) {
    REQUIRE_THROWS_WITH(replay::parse(*knowledge, line), Catch::Contains(line));
  }
}
