#include "bench/trial_sampler.h"

#include <algorithm>
#include <cmath>

namespace loomkey::bench {

using evidence::Value;
using inference::Model;
using inference::TraitModel;
using knowledge::Claim;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

// Cheap meters, as in inference/likelihood.cpp: a small resistance now and then shows as plain zero, and a true zero as
// a small number. The values are stated again on purpose: the trial is the engine's judge.
constexpr double zero_shown_below_ohm = 0.3;
constexpr double zero_shown_chance = 0.3;
constexpr double true_zero_high_ohm = 0.12;
constexpr double true_zero_as_number = 0.3;
constexpr double number_share_of_anything = 0.7;
constexpr double empty_set_share = 0.4;
constexpr double next_item_share = 0.5;
constexpr std::size_t most_items = 12;
constexpr double other_number_from = 0.1;
constexpr int attempts = 50;

Value state_value(std::size_t state) {
  Value value;
  value.kind = Value::Kind::state;
  value.state = static_cast<int>(state);
  return value;
}

Value number_value(double number) {
  Value value;
  value.kind = Value::Kind::interval;
  value.interval = {number, number};
  return value;
}

Value special_value(std::size_t special) {
  Value value;
  value.kind = Value::Kind::special;
  value.special = static_cast<Special>(special);
  return value;
}

Value set_value(std::vector<std::string> items) {
  std::sort(items.begin(), items.end());
  Value value;
  value.kind = Value::Kind::set;
  value.items = std::move(items);
  return value;
}

// Flat over the range with linear shoulders: the sum of two uniforms, one as wide as range and shoulder, one as the
// shoulder. "Verify" claims are as wide as the engine takes them.
double draw_from_range(const Trait& trait, const knowledge::Range& range, double widening, Chance& chance) {
  const double shoulder = (trait.log_scale ? std::log1p(trait.soft) : trait.soft) * widening;
  const auto axis = [&](double value) { return trait.log_scale ? std::log(std::max(value, trait.low * 1e-3)) : value; };
  const double from = axis(range.low);
  const double width = axis(range.high) - from;
  const double at = from - shoulder + chance.uniform() * (width + shoulder) + chance.uniform() * shoulder;
  return trait.log_scale ? std::exp(at) : at;
}

}  // namespace

bool same_answer(const Value& answer, const Value& truth) {
  if (answer.kind != truth.kind) return false;
  if (answer.kind == Value::Kind::interval) {
    return std::abs(answer.interval.low - truth.interval.low) <= other_number_from * std::abs(truth.interval.low);
  }
  return answer == truth;
}

double as_written(double value) {
  if (value == 0.0) return value;
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(value))) - 2.0);
  return std::round(value / step) * step;
}

TraitSampler::TraitSampler(const Model& model) : model_(&model) {
  for (int t = 0; t < model.trait_count(); ++t) {
    Items items;
    const Trait& trait = model.knowledge().traits[static_cast<std::size_t>(t)];
    if (trait.kind == TraitKind::set) {
      const inference::ItemModel& model_items = model.trait(t).items;
      for (std::size_t i = 0; i < model_items.known_count(); ++i) {
        items.known.push_back(model_items.known(i));
        items.stray_weight.push_back(model_items.stray(items.known.back()));
      }
    }
    items_.push_back(std::move(items));
  }
}

const std::string& TraitSampler::stray(int trait, Chance& chance) const {
  const Items& items = items_[static_cast<std::size_t>(trait)];
  return items.known[chance.pick(items.stray_weight)];
}

Value TraitSampler::anything(int index, Chance& chance) const {
  const Trait& trait = model_->knowledge().traits[static_cast<std::size_t>(index)];
  if (trait.kind == TraitKind::choice) return state_value(chance.below(trait.states.size()));
  if (trait.kind == TraitKind::number) {
    std::vector<double> allowed(trait.allows.begin(), trait.allows.end());
    const bool any_special = std::count(trait.allows.begin(), trait.allows.end(), true) > 0;
    if (any_special && !chance.happens(number_share_of_anything)) return special_value(chance.pick(allowed));
    if (!trait.log_scale) return number_value(chance.uniform(trait.low, trait.high));
    return number_value(std::exp(chance.uniform(std::log(trait.low), std::log(trait.high))));
  }
  std::vector<std::string> items;
  if (!chance.happens(empty_set_share)) {
    do {
      items.push_back(stray(index, chance));
    } while (items.size() < most_items && chance.happens(next_item_share));
  }
  return set_value(std::move(items));
}

