#include <array>

#include "catalogue/row_writer.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

// Who makes a claim; all -1: the default of its trait.
struct Owner {
  int family = -1;
  int part = -1;
  int condition = -1;
};

class ClaimWriter {
 public:
  explicit ClaimWriter(SQLite::Database& database)
      : claims_(database, "claim", 11),
        states_(database, "claim_state", 3),
        ranges_(database, "claim_range", 5),
        sets_(database, "claim_set", 3),
        items_(database, "claim_set_item", 4) {}

  void write(const Claim& claim, Owner owner) {
    claims_.row(next_, claim.trait, OptionalIndex{owner.family}, OptionalIndex{owner.part},
                OptionalIndex{owner.condition}, claim.verify, OptionalIndex{claim.basis}, claim.special[0],
                claim.special[1], claim.special[2], claim.special[3]);
    for (std::size_t s = 0; s < claim.states.size(); ++s) {
      if (claim.states[s] != 0.0) states_.row(next_, s, claim.states[s]);
    }
    for (std::size_t r = 0; r < claim.ranges.size(); ++r) {
      const Range& range = claim.ranges[r];
      ranges_.row(next_, r, range.low, range.high, range.share);
    }
    for (std::size_t a = 0; a < claim.sets.size(); ++a) {
      sets_.row(next_, a, claim.sets[a].share);
      for (std::size_t i = 0; i < claim.sets[a].items.size(); ++i) items_.row(next_, a, i, claim.sets[a].items[i]);
    }
    ++next_;
  }

  void write_all(const std::vector<Claim>& claims, Owner owner) {
    for (const Claim& claim : claims) write(claim, owner);
  }

 private:
  RowWriter claims_;
  RowWriter states_;
  RowWriter ranges_;
  RowWriter sets_;
  RowWriter items_;
  int next_ = 0;
};

void store_part_rows(SQLite::Database& database, const Knowledge& k) {
  RowWriter families(database, "family", 4);
  for (std::size_t i = 0; i < k.families.size(); ++i) {
    families.row(i, k.families[i].id, k.families[i].name, k.families[i].does);
  }
  RowWriter parts(database, "part", 14);
  for (std::size_t i = 0; i < k.parts.size(); ++i) {
    const Part& p = k.parts[i];
    parts.row(i, p.id, p.name, p.family, p.advice, p.first_year, p.last_year, p.retrofit, p.brought_in, p.where,
              p.strays, p.redundant_when, p.note, OptionalIndex{p.basis});
  }
}

void store_part_lists(SQLite::Database& database, const Knowledge& k) {
  RowWriter words(database, "part_word", 4);
  RowWriter foreign(database, "part_foreign", 4);
  RowWriter numbers(database, "part_number", 4);
  for (std::size_t i = 0; i < k.parts.size(); ++i) {
    const Part& p = k.parts[i];
    const std::array<const std::vector<std::string>*, 6> lists = {&p.aliases, &p.called,     &p.origins,
                                                                  &p.markets, &p.successors, &p.verify};
    for (std::size_t list = 0; list < lists.size(); ++list) {
      for (std::size_t s = 0; s < lists[list]->size(); ++s) words.row(i, list, s, (*lists[list])[s]);
    }
    for (std::size_t s = 0; s < p.foreign.size(); ++s) foreign.row(i, s, p.foreign[s].first, p.foreign[s].second);
    for (std::size_t s = 0; s < p.volts.size(); ++s) numbers.row(i, 0, s, p.volts[s]);
    for (std::size_t s = 0; s < p.cylinders.size(); ++s) numbers.row(i, 1, s, p.cylinders[s]);
  }
}

void store_relations(SQLite::Database& database, const Knowledge& k) {
  RowWriter partners(database, "part_partner", 4);
  RowWriter look_alikes(database, "look_alike", 5);
  RowWriter checks(database, "meter_check", 7);
  for (std::size_t i = 0; i < k.parts.size(); ++i) {
    const Part& p = k.parts[i];
    for (std::size_t s = 0; s < p.works_with.size(); ++s) {
      partners.row(i, s, OptionalIndex{p.works_with[s].part}, OptionalIndex{p.works_with[s].family});
    }
    for (std::size_t s = 0; s < p.look_alikes.size(); ++s) {
      const LookAlike& look_alike = p.look_alikes[s];
      look_alikes.row(i, s, look_alike.part, look_alike.tell, OptionalIndex{look_alike.trait});
    }
    for (std::size_t s = 0; s < p.checks.size(); ++s) {
      const MeterCheck& check = p.checks[s];
      checks.row(i, s, check.how, check.good, check.bad, check.caveat, OptionalIndex{check.basis});
    }
  }
}

void store_confusions(SQLite::Database& database, const Knowledge& k) {
  RowWriter sets(database, "confusion_set", 4);
  RowWriter members(database, "confusion_part", 3);
  RowWriter traits(database, "confusion_trait", 3);
  RowWriter twins(database, "confusion_twins", 4);
  for (std::size_t i = 0; i < k.confusions.size(); ++i) {
    const ConfusionSet& set = k.confusions[i];
    sets.row(i, set.id, set.name, set.tell);
    for (std::size_t s = 0; s < set.parts.size(); ++s) members.row(i, s, set.parts[s]);
    for (std::size_t s = 0; s < set.traits.size(); ++s) traits.row(i, s, set.traits[s]);
    for (std::size_t s = 0; s < set.twins.size(); ++s) twins.row(i, s, set.twins[s].first, set.twins[s].second);
  }
}

}  // namespace

void store_parts(SQLite::Database& database, const Knowledge& k) {
  store_part_rows(database, k);
  store_part_lists(database, k);
  store_relations(database, k);
  store_confusions(database, k);
}

void store_claims(SQLite::Database& database, const Knowledge& k) {
  ClaimWriter claims(database);
  for (const Trait& trait : k.traits) {
    if (trait.unless_stated) claims.write(*trait.unless_stated, {});
  }
  for (std::size_t f = 0; f < k.families.size(); ++f) {
    claims.write_all(k.families[f].claims, {static_cast<int>(f), -1, -1});
  }
  RowWriter conditions(database, "part_condition", 7);
  RowWriter symptoms(database, "condition_symptom", 3);
  int number = 0;
  for (std::size_t p = 0; p < k.parts.size(); ++p) {
    claims.write_all(k.parts[p].claims, {-1, static_cast<int>(p), -1});
    for (const Condition& condition : k.parts[p].conditions) {
      conditions.row(number, p, static_cast<int>(condition.kind), condition.id, condition.name, condition.sees,
                     condition.share);
      for (std::size_t s = 0; s < condition.symptoms.size(); ++s) symptoms.row(number, s, condition.symptoms[s]);
      claims.write_all(condition.claims, {-1, -1, number});
      ++number;
    }
  }
}

}  // namespace loomkey::catalogue
