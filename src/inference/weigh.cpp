#include "inference/weigh.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

namespace loomkey::inference {

using evidence::Case;
using evidence::Certainty;
using evidence::Reading;
using evidence::Value;
using knowledge::Claim;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

// Ohms that the meter leads add, and how often, when nobody shorted them first / when somebody did. From memory:
// common practice, no source.
constexpr std::array<double, 3> lead_offsets = {0.0, 0.2, 0.4};
constexpr std::array<double, 3> lead_offset_chance = {0.5, 0.3, 0.2};
constexpr std::array<double, 3> lead_offset_chance_zeroed = {0.9, 0.07, 0.03};
constexpr double low_ohm_limit = 5.0;

struct TraitReadings {
  int trait = -1;
  std::vector<int> indices;
  std::vector<const Reading*> readings;
};

// The informative readings, by trait, in trait order; observers of one trait in order of name and value so that the
// order of the file never matters.
std::vector<TraitReadings> by_trait(const Case& the_case) {
  std::map<int, std::vector<int>> groups;
  for (std::size_t i = 0; i < the_case.readings.size(); ++i) {
    if (the_case.readings[i].value.informs()) groups[the_case.readings[i].trait].push_back(static_cast<int>(i));
  }
  std::vector<TraitReadings> out;
  for (auto& [trait, indices] : groups) {
    std::sort(indices.begin(), indices.end(), [&](int a, int b) {
      return the_case.readings[static_cast<std::size_t>(a)].observer <
             the_case.readings[static_cast<std::size_t>(b)].observer;
    });
    TraitReadings entry{trait, indices, {}};
    for (const int i : indices) entry.readings.push_back(&the_case.readings[static_cast<std::size_t>(i)]);
    out.push_back(std::move(entry));
  }
  return out;
}

bool is_low_ohm(const Trait& trait, const Value& value) {
  if (!trait.low_ohm) return false;
  if (value.kind == Value::Kind::interval) return value.interval.low < low_ohm_limit;
  return false;
}

// What several observers of one number can have seen in common; nothing if their readings cannot be one true value.
std::optional<Value> common_value(const Trait& trait, const std::vector<const Value*>& seen) {
  Value common = *seen.front();
  for (const Value* value : seen) {
    if (value->kind != common.kind) return std::nullopt;
    if (value->kind == Value::Kind::special && value->special != common.special) return std::nullopt;
    if (value->kind == Value::Kind::set && *value != common) return std::nullopt;
    common.interval.low = std::max(common.interval.low, value->interval.low);
    common.interval.high = std::min(common.interval.high, value->interval.high);
  }
  // Two honest measurers differ by their errors; a gap wider than that cannot be one true value.
  const auto widened = with_error(trait, common.interval);
  if (common.kind == Value::Kind::interval && widened.low >= widened.high) return std::nullopt;
  return common;
}

// P(all readings of one trait | claim), residual left out, for every profile and (last) for the uniform part. Each
// observer either lapses, and reports the background, or sees the shared truth.
class JointChance {
 public:
  JointChance(const Model& model, const std::vector<const Reading*>& readings, double lead_ohms)
      : trait_(model.knowledge().traits[static_cast<std::size_t>(readings.front()->trait)]) {
    const int index = readings.front()->trait;
    for (const Reading* reading : readings) {
      lapses_.push_back(lapse(model.settings(), reading->certainty));
      single_.emplace_back(model, index, reading->value, lead_ohms);
      background_.push_back(single_.back().background());
      values_.push_back(&reading->value);
    }
    if (readings.size() == 1 || trait_.kind == TraitKind::choice) return;
    for (std::size_t lapsed = 0; lapsed < (std::size_t{1} << readings.size()); ++lapsed) {
      Share share;
      std::vector<const Value*> seen;
      for (std::size_t k = 0; k < readings.size(); ++k) {
        const bool slipped = (lapsed >> k & 1U) != 0;
        share.factor *= slipped ? lapses_[k] * background_[k] : 1.0 - lapses_[k];
        if (!slipped) seen.push_back(values_[k]);
      }
      if (!seen.empty()) {
        const auto common = common_value(trait_, seen);
        if (!common) continue;
        share.seen.emplace(model, index, *common, lead_ohms);
      }
      shares_.push_back(std::move(share));
    }
  }

