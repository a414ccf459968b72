#include <array>
#include <utility>

#include "catalogue/load.h"
#include "catalogue/rows.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

constexpr int last_possible_year = 9999;
constexpr int largest_number = 1000000;

void load_families(sqlite3* database, Knowledge& k) {
  Rows families(database, "SELECT idx, id, name, does FROM family ORDER BY idx");
  while (families.next()) {
    families.sequence(k.families.size());
    Family family;
    family.id = families.text();
    family.name = families.text();
    family.does = families.text();
    k.families.push_back(std::move(family));
  }
}

void load_part_rows(sqlite3* database, Knowledge& k) {
  Rows parts(database,
             "SELECT idx, id, name, family, advice, first_year, last_year, retrofit, brought_in, usual_place, strays, "
             "redundant_when, note, basis FROM part ORDER BY idx");
  while (parts.next()) {
    parts.sequence(k.parts.size());
    Part part;
    part.id = parts.text();
    part.name = parts.text();
    part.family = parts.index(k.families.size());
    part.advice = parts.index(k.advice.size());
    part.first_year = parts.integer(0, last_possible_year);
    part.last_year = parts.integer(0, last_possible_year);
    part.retrofit = parts.flag();
    part.brought_in = parts.real(1e-9, 1e9);
    part.where = parts.text();
    part.strays = parts.text();
    part.redundant_when = parts.text();
    part.note = parts.text();
    part.basis = parts.optional_index(k.bases.size());
    k.parts.push_back(std::move(part));
  }
}

void load_part_lists(sqlite3* database, Knowledge& k) {
  Rows words(database, "SELECT part, list, seq, word FROM part_word ORDER BY part, list, seq");
  while (words.next()) {
    Part& part = at(k.parts, words.index(k.parts.size()));
    const std::array<std::vector<std::string>*, 6> lists = {&part.aliases, &part.called,     &part.origins,
                                                            &part.markets, &part.successors, &part.verify};
    auto& list = *lists[static_cast<std::size_t>(words.integer(0, 5))];
    words.sequence(list.size());
    list.push_back(words.text());
  }
  Rows foreign(database, "SELECT part, seq, language, term FROM part_foreign ORDER BY part, seq");
  while (foreign.next()) {
    Part& part = at(k.parts, foreign.index(k.parts.size()));
    foreign.sequence(part.foreign.size());
    std::string language = foreign.text();
    part.foreign.emplace_back(std::move(language), foreign.text());
  }
  Rows numbers(database, "SELECT part, list, seq, value FROM part_number ORDER BY part, list, seq");
  while (numbers.next()) {
    Part& part = at(k.parts, numbers.index(k.parts.size()));
    auto& list = numbers.integer(0, 1) == 0 ? part.volts : part.cylinders;
    numbers.sequence(list.size());
    list.push_back(numbers.integer(1, largest_number));
  }
  Rows partners(database, "SELECT part, seq, partner, partner_family FROM part_partner ORDER BY part, seq");
  while (partners.next()) {
    Part& part = at(k.parts, partners.index(k.parts.size()));
    partners.sequence(part.works_with.size());
    Partner partner;
    partner.part = partners.optional_index(k.parts.size());
    partner.family = partners.optional_index(k.families.size());
    part.works_with.push_back(partner);
  }
}

void load_look_alikes(sqlite3* database, Knowledge& k) {
  Rows look_alikes(database, "SELECT part, seq, other, tell, trait FROM look_alike ORDER BY part, seq");
  while (look_alikes.next()) {
    Part& part = at(k.parts, look_alikes.index(k.parts.size()));
    look_alikes.sequence(part.look_alikes.size());
    LookAlike look_alike;
    look_alike.part = look_alikes.index(k.parts.size());
    look_alike.tell = look_alikes.text();
    look_alike.trait = look_alikes.optional_index(k.traits.size());
    part.look_alikes.push_back(std::move(look_alike));
  }
  Rows checks(database, "SELECT part, seq, how, good, bad, caveat, basis FROM meter_check ORDER BY part, seq");
  while (checks.next()) {
    Part& part = at(k.parts, checks.index(k.parts.size()));
    checks.sequence(part.checks.size());
    MeterCheck check;
    check.how = checks.text();
    check.good = checks.text();
    check.bad = checks.text();
    check.caveat = checks.text();
    check.basis = checks.optional_index(k.bases.size());
    part.checks.push_back(std::move(check));
  }
}

