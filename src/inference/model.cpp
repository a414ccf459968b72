#include "inference/model.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <string>
#include <tuple>
#include <unordered_map>

namespace loomkey::inference {

using evidence::Value;
using knowledge::Claim;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr int number_bins = 12;
constexpr double least_answer_chance = 1e-9;
constexpr int edge_grid = 96;
// Edges need only be about right, and on a very large catalogue its heaviest profiles place them well enough.
constexpr std::size_t profiles_for_edges = 512;

void append_number(std::string& key, double value) { key.append(reinterpret_cast<const char*>(&value), sizeof value); }

// Equal keys mean equal claims.
std::string claim_key(const Claim& claim) {
  std::string key(1, claim.verify ? 'v' : '-');
  for (const double share : claim.states) append_number(key, share);
  for (const auto& range : claim.ranges) {
    append_number(key, range.low);
    append_number(key, range.high);
    append_number(key, range.share);
  }
  for (const double share : claim.special) append_number(key, share);
  for (const auto& alternative : claim.sets) {
    append_number(key, alternative.share);
    for (const auto& item : alternative.items) key += item + '\n';
    key += '\0';
  }
  return key;
}

}  // namespace

struct Model::SetMemo {
  static constexpr std::size_t most = 20000;  // sets seen; beyond that nothing more is kept

  std::mutex mutex;
  std::map<std::tuple<int, bool, std::vector<std::string>>, std::shared_ptr<const SetChances>> known;
};

std::shared_ptr<const SetChances> Model::set_chances(int index, const Value& value) const {
  const auto key = std::make_tuple(index, value.complete, value.items);
  {
    const std::lock_guard lock(set_memo_->mutex);
    const auto place = set_memo_->known.find(key);
    if (place != set_memo_->known.end()) return place->second;
  }
  const TraitModel& model = trait(index);
  auto made = std::make_shared<SetChances>(SetChances{{model.items, settings_, value.items, value.complete}, {}});
  for (const auto& alternatives : model.sets) {
    std::vector<double>& row = made->under.emplace_back();
    for (const auto& alternative : alternatives) row.push_back(made->seen.chance(alternative));
  }
  const std::lock_guard lock(set_memo_->mutex);
  if (set_memo_->known.size() < SetMemo::most) set_memo_->known.emplace(key, made);
  return made;
}

Model::Model(std::shared_ptr<const knowledge::Knowledge> knowledge, const Settings& settings)
    : knowledge_(std::move(knowledge)), settings_(settings), set_memo_(std::make_shared<SetMemo>()) {
  add_hypotheses();
  traits_.resize(knowledge_->traits.size());
  for (int t = 0; t < trait_count(); ++t) add_trait(t);
}

void Model::add_hypotheses() {
  double total = 0.0;
  for (const auto& part : knowledge_->parts) total += part.brought_in;
  class_count_ = static_cast<int>(knowledge_->advice.size());
  for (std::size_t p = 0; p < knowledge_->parts.size(); ++p) {
    const auto& part = knowledge_->parts[p];
    const double part_prior = (1.0 - settings_.prior_absent) * part.brought_in / total;
    for (std::size_t c = 0; c < part.conditions.size(); ++c) {
      hypotheses_.push_back(
          {static_cast<int>(p), static_cast<int>(c), part.advice, part_prior * part.conditions[c].share});
    }
  }
}

void Model::add_trait(int index) {
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  TraitModel model;
  std::unordered_map<std::string, int> seen;
  std::unordered_map<const Claim*, int> seen_claims;  // conditions of one part mostly share one claim
  double stated = 0.0;
  for (const Hypothesis& h : hypotheses_) {
    const Claim* claim = knowledge_->claim(h.part, h.condition, index);
    if (claim == nullptr) {
      model.code.push_back(-1);
      continue;
    }
    auto known = seen_claims.find(claim);
    if (known == seen_claims.end()) {
      const auto [place, fresh] = seen.emplace(claim_key(*claim), static_cast<int>(model.profiles.size()));
      if (fresh) {
        model.profiles.push_back(claim);
        model.weight.push_back(0.0);
      }
      known = seen_claims.emplace(claim, place->second).first;
    }
    model.code.push_back(known->second);
    model.weight[static_cast<std::size_t>(known->second)] += h.prior;
    stated += h.prior;
  }
  if (stated > 0.0) {
    for (double& weight : model.weight) weight /= stated;
  }
  if (trait.kind == TraitKind::choice) add_choice_answers(index, model);
  if (trait.kind == TraitKind::number) add_number_answers(index, model);
  if (trait.kind == TraitKind::set) add_items(model, trait.items);
  if (trait.kind != TraitKind::set) finish(model.profiles, model.answers);
  traits_[static_cast<std::size_t>(index)] = std::move(model);
}

