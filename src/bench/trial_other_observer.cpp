#include "bench/trial_other_observer.h"

#include <algorithm>

namespace loomkey::bench {

using evidence::Reading;
using evidence::Value;
using habits::Purpose;

namespace {

constexpr int sample_objects = 2000;
constexpr std::uint64_t sample_seed = 20;
constexpr int attempts = 30;
constexpr double misread_figure = 10.0;  // a decimal point or a range mistaken
constexpr int halvings = 30;
constexpr int target_halvings = 12;
constexpr double highest_slip_chance = 1000.0;  // everybody slips, however careful

// One object of the sample at one trait.
struct Draw {
  double slips_from = 0.0;
  bool answers = true;  // says something without a slip
  bool wrong = false;
  bool wrong_in_a_slip = false;
};

struct Count {
  int given = 0;
  int wrong = 0;

  [[nodiscard]] double share() const { return given > 0 ? static_cast<double>(wrong) / given : 0.0; }
};

Count count(const std::vector<Draw>& draws, double slip_chance) {
  Count out;
  for (const Draw& draw : draws) {
    const bool slips = draw.slips_from < slip_chance;
    if (!slips && !draw.answers) continue;
    ++out.given;
    if (slips ? draw.wrong_in_a_slip : draw.wrong) ++out.wrong;
  }
  return out;
}

// Wrong where no other part shows anything else: one state further, a decimal point lost, nothing seen.
Value plainly_wrong(const knowledge::Trait& trait, Value truth) {
  if (trait.kind == knowledge::TraitKind::choice) {
    truth.state = (truth.state + 1) % static_cast<int>(trait.states.size());
  } else if (trait.kind == knowledge::TraitKind::set) {
    truth.items.clear();
  } else if (truth.kind == Value::Kind::interval) {
    truth.interval = {truth.interval.low * misread_figure, truth.interval.high * misread_figure};
  }
  return truth;
}

// The share need not grow everywhere: a slip may put right what a habit got wrong. It does so too seldom to matter.
double chance_for(const std::vector<Draw>& draws, double wanted) {
  if (count(draws, 0.0).share() >= wanted) return 0.0;
  double low = 0.0;
  double high = 1.0;
  while (high < highest_slip_chance && count(draws, high).share() < wanted) high *= 2.0;
  for (int i = 0; i < halvings; ++i) {
    const double middle = (low + high) / 2.0;
    (count(draws, middle).share() < wanted ? low : high) = middle;
  }
  return high;
}

// Slip chances by trait, so that all traits together reach the wanted share. Where habits alone make more mistakes than
// that, the other traits get fewer.
std::vector<double> chances_for(const std::vector<std::vector<Draw>>& draws, double wanted) {
  std::vector<double> chances(draws.size(), 0.0);
  double low = 0.0;
  double high = wanted;
  for (int i = 0; i < target_halvings; ++i) {
    const double target = i == 0 ? wanted : (low + high) / 2.0;
    Count all;
    for (std::size_t t = 0; t < draws.size(); ++t) {
      chances[t] = chance_for(draws[t], target);
      const Count one = count(draws[t], chances[t]);
      all.given += one.given;
      all.wrong += one.wrong;
    }
    if (i == 0 && all.share() <= wanted) break;
    (all.share() < wanted ? low : high) = target;
  }
  return chances;
}

}  // namespace

OtherPeople::OtherPeople(const inference::Model& model, const TraitSampler& sampler, double wrong)
    : model_(&model),
      sampler_(&sampler),
      wrong_(wrong),
      slip_chance_(static_cast<std::size_t>(model.trait_count()), 0.0) {
  if (wrong <= 0.0 || model.knowledge().parts.empty()) return;
  std::vector<std::vector<Draw>> draws(slip_chance_.size());
  for (int n = 0; n < sample_objects; ++n) {
    const std::uint64_t seed = seed_for(sample_seed, static_cast<std::uint64_t>(n));
    const OtherObserver person(*this, {.wrong = wrong}, draw_object(model.knowledge(), seed, n, false, -1), seed);
    for (int t = 0; t < model.trait_count(); ++t) {
      const Value truth = person.truth(t);
      const Value plain = person.without_slip(t);
      Draw& draw = draws[static_cast<std::size_t>(t)].emplace_back();
      draw.slips_from = person.slips_from(t);
      draw.answers = plain.informs();
      draw.wrong = !same_answer(plain, truth);
      draw.wrong_in_a_slip = !same_answer(person.in_a_slip(t), truth);
    }
  }
  slip_chance_ = chances_for(draws, wrong);
}

int OtherPeople::part_in_mind(int part, Chance& chance) const {
  const auto& parts = model_->knowledge().parts;
  const auto& itself = parts[static_cast<std::size_t>(part)];
  const bool named = chance.happens(habits::mind_a_named_look_alike);
  if (named && !itself.look_alikes.empty()) return itself.look_alikes[chance.below(itself.look_alikes.size())].part;
  std::vector<int> kin;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    if (static_cast<int>(p) != part && parts[p].family == itself.family) kin.push_back(static_cast<int>(p));
  }
  if (!kin.empty()) return kin[chance.below(kin.size())];
  if (parts.size() < 2) return -1;
  const auto step = static_cast<int>(1 + chance.below(parts.size() - 1));
  return (part + step) % static_cast<int>(parts.size());
}

