#pragma once

#include <memory>
#include <string>
#include <utility>

#include "inference/model.h"
#include "knowledge/knowledge.h"

// A catalogue made by hand for the trial's tests: every part looks different from every other in every trait.

namespace loomkey::support {

inline constexpr int trial_parts = 8;

inline knowledge::Claim choice_claim(int trait, int states, int shown) {
  knowledge::Claim claim;
  claim.trait = trait;
  claim.states.assign(static_cast<std::size_t>(states), 0.0);
  claim.states[static_cast<std::size_t>(shown)] = 1.0;
  return claim;
}

inline knowledge::Trait choice_trait(std::string id, int states, double right) {
  knowledge::Trait trait;
  trait.id = std::move(id);
  trait.kind = knowledge::TraitKind::choice;
  for (int s = 0; s < states; ++s) {
    trait.states.push_back({std::to_string(s), std::to_string(s)});
    trait.seen.emplace_back(static_cast<std::size_t>(states), (1.0 - right) / (states - 1));
    trait.seen.back()[static_cast<std::size_t>(s)] = right;
  }
  return trait;
}

// Traits 0 .. 8: choices by eye; 9: size in mm by ruler; 10: letters; 11: a choice by meter, which a fault changes.
inline std::shared_ptr<knowledge::Knowledge> clean_knowledge() {
  using namespace knowledge;
  auto out = std::make_shared<Knowledge>();
  out->tools = {{"ruler", "ruler", 0.5}, {"meter", "meter", 3.0}};
  out->efforts = {{"look", "look", 1.0, -1}, {"ruler", "ruler", 1.5, 0}, {"meter", "meter", 3.0, 1}};
  constexpr int looks = 9;
  for (int t = 0; t < looks; ++t) out->traits.push_back(choice_trait("look-" + std::to_string(t), trial_parts, 0.99));
  Trait size;
  size.id = "size";
  size.kind = TraitKind::number;
  size.effort = 1;
  size.unit = "mm";
  size.low = 5.0;
  size.high = 1000.0;
  size.soft = 0.05;
  size.relative_error = 0.03;
  out->traits.push_back(size);
  Trait letters;
  letters.id = "letters";
  letters.kind = TraitKind::set;
  out->traits.push_back(letters);
  Trait ohms = choice_trait("ohms", 3, 0.98);
  ohms.layer = Layer::meter;
  ohms.effort = 2;
  out->traits.push_back(ohms);
  for (int p = 0; p < trial_parts; ++p) {
    Advice advice;
    advice.id = "advice-" + std::to_string(p);
    out->advice.push_back(advice);
    Part part;
    part.id = "part-" + std::to_string(p);
    part.advice = p;
    part.brought_in = 1.0 + p;
    for (int t = 0; t < looks; ++t)
      part.claims.push_back(choice_claim(t, trial_parts, (p * (t % 2 == 0 ? 1 : 3) + t) % 8));
    Claim length;
    length.trait = looks;
    length.ranges = {{10.0 * (p + 1), 10.0 * (p + 1) + 4.0, 1.0}};
    part.claims.push_back(length);
    Claim marks;
    marks.trait = looks + 1;
    marks.sets = {{{std::string(1, static_cast<char>('F' + p))}, 1.0}};
    part.claims.push_back(marks);
    part.claims.push_back(choice_claim(looks + 2, 3, p % 2));
    Condition good{Condition::Kind::good, "good", "good", "", 0.6, {}, {}};
    Condition fault{Condition::Kind::fault, "open", "open", "", 0.3, {}, {choice_claim(looks + 2, 3, 2)}};
    Condition damaged{Condition::Kind::damaged, "damaged", "otherwise damaged", "", 0.1, {}, {}};
    part.conditions = {good, fault, damaged};
    out->parts.push_back(part);
  }
  return out;
}

inline inference::Model clean_model() { return inference::Model(clean_knowledge()); }

}  // namespace loomkey::support
