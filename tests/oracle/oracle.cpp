#include "oracle/oracle.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace loomkey::oracle {

using evidence::Case;
using evidence::Reading;
using evidence::Value;
using knowledge::Claim;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// Meter leads: ohms they may add, and how likely each is (leads not zeroed, leads zeroed).
constexpr std::array<double, 3> offsets = {0.0, 0.2, 0.4};
constexpr std::array<double, 3> offset_chance = {0.5, 0.3, 0.2};
constexpr std::array<double, 3> offset_chance_zeroed = {0.9, 0.07, 0.03};

template <typename T>
const T& at(const std::vector<T>& items, int index) {
  return items[static_cast<std::size_t>(index)];
}

// What was stated, widened by the observer's error, less what the meter leads added.
evidence::Interval true_interval(const Trait& trait, const evidence::Interval& stated, double lead_ohms) {
  const double below = trait.relative_error * std::abs(stated.low) + trait.absolute_error;
  const double above = trait.relative_error * std::abs(stated.high) + trait.absolute_error;
  return {stated.low - below - lead_ohms, stated.high + above - lead_ohms};
}

}  // namespace

Oracle::Oracle(const knowledge::Knowledge& knowledge, const inference::Settings& settings)
    : knowledge_(knowledge), settings_(settings) {
  for (std::size_t p = 0; p < knowledge.parts.size(); ++p) {
    for (std::size_t c = 0; c < knowledge.parts[p].conditions.size(); ++c) {
      pairs_.push_back({static_cast<int>(p), static_cast<int>(c)});
    }
  }
  for (std::size_t t = 0; t < knowledge.traits.size(); ++t) items_.push_back(items_of(static_cast<int>(t)));
}

// How often the catalogue claims each letter or colour.
Items Oracle::items_of(int trait) const {
  Items items{&knowledge_, at(knowledge_.traits, trait).items, {}};
  double stated = 0.0;
  for (const Pair& pair : pairs_) {
    if (knowledge_.claim(pair.part, pair.condition, trait) != nullptr) stated += prior(pair);
  }
  for (const Pair& pair : pairs_) {
    const Claim* claim = knowledge_.claim(pair.part, pair.condition, trait);
    if (claim == nullptr) continue;
    for (const auto& alternative : claim->sets) {
      for (const auto& item : alternative.items) items.frequency[item] += prior(pair) / stated * alternative.share;
    }
  }
  if (items.kind == knowledge::SetItems::colours) {
    for (const auto& colour : knowledge_.colours) items.frequency[colour.id] += 1e-6;
    items.frequency["dark"] += 0.02;
  }
  if (items.frequency.empty()) items.frequency["?"] = 1.0;
  return items;
}

double Oracle::prior(const Pair& pair) const {
  double total = 0.0;
  for (const auto& part : knowledge_.parts) total += part.brought_in;
  const auto& part = at(knowledge_.parts, pair.part);
  return (1.0 - settings_.prior_absent) * part.brought_in / total * at(part.conditions, pair.condition).share;
}

int Oracle::class_of(const Pair& pair) const { return at(knowledge_.parts, pair.part).advice; }

double Oracle::lapse(evidence::Certainty certainty) const {
  if (certainty == evidence::Certainty::sure) return settings_.lapse_sure;
  return certainty == evidence::Certainty::think_so ? settings_.lapse_think_so : settings_.lapse_guess;
}

double Oracle::residual(const Claim& claim) const {
  return claim.verify ? settings_.verify_residual : settings_.residual;
}

double Oracle::chance(int trait_index, const Claim& claim, const Value& value, double lead_ohms) const {
  const Trait& trait = at(knowledge_.traits, trait_index);
  double chance = 0.0;
  if (value.kind == Value::Kind::state) {
    for (std::size_t s = 0; s < trait.states.size(); ++s) {
      chance += claim.states[s] * trait.seen[s][static_cast<std::size_t>(value.state)];
    }
  } else if (value.kind == Value::Kind::interval) {
    const auto seen = true_interval(trait, value.interval, trait.low_ohm ? lead_ohms : 0.0);
    chance = shown_number(trait, claim, settings_, seen.low, seen.high);
  } else if (value.kind == Value::Kind::special) {
    chance = shown_special(trait, claim, settings_, value.special);
  } else if (value.kind == Value::Kind::set) {
    for (const auto& alternative : claim.sets) {
      chance += alternative.share *
                set_chance(at(items_, trait_index), settings_, alternative.items, value.items, value.complete);
    }
  }
  return chance;
}