Value TraitSampler::claimed(int index, const Claim& claim, Chance& chance) const {
  const Trait& trait = model_->knowledge().traits[static_cast<std::size_t>(index)];
  if (trait.kind == TraitKind::choice) return state_value(chance.pick(claim.states));
  if (trait.kind == TraitKind::set) {
    std::vector<double> shares;
    for (const auto& alternative : claim.sets) shares.push_back(alternative.share);
    return set_value(claim.sets[chance.pick(shares)].items);
  }
  std::vector<double> shares(claim.special.begin(), claim.special.end());
  for (const auto& range : claim.ranges) shares.push_back(range.share);
  const std::size_t drawn = chance.pick(shares);
  if (drawn < knowledge::special_count) return special_value(drawn);
  const double widening = claim.verify ? model_->settings().verify_widening : 1.0;
  return number_value(draw_from_range(trait, claim.ranges[drawn - knowledge::special_count], widening, chance));
}

Value TraitSampler::truth(int index, const Claim* claim, Chance& chance) const {
  if (claim != nullptr) return claimed(index, *claim, chance);
  const TraitModel& model = model_->trait(index);
  if (chance.happens(model_->uniform_share(index))) return anything(index, chance);
  return claimed(index, *model.profiles[chance.pick(model.weight)], chance);
}

Value TraitSampler::seen_number(const Trait& trait, const Value& truth, double lead_ohms, Chance& chance) const {
  if (truth.kind == Value::Kind::special) {
    const bool as_number = trait.low_ohm && truth.special == Special::zero && chance.happens(true_zero_as_number);
    if (!as_number) return truth;
    const double shown = chance.uniform(-true_zero_high_ohm, true_zero_high_ohm) + lead_ohms;
    return number_value(as_written(std::max(shown, 0.0)));
  }
  double number = truth.interval.low;
  if (trait.low_ohm && number < zero_shown_below_ohm && chance.happens(zero_shown_chance)) {
    return special_value(static_cast<std::size_t>(Special::zero));
  }
  number += chance.slip() * (trait.relative_error * std::abs(number) + trait.absolute_error);
  if (trait.low_ohm) number += lead_ohms;
  if (trait.log_scale) number = std::max(number, 0.0);
  return number_value(as_written(number));
}

Value TraitSampler::seen_set(int index, const Value& truth, Chance& chance) const {
  const auto& settings = model_->settings();
  const inference::ItemModel& model = model_->trait(index).items;
  const Items& items = items_[static_cast<std::size_t>(index)];
  std::vector<std::string> reported;
  for (const std::string& item : truth.items) {
    if (chance.happens(settings.set_missing)) continue;
    std::vector<double> weight;
    double sum = 0.0;
    for (const std::string& other : items.known) sum += weight.emplace_back(model.reported(item, other));
    // What is left over is reported as something that no one would expect in its place.
    reported.push_back(chance.happens(sum) ? items.known[chance.pick(weight)] : stray(index, chance));
  }
  for (int extra = chance.count(settings.set_extra); extra > 0; --extra) reported.push_back(stray(index, chance));
  if (reported.size() > most_items) reported.resize(most_items);
  return set_value(std::move(reported));
}

Value TraitSampler::seen(int index, const Value& truth, double lead_ohms, Chance& chance) const {
  const Trait& trait = model_->knowledge().traits[static_cast<std::size_t>(index)];
  switch (trait.kind) {
    case TraitKind::choice:
      return state_value(chance.pick(trait.seen[static_cast<std::size_t>(truth.state)]));
    case TraitKind::number:
      return seen_number(trait, truth, lead_ohms, chance);
    case TraitKind::set:
      break;
  }
  return seen_set(index, truth, chance);
}

Value TraitSampler::wrong(int index, const Value& truth, WrongAnswers kind, Chance& chance) const {
  // A set can always be drawn anew; a choice or a number whose every background draw is the truth falls through.
  for (int attempt = 0; attempt < attempts; ++attempt) {
    Value value = kind == WrongAnswers::plausible ? seen(index, this->truth(index, nullptr, chance), 0.0, chance)
                                                  : anything(index, chance);
    if (!same_answer(value, truth)) return value;
  }
  const Trait& trait = model_->knowledge().traits[static_cast<std::size_t>(index)];
  if (trait.kind == TraitKind::choice && trait.states.size() > 1) {
    const std::size_t step = 1 + chance.below(trait.states.size() - 1);
    return state_value((static_cast<std::size_t>(truth.state) + step) % trait.states.size());
  }
  return anything(index, chance);
}

}  // namespace loomkey::bench