void load_confusions(sqlite3* database, Knowledge& k) {
  Rows sets(database, "SELECT idx, id, name, tell FROM confusion_set ORDER BY idx");
  while (sets.next()) {
    sets.sequence(k.confusions.size());
    ConfusionSet set;
    set.id = sets.text();
    set.name = sets.text();
    set.tell = sets.text();
    k.confusions.push_back(std::move(set));
  }
  Rows members(database, "SELECT confusion, seq, part FROM confusion_part ORDER BY confusion, seq");
  while (members.next()) {
    ConfusionSet& set = at(k.confusions, members.index(k.confusions.size()));
    members.sequence(set.parts.size());
    set.parts.push_back(members.index(k.parts.size()));
  }
  Rows traits(database, "SELECT confusion, seq, trait FROM confusion_trait ORDER BY confusion, seq");
  while (traits.next()) {
    ConfusionSet& set = at(k.confusions, traits.index(k.confusions.size()));
    traits.sequence(set.traits.size());
    set.traits.push_back(traits.index(k.traits.size()));
  }
  Rows twins(database, "SELECT confusion, seq, part, other FROM confusion_twins ORDER BY confusion, seq");
  while (twins.next()) {
    ConfusionSet& set = at(k.confusions, twins.index(k.confusions.size()));
    twins.sequence(set.twins.size());
    const int part = twins.index(k.parts.size());
    set.twins.emplace_back(part, twins.index(k.parts.size()));
  }
}

}  // namespace

void load_advice(sqlite3* database, Knowledge& k) {
  Rows records(database, "SELECT idx, id, title, function, needed, price, basis FROM advice ORDER BY idx");
  while (records.next()) {
    records.sequence(k.advice.size());
    Advice advice;
    advice.id = records.text();
    advice.title = records.text();
    advice.function = records.text();
    advice.needed = records.text();
    advice.price = static_cast<Price>(records.integer(0, 4));
    advice.basis = records.optional_index(k.bases.size());
    k.advice.push_back(std::move(advice));
  }
  Rows harmless(database, "SELECT advice, seq, other FROM advice_harmless_if ORDER BY advice, seq");
  while (harmless.next()) {
    Advice& advice = at(k.advice, harmless.index(k.advice.size()));
    harmless.sequence(advice.harmless_if.size());
    advice.harmless_if.push_back(harmless.index(k.advice.size()));
  }
  Rows cautions(database, "SELECT advice, seq, caution FROM advice_caution ORDER BY advice, seq");
  while (cautions.next()) {
    Advice& advice = at(k.advice, cautions.index(k.advice.size()));
    cautions.sequence(advice.cautions.size());
    advice.cautions.push_back(cautions.index(k.cautions.size()));
  }
  std::vector<std::pair<int, std::size_t>> homes;  // of each substitute: its advice and its place there
  Rows substitutes(database,
                   "SELECT idx, advice, what, connect, connect_positive, connect_negative, basis FROM substitute "
                   "ORDER BY idx");
  while (substitutes.next()) {
    substitutes.sequence(homes.size());
    const int home = substitutes.index(k.advice.size());
    Substitute substitute;
    substitute.what = substitutes.text();
    substitute.connect = substitutes.text();
    substitute.connect_positive = substitutes.text();
    substitute.connect_negative = substitutes.text();
    substitute.basis = substitutes.optional_index(k.bases.size());
    homes.emplace_back(home, at(k.advice, home).substitutes.size());
    at(k.advice, home).substitutes.push_back(std::move(substitute));
  }
  Rows conditions(database,
                  "SELECT substitute, holds, seq, text FROM substitute_condition ORDER BY substitute, holds, seq");
  while (conditions.next()) {
    const auto& [home, place] = at(homes, conditions.index(homes.size()));
    Substitute& substitute = at(k.advice, home).substitutes[place];
    auto& list = conditions.flag() ? substitute.when : substitute.not_when;
    conditions.sequence(list.size());
    list.push_back(conditions.text());
  }
}

void load_parts(sqlite3* database, Knowledge& k) {
  load_families(database, k);
  load_part_rows(database, k);
  load_part_lists(database, k);
  load_look_alikes(database, k);
  load_confusions(database, k);
}

}  // namespace loomkey::catalogue
