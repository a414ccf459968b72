#include "oracle/random_knowledge.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "oracle/tiny_catalogue.h"

namespace loomkey::oracle {

using evidence::Certainty;
using evidence::Reading;
using evidence::Value;
using knowledge::Claim;
using knowledge::Condition;
using knowledge::Knowledge;
using knowledge::Layer;
using knowledge::Part;
using knowledge::SetItems;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

const std::vector<std::string> letters = {"B", "8", "E", "F", "D", "O", "49", "49A", "+", "-", "W", "V"};
const std::vector<std::string> colour_words = {"brown", "purple", "white", "green", "yellow", "black"};

std::vector<double> shares(Dice& dice, std::size_t n) {
  std::vector<double> out(n);
  double total = 0.0;
  for (double& share : out) total += share = dice.chance(0.4) ? 0.0 : dice.real(0.05, 1.0);
  if (total == 0.0) total = out.front() = 1.0;
  for (double& share : out) share /= total;
  return out;
}

void add_colours(Dice& dice, Knowledge& knowledge) {
  for (const auto& word : colour_words) knowledge.colours.push_back({word, {}});
  for (std::size_t c = 0; c < colour_words.size(); ++c) {
    const int other = dice.from(0, static_cast<int>(colour_words.size()) - 1);
    if (static_cast<std::size_t>(other) != c) knowledge.colours[c].becomes = {{other, dice.real(0.02, 0.2)}};
  }
}

Trait random_trait(Dice& dice, const Knowledge& knowledge, int index) {
  Trait trait;
  trait.id = numbered("t", index);
  trait.name = "trait " + trait.id;
  trait.ask = "How about " + trait.id + "?";
  trait.layer = dice.chance(0.4) ? Layer::meter : Layer::look;
  trait.effort = dice.from(0, static_cast<int>(knowledge.efforts.size()) - 1);
  trait.group = dice.from(-1, static_cast<int>(knowledge.groups.size()) - 1);
  trait.runs = dice.chance(0.1);
  const int kind = dice.from(0, 9);
  trait.kind = kind < 4 ? TraitKind::choice : kind < 8 ? TraitKind::number : TraitKind::set;
  if (trait.kind == TraitKind::choice) {
    const int states = dice.from(2, 6);
    for (int s = 0; s < states; ++s) trait.states.push_back({numbered("s", s), numbered("state ", s)});
    for (int s = 0; s < states; ++s) {
      std::vector<double> row(static_cast<std::size_t>(states), 0.0);
      const double slip = dice.chance(0.5) ? 0.0 : dice.real(0.01, 0.2);
      row[static_cast<std::size_t>(dice.from(0, states - 1))] += slip;
      row[static_cast<std::size_t>(s)] += 1.0 - slip;
      trait.seen.push_back(std::move(row));
    }
  } else if (trait.kind == TraitKind::number) {
    trait.low_ohm = dice.chance(0.5);
    trait.log_scale = trait.low_ohm || dice.chance(0.5);
    trait.unit = trait.low_ohm ? "ohm" : "mm";
    trait.low = trait.low_ohm ? 0.05 : dice.real(0.5, 2.0);
    trait.high = trait.low_ohm ? 2e3 : dice.real(50.0, 500.0);
    trait.soft = trait.log_scale ? dice.real(0.05, 0.4) : dice.real(0.5, 5.0);
    trait.relative_error = dice.real(0.01, 0.08);
    trait.absolute_error = trait.low_ohm ? 0.05 : dice.real(0.0, 0.5);
    const double special = dice.chance(0.3) ? 0.0 : 0.6;
    for (std::size_t s = 0; s < knowledge::special_count; ++s) trait.allows[s] = dice.chance(special);
    // A meter can always be off the scale; a ruler cannot.
    if (trait.low_ohm) trait.allows[0] = trait.allows[1] = true;
  } else {
    trait.items = dice.chance(0.5) ? SetItems::letters : SetItems::colours;
  }
  return trait;
}

// Along the trait's axis, so that low resistances come up as often as high ones.
double random_number(Dice& dice, const Trait& trait) {
  if (!trait.log_scale) return dice.real(trait.low, trait.high);
  return std::exp(dice.real(std::log(trait.low), std::log(trait.high)));
}

std::string random_item(Dice& dice, const Trait& trait) {
  if (trait.items == SetItems::letters) return dice.pick(letters);
  std::string lead = dice.pick(colour_words);
  if (dice.chance(0.4)) lead += "/" + dice.pick(colour_words);
  return lead;
}

std::vector<std::string> random_set(Dice& dice, const Trait& trait) {
  std::vector<std::string> items;
  const int count = dice.from(0, 4);
  for (int i = 0; i < count; ++i)
    items.push_back(!items.empty() && dice.chance(0.2) ? items.back() : random_item(dice, trait));
  std::sort(items.begin(), items.end());
  return items;
}

Claim random_claim(Dice& dice, const Trait& trait, int index) {
  Claim claim;
  claim.trait = index;
  claim.verify = dice.chance(0.2);
  if (trait.kind == TraitKind::choice) {
    claim.states = shares(dice, trait.states.size());
  } else if (trait.kind == TraitKind::number) {
    const bool specials = std::find(trait.allows.begin(), trait.allows.end(), true) != trait.allows.end();
    const int ranges = dice.from(specials ? 0 : 1, 2);
    double total = 0.0;
    for (int r = 0; r < ranges; ++r) {
      const double a = random_number(dice, trait);
      const double b = std::min(a * dice.real(1.0, 1.6), trait.high);
      claim.ranges.push_back({a, b, dice.real(0.1, 1.0)});
      total += claim.ranges.back().share;
    }
    for (std::size_t s = 0; s < knowledge::special_count; ++s) {
      if (!trait.allows[s] || dice.chance(0.6)) continue;
      total += claim.special[s] = dice.real(0.05, 0.5);
    }
    if (total == 0.0) {
      const auto allowed = std::find(trait.allows.begin(), trait.allows.end(), true) - trait.allows.begin();
      total = claim.special[static_cast<std::size_t>(allowed)] = 1.0;
    }
    for (auto& range : claim.ranges) range.share /= total;
    for (double& share : claim.special) share /= total;
  } else {
    const auto share = shares(dice, static_cast<std::size_t>(dice.from(1, 3)));
    for (const double s : share) {
      if (s > 0.0) claim.sets.push_back({random_set(dice, trait), s});
    }
  }
  return claim;
}

std::vector<Claim> random_claims(Dice& dice, const Knowledge& knowledge, double stated, bool meter_only) {
  std::vector<Claim> claims;
  for (std::size_t t = 0; t < knowledge.traits.size(); ++t) {
    if (meter_only && knowledge.traits[t].layer != Layer::meter) continue;
    if (dice.chance(stated)) claims.push_back(random_claim(dice, knowledge.traits[t], static_cast<int>(t)));
  }
  return claims;
}

std::vector<Condition> random_conditions(Dice& dice, const Knowledge& knowledge) {
  std::vector<Condition> conditions(1);
  conditions.front().id = "good";
  const int faults = dice.from(0, 2);
  for (int f = 0; f < faults; ++f) {
    Condition fault;
    fault.kind = Condition::Kind::fault;
    fault.id = numbered("fault", f);
    fault.claims = random_claims(dice, knowledge, 0.6, dice.chance(0.7));
    conditions.push_back(std::move(fault));
  }
  if (dice.chance(0.8)) {
    Condition damaged;
    damaged.kind = Condition::Kind::damaged;
    damaged.id = "damaged";
    conditions.push_back(std::move(damaged));
  }
  double total = 0.0;
  for (auto& condition : conditions) total += condition.share = dice.real(0.1, 1.0);
  for (auto& condition : conditions) condition.share /= total;
  return conditions;
}

}  // namespace

