#include "bench/separability.h"

#include <cmath>
#include <set>

#include <catch2/catch.hpp>

#include "bench/compare.h"
#include "bench/trait_divergence.h"
#include "bench/trial_knowledge.h"
#include "bench/trial_separable.h"
#include "catalogue/sources.h"
#include "support/real_data.h"

using namespace loomkey;
using bench::Equipment;
using bench::PairSeparation;
using bench::Separability;
using inference::Model;
using knowledge::Knowledge;

namespace {

const Model& shipped() {
  static const Model model(std::make_shared<const Knowledge>(catalogue::read_sources(support::real_data()).knowledge));
  return model;
}

// Everything is listed.
const bench::SeparabilityOptions no_limit = {.best_below = 1e9, .together_below = 1e9};

const PairSeparation& pair_of(const Separability& found, int a, int b) {
  for (const PairSeparation& pair : found.pairs) {
    if (pair.part_a == a && pair.part_b == b) return pair;
  }
  throw std::runtime_error("no such pair");
}

// Two parts that differ in the one look there is.
std::shared_ptr<Knowledge> two_parts() {
  const auto out = support::clean_knowledge();
  out->traits.resize(1);
  out->parts.resize(2);
  for (auto& part : out->parts) {
    part.claims.resize(1);
    part.brought_in = 1.0;
    for (auto& condition : part.conditions) condition.claims.clear();
  }
  return out;
}

}  // namespace

TEST_CASE("the decibans of one trait are those of the formula", "[separability]") {
  const Model model(two_parts());
  // By hand: the claims show two of eight states, seen rightly 99 times in 100; a sure observer lapses, and a claim
  // keeps a residual; both leave it to the background of 60 % claims and 40 % anything.
  const auto& settings = model.settings();
  const double right = 0.99;
  const double wrong = 0.01 / 7.0;
  const double kept = (1.0 - settings.lapse_sure) * (1.0 - settings.residual);
  const double share = settings.uniform_share;
  const double background_shown = (1.0 - share) * (right + wrong) / 2.0 + share / 8.0;
  const double own = kept * right + (1.0 - kept) * background_shown;
  const double other = kept * wrong + (1.0 - kept) * background_shown;
  // All other states are equally likely under both parts.
  const double by_hand = (own - other) * 10.0 * std::log10(own / other);
  const bench::TraitDivergence divergence(model, 0);
  CHECK(divergence.decibans(0, 1) == Approx(by_hand));
  CHECK(divergence.decibans(1, 0) == Approx(by_hand));
  CHECK(divergence.decibans(0, 0) == 0.0);
  const Separability found = bench::separability(model, no_limit);
  REQUIRE(found.pairs.size() == 1);
  for (const double sum : found.pairs[0].decibans) CHECK(sum == Approx(by_hand));
  CHECK(found.pairs[0].best_decibans == Approx(by_hand));
}

TEST_CASE("the best trait counts as compare counts it", "[separability]") {
  const Separability found = bench::separability(shipped(), {.best_below = 8.0, .together_below = 40.0});
  REQUIRE(found.pairs.size() > 20);
  for (const PairSeparation& pair : found.pairs) {
    for (const auto& separation : bench::compare(shipped(), {pair.part_a, pair.part_b})) {
      const auto& trait = shipped().knowledge().traits[static_cast<std::size_t>(separation.trait)];
      INFO(shipped().knowledge().parts[static_cast<std::size_t>(pair.part_a)].id << ", " << trait.id);
      // `compare` lists only the likeliest sets, so it may find a little more or less there.
      const bool listed = trait.kind != knowledge::TraitKind::set;
      if (separation.trait == pair.best_trait) {
        CHECK(separation.decibans == Approx(pair.best_decibans).epsilon(listed ? 1e-6 : 0.2));
      } else if (listed) {
        CHECK(separation.decibans <= pair.best_decibans * (1.0 + 1e-9));
      }
    }
  }
}

TEST_CASE("the sum of looks, ruler and magnet is the trial's", "[separability]") {
  // In this catalogue they are all traits but those of the meter.
  const auto model = support::clean_model();
  const Separability found = bench::separability(model, no_limit);
  double hardest = 1e300;
  for (const auto& apart : bench::looks_apart(model)) {
    hardest = std::min(hardest, apart.decibans);
    double least = 1e300;
    for (const PairSeparation& pair : found.pairs) {
      if (pair.part_a != apart.part && pair.part_b != apart.part) continue;
      least = std::min(least, pair.with(Equipment::simple_tools));
    }
    CHECK(least <= apart.decibans * (1.0 + 1e-9));
  }
  double least_of_all = 1e300;
  for (const PairSeparation& pair : found.pairs) {
    least_of_all = std::min(least_of_all, pair.with(Equipment::simple_tools));
  }
  CHECK(least_of_all == Approx(hardest));
}

