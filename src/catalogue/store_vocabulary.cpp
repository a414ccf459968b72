#include "catalogue/row_writer.h"

namespace loomkey::catalogue {

using namespace knowledge;

RowWriter::RowWriter(SQLite::Database& database, const std::string& table, int columns)
    : statement_(database, [&] {
        std::string sql = "INSERT INTO " + table + " VALUES (?";
        for (int i = 1; i < columns; ++i) sql += ", ?";
        return sql + ")";
      }()) {}

void RowWriter::bind(int at, OptionalIndex index) {
  if (index.value < 0) {
    statement_.bind(at);
  } else {
    statement_.bind(at, index.value);
  }
}

void store_vocabulary(SQLite::Database& database, const Knowledge& k) {
  RowWriter settings(database, "setting", 2);
  settings.row("tracer_lost", k.tracer_lost);
  settings.row("dark_chance", k.dark_chance);

  RowWriter tools(database, "tool", 4);
  for (std::size_t i = 0; i < k.tools.size(); ++i) tools.row(i, k.tools[i].id, k.tools[i].name, k.tools[i].fetch);

  RowWriter efforts(database, "effort", 5);
  for (std::size_t i = 0; i < k.efforts.size(); ++i) {
    const Effort& effort = k.efforts[i];
    efforts.row(i, effort.id, effort.name, effort.cost, OptionalIndex{effort.tool});
  }

  RowWriter colours(database, "colour", 2);
  for (std::size_t i = 0; i < k.colours.size(); ++i) colours.row(i, k.colours[i].id);
  RowWriter becomes(database, "colour_becomes", 4);
  for (std::size_t i = 0; i < k.colours.size(); ++i) {
    const auto& list = k.colours[i].becomes;
    for (std::size_t s = 0; s < list.size(); ++s) becomes.row(i, s, list[s].first, list[s].second);
  }

  RowWriter things(database, "familiar", 3);
  RowWriter names(database, "familiar_name", 3);
  RowWriter sizes(database, "familiar_size", 3);
  for (std::size_t i = 0; i < k.familiar.size(); ++i) {
    const FamiliarThing& thing = k.familiar[i];
    things.row(i, thing.id, thing.spread);
    for (std::size_t s = 0; s < thing.names.size(); ++s) names.row(i, s, thing.names[s]);
    for (std::size_t s = 0; s < thing.size.size(); ++s) sizes.row(i, s, thing.size[s]);
  }

  RowWriter symptoms(database, "symptom", 3);
  for (std::size_t i = 0; i < k.symptoms.size(); ++i) symptoms.row(i, k.symptoms[i].id, k.symptoms[i].name);
  RowWriter bases(database, "basis", 4);
  for (std::size_t i = 0; i < k.bases.size(); ++i) {
    bases.row(i, k.bases[i].id, static_cast<int>(k.bases[i].kind), k.bases[i].text);
  }
  RowWriter cautions(database, "caution", 5);
  for (std::size_t i = 0; i < k.cautions.size(); ++i) {
    const Caution& caution = k.cautions[i];
    cautions.row(i, caution.id, caution.order, caution.hazard, caution.text);
  }
}

void store_traits(SQLite::Database& database, const Knowledge& k) {
  RowWriter groups(database, "trait_group", 5);
  for (std::size_t i = 0; i < k.groups.size(); ++i) {
    groups.row(i, k.groups[i].id, k.groups[i].name, k.groups[i].switched, k.groups[i].overlap);
  }
  RowWriter traits(database, "trait", 25);
  RowWriter states(database, "trait_state", 4);
  RowWriter seen(database, "trait_seen", 4);
  RowWriter asked(database, "trait_asked_with", 3);
  for (std::size_t i = 0; i < k.traits.size(); ++i) {
    const Trait& t = k.traits[i];
    traits.row(i, t.id, t.name, t.ask, t.how, static_cast<int>(t.kind), static_cast<int>(t.layer), t.effort,
               OptionalIndex{t.group}, t.hazard, t.runs, t.unit, t.log_scale, t.low, t.high, t.soft, t.relative_error,
               t.absolute_error, t.allows[0], t.allows[1], t.allows[2], t.allows[3], t.low_ohm,
               static_cast<int>(t.items), t.none_name);
    for (std::size_t s = 0; s < t.states.size(); ++s) states.row(i, s, t.states[s].id, t.states[s].name);
    for (std::size_t s = 0; s < t.seen.size(); ++s) {
      for (std::size_t o = 0; o < t.seen[s].size(); ++o) {
        if (t.seen[s][o] != 0.0) seen.row(i, s, o, t.seen[s][o]);
      }
    }
    for (std::size_t s = 0; s < t.asked_with.size(); ++s) asked.row(i, s, t.asked_with[s]);
  }
}

void store_advice(SQLite::Database& database, const Knowledge& k) {
  RowWriter records(database, "advice", 7);
  for (std::size_t i = 0; i < k.advice.size(); ++i) {
    const Advice& a = k.advice[i];
    records.row(i, a.id, a.title, a.function, a.needed, static_cast<int>(a.price), OptionalIndex{a.basis});
  }
  RowWriter harmless(database, "advice_harmless_if", 3);
  RowWriter cautions(database, "advice_caution", 3);
  RowWriter substitutes(database, "substitute", 7);
  RowWriter conditions(database, "substitute_condition", 4);
  int number = 0;
  for (std::size_t i = 0; i < k.advice.size(); ++i) {
    const Advice& a = k.advice[i];
    for (std::size_t s = 0; s < a.harmless_if.size(); ++s) harmless.row(i, s, a.harmless_if[s]);
    for (std::size_t s = 0; s < a.cautions.size(); ++s) cautions.row(i, s, a.cautions[s]);
    for (const Substitute& substitute : a.substitutes) {
      substitutes.row(number, i, substitute.what, substitute.connect, substitute.connect_positive,
                      substitute.connect_negative, OptionalIndex{substitute.basis});
      for (std::size_t s = 0; s < substitute.when.size(); ++s) conditions.row(number, true, s, substitute.when[s]);
      for (std::size_t s = 0; s < substitute.not_when.size(); ++s) {
        conditions.row(number, false, s, substitute.not_when[s]);
      }
      ++number;
    }
  }
}

}  // namespace loomkey::catalogue
