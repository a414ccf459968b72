#include "evidence/bike.h"

#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "evidence/shed_knowledge.h"

using namespace loomkey;
using namespace loomkey::evidence;

namespace {

const knowledge::Knowledge& shed() {
  static const knowledge::Knowledge knowledge = support::shed_knowledge();
  return knowledge;
}

// The value as it is written back; "-" if it is unknown.
std::string stored(const std::string& key, const std::string& value) {
  Bike bike;
  const auto set = set_bike_key(shed(), bike, key, value);
  if (!set) return "refused: " + set.error().message();
  const auto values = bike_values(shed(), bike);
  return values.empty() ? "-" : values.at(0).second;
}

using Pairs = std::vector<std::pair<std::string, std::string>>;

void check_all(const std::string& key, const Pairs& pairs) {
  for (const auto& [written, kept] : pairs) {
    INFO(key << " '" << written << "'");
    CHECK(stored(key, written) == kept);
  }
}
void check_refused(const std::string& key, const std::vector<std::string>& values) {
  for (const std::string& value : values) {
    INFO(key << " '" << value << "'");
    CHECK_THAT(stored(key, value), Catch::StartsWith("refused: " + key + ": "));
  }
}

}  // namespace

TEST_CASE("a decade is read from the year or from words") {
  check_all("decade", {{"1960s", "1960s"},
                       {"60s", "1960s"},
                       {"1960", "1960s"},
                       {"1967", "1960s"},
                       {"late sixties", "1960s"},
                       {"the late 60s", "1960s"},
                       {"'60s", "1960s"},
                       {"1960's", "1960s"},
                       {"early seventies", "1970s"},
                       {"mid 1950s", "1950s"},
                       {"about 1972", "1970s"},
                       {"1905", "1900s"},
                       {"2011", "2010s"},
                       {"unknown", "-"},
                       {"?", "-"},
                       {"cannot tell", "-"}});
  check_refused("decade", {"10s", "60", "1850", "3000", "sixty", "99999999999999", "-1960", "19x0", "65s"});
}

TEST_CASE("origin and market have a few names each") {
  check_all("origin", {{"British", "british"},
                       {"uk", "british"},
                       {"italian", "continental"},
                       {"Japanese", "japanese"},
                       {"usa", "american"},
                       {"soviet", "soviet"},
                       {"unknown", "-"}});
  check_all("market", {{"britain", "britain"},
                       {"UK", "britain"},
                       {"europe", "europe"},
                       {"american", "usa"},
                       {"Japan", "japan"},
                       {"elsewhere", "elsewhere"}});
  CHECK_THAT(stored("origin", "brittish"), Catch::Contains("Did you mean 'british'?"));
  CHECK_THAT(stored("origin", "martian"),
             Catch::Contains("Expected british, continental, japanese, american or soviet"));
  CHECK_THAT(stored("market", "moon"), Catch::Contains("Expected britain, europe, usa, japan or elsewhere"));
}

TEST_CASE("cylinders and volts are small whole numbers") {
  check_all("cylinders",
            {{"2", "2"}, {"twin", "2"}, {"single", "1"}, {"triple", "3"}, {"4 cylinders", "4"}, {"four", "4"}});
  check_refused("cylinders", {"0", "9", "-2", "2.5", "many"});
  check_all("volts", {{"6", "6"}, {"12", "12"}, {"6 V", "6"}, {"12v", "12"}, {"12 volts", "12"}, {"unknown", "-"}});
  check_refused("volts", {"24", "6.3", "0", "-6", "6 or 12"});
}

TEST_CASE("the earth is said in many ways, and two ways at once are refused") {
  for (const char* key : {"earth_as_built", "earth_found", "earth_measured"}) {
    check_all(key, {{"positive", "positive"},
                    {"pos", "positive"},
                    {"+", "positive"},
                    {"+ve", "positive"},
                    {"plus to frame", "positive"},
                    {"positive earth", "positive"},
                    {"positive-earth", "positive"},
                    {"ground positive", "positive"},
                    {"battery plus goes to the frame", "positive"},
                    {"negative", "negative"},
                    {"neg", "negative"},
                    {"-", "negative"},
                    {"\xE2\x88\x92", "negative"},
                    {"-ve", "negative"},
                    {"minus to frame", "negative"},
                    {"ground negative", "negative"},
                    {"negative (ground)", "negative"},
                    {"unknown", "-"},
                    {"don't know", "-"},
                    {"not measured", "-"}});
    check_refused(key, {"positive or negative", "live is positive", "earth", "red", "maybe positive", "+-"});
  }
}

TEST_CASE("symptoms are a list of known ones") {
  check_all("symptoms", {{"no-charge", "no-charge"},
                         {"No charge; bulbs blow", "no-charge, bulbs-blow"},
                         {"misfires hot, no-charge, no charge", "no-charge, misfires-hot"},
                         {"none", "-"},
                         {"", "-"}});
  CHECK_THAT(stored("symptoms", "no-chrage"),
             Catch::Contains("unknown symptom 'no-chrage'. Did you mean 'no-charge'?"));
  CHECK_THAT(stored("symptoms", "it smells"), Catch::Contains("Known symptoms: no-charge, bulbs-blow, misfires-hot"));
}

TEST_CASE("an unknown key meets the nearest and the list") {
  CHECK_THAT(stored("decad", "1960s"), Catch::Contains("unknown bike key 'decad'. Did you mean 'decade'?"));
  CHECK_THAT(stored("earth", "positive"), Catch::Contains("earth_as_built, earth_found, earth_measured"));
  CHECK_THAT(stored("decade", std::string(100000, '1')), Catch::Contains("far too long"));
  CHECK(stored("Earth-Found", "+") == "positive");
}

TEST_CASE("a refused value leaves the bike alone, and 'unknown' takes a value back") {
  Bike bike;
  REQUIRE(set_bike_key(shed(), bike, "volts", "6"));
  CHECK_FALSE(set_bike_key(shed(), bike, "volts", "24"));
  CHECK(bike.volts == 6);
  REQUIRE(set_bike_key(shed(), bike, "volts", "unknown"));
  CHECK_FALSE(bike.volts);
}

TEST_CASE("every key is described, and what is written reads back") {
  CHECK(bike_keys().size() == 9);
  for (const BikeKey& key : bike_keys()) {
    CHECK_FALSE(key.meaning.empty());
    CHECK_FALSE(key.allowed.empty());
  }
  Bike bike;
  for (const auto& [key, value] : Pairs{{"decade", "1967"},
                                        {"origin", "uk"},
                                        {"market", "us"},
                                        {"cylinders", "twin"},
                                        {"volts", "6v"},
                                        {"earth_as_built", "+"},
                                        {"earth_found", "-"},
                                        {"earth_measured", "pos"},
                                        {"symptoms", "bulbs blow"}}) {
    REQUIRE(set_bike_key(shed(), bike, key, value));
  }
  Bike again;
  for (const auto& [key, value] : bike_values(shed(), bike)) REQUIRE(set_bike_key(shed(), again, key, value));
  CHECK(bike_values(shed(), again) == bike_values(shed(), bike));
  CHECK(bike_values(shed(), bike).size() == 9);
  CHECK(again.settled_earth() == Earth::positive);
}
