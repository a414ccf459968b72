#include "support/synthetic_knowledge.h"

#include <algorithm>
#include <random>
#include <string>

namespace loomkey::support {

using knowledge::Claim;
using knowledge::Condition;
using knowledge::Knowledge;
using knowledge::Layer;
using knowledge::Part;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr int choices = 40;
constexpr int numbers = 12;
constexpr int clusters = 16;
constexpr double stray_claim = 0.25;  // a part departs from its cluster
constexpr double unstated_claim = 0.05;

Trait choice_trait(int index, std::mt19937_64& random) {
  Trait trait;
  trait.id = "choice_" + std::to_string(index);
  trait.name = trait.id;
  trait.ask = "Which state?";
  const std::size_t states = 2 + random() % 11;
  for (std::size_t s = 0; s < states; ++s)
    trait.states.push_back({"s" + std::to_string(s), "state " + std::to_string(s)});
  const double slip = 0.06 / static_cast<double>(states - 1);
  trait.seen.assign(states, std::vector<double>(states, slip));
  for (std::size_t s = 0; s < states; ++s) trait.seen[s][s] = 0.94;
  return trait;
}

Trait number_trait(int index) {
  Trait trait;
  trait.id = "number_" + std::to_string(index);
  trait.name = trait.id;
  trait.ask = "What size?";
  trait.kind = TraitKind::number;
  trait.layer = index % 2 == 0 ? Layer::look : Layer::meter;
  trait.unit = "mm";
  trait.low = 1.0;
  trait.high = 1000.0;
  trait.soft = 0.1;
  trait.relative_error = 0.04;
  trait.absolute_error = 0.5;
  trait.allows[0] = trait.allows[3] = true;
  return trait;
}

Claim claim_on(const Trait& trait, int index, std::uint64_t pattern) {
  std::mt19937_64 random(pattern);
  Claim claim;
  claim.trait = index;
  if (trait.kind == TraitKind::choice) {
    claim.states.assign(trait.states.size(), 0.0);
    claim.states[random() % claim.states.size()] += 0.8;
    claim.states[random() % claim.states.size()] += 0.2;
  } else {
    const double low = 1.0 + static_cast<double>(random() % 500);
    claim.ranges.push_back({low, low * 1.4, 1.0});
  }
  return claim;
}

}  // namespace

std::shared_ptr<const Knowledge> synthetic_knowledge(std::size_t parts, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  auto knowledge = std::make_shared<Knowledge>();
  knowledge->efforts.push_back({"look", "look", 1.0, -1});
  for (int i = 0; i < choices; ++i) knowledge->traits.push_back(choice_trait(i, random));
  for (int i = 0; i < numbers; ++i) knowledge->traits.push_back(number_trait(i));
  knowledge->bases.push_back({"invented", knowledge::Basis::Kind::memory, "invented for measuring"});
  knowledge->families.push_back({"family", "family", "nothing", {}});
  for (std::size_t p = 0; p < parts; ++p) {
    if (p % 4 == 0) {
      knowledge::Advice advice;
      advice.id = "advice-" + std::to_string(1000000 + p / 4);
      advice.title = advice.id;
      advice.function = advice.needed = "nothing";
      advice.basis = 0;
      knowledge->advice.push_back(advice);
    }
    Part part;
    part.id = "part-" + std::to_string(1000000 + p);
    part.name = part.id;
    part.family = 0;
    part.advice = static_cast<int>(p / 4);
    part.basis = 0;
    part.first_year = 1950;
    part.last_year = 1980;
    part.brought_in = 0.1 + static_cast<double>(random() % 10) / 10.0;
    part.conditions = {{Condition::Kind::good, "good", "good", "", 0.7, {}, {}},
                       {Condition::Kind::damaged, "damaged", "otherwise damaged", "", 0.3, {}, {}}};
    const std::uint64_t cluster = random() % clusters;
    for (std::size_t t = 0; t < knowledge->traits.size(); ++t) {
      const double dice = static_cast<double>(random() % 1000) / 1000.0;
      if (dice < unstated_claim) continue;
      const std::uint64_t own = dice < unstated_claim + stray_claim ? random() % 1000 : 0;
      part.claims.push_back(
          claim_on(knowledge->traits[t], static_cast<int>(t), seed + cluster * 1000 + t * 100000 + own));
    }
    knowledge->parts.push_back(std::move(part));
  }
  return knowledge;
}

}  // namespace loomkey::support
