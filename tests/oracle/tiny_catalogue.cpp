#include "oracle/tiny_catalogue.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace loomkey::oracle {

using evidence::Certainty;
using evidence::Reading;
using evidence::Value;
using knowledge::Claim;
using knowledge::Condition;
using knowledge::Layer;
using knowledge::SetItems;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

TinyCatalogue::TinyCatalogue() {
  knowledge.tools = {{"ruler", "a ruler", 0.5}, {"meter", "a meter", 3.0}};
  knowledge.efforts = {{"look", "look", 1.0, -1}, {"ruler", "measure", 1.5, 0}, {"meter", "probe", 3.0, 1}};
}

namespace {

int effort_index(const knowledge::Knowledge& knowledge, const std::string& id) {
  const auto found =
      std::find_if(knowledge.efforts.begin(), knowledge.efforts.end(), [&](const auto& e) { return e.id == id; });
  return static_cast<int>(found - knowledge.efforts.begin());
}

Trait named(const knowledge::Knowledge& knowledge, const std::string& id, TraitKind kind, const std::string& effort) {
  Trait trait;
  trait.id = id;
  trait.name = id;
  trait.ask = id + "?";
  trait.kind = kind;
  trait.effort = effort_index(knowledge, effort);
  trait.layer = effort == "meter" ? Layer::meter : Layer::look;
  return trait;
}

}  // namespace

// By format and not by operator+, about which this compiler warns wrongly.
std::string numbered(const std::string& prefix, int number) { return fmt::format("{}{}", prefix, number); }

int TinyCatalogue::choice(const std::string& id, int states, const std::string& effort) {
  Trait trait = named(knowledge, id, TraitKind::choice, effort);
  for (int s = 0; s < states; ++s) {
    trait.states.push_back({numbered("s", s), numbered("state ", s)});
    trait.seen.emplace_back(static_cast<std::size_t>(states), 0.0);
    trait.seen.back()[static_cast<std::size_t>(s)] = 1.0;
  }
  knowledge.traits.push_back(std::move(trait));
  return static_cast<int>(knowledge.traits.size()) - 1;
}

int TinyCatalogue::number(const std::string& id, double low, double high, const std::string& effort) {
  Trait trait = named(knowledge, id, TraitKind::number, effort);
  trait.unit = "mm";
  trait.log_scale = true;
  trait.low = low;
  trait.high = high;
  trait.soft = 0.1;
  trait.relative_error = 0.02;
  trait.allows[static_cast<std::size_t>(Special::does_not_apply)] = true;
  knowledge.traits.push_back(std::move(trait));
  return static_cast<int>(knowledge.traits.size()) - 1;
}

int TinyCatalogue::set(const std::string& id, SetItems items) {
  Trait trait = named(knowledge, id, TraitKind::set, "look");
  trait.items = items;
  trait.none_name = "none";
  knowledge.traits.push_back(std::move(trait));
  return static_cast<int>(knowledge.traits.size()) - 1;
}

int TinyCatalogue::group(const std::string& id, double switched, double overlap) {
  knowledge.groups.push_back({id, id, switched, overlap});
  return static_cast<int>(knowledge.groups.size()) - 1;
}

int TinyCatalogue::advice(const std::string& id, knowledge::Price price) {
  knowledge::Advice advice;
  advice.id = id;
  advice.title = id;
  advice.price = price;
  knowledge.advice.push_back(std::move(advice));
  return static_cast<int>(knowledge.advice.size()) - 1;
}

int TinyCatalogue::part(const std::string& id, double brought_in, int advice_class) {
  knowledge::Part part;
  part.id = id;
  part.name = id;
  part.advice = advice_class >= 0 ? advice_class : advice("advice-" + id);
  part.brought_in = brought_in;
  Condition good;
  good.id = "good";
  good.share = 1.0;
  part.conditions.push_back(std::move(good));
  knowledge.parts.push_back(std::move(part));
  return static_cast<int>(knowledge.parts.size()) - 1;
}

int TinyCatalogue::fault(int part_index, const std::string& id, double share) {
  knowledge::Part& part = knowledge.parts[static_cast<std::size_t>(part_index)];
  Condition fault;
  fault.kind = Condition::Kind::fault;
  fault.id = id;
  fault.name = id;
  fault.share = share;
  part.conditions.front().share -= share;
  part.conditions.push_back(std::move(fault));
  return static_cast<int>(part.conditions.size()) - 1;
}

