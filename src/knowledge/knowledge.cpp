#include "knowledge/knowledge.h"

#include <algorithm>
#include <utility>

namespace loomkey::knowledge {
namespace {

template <typename T>
int index_of(const std::vector<T>& items, std::string_view id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const T& item) { return item.id == id; });
  return found == items.end() ? -1 : static_cast<int>(found - items.begin());
}

const Claim* find_claim(const std::vector<Claim>& claims, int trait) {
  const auto found = std::find_if(claims.begin(), claims.end(), [&](const Claim& c) { return c.trait == trait; });
  return found == claims.end() ? nullptr : &*found;
}

}  // namespace

bool ConfusionSet::holds(int part) const { return std::find(parts.begin(), parts.end(), part) != parts.end(); }

bool ConfusionSet::are_twins(int a, int b) const {
  return std::any_of(twins.begin(), twins.end(),
                     [&](const auto& pair) { return pair == std::pair(a, b) || pair == std::pair(b, a); });
}

int Knowledge::trait(std::string_view id) const { return index_of(traits, id); }
int Knowledge::part(std::string_view id) const { return index_of(parts, id); }
int Knowledge::family(std::string_view id) const { return index_of(families, id); }
int Knowledge::advice_record(std::string_view id) const { return index_of(advice, id); }
int Knowledge::tool(std::string_view id) const { return index_of(tools, id); }
int Knowledge::symptom(std::string_view id) const { return index_of(symptoms, id); }
int Knowledge::colour(std::string_view id) const { return index_of(colours, id); }

int Knowledge::state(int trait_index, std::string_view id) const {
  return index_of(traits[static_cast<std::size_t>(trait_index)].states, id);
}

const Claim* Knowledge::claim(int part_index, int condition_index, int trait_index) const {
  const Part& part = parts[static_cast<std::size_t>(part_index)];
  const Condition& condition = part.conditions[static_cast<std::size_t>(condition_index)];
  const Trait& trait = traits[static_cast<std::size_t>(trait_index)];
  if (const Claim* own = find_claim(condition.claims, trait_index)) return own;
  if (condition.kind == Condition::Kind::damaged && trait.layer == Layer::meter) return nullptr;
  if (const Claim* own = find_claim(part.claims, trait_index)) return own;
  if (part.family >= 0) {
    if (const Claim* own = find_claim(families[static_cast<std::size_t>(part.family)].claims, trait_index)) return own;
  }
  return trait.unless_stated ? &*trait.unless_stated : nullptr;
}

}  // namespace loomkey::knowledge
