#include "catalogue/overlay_draft.h"

#include <algorithm>
#include <set>
#include <utility>

#include "catalogue/rows.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

template <typename Items>
void name_all(Registry& registry, const Items& items) {
  for (const auto& item : items) registry.add(item.id);
}

// Registers shipped and new ids in their common order.
template <typename Items>
void name_sorted(Registry& registry, const Items& shipped, const std::vector<std::string>& brought) {
  std::set<std::string> ids(brought.begin(), brought.end());
  for (const auto& item : shipped) ids.insert(item.id);
  for (const std::string& id : ids) registry.add(id);
}

// Moves the items to the places of their ids. `moved` tells where each of the old indices went.
template <typename Items>
std::vector<int> spread(Items& items, const Registry& registry) {
  Items spaced(registry.ids().size());
  std::vector<int> moved;
  for (auto& item : items) {
    moved.push_back(registry.find(item.id));
    at(spaced, moved.back()) = std::move(item);
  }
  items = std::move(spaced);
  return moved;
}

void follow(int& index, const std::vector<int>& moved) {
  if (index >= 0) index = at(moved, index);
}

struct Moves {
  std::vector<int> family;
  std::vector<int> advice;
  std::vector<int> part;
};

void follow(Part& part, const Moves& moves) {
  follow(part.family, moves.family);
  follow(part.advice, moves.advice);
  for (LookAlike& look_alike : part.look_alikes) follow(look_alike.part, moves.part);
  for (Partner& partner : part.works_with) {
    follow(partner.part, moves.part);
    follow(partner.family, moves.family);
  }
}

void follow(ConfusionSet& set, const Moves& moves) {
  for (int& part : set.parts) follow(part, moves.part);
  for (auto& [a, b] : set.twins) {
    follow(a, moves.part);
    follow(b, moves.part);
  }
}

}  // namespace

Draft draft_over(const Knowledge& shipped, const OverlayIds& ids) {
  Draft draft;
  Knowledge& k = draft.knowledge;
  k = shipped;
  name_all(draft.efforts, k.efforts);
  name_all(draft.tools, k.tools);
  name_all(draft.groups, k.groups);
  name_all(draft.colours, k.colours);
  name_all(draft.symptoms, k.symptoms);
  name_all(draft.bases, k.bases);
  name_all(draft.cautions, k.cautions);
  name_all(draft.traits, k.traits);
  name_all(draft.confusions, k.confusions);
  name_sorted(draft.families, k.families, ids.families);
  name_sorted(draft.advice, k.advice, ids.advice);
  name_sorted(draft.parts, k.parts, ids.parts);
  const Moves moves{spread(k.families, draft.families), spread(k.advice, draft.advice), spread(k.parts, draft.parts)};
  for (Part& part : k.parts) follow(part, moves);
  for (Advice& advice : k.advice) {
    for (int& other : advice.harmless_if) follow(other, moves.advice);
  }
  for (ConfusionSet& set : k.confusions) follow(set, moves);
  for (const Family& family : k.families) {
    std::set<int>& mentions = draft.family_mentions.emplace_back();
    for (const Claim& claim : family.claims) mentions.insert(claim.trait);
  }
  return draft;
}

}  // namespace loomkey::catalogue