  // Under one claim; without one, under the uniform part of the background.
  [[nodiscard]] double of(const Claim* claim, std::size_t profile) const {
    const auto raw = [&](const ValueChance& value) {
      return claim != nullptr ? value.under(profile) : value.uniform();
    };
    if (single_.size() == 1) return (1.0 - lapses_[0]) * raw(single_[0]) + lapses_[0] * background_[0];
    double chance = 0.0;
    if (trait_.kind == TraitKind::choice) {
      const std::size_t states = trait_.states.size();
      for (std::size_t s = 0; s < states; ++s) {
        double product = claim != nullptr ? claim->states[s] : 1.0 / static_cast<double>(states);
        for (std::size_t k = 0; k < single_.size(); ++k) {
          product *= (1.0 - lapses_[k]) * trait_.seen[s][static_cast<std::size_t>(values_[k]->state)] +
                     lapses_[k] * background_[k];
        }
        chance += product;
      }
      return chance;
    }
    if (trait_.kind == TraitKind::set && claim != nullptr) {
      for (std::size_t a = 0; a < claim->sets.size(); ++a) {
        double product = claim->sets[a].share;
        for (std::size_t k = 0; k < single_.size(); ++k) {
          product *= (1.0 - lapses_[k]) * single_[k].under(profile, a) + lapses_[k] * background_[k];
        }
        chance += product;
      }
      return chance;
    }
    if (trait_.kind == TraitKind::set) return unclaimed_sets();
    for (const Share& share : shares_) chance += share.factor * (share.seen ? raw(*share.seen) : 1.0);
    return chance;
  }

 private:
  // Sets that nobody claims cannot be summed over: honest observers are taken to have seen one of the sets reported.
  [[nodiscard]] double unclaimed_sets() const {
    double chance = 0.0;
    for (std::size_t honest = 0; honest < (std::size_t{1} << single_.size()); ++honest) {
      double factor = 1.0;
      std::vector<std::size_t> seen;
      for (std::size_t k = 0; k < single_.size(); ++k) {
        const bool is_honest = (honest >> k & 1U) != 0;
        factor *= is_honest ? 1.0 - lapses_[k] : lapses_[k] * background_[k];
        if (is_honest) seen.push_back(k);
      }
      double shared = seen.empty() ? 1.0 : 0.0;
      for (std::size_t i = 0; i < seen.size(); ++i) {
        const bool again = std::any_of(seen.begin(), seen.begin() + static_cast<std::ptrdiff_t>(i),
                                       [&](std::size_t j) { return values_[j]->items == values_[seen[i]]->items; });
        if (again) continue;
        double product = single_[seen[i]].uniform();
        for (const std::size_t k : seen)
          if (seen.size() > 1) product *= single_[k].given(values_[seen[i]]->items);
        shared += product;
      }
      chance += factor * shared;
    }
    return chance;
  }

  // One way in which some of the observers lapsed and the others agree.
  struct Share {
    double factor = 1.0;
    std::optional<ValueChance> seen;
  };

  const Trait& trait_;
  std::vector<double> lapses_;
  std::vector<ValueChance> single_;
  std::vector<double> background_;
  std::vector<const Value*> values_;
  std::vector<Share> shares_;
};

}  // namespace

double lapse(const Settings& settings, Certainty certainty) {
  switch (certainty) {
    case Certainty::sure:
      return settings.lapse_sure;
    case Certainty::think_so:
      return settings.lapse_think_so;
    case Certainty::guess:
      break;
  }
  return settings.lapse_guess;
}

std::vector<double> trait_ratios(const Model& model, const std::vector<const Reading*>& readings, double lead_ohms) {
  double background = 1.0;
  return trait_ratios(model, readings, lead_ohms, background);
}

std::vector<double> trait_ratios(const Model& model, const std::vector<const Reading*>& readings, double lead_ohms,
                                 double& background) {
  const TraitModel& trait_model = model.trait(readings.front()->trait);
  const JointChance chance(model, readings, lead_ohms);
  std::vector<double> ratios(trait_model.profiles.size());
  const double uniform = model.uniform_share(readings.front()->trait);
  background = uniform * chance.of(nullptr, 0);
  for (std::size_t k = 0; k < ratios.size(); ++k) {
    ratios[k] = chance.of(trait_model.profiles[k], k);
    background += (1.0 - uniform) * trait_model.weight[k] * ratios[k];
  }
  for (std::size_t k = 0; k < ratios.size(); ++k) {
    const double residual = model.residual(*trait_model.profiles[k]);
    // A value that nothing, not even the background, can produce tells no part from another.
    ratios[k] = background > 0.0 ? (1.0 - residual) * ratios[k] / background + residual : 1.0;
  }
  return ratios;
}