void TinyCatalogue::claim(int part_index, Claim claim, int condition) {
  knowledge::Part& part = knowledge.parts[static_cast<std::size_t>(part_index)];
  auto& claims = condition == 0 ? part.claims : part.conditions[static_cast<std::size_t>(condition)].claims;
  claims.push_back(std::move(claim));
}

void TinyCatalogue::claim(int part, int trait_index, std::vector<double> shares, int condition) {
  Claim out;
  out.trait = trait_index;
  out.states = std::move(shares);
  claim(part, std::move(out), condition);
}

void TinyCatalogue::claim_state(int part, int trait_index, int state, int condition) {
  std::vector<double> shares(trait(trait_index).states.size(), 0.0);
  shares[static_cast<std::size_t>(state)] = 1.0;
  claim(part, trait_index, std::move(shares), condition);
}

void TinyCatalogue::claim_range(int part, int trait_index, double low, double high, int condition) {
  Claim out;
  out.trait = trait_index;
  out.ranges = {{low, high, 1.0}};
  claim(part, std::move(out), condition);
}

void TinyCatalogue::claim_set(int part, int trait_index, std::vector<std::string> items, int condition) {
  Claim out;
  out.trait = trait_index;
  std::sort(items.begin(), items.end());
  out.sets = {{std::move(items), 1.0}};
  claim(part, std::move(out), condition);
}

std::shared_ptr<const knowledge::Knowledge> TinyCatalogue::done() const {
  return std::make_shared<const knowledge::Knowledge>(knowledge);
}

namespace {

Reading reading_of(int trait, Value value, Certainty certainty) {
  Reading reading;
  reading.trait = trait;
  reading.value = std::move(value);
  reading.certainty = certainty;
  return reading;
}

}  // namespace

Reading saw_state(int trait, int state, Certainty certainty) {
  Value value;
  value.kind = Value::Kind::state;
  value.state = state;
  return reading_of(trait, std::move(value), certainty);
}

Reading saw_number(int trait, double low, double high, Certainty certainty) {
  Value value;
  value.kind = Value::Kind::interval;
  value.interval = {low, high};
  return reading_of(trait, std::move(value), certainty);
}

Reading saw_special(int trait, Special special, Certainty certainty) {
  Value value;
  value.kind = Value::Kind::special;
  value.special = special;
  return reading_of(trait, std::move(value), certainty);
}

Reading saw_set(int trait, std::vector<std::string> items, bool complete, Certainty certainty) {
  Value value;
  value.kind = Value::Kind::set;
  std::sort(items.begin(), items.end());
  value.items = std::move(items);
  value.complete = complete;
  return reading_of(trait, std::move(value), certainty);
}

Reading cannot_tell(int trait) {
  Value value;
  value.kind = Value::Kind::cannot_tell;
  return reading_of(trait, std::move(value), Certainty::sure);
}

Reading not_looked(int trait) { return reading_of(trait, Value{}, Certainty::sure); }

