#include "bench/trial_observer.h"

#include <array>
#include <vector>

namespace loomkey::bench {

using evidence::Reading;
using evidence::Value;

namespace {

// Half of all people short the probes first; the others' leads and clips add this much. From memory: common practice,
// no source.
constexpr double leads_not_zeroed = 0.5;
constexpr double lead_ohms_low = 0.1;
constexpr double lead_ohms_high = 0.5;

// How people call their answers (sure, think so, guess) when they are right, and when they are wrong: a mistake is
// mostly made in doubt. At 10 % wrong answers this makes 4 % of the sure ones, 27 % of the "think so" and half of the
// guesses wrong; what the engine assumes (Settings::lapse_...) was chosen near it. From memory: common practice, no
// source.
constexpr std::array<double, 3> called_when_right = {0.85, 0.12, 0.03};
constexpr std::array<double, 3> called_when_wrong = {0.35, 0.40, 0.25};

// What a seed is for.
enum Purpose : std::uint64_t { draw_part, leads, mistakes, truths, sights, groups, slips, misses, doubt };

std::uint64_t seed_of(std::uint64_t seed, Purpose purpose, int index) {
  return seed_for(seed_for(seed, purpose), static_cast<std::uint64_t>(index));
}

}  // namespace

TrialObject draw_object(const knowledge::Knowledge& knowledge, std::uint64_t seed, int number, bool by_turns,
                        int advice_class) {
  Chance chance(seed_for(seed, draw_part));
  std::vector<int> parts;
  std::vector<double> weight;
  for (std::size_t p = 0; p < knowledge.parts.size(); ++p) {
    if (advice_class >= 0 && knowledge.parts[p].advice != advice_class) continue;
    parts.push_back(static_cast<int>(p));
    weight.push_back(knowledge.parts[p].brought_in);
  }
  const std::size_t drawn = chance.pick(weight);
  TrialObject object;
  object.part = parts[by_turns ? static_cast<std::size_t>(number) % parts.size() : drawn];
  std::vector<double> share;
  for (const auto& condition : knowledge.parts[static_cast<std::size_t>(object.part)].conditions) {
    share.push_back(condition.share);
  }
  object.condition = static_cast<int>(chance.pick(share));
  return object;
}

Observer::Observer(const inference::Model& model, const TraitSampler& sampler, const ObserverType& type,
                   TrialObject object, std::uint64_t seed)
    : model_(&model), sampler_(&sampler), type_(type), object_(object), seed_(seed) {
  Chance chance(seed_for(seed, leads));
  if (chance.happens(leads_not_zeroed)) lead_ohms_ = chance.uniform(lead_ohms_low, lead_ohms_high);
}

const knowledge::Claim* Observer::claim(int trait) const {
  const knowledge::Claim* stated = model_->knowledge().claim(object_.part, object_.condition, trait);
  if (stated == nullptr || !type_.altered) return stated;
  const int group = model_->knowledge().traits[static_cast<std::size_t>(trait)].group;
  if (group >= 0) {
    const double switched = model_->knowledge().groups[static_cast<std::size_t>(group)].switched;
    if (Chance(seed_of(seed_, groups, group)).happens(switched)) return nullptr;
  }
  return Chance(seed_of(seed_, misses, trait)).happens(model_->residual(*stated)) ? nullptr : stated;
}

Value Observer::truth(int trait) const {
  Chance chance(seed_of(seed_, truths, trait));
  return sampler_->truth(trait, claim(trait), chance);
}

Reading Observer::answer(int trait) const {
  Reading reading;
  reading.trait = trait;
  Chance mistake(seed_of(seed_, mistakes, trait));
  const bool silent = mistake.happens(type_.cannot_tell);
  const bool wrong = mistake.happens(type_.wrong);
  if (silent) {
    reading.value.kind = Value::Kind::cannot_tell;
    return reading;
  }
  if (type_.doubts) {
    const auto& called = wrong ? called_when_wrong : called_when_right;
    const std::size_t how = Chance(seed_of(seed_, doubt, trait)).pick({called.begin(), called.end()});
    reading.certainty = static_cast<evidence::Certainty>(how);
  }
  if (wrong) {
    Chance chance(seed_of(seed_, slips, trait));
    reading.value = sampler_->wrong(trait, truth(trait), type_.wrong_answers, chance);
    return reading;
  }
  Chance chance(seed_of(seed_, sights, trait));
  reading.value = sampler_->seen(trait, truth(trait), lead_ohms_, chance);
  return reading;
}

}  // namespace loomkey::bench