double Oracle::uniform_chance(int trait_index, const Value& value, double lead_ohms) const {
  const Trait& trait = at(knowledge_.traits, trait_index);
  if (value.kind == Value::Kind::state) {
    double chance = 0.0;
    for (const auto& row : trait.seen)
      chance += row[static_cast<std::size_t>(value.state)] / static_cast<double>(trait.seen.size());
    return chance;
  }
  if (value.kind == Value::Kind::interval) {
    const auto seen = true_interval(trait, value.interval, trait.low_ohm ? lead_ohms : 0.0);
    return uniform_number(trait, seen.low, seen.high);
  }
  if (value.kind == Value::Kind::special) return uniform_special(trait, value.special);
  return uniform_set(at(items_, trait_index), value.items);
}

// Little is uniform where a silent part is taken to claim something too.
double Oracle::uniform_share(int trait) const {
  return at(knowledge_.traits, trait).unless_stated ? settings_.uniform_share_silent : settings_.uniform_share;
}

double Oracle::background(int trait, const Value& value, double lead_ohms) const {
  double marginal = 0.0;
  double stated = 0.0;
  for (const Pair& pair : pairs_) {
    const Claim* claim = knowledge_.claim(pair.part, pair.condition, trait);
    if (claim == nullptr) continue;
    stated += prior(pair);
    marginal += prior(pair) * chance(trait, *claim, value, lead_ohms);
  }
  const double uniform = uniform_chance(trait, value, lead_ohms);
  if (stated == 0.0) return uniform;
  const double u = uniform_share(trait);
  return (1.0 - u) * marginal / stated + u * uniform;
}

// sum over true values s of P(s | claim) * prod_k ( (1 - e_k) P(o_k | s) + e_k b(o_k) ); without a claim s is uniform.
double Oracle::shared_truth(int trait_index, const Claim* claim, const Readings& readings, double lead_ohms) const {
  const Trait& trait = at(knowledge_.traits, trait_index);
  std::vector<double> alone;
  for (const Reading* reading : readings) alone.push_back(background(trait_index, reading->value, lead_ohms));
  const auto observers = [&](auto&& seen_given_truth) {
    double product = 1.0;
    for (std::size_t k = 0; k < readings.size(); ++k) {
      const double e = lapse(readings[k]->certainty);
      product *= (1.0 - e) * seen_given_truth(readings[k]->value) + e * alone[k];
    }
    return product;
  };
  double sum = 0.0;
  if (trait.kind == TraitKind::choice) {
    for (std::size_t s = 0; s < trait.states.size(); ++s) {
      const double share = claim != nullptr ? claim->states[s] : 1.0 / static_cast<double>(trait.states.size());
      sum +=
          share * observers([&](const Value& value) { return trait.seen[s][static_cast<std::size_t>(value.state)]; });
    }
  } else if (trait.kind == TraitKind::number) {
    // The true value is what a meter or ruler shows: a number in one of the cells between the ends that the observers
    // stated, or a special answer.
    const double lead = trait.low_ohm ? lead_ohms : 0.0;
    std::set<double> ends = {-infinity, infinity};
    for (const Reading* reading : readings) {
      if (reading->value.kind != Value::Kind::interval) continue;
      const auto seen = true_interval(trait, reading->value.interval, lead);
      if (seen.low < seen.high) ends.insert({seen.low, seen.high});
    }
    for (auto low = ends.begin(), high = std::next(low); high != ends.end(); ++low, ++high) {
      const double mass =
          claim != nullptr ? shown_number(trait, *claim, settings_, *low, *high) : uniform_number(trait, *low, *high);
      sum += mass * observers([&](const Value& value) {
               if (value.kind != Value::Kind::interval) return 0.0;
               const auto seen = true_interval(trait, value.interval, lead);
               return seen.low <= *low && *high <= seen.high ? 1.0 : 0.0;
             });
    }
    for (std::size_t s = 0; s < knowledge::special_count; ++s) {
      const auto special = static_cast<Special>(s);
      const double mass =
          claim != nullptr ? shown_special(trait, *claim, settings_, special) : uniform_special(trait, special);
      sum += mass * observers([&](const Value& value) {
               return value.kind == Value::Kind::special && value.special == special ? 1.0 : 0.0;
             });
    }
  } else {
    const Items& items = at(items_, trait_index);
    const auto through = [&](const std::vector<std::string>& truth) {
      return observers(
          [&](const Value& value) { return set_chance(items, settings_, truth, value.items, value.complete); });
    };
    if (claim != nullptr) {
      for (const auto& alternative : claim->sets) sum += alternative.share * through(alternative.items);
    } else {
      sum = unclaimed_sets(trait_index, readings);
    }
  }
  return sum;
}

