#include <catch2/catch.hpp>

#include "knowledge/knowledge.h"

using namespace loomkey::knowledge;

namespace {

Claim claim_on(int trait, double share) {
  Claim claim;
  claim.trait = trait;
  claim.states = {share, 1.0 - share};
  return claim;
}

// Trait 0 is a look with a default, trait 1 a meter reading without one. The part has the conditions good, faulty and
// otherwise damaged.
Knowledge layered() {
  Knowledge knowledge;
  knowledge.traits.resize(2);
  knowledge.traits[0].id = "look";
  knowledge.traits[0].unless_stated = claim_on(0, 0.1);
  knowledge.traits[1].id = "meter";
  knowledge.traits[1].layer = Layer::meter;
  knowledge.families.resize(1);
  knowledge.parts.resize(1);
  knowledge.parts[0].family = 0;
  knowledge.parts[0].conditions.resize(3);
  knowledge.parts[0].conditions[0].kind = Condition::Kind::good;
  knowledge.parts[0].conditions[1].kind = Condition::Kind::fault;
  knowledge.parts[0].conditions[2].kind = Condition::Kind::damaged;
  return knowledge;
}

}  // namespace

TEST_CASE("the nearest claim wins: condition, part, family, then the trait's default") {
  Knowledge knowledge = layered();
  CHECK(knowledge.claim(0, 0, 0)->states[0] == 0.1);
  knowledge.families[0].claims = {claim_on(0, 0.2)};
  CHECK(knowledge.claim(0, 0, 0)->states[0] == 0.2);
  knowledge.parts[0].claims = {claim_on(0, 0.3)};
  CHECK(knowledge.claim(0, 0, 0)->states[0] == 0.3);
  knowledge.parts[0].conditions[1].claims = {claim_on(0, 0.4)};
  CHECK(knowledge.claim(0, 1, 0)->states[0] == 0.4);
  CHECK(knowledge.claim(0, 0, 0)->states[0] == 0.3);
}

TEST_CASE("what nobody stated is no claim") {
  const Knowledge knowledge = layered();
  CHECK(knowledge.claim(0, 0, 1) == nullptr);
}

TEST_CASE("a part damaged otherwise claims nothing about the meter, and still looks like itself") {
  Knowledge knowledge = layered();
  knowledge.parts[0].claims = {claim_on(0, 0.3), claim_on(1, 0.5)};
  CHECK(knowledge.claim(0, 0, 1)->states[0] == 0.5);
  CHECK(knowledge.claim(0, 2, 1) == nullptr);
  CHECK(knowledge.claim(0, 2, 0)->states[0] == 0.3);
}

TEST_CASE("an unknown id has no index") {
  const Knowledge knowledge = layered();
  CHECK(knowledge.trait("meter") == 1);
  CHECK(knowledge.trait("metre") == -1);
  CHECK(knowledge.part("meter") == -1);
}
