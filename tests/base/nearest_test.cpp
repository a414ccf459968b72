#include "base/nearest.h"

#include <catch2/catch.hpp>

using namespace loomkey;

// Distances that textbooks and encyclopedias print for this measure (the last one tells the restricted distance, 3,
// from the unrestricted, 2).
TEST_CASE("edit distance agrees with published examples") {
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("Saturday", "Sunday") == 3);
  CHECK(edit_distance("flaw", "lawn") == 2);
  CHECK(edit_distance("CA", "ABC") == 3);
}

TEST_CASE("edit distance is a distance") {
  const std::vector<std::string> words = {"", "stator", "status", "rotor", "Rotor", "tsator"};
  for (const auto& a : words) {
    CHECK(edit_distance(a, a) == 0);
    for (const auto& b : words) CHECK(edit_distance(a, b) == edit_distance(b, a));
  }
  CHECK(edit_distance("stator", "tsator") == 1);
  CHECK(edit_distance("Rotor", "rotor") == 0);
  CHECK(edit_distance("", "rotor") == 5);
}

TEST_CASE("the nearest name is a slip of the finger away, or none is named") {
  const std::vector<std::string> known = {"ballast", "rectifier", "regulator", "E"};
  CHECK(nearest("regulater", known) == "regulator");
  CHECK(nearest("RECTIFER", known) == "rectifier");
  CHECK_FALSE(nearest("sidecar", known));
  CHECK_FALSE(nearest("X", known));
  CHECK_FALSE(nearest("", known));
  CHECK_FALSE(nearest(std::string(100000, 'r'), known));
  CHECK(did_you_mean("balast", known) == " Did you mean 'ballast'?");
  CHECK(did_you_mean("sidecar", known).empty());
}
