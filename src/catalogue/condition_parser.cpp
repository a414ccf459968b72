#include <algorithm>
#include <array>
#include <utility>

#include "catalogue/part_parser.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Claim;
using knowledge::Condition;
using knowledge::Layer;

// From memory: how parts that are brought in divide.
constexpr double sound_by_default = 0.55;
constexpr double damaged_share = 0.08;

struct SeenDamage {
  const char* state;
  double share;
};
constexpr std::array<SeenDamage, 5> seen_damage = {
    {{"burnt", 0.35}, {"cracked", 0.35}, {"corroded", 0.1}, {"swollen", 0.1}, {"sound", 0.1}}};

std::optional<Claim> damage_to_be_seen(const Draft& draft) {
  const int trait = draft.traits.find("state_seen");
  if (trait < 0 || draft.broken_traits.contains(trait)) return std::nullopt;
  Claim claim;
  claim.trait = trait;
  claim.states.assign(draft.knowledge.traits[static_cast<std::size_t>(trait)].states.size(), 0.0);
  double total = 0.0;
  for (const SeenDamage& entry : seen_damage) {
    const int state = draft.knowledge.state(trait, entry.state);
    if (state < 0) continue;
    claim.states[static_cast<std::size_t>(state)] = entry.share;
    total += entry.share;
  }
  if (total <= 0.0) return std::nullopt;
  for (double& share : claim.states) share /= total;
  return claim;
}

Condition parse_fault(Draft& draft, TableReader& reader, FirstUse& ids, const std::vector<int>& verified_traits) {
  Condition fault;
  fault.kind = Condition::Kind::fault;
  if (const auto id = reader.word("id")) {
    fault.id = id->text;
    reader.rename(reader.title() + " '" + fault.id + "'");
    if (fault.id == "good" || fault.id == "damaged") {
      draft.log.add(id->place, "'" + fault.id + "' is a condition every part has; give the fault another id");
    }
    ids.claim(*id, "fault", draft.log);
  }
  fault.name = reader.text("name");
  fault.sees = reader.text("sees");
  const auto share = reader.find("share", Need::required);
  fault.share = share ? parse_frequency(*share, draft.log).value_or(0.0) : 0.0;
  for (const Word& word : reader.words("symptoms", Need::optional)) {
    const int symptom = draft.symptoms.resolve(word, draft.log);
    if (symptom >= 0) fault.symptoms.push_back(symptom);
  }
  ClaimList claims;
  if (auto looks = reader.table("looks", reader.title() + ", looks", Need::optional)) {
    claims.read(draft, *looks, Layer::look);
  }
  if (auto meter = reader.table("meter", reader.title() + ", meter", Need::optional)) {
    claims.read(draft, *meter, Layer::meter);
  }
  for (const int trait : verified_traits) {
    if (Claim* claim = claims.find(trait)) claim->verify = true;
  }
  fault.claims = claims.take();
  reader.finish();
  return fault;
}

double read_sound(Draft& draft, TableReader& part) {
  const auto node = part.find("sound");
  if (!node) return sound_by_default;
  const auto value = read_number(*node, draft.log);
  if (!value) return sound_by_default;
  if (*value > 0.0 && *value < 1.0 - damaged_share) return *value;
  draft.log.add(node->place(), "'sound' is " + show(*value) + "; it must lie above 0 and below " +
                                   show(1.0 - damaged_share) + ", as " + show(damaged_share) +
                                   " are damaged in other ways");
  return sound_by_default;
}

}  // namespace

std::vector<Condition> parse_conditions(Draft& draft, TableReader& part, const std::vector<int>& verified_traits) {
  const double sound = read_sound(draft, part);
  std::vector<Condition> conditions;
  conditions.push_back({Condition::Kind::good, "good", "good", {}, 0.0, {}, {}});
  FirstUse ids;
  double total = 0.0;
  for (TableReader& reader : part.tables("fault")) {
    reader.rename(part.title() + ", fault");
    conditions.push_back(parse_fault(draft, reader, ids, verified_traits));
    total += conditions.back().share;
  }
  const double left = 1.0 - damaged_share;
  conditions.front().share = total > 0.0 ? sound : left;
  for (std::size_t i = 1; i < conditions.size(); ++i) {
    if (total > 0.0) conditions[i].share *= (left - sound) / total;
  }
  Condition damaged{Condition::Kind::damaged,
                    "damaged",
                    "otherwise damaged",
                    "damage that can be seen, or readings that fit neither a good part nor one of its usual faults",
                    damaged_share,
                    {},
                    {}};
  if (auto claim = damage_to_be_seen(draft)) damaged.claims.push_back(std::move(*claim));
  conditions.push_back(std::move(damaged));
  return conditions;
}

}  // namespace loomkey::catalogue
