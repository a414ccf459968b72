#include <utility>

#include "catalogue/load.h"
#include "catalogue/rows.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

constexpr double huge = 1e12;
constexpr int most = 1000000;

void load_costs(sqlite3* database, Knowledge& k) {
  Rows tools(database, "SELECT idx, id, name, fetch FROM tool ORDER BY idx");
  while (tools.next()) {
    tools.sequence(k.tools.size());
    Tool tool;
    tool.id = tools.text();
    tool.name = tools.text();
    tool.fetch = tools.real(0.0, huge);
    k.tools.push_back(std::move(tool));
  }
  Rows efforts(database, "SELECT idx, id, name, cost, tool FROM effort ORDER BY idx");
  while (efforts.next()) {
    efforts.sequence(k.efforts.size());
    Effort effort;
    effort.id = efforts.text();
    effort.name = efforts.text();
    effort.cost = efforts.real(1e-9, huge);
    effort.tool = efforts.optional_index(k.tools.size());
    k.efforts.push_back(std::move(effort));
  }
}

void load_colours(sqlite3* database, Knowledge& k) {
  Rows settings(database, "SELECT name, value FROM setting ORDER BY name");
  if (!settings.next() || settings.text() != "dark_chance") throw BadRow("setting 'dark_chance' is missing");
  k.dark_chance = settings.real(0.0, 1.0);
  if (!settings.next() || settings.text() != "tracer_lost") throw BadRow("setting 'tracer_lost' is missing");
  k.tracer_lost = settings.real(0.0, 1.0);
  Rows colours(database, "SELECT idx, id FROM colour ORDER BY idx");
  while (colours.next()) {
    colours.sequence(k.colours.size());
    k.colours.push_back({colours.text(), {}});
  }
  Rows becomes(database, "SELECT colour, seq, becomes, chance FROM colour_becomes ORDER BY colour, seq");
  while (becomes.next()) {
    Colour& colour = at(k.colours, becomes.index(k.colours.size()));
    becomes.sequence(colour.becomes.size());
    const int other = becomes.index(k.colours.size());
    colour.becomes.emplace_back(other, becomes.real(0.0, 1.0));
  }
}

void load_familiar(sqlite3* database, Knowledge& k) {
  Rows things(database, "SELECT idx, id, spread FROM familiar ORDER BY idx");
  while (things.next()) {
    things.sequence(k.familiar.size());
    FamiliarThing thing;
    thing.id = things.text();
    thing.spread = things.real(0.0, 1.0);
    k.familiar.push_back(std::move(thing));
  }
  Rows names(database, "SELECT familiar, seq, name FROM familiar_name ORDER BY familiar, seq");
  while (names.next()) {
    FamiliarThing& thing = at(k.familiar, names.index(k.familiar.size()));
    names.sequence(thing.names.size());
    thing.names.push_back(names.text());
  }
  Rows sizes(database, "SELECT familiar, seq, mm FROM familiar_size ORDER BY familiar, seq");
  while (sizes.next()) {
    FamiliarThing& thing = at(k.familiar, sizes.index(k.familiar.size()));
    sizes.sequence(thing.size.size());
    thing.size.push_back(sizes.real(0.0, huge));
  }
}

