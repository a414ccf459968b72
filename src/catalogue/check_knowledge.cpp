#include "catalogue/check_knowledge.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>
#include <utility>

#include "catalogue/rows.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

constexpr double rounding = 1e-9;

bool is_one(double sum) { return std::abs(sum - 1.0) < rounding; }

template <typename T>
bool unique_ids(const std::vector<T>& list) {
  std::set<std::string_view> ids;
  return std::all_of(list.begin(), list.end(),
                     [&](const T& item) { return !item.id.empty() && ids.insert(item.id).second; });
}

bool all_ids_unique(const Knowledge& k) {
  return unique_ids(k.efforts) && unique_ids(k.tools) && unique_ids(k.groups) && unique_ids(k.traits) &&
         unique_ids(k.colours) && unique_ids(k.familiar) && unique_ids(k.symptoms) && unique_ids(k.bases) &&
         unique_ids(k.cautions) && unique_ids(k.advice) && unique_ids(k.families) && unique_ids(k.parts) &&
         unique_ids(k.confusions);
}

bool choice_holds(const Claim& claim, const Trait& trait) {
  double sum = 0.0;
  for (const double share : claim.states) sum += share;
  return claim.states.size() == trait.states.size() && claim.ranges.empty() && claim.sets.empty() && is_one(sum) &&
         std::all_of(claim.special.begin(), claim.special.end(), [](double share) { return share == 0.0; });
}

bool number_holds(const Claim& claim, const Trait& trait) {
  double sum = 0.0;
  for (const Range& range : claim.ranges) {
    if (!(range.low <= range.high) || range.low < trait.low || range.high > trait.high) return false;
    sum += range.share;
  }
  for (std::size_t i = 0; i < special_count; ++i) {
    if (claim.special[i] != 0.0 && !trait.allows[i]) return false;
    sum += claim.special[i];
  }
  return claim.states.empty() && claim.sets.empty() && is_one(sum);
}

bool set_holds(const Claim& claim) {
  double sum = 0.0;
  for (const Alternative& set : claim.sets) {
    if (!std::is_sorted(set.items.begin(), set.items.end())) return false;
    sum += set.share;
  }
  return claim.states.empty() && claim.ranges.empty() && is_one(sum) &&
         std::all_of(claim.special.begin(), claim.special.end(), [](double share) { return share == 0.0; });
}

bool claim_holds(const Claim& claim, const Trait& trait) {
  switch (trait.kind) {
    case TraitKind::choice:
      return choice_holds(claim, trait);
    case TraitKind::number:
      return number_holds(claim, trait);
    case TraitKind::set:
      return set_holds(claim);
  }
  return false;
}

// Empty, or the trait whose claim is wrong.
std::string wrong_claim(const Knowledge& k, const std::vector<Claim>& claims) {
  std::set<int> seen;
  for (const Claim& claim : claims) {
    const Trait& trait = at(k.traits, claim.trait);
    if (!claim_holds(claim, trait) || !seen.insert(claim.trait).second) return trait.id;
  }
  return {};
}

bool trait_holds(const Trait& trait) {
  const bool scale_holds = trait.low < trait.high && (!trait.log_scale || trait.low > 0.0);
  if (trait.kind == TraitKind::number && !scale_holds) return false;
  if (trait.kind != TraitKind::choice) return trait.states.empty() && trait.seen.empty();
  if (trait.states.size() < 2 || !unique_ids(trait.states) || trait.seen.size() != trait.states.size()) return false;
  return std::all_of(trait.seen.begin(), trait.seen.end(), [&](const std::vector<double>& row) {
    double sum = 0.0;
    for (const double chance : row) sum += chance;
    return row.size() == trait.states.size() && is_one(sum);
  });
}

bool conditions_hold(const Part& part) {
  double sum = 0.0;
  for (std::size_t i = 0; i < part.conditions.size(); ++i) {
    const auto expected = i == 0                            ? Condition::Kind::good
                          : i + 1 == part.conditions.size() ? Condition::Kind::damaged
                                                            : Condition::Kind::fault;
    if (part.conditions[i].kind != expected) return false;
    sum += part.conditions[i].share;
  }
  return part.conditions.size() >= 2 && unique_ids(part.conditions) && is_one(sum);
}

std::string wrong_part(const Knowledge& k, const Part& part) {
  const auto whose = [&](std::string_view what) { return "part '" + part.id + "': " + std::string(what); };
  if (part.first_year > part.last_year) return whose("its years are inverted");
  if (!conditions_hold(part)) return whose("its conditions are wrong");
  if (const std::string trait = wrong_claim(k, part.claims); !trait.empty()) return whose("wrong claim on " + trait);
  for (const Condition& condition : part.conditions) {
    if (const std::string trait = wrong_claim(k, condition.claims); !trait.empty()) {
      return whose(condition.id + ": wrong claim on " + trait);
    }
  }
  for (const Partner& partner : part.works_with) {
    if ((partner.part < 0) == (partner.family < 0)) return whose("a partner is neither a part nor a family");
  }
  return {};
}

bool no_repeats(const std::vector<int>& list) { return std::set<int>(list.begin(), list.end()).size() == list.size(); }

bool confusion_holds(const Knowledge& k, const ConfusionSet& set) {
  if (set.parts.size() < 2 || set.traits.empty() || !no_repeats(set.parts) || !no_repeats(set.traits)) return false;
  const bool twins = std::all_of(set.twins.begin(), set.twins.end(), [&](const std::pair<int, int>& pair) {
    return pair.first != pair.second && set.holds(pair.first) && set.holds(pair.second);
  });
  for (const int a : set.parts) {
    for (const int b : set.parts) {
      if (a < b && at(k.parts, a).advice == at(k.parts, b).advice && !set.are_twins(a, b)) return false;
    }
  }
  return twins;
}

bool vocabulary_holds(const Knowledge& k) {
  const bool colours = std::all_of(k.colours.begin(), k.colours.end(), [&](const Colour& colour) {
    double sum = k.dark_chance;
    for (const auto& [other, chance] : colour.becomes) sum += chance;
    return sum < 1.0;
  });
  return colours && std::all_of(k.familiar.begin(), k.familiar.end(), [](const FamiliarThing& thing) {
           return thing.size.size() >= 2 && thing.size.size() <= 3 && thing.size.back() > 0.0 &&
                  std::is_sorted(thing.size.rbegin(), thing.size.rend());
         });
}

}  // namespace

std::string check_knowledge(const Knowledge& k) {
  if (!all_ids_unique(k)) return "an id is empty or used twice";
  if (!vocabulary_holds(k)) return "a colour or a familiar thing is wrong";
  for (const Trait& trait : k.traits) {
    if (!trait_holds(trait)) return "trait '" + trait.id + "' is wrong";
    if (trait.unless_stated && !claim_holds(*trait.unless_stated, trait)) {
      return "trait '" + trait.id + "': its default is wrong";
    }
  }
  for (const Family& family : k.families) {
    if (const std::string trait = wrong_claim(k, family.claims); !trait.empty()) {
      return "family '" + family.id + "': wrong claim on " + trait;
    }
  }
  for (const Part& part : k.parts) {
    if (std::string fault = wrong_part(k, part); !fault.empty()) return fault;
  }
  for (const ConfusionSet& set : k.confusions) {
    if (!confusion_holds(k, set)) return "confusion set '" + set.id + "' is wrong";
  }
  return {};
}

}  // namespace loomkey::catalogue
