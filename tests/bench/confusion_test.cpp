#include <algorithm>
#include <memory>

#include <catch2/catch.hpp>

#include "bench/compare.h"
#include "catalogue/sources.h"
#include "inference/belief.h"
#include "inference/question.h"
#include "support/real_data.h"

using namespace loomkey;
using inference::Model;
using knowledge::ConfusionSet;
using knowledge::Knowledge;

// The shipped confusion sets promise that their traits separate their members; here the engine is asked.

namespace {

constexpr double least_decibans = 5.0;  // odds of a good three to one from one answer
constexpr double as_good_as = 0.95;     // of the best question's gain per effort

std::shared_ptr<const Knowledge> shipped() {
  static const auto knowledge =
      std::make_shared<const Knowledge>(catalogue::read_sources(support::real_data()).knowledge);
  return knowledge;
}

// The same knowledge with only the members left, each as frequent as any other.
std::shared_ptr<const Knowledge> only_members(const ConfusionSet& set) {
  auto out = std::make_shared<Knowledge>(*shipped());
  out->parts.clear();
  out->confusions.clear();
  for (const int p : set.parts) {
    out->parts.push_back(shipped()->parts[static_cast<std::size_t>(p)]);
    out->parts.back().brought_in = 1.0;
    out->parts.back().look_alikes.clear();
    out->parts.back().works_with.clear();
  }
  return out;
}

const std::string& part_id(int part) { return shipped()->parts[static_cast<std::size_t>(part)].id; }
const std::string& trait_id(int trait) { return shipped()->traits[static_cast<std::size_t>(trait)].id; }

bool same_advice(int a, int b) {
  return shipped()->parts[static_cast<std::size_t>(a)].advice == shipped()->parts[static_cast<std::size_t>(b)].advice;
}

bool lists(const ConfusionSet& set, int trait) {
  return std::find(set.traits.begin(), set.traits.end(), trait) != set.traits.end();
}

}  // namespace

TEST_CASE("the shipped data hold confusion sets", "[confusion]") { CHECK(shipped()->confusions.size() >= 22); }

TEST_CASE("when only the members of a set are left, the engine asks for one of its traits", "[confusion]") {
  for (const ConfusionSet& set : shipped()->confusions) {
    const Model model(only_members(set));
    const auto questions = inference::separating_questions(model, {}, inference::believe(model, {}));
    REQUIRE_FALSE(questions.empty());
    double listed = 0.0;
    for (const auto& question : questions) {
      if (lists(set, question.trait)) listed = std::max(listed, question.score);
    }
    INFO(set.id << ": the engine would ask for " << trait_id(questions.front().trait));
    CHECK(listed >= as_good_as * questions.front().score);
  }
}

TEST_CASE("a listed trait separates every two members, unless no trait separates them and they are twins",
          "[confusion]") {
  const Model model(shipped());
  for (const ConfusionSet& set : shipped()->confusions) {
    for (std::size_t i = 0; i < set.parts.size(); ++i) {
      for (std::size_t j = i + 1; j < set.parts.size(); ++j) {
        const int a = set.parts[i];
        const int b = set.parts[j];
        double listed = 0.0;
        double any = 0.0;
        for (const auto& separation : bench::compare(model, {a, b})) {
          any = std::max(any, separation.decibans);
          if (lists(set, separation.trait)) listed = std::max(listed, separation.decibans);
        }
        INFO(set.id << ": " << part_id(a) << " and " << part_id(b));
        if (set.are_twins(a, b)) {
          CHECK((any < least_decibans || same_advice(a, b)));
        } else {
          CHECK(listed >= least_decibans);
        }
      }
    }
  }
}