namespace {

double tempering(double overlap, std::size_t count) {
  const double n = static_cast<double>(count);
  return (1.0 + (n - 1.0) * (1.0 - overlap)) / n;
}

std::vector<double> group_ratio(const Model& model, const std::vector<const TraitReadings*>& traits, int group,
                                double lead_ohms, double changed = 0.0) {
  const std::size_t count = model.hypotheses().size();
  std::vector<double> log_sum(count, 0.0);
  for (const TraitReadings* entry : traits) {
    const std::vector<double> ratios = trait_ratios(model, entry->readings, lead_ohms);
    std::vector<double> logs(ratios.size());
    for (std::size_t k = 0; k < ratios.size(); ++k) logs[k] = std::log((1.0 - changed) * ratios[k] + changed);
    const std::vector<int>& code = model.trait(entry->trait).code;
    for (std::size_t h = 0; h < count; ++h) {
      if (code[h] >= 0) log_sum[h] += logs[static_cast<std::size_t>(code[h])];
    }
  }
  double power = 1.0;
  double switched = 0.0;
  if (group >= 0) {
    const auto& described = model.knowledge().groups[static_cast<std::size_t>(group)];
    power = tempering(described.overlap, traits.size());
    switched = described.switched;
  }
  for (double& value : log_sum) value = (1.0 - switched) * std::exp(power * value) + switched;
  return log_sum;
}

struct Bundle {
  int group = -1;
  std::vector<const TraitReadings*> traits;
  bool low_ohm = false;
};

std::vector<Bundle> bundles(const Model& model, const Case& the_case, const std::vector<TraitReadings>& all) {
  std::vector<Bundle> out;
  for (const TraitReadings& entry : all) {
    const Trait& trait = model.knowledge().traits[static_cast<std::size_t>(entry.trait)];
    auto place = out.end();
    if (trait.group >= 0) {
      place = std::find_if(out.begin(), out.end(), [&](const Bundle& b) { return b.group == trait.group; });
    }
    if (place == out.end()) {
      out.push_back({trait.group, {}, false});
      place = out.end() - 1;
    }
    place->traits.push_back(&entry);
    for (const int i : entry.indices) {
      if (is_low_ohm(trait, the_case.readings[static_cast<std::size_t>(i)].value)) place->low_ohm = true;
    }
  }
  return out;
}

void to_decibans(std::vector<double>& ratios) {
  for (double& value : ratios) value = 10.0 * std::log10(value);
}

WeightLine line_of(const std::vector<const Bundle*>& members) {
  WeightLine line;
  for (const Bundle* bundle : members) {
    if (bundle->group >= 0) line.groups.push_back(bundle->group);
    for (const TraitReadings* entry : bundle->traits) {
      line.readings.insert(line.readings.end(), entry->indices.begin(), entry->indices.end());
    }
  }
  return line;
}

WeightLine low_ohm_line(const Model& model, const Case& the_case, const std::vector<const Bundle*>& members) {
  WeightLine line = line_of(members);
  const std::size_t count = model.hypotheses().size();
  const auto& chance = the_case.leads_zeroed ? lead_offset_chance_zeroed : lead_offset_chance;
  // Chance of each offset under the background, so that "not in the catalogue" stays at exactly 0.
  std::array<double, lead_offsets.size()> weight{};
  double total = 0.0;
  for (std::size_t d = 0; d < lead_offsets.size(); ++d) {
    weight[d] = chance[d];
    for (const Bundle* bundle : members) {
      for (const TraitReadings* entry : bundle->traits) {
        double joint = 1.0;
        trait_ratios(model, entry->readings, lead_offsets[d], joint);
        weight[d] *= joint;
      }
    }
    total += weight[d];
  }
  std::vector<double> mixed(count, 0.0);
  std::vector<double> mixed_relative(count, 0.0);
  for (std::size_t d = 0; d < lead_offsets.size(); ++d) {
    const double share = total > 0.0 ? weight[d] / total : chance[d];
    if (share == 0.0) continue;
    for (const bool relative : {false, true}) {
      std::vector<double> product(count, share);
      for (const Bundle* bundle : members) {
        const std::vector<double> ratio = group_ratio(model, bundle->traits, bundle->group, lead_offsets[d],
                                                      relative ? model.settings().relative_change : 0.0);
        for (std::size_t h = 0; h < count; ++h) product[h] *= ratio[h];
      }
      std::vector<double>& sum = relative ? mixed_relative : mixed;
      for (std::size_t h = 0; h < count; ++h) sum[h] += product[h];
    }
  }
  to_decibans(mixed);
  to_decibans(mixed_relative);
  line.weight = std::move(mixed);
  line.relative = std::move(mixed_relative);
  return line;
}

template <typename F>
WeightLine prior_line(const Model& model, WeightLine::Kind kind, F weight) {
  WeightLine line;
  line.kind = kind;
  for (const Hypothesis& h : model.hypotheses()) line.weight.push_back(weight(h));
  line.relative.assign(line.weight.size(), 0.0);
  return line;
}

bool says_something(const evidence::Bike& bike) {
  return bike.decade || !bike.origin.empty() || !bike.market.empty() || bike.cylinders || bike.volts ||
         !bike.symptoms.empty();
}

// The lines of some of a case's readings.
std::vector<WeightLine> reading_lines(const Model& model, const Case& the_case, const std::vector<TraitReadings>& all) {
  std::vector<WeightLine> lines;
  const std::vector<Bundle> every = bundles(model, the_case, all);
  std::vector<const Bundle*> low_ohm;
  for (const Bundle& bundle : every) {
    if (bundle.low_ohm) low_ohm.push_back(&bundle);
  }
  bool low_ohm_done = false;
  for (const Bundle& bundle : every) {
    if (bundle.low_ohm) {
      if (!low_ohm_done) lines.push_back(low_ohm_line(model, the_case, low_ohm));
      low_ohm_done = true;
      continue;
    }
    WeightLine line = line_of({&bundle});
    line.weight = group_ratio(model, bundle.traits, bundle.group, 0.0);
    line.relative = group_ratio(model, bundle.traits, bundle.group, 0.0, model.settings().relative_change);
    to_decibans(line.weight);
    to_decibans(line.relative);
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace

std::vector<WeightLine> weigh(const Model& model, const Case& the_case) {
  std::vector<WeightLine> lines;
  if (says_something(the_case.bike)) {
    lines.push_back(prior_line(model, WeightLine::Kind::context,
                               [&](const Hypothesis& h) { return context_weight(model, the_case.bike, h); }));
  }
  if (!the_case.guessed_name.empty()) {
    std::vector<double> by_part(model.knowledge().parts.size());
    for (std::size_t p = 0; p < by_part.size(); ++p) {
      by_part[p] = guess_weight(model, the_case.guessed_name, static_cast<int>(p));
    }
    lines.push_back(prior_line(model, WeightLine::Kind::guessed_name,
                               [&](const Hypothesis& h) { return by_part[static_cast<std::size_t>(h.part)]; }));
  }
  for (WeightLine& line : reading_lines(model, the_case, by_trait(the_case))) lines.push_back(std::move(line));
  return lines;
}

std::vector<WeightLine> weigh_without(const Model& model, const Case& the_case, const std::vector<WeightLine>& lines,
                                      int reading) {
  std::vector<WeightLine> out;
  for (const WeightLine& line : lines) {
    if (std::find(line.readings.begin(), line.readings.end(), reading) == line.readings.end()) {
      out.push_back(line);
      continue;
    }
    // Without its only low resistance a group leaves that line, so the line may fall apart.
    Case rest = the_case;
    rest.readings.clear();
    for (const int r : line.readings) {
      if (r != reading) rest.readings.push_back(the_case.readings[static_cast<std::size_t>(r)]);
    }
    for (WeightLine& again : reading_lines(model, rest, by_trait(rest))) {
      again.readings.clear();
      out.push_back(std::move(again));
    }
  }
  return out;
}

std::vector<double> switched_chance(const Model& model, const Case& the_case, int group) {
  std::vector<double> chance(model.hypotheses().size(), 0.0);
  const double switched = model.knowledge().groups[static_cast<std::size_t>(group)].switched;
  const std::vector<TraitReadings> all = by_trait(the_case);
  std::vector<const TraitReadings*> members;
  for (const TraitReadings& entry : all) {
    if (model.knowledge().traits[static_cast<std::size_t>(entry.trait)].group == group) members.push_back(&entry);
  }
  if (members.empty() || switched == 0.0) return chance;
  const std::vector<double> ratio = group_ratio(model, members, group, 0.0);
  for (std::size_t h = 0; h < chance.size(); ++h) chance[h] = switched / ratio[h];
  return chance;
}

}  // namespace loomkey::inference