Knowledge random_knowledge(Dice& dice) {
  Knowledge knowledge;
  knowledge.tools = {{"ruler", "a ruler", 0.5}, {"meter", "a meter", 3.0}};
  knowledge.efforts = {{"look", "look", 1.0, -1}, {"measure", "measure", 1.5, 0}, {"probe", "probe", 3.0, 1}};
  knowledge.tracer_lost = dice.real(0.02, 0.3);
  knowledge.dark_chance = dice.real(0.01, 0.1);
  add_colours(dice, knowledge);
  const int groups = dice.from(0, 9) == 0 ? 0 : dice.from(1, 2);
  for (int g = 0; g < groups; ++g) {
    knowledge.groups.push_back({numbered("g", g), "group", dice.chance(0.2) ? 0.0 : dice.real(0.01, 0.3),
                                dice.chance(0.2) ? 0.0 : dice.real(0.1, 0.8)});
  }
  const int traits = dice.from(4, 9);
  for (int t = 0; t < traits; ++t) {
    knowledge.traits.push_back(random_trait(dice, knowledge, t));
    if (dice.chance(0.2)) knowledge.traits.back().unless_stated = random_claim(dice, knowledge.traits.back(), t);
  }
  knowledge.families = {{"f0", "family 0", "", random_claims(dice, knowledge, 0.3, false)}, {"f1", "family 1", "", {}}};
  const int parts = dice.from(2, 7);
  const int classes = dice.from(2, parts);
  for (int c = 0; c < classes; ++c) {
    knowledge::Advice advice;
    advice.id = numbered("a", c);
    advice.price = static_cast<knowledge::Price>(dice.from(0, 4));
    if (dice.chance(0.3)) advice.harmless_if.push_back(dice.from(0, classes - 1));
    knowledge.advice.push_back(std::move(advice));
  }
  for (int p = 0; p < parts; ++p) {
    Part part;
    part.id = numbered("p", p);
    part.name = numbered("part ", p);
    part.family = dice.from(-1, 1);
    part.advice = p < classes ? p : dice.from(0, classes - 1);
    part.brought_in = dice.real(0.05, 1.0);
    part.claims = random_claims(dice, knowledge, 0.7, false);
    part.conditions = random_conditions(dice, knowledge);
    knowledge.parts.push_back(std::move(part));
  }
  return knowledge;
}