// The same for sets nobody claims. There are too many to sum over: if two or more observers are honest, the true set is
// taken to be one of those they report.
double Oracle::unclaimed_sets(int trait, const Readings& readings) const {
  const Items& items = at(items_, trait);
  const std::size_t n = readings.size();
  double sum = 0.0;
  for (std::size_t honest = 0; honest < (std::size_t{1} << n); ++honest) {
    double chance = 1.0;
    std::vector<const Value*> seen;
    for (std::size_t k = 0; k < n; ++k) {
      const double e = lapse(readings[k]->certainty);
      if ((honest >> k & 1U) != 0) {
        chance *= 1.0 - e;
        seen.push_back(&readings[k]->value);
      } else {
        chance *= e * background(trait, readings[k]->value, 0.0);
      }
    }
    if (seen.size() == 1) chance *= uniform_set(items, seen.front()->items);
    if (seen.size() > 1) {
      std::set<std::vector<std::string>> truths;
      for (const Value* value : seen) truths.insert(value->items);
      double shared = 0.0;
      for (const auto& truth : truths) {
        double product = uniform_set(items, truth);
        for (const Value* value : seen) product *= set_chance(items, settings_, truth, value->items, value->complete);
        shared += product;
      }
      chance *= shared;
    }
    sum += chance;
  }
  return sum;
}

// The readings that are weighed together: one group's traits, or one trait that has no group.
std::vector<Oracle::ByTrait> Oracle::bundles_of(const Case& the_case) const {
  std::map<std::pair<int, int>, ByTrait> bundles;
  for (const Reading& reading : the_case.readings) {
    if (!reading.value.informs()) continue;
    const int group = at(knowledge_.traits, reading.trait).group;
    bundles[{group, group < 0 ? reading.trait : -1}][reading.trait].push_back(&reading);
  }
  std::vector<ByTrait> out;
  for (const auto& entry : bundles) out.push_back(entry.second);
  return out;
}

bool Oracle::low_resistance(const ByTrait& bundle) const {
  for (const auto& [trait, readings] : bundle) {
    for (const Reading* reading : readings) {
      const bool number = reading->value.kind == Value::Kind::interval;
      if (at(knowledge_.traits, trait).low_ohm && number && reading->value.interval.low < 5.0) return true;
    }
  }
  return false;
}

// ratio(h) = (1 - g) prod_t (P_t(o | h) / b_t(o))^a + g, with a = (1 + (n - 1)(1 - overlap)) / n over the n traits
// read.
Oracle::Weighed Oracle::weigh_bundle(const ByTrait& bundle, double lead_ohms, double changed) const {
  const double n = static_cast<double>(bundle.size());
  const int group = at(knowledge_.traits, bundle.begin()->first).group;
  const double overlap = group < 0 ? 0.0 : at(knowledge_.groups, group).overlap;
  const double switched = group < 0 ? 0.0 : at(knowledge_.groups, group).switched;
  const double power = (1.0 + (n - 1.0) * (1.0 - overlap)) / n;
  Weighed out{std::vector<double>(pairs_.size(), 1.0), 1.0};
  for (const auto& [trait, readings] : bundle) {
    std::vector<double> truth;  // per pair: the readings under its claim, residual left out
    double marginal = 0.0;
    double stated = 0.0;
    for (const Pair& pair : pairs_) {
      const Claim* claim = knowledge_.claim(pair.part, pair.condition, trait);
      truth.push_back(claim != nullptr ? shared_truth(trait, claim, readings, lead_ohms) : 0.0);
      if (claim == nullptr) continue;
      stated += prior(pair);
      marginal += prior(pair) * truth.back();
    }
    const double u = stated == 0.0 ? 1.0 : uniform_share(trait);
    double background = u * shared_truth(trait, nullptr, readings, lead_ohms);
    if (stated > 0.0) background += (1.0 - u) * marginal / stated;
    out.background *= background;
    for (std::size_t i = 0; i < pairs_.size(); ++i) {
      const Claim* claim = knowledge_.claim(pairs_[i].part, pairs_[i].condition, trait);
      // What states nothing is the background; a value that not even the background can produce tells nothing.
      if (claim == nullptr || background == 0.0) continue;
      const double r = residual(*claim);
      const double likelihood = (1.0 - r) * truth[i] + r * background;
      out.ratio[i] *= std::pow((1.0 - changed) * likelihood / background + changed, power);
    }
  }
  for (double& ratio : out.ratio) ratio = (1.0 - switched) * ratio + switched;
  return out;
}