std::shared_ptr<const knowledge::Knowledge> replay_catalogue() {
  TinyCatalogue tiny;
  auto& colours = tiny.knowledge.colours;
  colours = {{"white", {{3, 0.10}}}, {"green", {}}, {"brown", {{4, 0.15}}}, {"yellow", {}}, {"purple", {{2, 0.15}}}};
  const int shape = tiny.group("shape", 0.02, 0.35);
  const int loom = tiny.group("loom", 0.12, 0.35);
  const int ohms = tiny.group("ohms", 0.03, 0.5);

  const int form = tiny.choice("form", 4);
  tiny.trait(form).group = shape;
  tiny.trait(form).seen = {{0.9, 0.1, 0.0, 0.0}, {0.05, 0.95, 0.0, 0.0}, {0.0, 0.0, 1.0, 0.0}, {0.0, 0.0, 0.02, 0.98}};
  const int fins = tiny.choice("fins", 2);
  tiny.trait(fins).group = shape;
  const int length = tiny.number("length", 5.0, 400.0);
  const int letters = tiny.set("letters");
  const int leads = tiny.set("leads", SetItems::colours);
  tiny.trait(leads).group = loom;
  const int lead_count = tiny.choice("lead-count", 4);
  tiny.trait(lead_count).group = loom;
  const int ohm_low = tiny.number("ohm-low", 0.05, 1e6, "meter");
  const int ohm_high = tiny.number("ohm-high", 0.05, 1e6, "meter");
  for (const int t : {ohm_low, ohm_high}) {
    tiny.trait(t).group = ohms;
    tiny.trait(t).unit = "ohm";
    tiny.trait(t).low_ohm = true;
    tiny.trait(t).absolute_error = 0.05;
    tiny.trait(t).allows = {true, true, true, true};
  }
  const int volts = tiny.number("volts", 0.0, 20.0, "meter");
  tiny.trait(volts).log_scale = false;
  tiny.trait(volts).soft = 0.3;
  tiny.trait(volts).absolute_error = 0.1;
  tiny.trait(volts).runs = true;

  const int coil = tiny.part("coil", 1.0);
  const int open = tiny.fault(coil, "open-circuit", 0.3);
  const int condenser = tiny.part("condenser", 0.6);
  const int rectifier = tiny.part("rectifier", 0.8);
  const int shorted = tiny.fault(rectifier, "shorted", 0.2);
  const int stator = tiny.part("stator", 0.4);
  const int control = tiny.part("control", 0.3);
  const int flasher = tiny.part("flasher", 0.5);
  for (const int p : {coil, control, flasher}) tiny.claim(p, form, {0.8, 0.2, 0.0, 0.0});
  tiny.claim_state(condenser, form, 1);
  tiny.claim_state(rectifier, form, 2);
  tiny.claim(stator, form, {0.0, 0.0, 0.1, 0.9});
  tiny.claim_state(rectifier, fins, 1);
  for (const int p : {coil, condenser, stator}) tiny.claim_state(p, fins, 0);
  tiny.claim_range(coil, length, 110.0, 140.0);
  tiny.claim_range(condenser, length, 35.0, 45.0);
  tiny.claim_range(rectifier, length, 50.0, 80.0);
  tiny.claim_range(control, length, 30.0, 50.0);
  tiny.claim_range(flasher, length, 45.0, 65.0);
  tiny.claim_set(control, letters, {"AL", "E", "WL"});
  tiny.claim_set(flasher, letters, {"B", "L"});
  tiny.claim_set(coil, letters, {"+", "-"});
  tiny.claim_set(stator, letters, {});
  tiny.claim_set(stator, leads, {"white/green", "green/yellow", "white"});
  tiny.claim_set(rectifier, leads, {"brown", "purple"});
  tiny.claim_set(control, leads, {});
  tiny.claim_state(stator, lead_count, 3);
  tiny.claim_state(rectifier, lead_count, 2);
  for (const int p : {coil, condenser, control, flasher}) tiny.claim_state(p, lead_count, 0);
  tiny.claim_range(coil, ohm_low, 3.0, 4.5);
  tiny.claim_range(coil, ohm_high, 4000.0, 9000.0);
  Claim over;
  over.special[static_cast<std::size_t>(Special::over_range)] = 1.0;
  for (const int t : {ohm_low, ohm_high}) {
    over.trait = t;
    tiny.claim(coil, over, open);
    tiny.claim(condenser, over);
  }
  tiny.claim_range(stator, ohm_low, 0.3, 0.9);
  tiny.claim_range(stator, ohm_high, 0.3, 0.9);
  Claim unsure;
  unsure.trait = ohm_low;
  unsure.ranges = {{20.0, 2000.0, 0.7}};
  unsure.special[static_cast<std::size_t>(Special::over_range)] = 0.3;
  unsure.verify = true;
  tiny.claim(rectifier, unsure);
  Claim dead;
  dead.trait = ohm_low;
  dead.special[static_cast<std::size_t>(Special::zero)] = 1.0;
  tiny.claim(rectifier, dead, shorted);
  tiny.claim_range(stator, volts, 12.0, 15.0);
  Condition damaged;
  damaged.kind = Condition::Kind::damaged;
  damaged.id = "damaged";
  damaged.share = 0.1;
  for (auto& part : tiny.knowledge.parts) {
    part.conditions.front().share -= 0.1;
    part.conditions.push_back(damaged);
  }
  return tiny.done();
}

}  // namespace loomkey::oracle