inference::Settings random_settings(Dice& dice) {
  inference::Settings settings;
  settings.prior_absent = dice.real(0.01, 0.2);
  settings.lapse_sure = dice.real(0.0, 0.1);
  settings.lapse_think_so = dice.real(0.05, 0.2);
  settings.lapse_guess = dice.real(0.1, 0.5);
  settings.residual = dice.real(0.01, 0.1);
  settings.verify_residual = dice.real(0.1, 0.5);
  settings.verify_widening = dice.real(1.0, 4.0);
  settings.uniform_share = dice.real(0.1, 0.6);
  settings.uniform_share_silent = dice.real(0.02, 0.3);
  settings.set_missing = dice.real(0.01, 0.2);
  settings.set_extra = dice.real(0.01, 0.3);
  settings.set_mention = dice.real(0.2, 0.8);
  settings.class_threshold = dice.real(0.6, 0.97);
  settings.loss_limit = dice.real(0.01, 0.3);
  return settings;
}

Value random_value(Dice& dice, const Knowledge& knowledge, int index, const Claim* claim) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(index)];
  const bool honest = claim != nullptr && dice.chance(0.85);
  Value value;
  if (dice.chance(0.05)) {
    value.kind = dice.chance(0.5) ? Value::Kind::cannot_tell : Value::Kind::not_looked;
    return value;
  }
  if (trait.kind == TraitKind::choice) {
    value.kind = Value::Kind::state;
    value.state = dice.from(0, static_cast<int>(trait.states.size()) - 1);
    if (honest)
      value.state =
          static_cast<int>(std::max_element(claim->states.begin(), claim->states.end()) - claim->states.begin());
  } else if (trait.kind == TraitKind::number) {
    std::vector<Special> specials;
    for (std::size_t s = 0; s < knowledge::special_count; ++s) {
      if (trait.allows[s] && (!honest || claim->special[s] > 0.0)) specials.push_back(static_cast<Special>(s));
    }
    if (!specials.empty() && (dice.chance(0.25) || (honest && claim->ranges.empty()))) {
      value.kind = Value::Kind::special;
      value.special = dice.pick(specials);
      return value;
    }
    value.kind = Value::Kind::interval;
    double centre = random_number(dice, trait);
    if (honest && !claim->ranges.empty()) {
      const auto& range = dice.pick(claim->ranges);
      centre = dice.real(range.low, range.high);
    }
    const double width = dice.chance(0.5) ? 0.0 : dice.real(0.0, 0.3);
    value.interval = {centre * (1.0 - width), centre * (1.0 + width)};
  } else {
    value.kind = Value::Kind::set;
    value.items = honest ? dice.pick(claim->sets).items : random_set(dice, trait);
    if (dice.chance(0.3) && !value.items.empty()) value.items.pop_back();
    if (dice.chance(0.2)) value.items.push_back(random_item(dice, trait));
    std::sort(value.items.begin(), value.items.end());
    value.complete = dice.chance(0.6);
  }
  return value;
}

evidence::Case random_case(Dice& dice, const Knowledge& knowledge, const CaseRules& rules) {
  evidence::Case out;
  out.leads_zeroed = dice.chance(0.5);
  const int part = dice.from(0, static_cast<int>(knowledge.parts.size()) - 1);
  const int conditions = static_cast<int>(knowledge.parts[static_cast<std::size_t>(part)].conditions.size());
  const int condition = dice.from(0, conditions - 1);
  const int traits = static_cast<int>(knowledge.traits.size());
  for (int i = 0; i < rules.readings; ++i) {
    Reading reading;
    reading.trait = dice.from(0, traits - 1);
    const bool again = std::any_of(out.readings.begin(), out.readings.end(),
                                   [&](const Reading& r) { return r.trait == reading.trait; });
    const bool is_set = knowledge.traits[static_cast<std::size_t>(reading.trait)].kind == TraitKind::set;
    if (again) {
      const bool third = std::any_of(out.readings.begin(), out.readings.end(),
                                     [&](const Reading& r) { return r.trait == reading.trait && !r.observer.empty(); });
      if (!rules.second_observer || third || (is_set && !rules.second_observer_of_sets)) continue;
      reading.observer = "the seller";
    }
    reading.certainty = static_cast<Certainty>(dice.from(0, 2));
    reading.value = random_value(dice, knowledge, reading.trait, knowledge.claim(part, condition, reading.trait));
    out.readings.push_back(std::move(reading));
  }
  return out;
}

}  // namespace loomkey::oracle
