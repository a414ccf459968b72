#include <array>
#include <utility>

#include "catalogue/check_knowledge.h"
#include "catalogue/load.h"
#include "catalogue/rows.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

// Where a row numbered over the whole catalogue has its home: part and place among the part's conditions.
using ConditionHome = std::pair<int, std::size_t>;

struct ClaimRow {
  Claim claim;
  int family = -1;
  int part = -1;
  int condition = -1;
};

std::vector<ConditionHome> load_conditions(sqlite3* database, Knowledge& k) {
  std::vector<ConditionHome> homes;
  Rows rows(database, "SELECT idx, part, kind, id, name, sees, share FROM part_condition ORDER BY idx");
  while (rows.next()) {
    rows.sequence(homes.size());
    const int home = rows.index(k.parts.size());
    Condition condition;
    condition.kind = static_cast<Condition::Kind>(rows.integer(0, 2));
    condition.id = rows.text();
    condition.name = rows.text();
    condition.sees = rows.text();
    condition.share = rows.real(0.0, 1.0);
    homes.emplace_back(home, at(k.parts, home).conditions.size());
    at(k.parts, home).conditions.push_back(std::move(condition));
  }
  Rows symptoms(database, "SELECT condition, seq, symptom FROM condition_symptom ORDER BY condition, seq");
  while (symptoms.next()) {
    const auto& [home, place] = at(homes, symptoms.index(homes.size()));
    Condition& condition = at(k.parts, home).conditions[place];
    symptoms.sequence(condition.symptoms.size());
    condition.symptoms.push_back(symptoms.index(k.symptoms.size()));
  }
  return homes;
}

std::vector<ClaimRow> load_claim_rows(sqlite3* database, const Knowledge& k, std::size_t conditions) {
  std::vector<ClaimRow> claims;
  Rows rows(database,
            "SELECT idx, trait, family, part, condition, verify, basis, ol, zero, jumps, na FROM claim ORDER BY idx");
  while (rows.next()) {
    rows.sequence(claims.size());
    ClaimRow row;
    row.claim.trait = rows.index(k.traits.size());
    row.family = rows.optional_index(k.families.size());
    row.part = rows.optional_index(k.parts.size());
    row.condition = rows.optional_index(conditions);
    row.claim.verify = rows.flag();
    row.claim.basis = rows.optional_index(k.bases.size());
    for (double& share : row.claim.special) share = rows.real(0.0, 1.0);
    const Trait& trait = at(k.traits, row.claim.trait);
    if (trait.kind == TraitKind::choice) row.claim.states.assign(trait.states.size(), 0.0);
    claims.push_back(std::move(row));
  }
  return claims;
}

void load_claim_details(sqlite3* database, std::vector<ClaimRow>& claims) {
  constexpr double huge = 1e12;
  Rows states(database, "SELECT claim, state, share FROM claim_state ORDER BY claim, state");
  while (states.next()) {
    auto& shares = at(claims, states.index(claims.size())).claim.states;
    double& share = at(shares, states.index(shares.size()));
    share = states.real(0.0, 1.0);
  }
  Rows ranges(database, "SELECT claim, seq, low, high, share FROM claim_range ORDER BY claim, seq");
  while (ranges.next()) {
    auto& list = at(claims, ranges.index(claims.size())).claim.ranges;
    ranges.sequence(list.size());
    Range range;
    range.low = ranges.real(-huge, huge);
    range.high = ranges.real(-huge, huge);
    range.share = ranges.real(0.0, 1.0);
    list.push_back(range);
  }
  Rows sets(database, "SELECT claim, seq, share FROM claim_set ORDER BY claim, seq");
  while (sets.next()) {
    auto& list = at(claims, sets.index(claims.size())).claim.sets;
    sets.sequence(list.size());
    list.push_back({{}, sets.real(0.0, 1.0)});
  }
  Rows items(database, "SELECT claim, seq, item, word FROM claim_set_item ORDER BY claim, seq, item");
  while (items.next()) {
    auto& list = at(claims, items.index(claims.size())).claim.sets;
    auto& words = at(list, items.index(list.size())).items;
    items.sequence(words.size());
    words.push_back(items.text());
  }
}

void bring_home(Knowledge& k, std::vector<ClaimRow> claims, const std::vector<ConditionHome>& homes) {
  for (ClaimRow& row : claims) {
    if (row.condition >= 0) {
      const auto& [part, place] = at(homes, row.condition);
      at(k.parts, part).conditions[place].claims.push_back(std::move(row.claim));
    } else if (row.part >= 0) {
      at(k.parts, row.part).claims.push_back(std::move(row.claim));
    } else if (row.family >= 0) {
      at(k.families, row.family).claims.push_back(std::move(row.claim));
    } else {
      auto& silent = at(k.traits, row.claim.trait).unless_stated;
      if (silent) throw BadRow("a trait has two defaults");
      silent = std::move(row.claim);
    }
  }
}

}  // namespace

void load_claims(sqlite3* database, Knowledge& k) {
  const auto homes = load_conditions(database, k);
  auto claims = load_claim_rows(database, k, homes.size());
  load_claim_details(database, claims);
  bring_home(k, std::move(claims), homes);
}

Knowledge load_knowledge(sqlite3* database) {
  Knowledge k;
  load_vocabulary(database, k);
  load_traits(database, k);
  load_advice(database, k);
  load_parts(database, k);
  load_claims(database, k);
  if (const std::string fault = check_knowledge(k); !fault.empty()) throw BadRow(fault);
  return k;
}

}  // namespace loomkey::catalogue