TEST_CASE("every stage adds to the one before", "[separability]") {
  const Separability found = bench::separability(shipped(), no_limit);
  CHECK(found.pairs.size() == found.compared);
  CHECK(found.compared > 50000);
  for (const PairSeparation& pair : found.pairs) {
    if (pair.with(Equipment::nothing) > pair.with(Equipment::simple_tools) + 1e-9 ||
        pair.with(Equipment::simple_tools) > pair.with(Equipment::meter) + 1e-9 || pair.decibans[0] < 0.0) {
      FAIL("a tool took something away");
    }
  }
}

TEST_CASE("only pairs below both limits are listed, hardest first", "[separability]") {
  const Separability all = bench::separability(shipped(), no_limit);
  const Separability found = bench::separability(shipped(), {.best_below = 6.0, .together_below = 30.0});
  std::size_t expected = 0;
  for (const PairSeparation& pair : all.pairs) {
    if (pair.best_decibans < 6.0 && pair.with(Equipment::meter) < 30.0) ++expected;
  }
  CHECK(expected > 10);
  CHECK(found.pairs.size() == expected);
  for (std::size_t i = 1; i < found.pairs.size(); ++i) {
    CHECK(found.pairs[i - 1].with(Equipment::meter) <= found.pairs[i].with(Equipment::meter));
  }
}

TEST_CASE("parts that are described alike come first, unless they share their advice", "[separability]") {
  const auto knowledge = support::clean_knowledge();
  knowledge->parts[5].claims = knowledge->parts[2].claims;
  knowledge->parts[5].conditions = knowledge->parts[2].conditions;
  const Separability found = bench::separability(Model(knowledge));
  REQUIRE(found.pairs.size() == 1);
  CHECK(found.pairs[0].part_a == 2);
  CHECK(found.pairs[0].part_b == 5);
  CHECK(found.pairs[0].with(Equipment::meter) == Approx(0.0).margin(1e-9));
  CHECK(found.pairs[0].best_decibans == Approx(0.0).margin(1e-9));
  knowledge->parts[5].advice = 2;
  const Separability shared = bench::separability(Model(knowledge));
  CHECK(shared.pairs.empty());
  CHECK(shared.compared == found.compared - 1);
}

TEST_CASE("what separates two parts counts from the tool on that it needs", "[separability]") {
  const auto knowledge = support::clean_knowledge();
  CHECK(bench::equipment_for(*knowledge, 0) == Equipment::nothing);
  CHECK(bench::equipment_for(*knowledge, knowledge->trait("size")) == Equipment::simple_tools);
  CHECK(bench::equipment_for(*knowledge, knowledge->trait("ohms")) == Equipment::meter);
  // Two parts that only the meter tells apart.
  auto& twin = knowledge->parts[5];
  const auto ohms = twin.claims.back();
  twin.claims = knowledge->parts[2].claims;
  twin.claims.back() = ohms;
  const Separability found = bench::separability(Model(knowledge), no_limit);
  const PairSeparation& pair = pair_of(found, 2, 5);
  CHECK(pair.with(Equipment::simple_tools) == Approx(0.0).margin(1e-9));
  CHECK(pair.with(Equipment::meter) > 1.0);
  CHECK(pair.best_trait == knowledge->trait("ohms"));
}

TEST_CASE("a cell of two families holds its hardest pair", "[separability]") {
  const Separability found = bench::separability(shipped(), no_limit);
  const Knowledge& k = shipped().knowledge();
  std::set<std::size_t> places;
  for (int a = 0; a < static_cast<int>(k.families.size()); ++a) {
    for (int b = 0; b <= a; ++b) places.insert(bench::family_pair(a, b));
  }
  CHECK(places.size() == found.families.size());
  CHECK(bench::family_pair(3, 7) == bench::family_pair(7, 3));
  const auto family = [&](int part) { return k.parts[static_cast<std::size_t>(part)].family; };
  std::vector<double> least(found.families.size(), 1e300);
  for (const PairSeparation& pair : found.pairs) {
    double& cell = least[bench::family_pair(family(pair.part_a), family(pair.part_b))];
    cell = std::min(cell, pair.with(Equipment::meter));
  }
  for (std::size_t i = 0; i < least.size(); ++i) {
    if (found.families[i].part_a >= 0 && found.families[i].with(Equipment::meter) != least[i]) FAIL("not the least");
    if (found.families[i].part_a < 0 && least[i] < 1e300) FAIL("a pair was lost");
  }
}

TEST_CASE("a catalogue without parts has no pairs", "[separability]") {
  const auto knowledge = support::clean_knowledge();
  knowledge->parts.clear();
  CHECK(bench::separability(Model(knowledge)).compared == 0);
}

TEST_CASE("progress is told once a trait", "[separability]") {
  int calls = 0;
  bench::SeparabilityOptions options;
  options.progress = [&](int done, int total) {
    CHECK(done == ++calls);
    CHECK(total == 12);
  };
  bench::separability(support::clean_model(), options);
  CHECK(calls == 12);
}
