#include "bench/trial_altered_bike.h"

#include <algorithm>
#include <array>
#include <set>

#include "bench/trial_other_habits.h"

namespace loomkey::bench {

using evidence::Value;
using habits::Purpose;
using knowledge::SetItems;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr std::array<const char*, 4> home_made_fixings = {"bracket", "strap", "two-holes", "in-line"};

std::string new_lead(Chance& chance) { return chance.happens(habits::recoloured_black) ? "black" : "red"; }

Value moved_by(const Trait& trait, Value value, int step) {
  value.state = std::clamp(value.state + step, 0, static_cast<int>(trait.states.size()) - 1);
  return value;
}

}  // namespace

AlteredBike::AlteredBike(const knowledge::Knowledge& knowledge, bool has_leads, std::uint64_t seed, double often)
    : knowledge_(&knowledge), has_leads_(has_leads), seed_(seed) {
  Chance chance = habits::chance_of(seed, Purpose::bike);
  rewired_ = chance.happens(habits::rewired * often);
  recoloured_ = chance.happens(habits::leads_recoloured);
  new_terminals_ = chance.happens(habits::new_terminals);
  moved_ = chance.happens(habits::moved);
  painted_ = chance.happens(habits::painted);
  lead_gone_ = chance.happens(habits::lead_gone);
  lead_added_ = !lead_gone_ && chance.happens(habits::lead_added);
}

Value AlteredBike::with_state(int trait, const Value& before, const char* state) const {
  Value value = before;
  const int found = knowledge_->state(trait, state);
  if (found >= 0) value.state = found;
  return value;
}

Value AlteredBike::colours_after(Value value, Chance chance) const {
  std::vector<std::string>& items = value.items;
  if (recoloured_) {
    for (std::string& item : items) item = new_lead(chance);
  }
  if (lead_gone_ && !items.empty())
    items.erase(items.begin() + static_cast<std::ptrdiff_t>(chance.below(items.size())));
  if (lead_added_) items.push_back(new_lead(chance));
  // A set names each colour once.
  const std::set<std::string> once(items.begin(), items.end());
  items.assign(once.begin(), once.end());
  return value;
}

Value AlteredBike::choice_after(int index, const Value& before) const {
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  Chance chance = habits::chance_of(seed_, Purpose::bike_detail, index);
  const bool none = before.state == knowledge_->state(index, "none") || before.state == knowledge_->state(index, "0");
  if (trait.id == "lead_count") {
    if (lead_added_) return moved_by(trait, before, 1);
    return lead_gone_ ? moved_by(trait, before, -1) : before;
  }
  if (trait.id == "lead_style") return recoloured_ && !none ? with_state(index, before, "plastic") : before;
  if (trait.id == "leads_alike") {
    const bool alike = recoloured_ && has_leads_ && chance.happens(habits::recoloured_alike);
    return alike ? with_state(index, before, "2") : before;
  }
  if (trait.id == "terminal_kind") return new_terminals_ && !none ? with_state(index, before, "blade") : before;
  if (trait.id == "finish" && painted_) {
    return with_state(index, before, chance.happens(habits::recoloured_black) ? "dark-paint" : "colour-paint");
  }
  if (trait.id.starts_with("marks_")) return painted_ ? with_state(index, before, "none") : before;
  if (trait.id == "place" && moved_ && trait.states.size() > 1) {
    Value value = before;
    const std::size_t step = 1 + chance.below(trait.states.size() - 1);
    value.state = static_cast<int>((static_cast<std::size_t>(before.state) + step) % trait.states.size());
    return value;
  }
  if (trait.id == "mounting" && moved_ && chance.happens(habits::moved_new_fixing)) {
    return with_state(index, before, home_made_fixings[chance.below(home_made_fixings.size())]);
  }
  return before;
}

Value AlteredBike::after(int index, const Value& before) const {
  if (!rewired_) return before;
  const Trait& trait = knowledge_->traits[static_cast<std::size_t>(index)];
  if (trait.kind == TraitKind::choice) return choice_after(index, before);
  if (trait.kind == TraitKind::number) return before;
  Chance chance = habits::chance_of(seed_, Purpose::bike_detail, index);
  if (trait.items == SetItems::colours) return colours_after(before, chance);
  Value value = before;
  const bool bare = new_terminals_ && chance.happens(habits::new_terminals_bare);
  const bool hidden = painted_ && chance.happens(habits::paint_hides_letters);
  if (bare || hidden) value.items.clear();
  return value;
}

}  // namespace loomkey::bench