void load_sources(sqlite3* database, Knowledge& k) {
  Rows symptoms(database, "SELECT idx, id, name FROM symptom ORDER BY idx");
  while (symptoms.next()) {
    symptoms.sequence(k.symptoms.size());
    Symptom symptom;
    symptom.id = symptoms.text();
    symptom.name = symptoms.text();
    k.symptoms.push_back(std::move(symptom));
  }
  Rows bases(database, "SELECT idx, id, kind, text FROM basis ORDER BY idx");
  while (bases.next()) {
    bases.sequence(k.bases.size());
    Basis basis;
    basis.id = bases.text();
    basis.kind = static_cast<Basis::Kind>(bases.integer(0, 3));
    basis.text = bases.text();
    k.bases.push_back(std::move(basis));
  }
  Rows cautions(database, "SELECT idx, id, rank, hazard, text FROM caution ORDER BY idx");
  while (cautions.next()) {
    cautions.sequence(k.cautions.size());
    Caution caution;
    caution.id = cautions.text();
    caution.order = cautions.integer(-most, most);
    caution.hazard = cautions.text();
    caution.text = cautions.text();
    k.cautions.push_back(std::move(caution));
  }
  Rows groups(database, "SELECT idx, id, name, switched, overlap FROM trait_group ORDER BY idx");
  while (groups.next()) {
    groups.sequence(k.groups.size());
    Group group;
    group.id = groups.text();
    group.name = groups.text();
    group.switched = groups.real(0.0, 1.0);
    group.overlap = groups.real(0.0, 1.0);
    k.groups.push_back(std::move(group));
  }
}

}  // namespace

void load_vocabulary(sqlite3* database, Knowledge& k) {
  load_costs(database, k);
  load_colours(database, k);
  load_familiar(database, k);
  load_sources(database, k);
}

void load_traits(sqlite3* database, Knowledge& k) {
  Rows traits(database,
              "SELECT idx, id, name, ask, how, kind, layer, effort, trait_group, hazard, runs, unit, log_scale, low, "
              "high, soft, relative_error, absolute_error, allows_ol, allows_zero, allows_jumps, allows_na, low_ohm, "
              "items, none_name FROM trait ORDER BY idx");
  while (traits.next()) {
    traits.sequence(k.traits.size());
    Trait trait;
    trait.id = traits.text();
    trait.name = traits.text();
    trait.ask = traits.text();
    trait.how = traits.text();
    trait.kind = static_cast<TraitKind>(traits.integer(0, 2));
    trait.layer = static_cast<Layer>(traits.integer(0, 1));
    trait.effort = traits.index(k.efforts.size());
    trait.group = traits.optional_index(k.groups.size());
    trait.hazard = traits.text();
    trait.runs = traits.flag();
    trait.unit = traits.text();
    trait.log_scale = traits.flag();
    trait.low = traits.real(-huge, huge);
    trait.high = traits.real(-huge, huge);
    trait.soft = traits.real(0.0, huge);
    trait.relative_error = traits.real(0.0, huge);
    trait.absolute_error = traits.real(0.0, huge);
    for (bool& allowed : trait.allows) allowed = traits.flag();
    trait.low_ohm = traits.flag();
    trait.items = static_cast<SetItems>(traits.integer(0, 1));
    trait.none_name = traits.text();
    k.traits.push_back(std::move(trait));
  }
  Rows states(database, "SELECT trait, seq, id, name FROM trait_state ORDER BY trait, seq");
  while (states.next()) {
    Trait& trait = at(k.traits, states.index(k.traits.size()));
    states.sequence(trait.states.size());
    State state;
    state.id = states.text();
    state.name = states.text();
    trait.states.push_back(std::move(state));
  }
  for (Trait& trait : k.traits) {
    trait.seen.assign(trait.states.size(), std::vector<double>(trait.states.size(), 0.0));
  }
  Rows seen(database, "SELECT trait, truth, reported, chance FROM trait_seen ORDER BY trait, truth, reported");
  while (seen.next()) {
    Trait& trait = at(k.traits, seen.index(k.traits.size()));
    auto& row = at(trait.seen, seen.index(trait.states.size()));
    double& chance = at(row, seen.index(row.size()));
    chance = seen.real(0.0, 1.0);
  }
  Rows asked(database, "SELECT trait, seq, letters FROM trait_asked_with ORDER BY trait, seq");
  while (asked.next()) {
    Trait& trait = at(k.traits, asked.index(k.traits.size()));
    asked.sequence(trait.asked_with.size());
    trait.asked_with.push_back(asked.text());
  }
}

}  // namespace loomkey::catalogue
