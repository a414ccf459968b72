#include "bench/typical_verdicts.h"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "bench/in_parallel.h"

namespace loomkey::bench {

using evidence::Reading;
using evidence::Value;
using knowledge::Claim;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr int good = 0;  // conditions: good comes first

Value typical_number(const Trait& trait, const Claim& claim) {
  Value value;
  const auto range = std::max_element(claim.ranges.begin(), claim.ranges.end(),
                                      [](const auto& a, const auto& b) { return a.share < b.share; });
  const auto special = std::max_element(claim.special.begin(), claim.special.end());
  if (range == claim.ranges.end() || *special > range->share) {
    value.kind = Value::Kind::special;
    value.special = static_cast<knowledge::Special>(special - claim.special.begin());
    return value;
  }
  const double middle = trait.log_scale ? std::sqrt(range->low * range->high) : (range->low + range->high) / 2.0;
  value.kind = Value::Kind::interval;
  value.interval = {middle, middle};
  return value;
}

Value typical_value(const Trait& trait, const Claim& claim) {
  Value value;
  switch (trait.kind) {
    case TraitKind::choice:
      value.kind = Value::Kind::state;
      value.state = static_cast<int>(std::max_element(claim.states.begin(), claim.states.end()) - claim.states.begin());
      return value;
    case TraitKind::number:
      return typical_number(trait, claim);
    case TraitKind::set:
      break;
  }
  value.kind = Value::Kind::set;
  value.items = std::max_element(claim.sets.begin(), claim.sets.end(), [](const auto& a, const auto& b) {
                  return a.share < b.share;
                })->items;
  return value;
}

class TypicalPerson : public Person {
 public:
  TypicalPerson(const knowledge::Knowledge& knowledge, int part) : knowledge_(&knowledge), object_{part, good} {}

  [[nodiscard]] const TrialObject& object() const override { return object_; }
  [[nodiscard]] Value truth(int trait) const override { return answer(trait).value; }
  [[nodiscard]] Reading answer(int trait) const override { return typical_answer(*knowledge_, object_.part, trait); }

 private:
  const knowledge::Knowledge* knowledge_;
  TrialObject object_;
};

}  // namespace

Reading typical_answer(const knowledge::Knowledge& knowledge, int part, int trait) {
  Reading reading;
  reading.trait = trait;
  const Claim* claim = knowledge.claim(part, good, trait);
  if (claim == nullptr) {
    reading.value.kind = Value::Kind::cannot_tell;
  } else {
    reading.value = typical_value(knowledge.traits[static_cast<std::size_t>(trait)], *claim);
  }
  return reading;
}

std::vector<Outcome> typical_verdicts(const inference::Model& model, const VerdictOptions& options) {
  const knowledge::Knowledge& knowledge = model.knowledge();
  std::vector<Outcome> out(knowledge.parts.size());
  std::mutex mutex;
  int done = 0;
  in_parallel(out.size(), options.threads, [&](std::size_t p) {
    const TypicalPerson person(knowledge, static_cast<int>(p));
    out[p] = examine(model, person, ObserverType{}, options.most_questions);
    out[p].true_class = knowledge.parts[p].advice;
    if (!options.progress) return;
    const std::lock_guard<std::mutex> lock(mutex);
    options.progress(++done, static_cast<int>(out.size()));
  });
  return out;
}

}  // namespace loomkey::bench