void Model::add_choice_answers(int index, TraitModel& model) const {
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  const std::size_t answers = trait.states.size();
  const auto through_observer = [&](const std::vector<double>& states) {
    std::vector<double> row(answers, 0.0);
    for (std::size_t s = 0; s < answers; ++s) {
      for (std::size_t o = 0; o < answers; ++o) row[o] += states[s] * trait.seen[s][o];
    }
    return row;
  };
  for (const Claim* claim : model.profiles) model.answers.row.push_back(through_observer(claim->states));
  model.answers.background = through_observer(std::vector<double>(answers, 1.0 / static_cast<double>(answers)));
  const double uniform = uniform_share(index, model);
  for (std::size_t o = 0; o < answers; ++o) {
    model.answers.background[o] *= uniform;
    for (std::size_t k = 0; k < model.profiles.size(); ++k) {
      model.answers.background[o] += (1.0 - uniform) * model.weight[k] * model.answers.row[k][o];
    }
  }
}

void Model::add_number_answers(int index, TraitModel& model) const {
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  std::vector<std::size_t> heavy(model.profiles.size());
  for (std::size_t k = 0; k < heavy.size(); ++k) heavy[k] = k;
  if (heavy.size() > profiles_for_edges) {
    std::stable_sort(heavy.begin(), heavy.end(), [&](auto a, auto b) { return model.weight[a] > model.weight[b]; });
    heavy.resize(profiles_for_edges);
  }
  const double uniform = uniform_share(index, model);
  const auto mass_below = [&](double value) {
    double mass = uniform * uniform_number_chance(trait, trait.low, value);
    for (const std::size_t k : heavy) {
      mass += (1.0 - uniform) * model.weight[k] * number_chance(trait, *model.profiles[k], settings_, trait.low, value);
    }
    return mass;
  };
  // Edges of equal background mass, read off a grid: they only have to be about right, and the same every time.
  const auto grid_value = [&](int step) {
    const double share = static_cast<double>(step) / edge_grid;
    return trait.log_scale ? trait.low * std::pow(trait.high / trait.low, share)
                           : trait.low + share * (trait.high - trait.low);
  };
  std::vector<double> below(edge_grid + 1);
  for (int step = 0; step <= edge_grid; ++step) below[static_cast<std::size_t>(step)] = mass_below(grid_value(step));
  model.bin_edges.push_back(trait.low);
  for (int bin = 1; bin < number_bins; ++bin) {
    const double wanted = below.back() * bin / number_bins;
    const auto place = std::lower_bound(below.begin() + 1, below.end() - 1, wanted);
    const double edge = grid_value(static_cast<int>(place - below.begin()));
    model.bin_edges.push_back(std::max(edge, model.bin_edges.back()));
  }
  model.bin_edges.push_back(trait.high);
  for (std::size_t s = 0; s < knowledge::special_count; ++s) {
    if (trait.allows[s]) model.specials.push_back(static_cast<int>(s));
  }
  // The outermost bins take what falls outside the trait's range, so that a profile's answers sum to about one.
  const auto edge = [&](std::size_t i) {
    if (i == 0) return trait.log_scale ? -1.0 : trait.low - 10.0 * (trait.high - trait.low);
    return i == number_bins ? trait.high * 10.0 : model.bin_edges[i];
  };
  const std::size_t answers = number_bins + model.specials.size();
  model.answers.background.assign(answers, 0.0);
  for (std::size_t a = 0; a < answers; ++a) {
    model.answers.background[a] =
        uniform * (a < number_bins
                       ? uniform_number_chance(trait, edge(a), edge(a + 1))
                       : uniform_special_chance(trait, static_cast<Special>(model.specials[a - number_bins])));
  }
  for (std::size_t k = 0; k < model.profiles.size(); ++k) {
    const Claim& claim = *model.profiles[k];
    std::vector<double> row(answers);
    for (std::size_t a = 0; a < answers; ++a) {
      row[a] = a < number_bins
                   ? number_chance(trait, claim, settings_, edge(a), edge(a + 1))
                   : special_chance(trait, claim, settings_, static_cast<Special>(model.specials[a - number_bins]));
      model.answers.background[a] += (1.0 - uniform) * model.weight[k] * row[a];
    }
    model.answers.row.push_back(std::move(row));
  }
}