OtherObserver::OtherObserver(const OtherPeople& people, const ObserverType& type, TrialObject object,
                             std::uint64_t seed)
    : people_(&people),
      type_(type),
      seed_(seed),
      holder_(people.model(), people.sampler(), {}, object, seed),
      bike_(people.model().knowledge(), has_leads(), seed, people.wrong() / habits::chances_hold_at),
      eyes_(people.model().knowledge(), seed, people.wrong() / habits::chances_hold_at) {
  Chance chance = habits::chance_of(seed, Purpose::carefulness);
  const bool careless = chance.happens(habits::careless);
  carefulness_ = careless ? habits::careless_factor : habits::careful_factor;
  if (careless && chance.happens(habits::one_part_in_mind)) {
    Chance mind = habits::chance_of(seed, Purpose::mind);
    in_mind_ = people.part_in_mind(object.part, mind);
  }
}

bool OtherObserver::has_leads() const {
  const auto& knowledge = people_->model().knowledge();
  const int count = knowledge.trait("lead_count");
  return count >= 0 && holder_.truth(count).state != knowledge.state(count, "0");
}

Value OtherObserver::without_slip(int trait) const {
  return eyes_.seen(trait, bike_.after(trait, holder_.truth(trait)));
}

double OtherObserver::slips_from(int trait) const {
  return habits::chance_of(seed_, Purpose::slip, trait).uniform() / carefulness_;
}

Value OtherObserver::in_a_slip(int trait) const {
  const auto& knowledge = people_->model().knowledge();
  const TraitSampler& sampler = people_->sampler();
  const Value truth = holder_.truth(trait);
  Chance chance = habits::chance_of(seed_, Purpose::slip_value, trait);
  if (in_mind_ >= 0) {
    const knowledge::Claim* claim = knowledge.claim(in_mind_, 0, trait);
    return claim != nullptr ? sampler.truth(trait, claim, chance) : without_slip(trait);
  }
  for (int attempt = 0; attempt < attempts; ++attempt) {
    const auto part = static_cast<int>(chance.below(knowledge.parts.size()));
    const knowledge::Claim* claim = knowledge.claim(part, 0, trait);
    if (claim == nullptr) continue;
    const Value value = sampler.truth(trait, claim, chance);
    if (!same_answer(value, truth)) return value;
  }
  return plainly_wrong(knowledge.traits[static_cast<std::size_t>(trait)], truth);
}

Reading OtherObserver::answer(int trait) const {
  Reading reading;
  reading.trait = trait;
  reading.value.kind = Value::Kind::cannot_tell;
  if (habits::chance_of(seed_, Purpose::silence, trait).happens(type_.cannot_tell)) return reading;
  const bool slips = slips_from(trait) < people_->slip_chance(trait);
  reading.value = slips ? in_a_slip(trait) : without_slip(trait);
  if (reading.value.kind == Value::Kind::interval) {
    reading.value.interval = {as_written(reading.value.interval.low), as_written(reading.value.interval.high)};
  }
  if (type_.doubts && reading.value.informs()) {
    const bool wrong = !same_answer(reading.value, holder_.truth(trait));
    const auto& called = wrong ? habits::called_when_wrong : habits::called_when_right;
    const std::size_t how = habits::chance_of(seed_, Purpose::called, trait).pick({called.begin(), called.end()});
    reading.certainty = static_cast<evidence::Certainty>(how);
  }
  return reading;
}

}  // namespace loomkey::bench
