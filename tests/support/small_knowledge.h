#pragma once

#include <algorithm>
#include <cassert>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "knowledge/knowledge.h"

namespace loomkey::support {

// Builds a Knowledge in a few lines:
//
//   const Knowledge knowledge = SmallKnowledge()
//                                   .choice("form", {"can", "box: closed box"})
//                                   .number("size_long", "mm", 3, 600)
//                                   .part("flasher").has("form", "can").range("size_long", 45, 60)
//                                   .fault("burnt-out", 0.3).range("size_long", 45, 70)
//                                   .build();
//
// Traits come first, then parts; a claim belongs to the part or fault named last. Parts are to be added in the order of
// their ids, as the catalogue keeps them. Every part has an advice record and a family of its own unless it names one.
class SmallKnowledge {
 public:
  SmallKnowledge() {
    knowledge_.efforts = {{"look", "look and feel", 1.0, -1}};
    knowledge_.bases = {{"practice", knowledge::Basis::Kind::practice, "common practice, no source"}};
  }

  // States are ids, or "id: name". `slip` is the chance of reporting any other state, spread evenly.
  SmallKnowledge& choice(const std::string& id, const std::vector<std::string>& states, double slip = 0.0) {
    knowledge::Trait& trait = add_trait(id, knowledge::TraitKind::choice);
    for (const std::string& state : states) {
      const std::size_t colon = state.find(": ");
      const bool named = colon != std::string::npos;
      trait.states.push_back({state.substr(0, colon), named ? state.substr(colon + 2) : state});
    }
    const std::size_t count = states.size();
    trait.seen.assign(count, std::vector<double>(count, count > 1 ? slip / static_cast<double>(count - 1) : 0.0));
    for (std::size_t i = 0; i < count; ++i) trait.seen[i][i] = count > 1 ? 1.0 - slip : 1.0;
    return *this;
  }
  SmallKnowledge& yesno(const std::string& id, double slip = 0.0) { return choice(id, {"no", "yes"}, slip); }

  SmallKnowledge& number(const std::string& id, const std::string& unit, double low, double high, double soft = 0.1) {
    knowledge::Trait& trait = add_trait(id, knowledge::TraitKind::number);
    trait.unit = unit;
    trait.low = low;
    trait.high = high;
    trait.soft = soft;
    trait.relative_error = 0.05;
    trait.log_scale = low > 0.0;
    return *this;
  }
  // A meter reading in ohms, with every special answer.
  SmallKnowledge& ohms(const std::string& id, double low = 0.05, double high = 1e7) {
    number(id, "ohm", low, high, 0.25);
    knowledge::Trait& trait = last_trait();
    trait.layer = knowledge::Layer::meter;
    trait.absolute_error = 0.1;
    trait.allows.fill(true);
    return *this;
  }
  SmallKnowledge& letters(const std::string& id) {
    add_trait(id, knowledge::TraitKind::set).none_name = "no letters";
    return *this;
  }
  SmallKnowledge& lead_colours(const std::string& id) {
    knowledge::Trait& trait = add_trait(id, knowledge::TraitKind::set);
    trait.items = knowledge::SetItems::colours;
    trait.none_name = "no leads";
    return *this;
  }
  SmallKnowledge& colours(const std::vector<std::string>& ids) {
    for (const std::string& id : ids) knowledge_.colours.push_back({id, {}});
    return *this;
  }
  SmallKnowledge& group(const std::string& id, const std::vector<std::string>& members, double switched,
                        double overlap) {
    knowledge_.groups.push_back({id, id, switched, overlap});
    for (const std::string& member : members) {
      knowledge_.traits[index(knowledge_.trait(member))].group = static_cast<int>(knowledge_.groups.size()) - 1;
    }
    return *this;
  }
  SmallKnowledge& tool(const std::string& id, double fetch) {
    knowledge_.tools.push_back({id, id, fetch});
    return *this;
  }
  // The last trait costs this much to read.
  SmallKnowledge& effort(double cost, const std::string& tool = {}) {
    const int tool_index = tool.empty() ? -1 : knowledge_.tool(tool);
    knowledge_.efforts.push_back({"effort-" + last_trait().id, last_trait().id, cost, tool_index});
    last_trait().effort = static_cast<int>(knowledge_.efforts.size()) - 1;
    return *this;
  }
  SmallKnowledge& familiar(const std::string& name, const std::vector<double>& size, double spread) {
    knowledge_.familiar.push_back({name, {name}, size, spread});
    return *this;
  }
  SmallKnowledge& symptom(const std::string& id, const std::string& name) {
    knowledge_.symptoms.push_back({id, name});
    return *this;
  }