void Model::add_items(TraitModel& model, knowledge::SetItems items) const {
  std::map<std::string, double> frequency;
  for (std::size_t k = 0; k < model.profiles.size(); ++k) {
    for (const auto& alternative : model.profiles[k]->sets) {
      for (const auto& item : alternative.items) frequency[item] += model.weight[k] * alternative.share;
    }
  }
  if (items == knowledge::SetItems::colours) {
    for (const auto& colour : knowledge_->colours) frequency[colour.id] += 1e-6;
    frequency["dark"] += 0.02;
  }
  if (frequency.empty()) frequency["?"] = 1.0;
  model.items = ItemModel(knowledge_.get(), items, {frequency.begin(), frequency.end()});
  for (const Claim* claim : model.profiles) {
    model.sets.emplace_back();
    for (const auto& alternative : claim->sets) {
      model.sets.back().emplace_back();
      for (const auto& item : alternative.items) model.sets.back().back().push_back(model.items.index(item));
    }
  }
}

void Model::finish(const std::vector<const Claim*>& profiles, AnswerRows& rows) const {
  double total = 0.0;
  for (double& chance : rows.background) total += chance = std::max(chance, least_answer_chance);
  for (double& chance : rows.background) chance /= total;
  for (std::size_t k = 0; k < rows.row.size(); ++k) {
    const double kept = (1.0 - settings_.lapse_sure) * (1.0 - residual(*profiles[k]));
    double sum = 0.0;
    for (const double chance : rows.row[k]) sum += chance;
    for (std::size_t a = 0; a < rows.row[k].size(); ++a) {
      const double own = sum > 0.0 ? rows.row[k][a] / sum : rows.background[a];
      rows.row[k][a] = kept * own + (1.0 - kept) * rows.background[a];
    }
  }
}

double Model::uniform_share(int index, const TraitModel& model) const {
  if (model.profiles.empty()) return 1.0;
  const bool silent = knowledge_->traits[static_cast<std::size_t>(index)].unless_stated.has_value();
  return silent ? settings_.uniform_share_silent : settings_.uniform_share;
}

double Model::residual(const Claim& claim) const {
  return claim.verify ? settings_.verify_residual : settings_.residual;
}

double Model::background(int trait, const Value& value, double lead_ohms) const {
  return ValueChance(*this, trait, value, lead_ohms).background();
}

double Model::price(int given_class, int true_class) const {
  const auto& given = knowledge_->advice[static_cast<std::size_t>(given_class)];
  if (std::find(given.harmless_if.begin(), given.harmless_if.end(), true_class) != given.harmless_if.end()) {
    return settings_.price_harmless;
  }
  switch (given.price) {
    case knowledge::Price::harmless:
      return settings_.price_harmless;
    case knowledge::Price::money:
      return settings_.price_money;
    case knowledge::Price::burnt_part:
      return settings_.price_burnt_part;
    case knowledge::Price::burnt_loom:
      return settings_.price_burnt_loom;
    case knowledge::Price::injury:
      break;
  }
  return settings_.price_injury;
}

double Model::effort(int index) const {
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  return knowledge_->efforts[static_cast<std::size_t>(trait.effort)].cost;
}

ValueChance::ValueChance(const Model& model, int trait, const Value& value, double lead_ohms)
    : model_(model),
      trait_index_(trait),
      trait_(model.knowledge().traits[static_cast<std::size_t>(trait)]),
      trait_model_(model.trait(trait)),
      value_(value),
      lead_ohms_(lead_ohms) {
  if (value.kind == Value::Kind::set) set_ = model.set_chances(trait, value);
  if (value.added) background_ = background();
}

// Whoever stuck a label on need not have known the part: then it says what any part would show.
double ValueChance::as_marked(double chance) const {
  if (!value_.added) return chance;
  const double doubt = model_.settings().lapse_think_so;
  return (1.0 - doubt) * chance + doubt * background_;
}

double ValueChance::under(std::size_t profile) const { return as_marked(raw_under(profile)); }

double ValueChance::under(std::size_t profile, std::size_t alternative) const {
  return as_marked(set_->under[profile][alternative]);
}

double ValueChance::given(const std::vector<std::string>& items) const {
  return as_marked(set_->seen.chance(trait_model_.items, items));
}

double ValueChance::uniform() const { return as_marked(raw_uniform()); }

double ValueChance::raw_under(std::size_t profile) const {
  const Claim& claim = *trait_model_.profiles[profile];
  if (!set_) return value_chance(trait_, claim, trait_model_.items, model_.settings(), value_, lead_ohms_);
  double chance = 0.0;
  for (std::size_t a = 0; a < claim.sets.size(); ++a) {
    chance += claim.sets[a].share * set_->under[profile][a];
  }
  return chance;
}

double ValueChance::raw_uniform() const { return uniform_value_chance(trait_, trait_model_.items, value_, lead_ohms_); }

double ValueChance::background() const {
  const double share = model_.uniform_share(trait_index_);
  double chance = share * raw_uniform();
  for (std::size_t k = 0; k < trait_model_.profiles.size(); ++k) {
    chance += (1.0 - share) * trait_model_.weight[k] * raw_under(k);
  }
  return chance;
}

}  // namespace loomkey::inference
