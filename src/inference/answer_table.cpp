#include "inference/answer_table.h"

#include <algorithm>
#include <map>

namespace loomkey::inference {

using evidence::Value;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

// A question on a set distinguishes the sets that are likeliest now; the rest is "another set".
constexpr std::size_t sets_asked = 9;
constexpr double least_chance = 1e-9;

}  // namespace

AnswerTable::AnswerTable(const Model& model, int index, const Belief& belief) {
  if (model.knowledge().traits[static_cast<std::size_t>(index)].kind == TraitKind::set) {
    choose_sets(model, index, belief);
    model.finish(model.trait(index).profiles, own_);
  } else {
    shared_ = &model.trait(index).answers;
    name_answers(model, index);
  }
}

void AnswerTable::name_answers(const Model& model, int index) {
  const Trait& trait = model.knowledge().traits[static_cast<std::size_t>(index)];
  const TraitModel& trait_model = model.trait(index);
  if (trait.kind == TraitKind::choice) {
    for (std::size_t s = 0; s < trait.states.size(); ++s) {
      Value value;
      value.kind = Value::Kind::state;
      value.state = static_cast<int>(s);
      values_.push_back(value);
    }
    return;
  }
  for (std::size_t bin = 0; bin + 1 < trait_model.bin_edges.size(); ++bin) {
    Value value;
    value.kind = Value::Kind::interval;
    value.interval = {trait_model.bin_edges[bin], trait_model.bin_edges[bin + 1]};
    values_.push_back(value);
  }
  for (const int special : trait_model.specials) {
    Value value;
    value.kind = Value::Kind::special;
    value.special = static_cast<Special>(special);
    values_.push_back(value);
  }
}

void AnswerTable::choose_sets(const Model& model, int index, const Belief& belief) {
  const TraitModel& trait_model = model.trait(index);
  std::vector<double> mass(trait_model.profiles.size(), 0.0);
  for (std::size_t h = 0; h < trait_model.code.size(); ++h) {
    if (trait_model.code[h] >= 0) mass[static_cast<std::size_t>(trait_model.code[h])] += belief.hypothesis[h];
  }
  std::map<std::vector<std::string>, double> likely;
  for (std::size_t k = 0; k < mass.size(); ++k) {
    for (const auto& alternative : trait_model.profiles[k]->sets)
      likely[alternative.items] += mass[k] * alternative.share;
  }
  std::vector<std::pair<double, std::vector<std::string>>> order;
  for (const auto& [items, chance] : likely) order.emplace_back(chance, items);
  std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  if (order.size() > sets_asked) order.resize(sets_asked);
  for (const auto& [chance, items] : order) {
    Value value;
    value.kind = Value::Kind::set;
    value.items = items;
    values_.push_back(value);
  }
  std::vector<std::vector<double>>& rows = own_.row;
  std::vector<double>& backgrounds = own_.background;
  rows.assign(trait_model.profiles.size(), {});
  std::vector<double> row_sum(rows.size(), 0.0);
  double background_sum = 0.0;
  const double uniform = model.uniform_share(index);
  for (const Value& value : values_) {
    const ValueChance chances(model, index, value, 0.0);
    double background = uniform * chances.uniform();
    for (std::size_t k = 0; k < rows.size(); ++k) {
      const double chance = chances.under(k);
      rows[k].push_back(chance);
      row_sum[k] += chance;
      background += (1.0 - uniform) * trait_model.weight[k] * chance;
    }
    backgrounds.push_back(background);
    background_sum += background;
  }
  for (std::size_t k = 0; k < rows.size(); ++k) rows[k].push_back(std::max(1.0 - row_sum[k], least_chance));
  backgrounds.push_back(std::max(1.0 - background_sum, least_chance));
  values_.emplace_back();
}

}  // namespace loomkey::inference