std::vector<double> Oracle::weights(const Case& the_case, double changed) const {
  std::vector<double> decibans(pairs_.size(), 0.0);
  std::vector<ByTrait> low;
  for (const ByTrait& bundle : bundles_of(the_case)) {
    if (low_resistance(bundle)) {
      low.push_back(bundle);
      continue;
    }
    const Weighed weighed = weigh_bundle(bundle, 0.0, changed);
    for (std::size_t i = 0; i < pairs_.size(); ++i) decibans[i] += 10.0 * std::log10(weighed.ratio[i]);
  }
  if (low.empty()) return decibans;
  // sum_d P(d) P(o | h, d) / sum_d P(d) b(o | d), d being the ohms that the leads add to every low reading.
  std::vector<double> likelihood(pairs_.size(), 0.0);
  std::vector<double> unweighted(pairs_.size(), 0.0);
  double background = 0.0;
  for (std::size_t d = 0; d < offsets.size(); ++d) {
    const double chance = the_case.leads_zeroed ? offset_chance_zeroed[d] : offset_chance[d];
    double b = chance;
    std::vector<double> ratio(pairs_.size(), 1.0);
    for (const ByTrait& bundle : low) {
      const Weighed weighed = weigh_bundle(bundle, offsets[d], changed);
      b *= weighed.background;
      for (std::size_t i = 0; i < pairs_.size(); ++i) ratio[i] *= weighed.ratio[i];
    }
    background += b;
    for (std::size_t i = 0; i < pairs_.size(); ++i) {
      likelihood[i] += b * ratio[i];
      unweighted[i] += chance * ratio[i];
    }
  }
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    decibans[i] += 10.0 * std::log10(background > 0.0 ? likelihood[i] / background : unweighted[i]);
  }
  return decibans;
}

Belief Oracle::belief(const Case& the_case) const {
  const std::vector<double> decibans = weights(the_case);
  Belief belief;
  belief.by_class.assign(knowledge_.advice.size(), 0.0);
  const std::vector<double> alike = weights(the_case, settings_.relative_change);
  const double related = settings_.prior_absent * settings_.relative_share;
  belief.absent = settings_.prior_absent * (1.0 - settings_.relative_share);
  double total = 0.0;
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    belief.pair.push_back(prior(pairs_[i]) * std::pow(10.0, decibans[i] / 10.0));
    belief.relative.push_back(related * prior(pairs_[i]) / (1.0 - settings_.prior_absent) *
                              std::pow(10.0, alike[i] / 10.0));
    belief.absent += belief.relative.back();
    total += belief.pair.back();
  }
  total += belief.absent;
  belief.absent /= total;
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    belief.pair[i] /= total;
    belief.relative[i] /= total;
    belief.by_class[static_cast<std::size_t>(class_of(pairs_[i]))] += belief.pair[i];
  }
  return belief;
}

// Per pair, the chance that somebody changed the whole group, given what has been read of it.
std::vector<double> Oracle::changed_group(const Case& the_case, int group) const {
  std::vector<double> out(pairs_.size(), 0.0);
  for (const ByTrait& bundle : bundles_of(the_case)) {
    if (at(knowledge_.traits, bundle.begin()->first).group != group) continue;
    const Weighed weighed = weigh_bundle(bundle, 0.0, 0.0);
    for (std::size_t i = 0; i < pairs_.size(); ++i) out[i] = at(knowledge_.groups, group).switched / weighed.ratio[i];
  }
  return out;
}

}  // namespace loomkey::oracle