  // Parts that name the same advice record form one class.
  SmallKnowledge& part(const std::string& id, double brought_in = 1.0, const std::string& advice = {}) {
    knowledge::Part part;
    part.id = id;
    part.name = id;
    part.brought_in = brought_in;
    part.basis = 0;
    part.family = static_cast<int>(knowledge_.families.size());
    knowledge_.families.push_back({"family-" + id, id, "", {}});
    const std::string record = advice.empty() ? "advice-" + id : advice;
    part.advice = knowledge_.advice_record(record);
    if (part.advice < 0) {
      part.advice = static_cast<int>(knowledge_.advice.size());
      knowledge::Advice entry;
      entry.id = record;
      entry.title = record;
      entry.basis = 0;
      knowledge_.advice.push_back(std::move(entry));
    }
    knowledge::Condition good;
    good.id = "good";
    good.name = "good";
    good.share = 1.0;
    part.conditions.push_back(std::move(good));
    knowledge_.parts.push_back(std::move(part));
    in_fault_ = false;
    return *this;
  }
  // The last part may have this fault; its share comes off the good one. Claims that follow are those of the fault.
  SmallKnowledge& fault(const std::string& id, double share) {
    add_condition(knowledge::Condition::Kind::fault, id, share);
    in_fault_ = true;
    return *this;
  }
  // To be called after the faults, since "otherwise damaged" stands last.
  SmallKnowledge& damaged(double share) {
    add_condition(knowledge::Condition::Kind::damaged, "damaged", share);
    in_fault_ = false;
    return *this;
  }
  // What acting on the last part's advice costs if the part is another one.
  SmallKnowledge& price(knowledge::Price price) {
    knowledge_.advice[index(last_part().advice)].price = price;
    return *this;
  }

  SmallKnowledge& has(const std::string& trait, const std::string& state) { return has(trait, {{state, 1.0}}); }
  // Shares are normalised; states left out have none.
  SmallKnowledge& has(const std::string& trait, const std::vector<std::pair<std::string, double>>& states) {
    knowledge::Claim& claim = add_claim(trait);
    claim.states.assign(trait_of(claim).states.size(), 0.0);
    double total = 0.0;
    for (const auto& entry : states) total += entry.second;
    for (const auto& [state, share] : states) {
      claim.states[index(knowledge_.state(claim.trait, state))] += share / total;
    }
    return *this;
  }
  SmallKnowledge& range(const std::string& trait, double low, double high) {
    add_claim(trait).ranges = {{low, high, 1.0}};
    return *this;
  }
  SmallKnowledge& reads(const std::string& trait, knowledge::Special special) {
    add_claim(trait).special[static_cast<std::size_t>(special)] = 1.0;
    return *this;
  }
  SmallKnowledge& carries(const std::string& trait, std::vector<std::string> items) {
    std::sort(items.begin(), items.end());
    add_claim(trait).sets = {{std::move(items), 1.0}};
    return *this;
  }

  [[nodiscard]] knowledge::Trait& last_trait() { return knowledge_.traits.back(); }
  [[nodiscard]] knowledge::Part& last_part() { return knowledge_.parts.back(); }
  // The last claim, to be changed in ways that have no word here.
  [[nodiscard]] knowledge::Claim& last_claim() { return claims().back(); }

  [[nodiscard]] knowledge::Knowledge build() const { return knowledge_; }

 private:
  static std::size_t index(int i) {
    assert(i >= 0);
    return static_cast<std::size_t>(i);
  }

  knowledge::Trait& add_trait(const std::string& id, knowledge::TraitKind kind) {
    knowledge::Trait trait;
    trait.id = id;
    trait.name = id;
    trait.ask = "what about " + id + "?";
    trait.kind = kind;
    knowledge_.traits.push_back(std::move(trait));
    return knowledge_.traits.back();
  }
  void add_condition(knowledge::Condition::Kind kind, const std::string& id, double share) {
    knowledge::Condition condition;
    condition.kind = kind;
    condition.id = id;
    condition.name = id;
    condition.share = share;
    last_part().conditions.front().share -= share;
    last_part().conditions.push_back(std::move(condition));
  }
  [[nodiscard]] std::vector<knowledge::Claim>& claims() {
    return in_fault_ ? last_part().conditions.back().claims : last_part().claims;
  }
  knowledge::Claim& add_claim(const std::string& trait) {
    knowledge::Claim claim;
    claim.trait = knowledge_.trait(trait);
    assert(claim.trait >= 0);
    claims().push_back(std::move(claim));
    return claims().back();
  }
  [[nodiscard]] const knowledge::Trait& trait_of(const knowledge::Claim& claim) const {
    return knowledge_.traits[index(claim.trait)];
  }

  knowledge::Knowledge knowledge_;
  bool in_fault_ = false;
};

}  // namespace loomkey::support
