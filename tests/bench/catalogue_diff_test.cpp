#include "bench/catalogue_diff.h"

#include <algorithm>
#include <functional>

#include <catch2/catch.hpp>

#include "catalogue/content_hash.h"
#include "catalogue/sources.h"
#include "support/overlay_folder.h"
#include "support/real_data.h"
#include "support/tiny_sources.h"

using namespace loomkey;
using namespace loomkey::knowledge;
using bench::catalogue_diff;
using bench::CatalogueDiff;
using bench::KindDiff;

namespace {

const char* const parts_file = "parts/flasher.toml";
const char* const advice_file = "advice/flasher.toml";

Knowledge read(support::TinySources& sources) {
  catalogue::SourceReport report = catalogue::read_sources(sources.write());
  for (const Error& error : report.errors) UNSCOPED_INFO(error.message());
  REQUIRE(report.ok());
  report.knowledge.hash = catalogue::content_hash(report.knowledge);
  return report.knowledge;
}

Knowledge tiny() {
  support::TinySources sources;
  sources.file("confusions.toml") =
      "[[confusion]]\nid = \"all\"\nname = \"all\"\nmembers = [\"flasher-thermal\", \"flasher-electronic\"]\n"
      "traits = [\"form\"]\ntell = \"look\"\n";
  return read(sources);
}

std::size_t changes(const CatalogueDiff& diff) {
  std::size_t count = diff.merged.size() + diff.split.size() + diff.replaced.size();
  const auto add = [&](const KindDiff& kind) {
    count += kind.added.size() + kind.removed.size() + kind.renamed.size() + (kind.reordered ? 1 : 0);
    for (const auto& item : kind.changed) count += item.fields.size() + item.claims.size();
  };
  add(diff.parts);
  add(diff.advice);
  for (const KindDiff& kind : diff.rest) add(kind);
  return count;
}

const KindDiff& kind_of(const CatalogueDiff& diff, const std::string& one) {
  for (const KindDiff& kind : diff.rest) {
    if (kind.one == one) return kind;
  }
  throw std::runtime_error("no such kind");
}

// A new part of the tiny catalogue with advice of its own.
void add_part(support::TinySources& sources, const std::string& id, const std::string& advice) {
  sources.file("parts/more.toml") += support::part_text(id, advice);
}

void add_advice(support::TinySources& sources, const std::string& id) {
  sources.file("advice/more.toml") += support::advice_text(id);
}

}  // namespace

TEST_CASE("a catalogue does not differ from itself", "[diff]") {
  const Knowledge k = tiny();
  const CatalogueDiff diff = catalogue_diff(k, k);
  CHECK(diff.identical());
  CHECK(changes(diff) == 0);
}

TEST_CASE("whatever changes one entry is found, and once", "[diff]") {
  const Knowledge was = tiny();
  const std::vector<std::function<void(Knowledge&)>> mutations = {
      [](Knowledge& k) { k.parts[1].name += "x"; },
      [](Knowledge& k) { k.parts[1].aliases.push_back("x"); },
      [](Knowledge& k) { k.parts[1].foreign.emplace_back("es", "x"); },
      [](Knowledge& k) { k.parts[1].called.clear(); },
      [](Knowledge& k) { ++k.parts[1].last_year; },
      [](Knowledge& k) { k.parts[1].retrofit = true; },
      [](Knowledge& k) { k.parts[1].brought_in = 0.4; },
      [](Knowledge& k) { k.parts[1].origins.push_back("soviet"); },
      [](Knowledge& k) { k.parts[1].markets.push_back("usa"); },
      [](Knowledge& k) { k.parts[1].volts.push_back(6); },
      [](Knowledge& k) { k.parts[1].cylinders.push_back(2); },
      [](Knowledge& k) { k.parts[1].where += "x"; },
      [](Knowledge& k) { k.parts[1].strays += "x"; },
      [](Knowledge& k) { k.parts[1].works_with.pop_back(); },
      [](Knowledge& k) { k.parts[1].redundant_when += "x"; },
      [](Knowledge& k) { k.parts[1].note = "x"; },
      [](Knowledge& k) { k.parts[1].basis = 1; },
      [](Knowledge& k) { k.parts[1].successors.push_back("flasher-electronic"); },
      [](Knowledge& k) { k.parts[1].verify.pop_back(); },
      [](Knowledge& k) { k.parts[1].checks[0].bad = "x"; },
      [](Knowledge& k) { k.parts[1].checks[0].basis = 0; },
      [](Knowledge& k) { k.parts[1].look_alikes[0].tell = "x"; },
      [](Knowledge& k) { k.parts[1].look_alikes[0].trait = 1; },
      [](Knowledge& k) {
        k.parts[1].claims[0].states = {0.9, 0.1, 0.0};
      },
      [](Knowledge& k) { k.parts[1].claims[0].verify = true; },
      [](Knowledge& k) { k.parts[1].claims[0].basis = 1; },
      [](Knowledge& k) { k.parts[1].conditions[1].sees = "x"; },
      [](Knowledge& k) { k.parts[1].conditions[1].name = "x"; },
      [](Knowledge& k) { k.parts[1].conditions[1].share += 0.01; },
      [](Knowledge& k) { k.parts[1].conditions[1].symptoms.clear(); },
      [](Knowledge& k) { k.parts[1].conditions[1].claims.clear(); },
      [](Knowledge& k) { k.parts[1].conditions.erase(k.parts[1].conditions.begin() + 1); },
      [](Knowledge& k) { std::swap(k.parts[1].conditions[1], k.parts[1].conditions[2]); },
      [](Knowledge& k) { k.advice[0].title += "x"; },
      [](Knowledge& k) { k.advice[0].function += "x"; },
      [](Knowledge& k) { k.advice[0].needed += "x"; },
      [](Knowledge& k) { k.advice[0].price = Price::injury; },
      [](Knowledge& k) { k.advice[0].harmless_if.clear(); },
      [](Knowledge& k) { k.advice[0].cautions.pop_back(); },
      [](Knowledge& k) { k.advice[0].basis = 1; },
      [](Knowledge& k) { k.advice[0].substitutes[0].when.push_back("x"); },
      [](Knowledge& k) { k.advice[0].substitutes[0].not_when.push_back("x"); },
      [](Knowledge& k) { k.advice[0].substitutes[0].connect = "x"; },
      [](Knowledge& k) { k.advice[0].substitutes[0].connect_positive = "x"; },
      [](Knowledge& k) { k.advice[0].substitutes[0].connect_negative = "x"; },
      [](Knowledge& k) { k.families[0].does = "x"; },
      [](Knowledge& k) { k.families[0].claims.pop_back(); },
      [](Knowledge& k) { k.confusions[0].tell = "x"; },
      [](Knowledge& k) { k.confusions[0].traits.push_back(1); },
      [](Knowledge& k) { k.confusions[0].twins.emplace_back(0, 1); },
      [](Knowledge& k) { std::swap(k.confusions[0].parts[0], k.confusions[0].parts[1]); },
      [](Knowledge& k) { k.traits[0].ask = "x"; },
      [](Knowledge& k) { k.traits[0].how = "x"; },
      [](Knowledge& k) { k.traits[0].effort = 1; },
      [](Knowledge& k) { k.traits[0].group = -1; },
      [](Knowledge& k) { k.traits[0].hazard = "x"; },
      [](Knowledge& k) { k.traits[0].runs = true; },
      [](Knowledge& k) { k.traits[0].states[0].name = "x"; },
      [](Knowledge& k) {
        k.traits[0].seen[0] = {0.9, 0.1, 0.0};
      },
      [](Knowledge& k) { k.traits[6].soft = 0.2; },
      [](Knowledge& k) { k.traits[6].relative_error = 0.2; },
      [](Knowledge& k) { k.traits[6].absolute_error = 0.2; },
      [](Knowledge& k) { k.traits[6].high = 601; },
      [](Knowledge& k) { k.traits[6].log_scale = false; },
      [](Knowledge& k) { k.traits[9].low_ohm = false; },
      [](Knowledge& k) { k.traits[9].asked_with.pop_back(); },
      [](Knowledge& k) { k.traits[9].allows[1] = false; },
      [](Knowledge& k) { k.traits[9].unless_stated.reset(); },
      [](Knowledge& k) { k.traits[2].none_name = "x"; },
      [](Knowledge& k) { k.efforts[0].cost = 2; },
      [](Knowledge& k) { k.tools[0].fetch = 2; },
      [](Knowledge& k) { k.groups[0].switched = 0.5; },
      [](Knowledge& k) { k.groups[0].overlap = 0.5; },
      [](Knowledge& k) { k.colours[0].becomes[0].second = 0.05; },
      [](Knowledge& k) { k.tracer_lost = 0.2; },
      [](Knowledge& k) { k.dark_chance = 0.2; },
      [](Knowledge& k) { k.familiar[0].size[0] = 54; },
      [](Knowledge& k) { k.familiar[0].names.pop_back(); },
      [](Knowledge& k) { k.familiar[0].spread = 0.3; },
      [](Knowledge& k) { k.symptoms[0].name = "x"; },
      [](Knowledge& k) { k.bases[0].kind = Basis::Kind::handbook; },
      [](Knowledge& k) { k.cautions[0].text = "x"; },
      [](Knowledge& k) { k.cautions[0].hazard = "x"; },
      [](Knowledge& k) { k.cautions[0].order = 9; },
  };
  for (std::size_t i = 0; i < mutations.size(); ++i) {
    Knowledge is = was;
    mutations[i](is);
    is.hash = catalogue::content_hash(is);
    INFO("mutation " << i);
    CHECK(is.hash != was.hash);
    const CatalogueDiff diff = catalogue_diff(was, is);
    CHECK_FALSE(diff.identical());
    CHECK(changes(diff) == 1);
    CHECK(changes(catalogue_diff(is, was)) == 1);
  }
}

TEST_CASE("a change is told with what was and what is", "[diff]") {
  support::TinySources sources;
  const Knowledge was = read(sources);
  sources.replace(parts_file, "where = \"under the seat\"", "where = \"in the headlamp\"");
  sources.replace(parts_file,
                  "letters = { sets = [ { of = [\"L\", \"B\"], often = \"always\" }, { of = [], often = \"rare\" } ] }",
                  "letters = [\"X\"]");
  const CatalogueDiff diff = catalogue_diff(was, read(sources));
  REQUIRE(diff.parts.changed.size() == 1);
  const auto& change = diff.parts.changed[0];
  CHECK(change.item.id == "flasher-thermal");
  REQUIRE(change.fields.size() == 1);
  CHECK(change.fields[0].what == "usually sits");
  CHECK(change.fields[0].was == "under the seat");
  CHECK(change.fields[0].is == "in the headlamp");
  REQUIRE(change.claims.size() == 1);
  CHECK(change.claims[0].trait_was == was.trait("letters"));
  CHECK(change.claims[0].was->sets[0].items == std::vector<std::string>{"B", "L"});
  CHECK(change.claims[0].is->sets[0].items == std::vector<std::string>{"X"});
}

TEST_CASE("parts come and go, and a place in the list is no change", "[diff]") {
  support::TinySources sources;
  const Knowledge was = read(sources);
  add_part(sources, "a-new-one", "flasher-old");
  const Knowledge is = read(sources);
  const CatalogueDiff diff = catalogue_diff(was, is);
  REQUIRE(diff.parts.added.size() == 1);
  CHECK(diff.parts.added[0].id == "a-new-one");
  CHECK(changes(diff) == 1);
  const CatalogueDiff back = catalogue_diff(is, was);
  REQUIRE(back.parts.removed.size() == 1);
  CHECK(back.parts.removed[0].name == "part a-new-one");
  CHECK(changes(back) == 1);
}

TEST_CASE("a trait that moves or comes new changes no claim", "[diff]") {
  support::TinySources sources;
  const Knowledge was = read(sources);
  sources.file("traits/look.toml").insert(0, R"([[trait]]
id = "rust"
kind = "yesno"
name = "rust"
ask = "Is it rusty?"
how = "Look."
effort = "look"
unless_stated = "no"

)");
  const CatalogueDiff diff = catalogue_diff(was, read(sources));
  REQUIRE(kind_of(diff, "trait").added.size() == 1);
  CHECK(changes(diff) == 1);
}

TEST_CASE("a part under another id is renamed, and what names it does not change", "[diff]") {
  support::TinySources sources;
  const Knowledge was = read(sources);
  for (std::string* text : {&sources.file(parts_file)}) {
    for (std::size_t at = text->find("flasher-electronic"); at != std::string::npos;
         at = text->find("flasher-electronic", at)) {
      text->replace(at, 18, "blinker");
    }
  }
  const CatalogueDiff diff = catalogue_diff(was, read(sources));
  REQUIRE(diff.parts.renamed.size() == 1);
  CHECK(diff.parts.renamed[0].first.id == "flasher-electronic");
  CHECK(diff.parts.renamed[0].second.id == "blinker");
  CHECK(changes(diff) == 1);
}

TEST_CASE("successors tell where a removed part went", "[diff]") {
  support::TinySources sources;
  add_part(sources, "old-one", "flasher-old");
  add_part(sources, "next", "flasher-old");
  support::TinySources later;
  add_part(later, "next", "flasher-old");
  std::string& more = sources.file("parts/more.toml");
  more.insert(more.find("basis"), "successors = [\"next\", \"flasher-thermal\"]\n");
  const CatalogueDiff diff = catalogue_diff(read(sources), read(later));
  REQUIRE(diff.replaced.size() == 1);
  CHECK(diff.replaced[0].one == "old-one");
  CHECK(diff.replaced[0].many == std::vector<std::string>{"next", "flasher-thermal"});
  CHECK(diff.parts.removed.size() == 1);
}

TEST_CASE("classes are merged, split and renamed", "[diff]") {
  support::TinySources apart;
  add_part(apart, "p1", "one");
  add_part(apart, "p2", "two");
  add_advice(apart, "one");
  add_advice(apart, "two");
  support::TinySources together;
  add_part(together, "p1", "one");
  add_part(together, "p2", "one");
  add_advice(together, "one");
  const Knowledge two = read(apart);
  const Knowledge one = read(together);
  const CatalogueDiff merged = catalogue_diff(two, one);
  REQUIRE(merged.merged.size() == 1);
  CHECK(merged.merged[0].one == "one");
  CHECK(merged.merged[0].many == std::vector<std::string>{"one", "two"});
  CHECK(merged.split.empty());
  const CatalogueDiff split = catalogue_diff(one, two);
  REQUIRE(split.split.size() == 1);
  CHECK(split.split[0].many == std::vector<std::string>{"one", "two"});
  CHECK(split.merged.empty());

  support::TinySources renamed;
  renamed.replace(advice_file, "id = \"flasher-new\"", "id = \"blinker\"");
  renamed.replace(parts_file, "advice = \"flasher-new\"", "advice = \"blinker\"");
  support::TinySources plain;
  const CatalogueDiff diff = catalogue_diff(read(plain), read(renamed));
  REQUIRE(diff.advice.renamed.size() == 1);
  CHECK(diff.advice.renamed[0].second.id == "blinker");
  CHECK(changes(diff) == 1);
}

TEST_CASE("a part that moves to a class that stays neither merges nor splits", "[diff]") {
  support::TinySources sources;
  add_part(sources, "p1", "flasher-old");
  const Knowledge was = read(sources);
  sources.replace("parts/more.toml", "advice = \"flasher-old\"", "advice = \"flasher-new\"");
  const CatalogueDiff diff = catalogue_diff(was, read(sources));
  CHECK(changes(diff) == 1);
  CHECK(diff.parts.changed.at(0).fields.at(0).what == "advice");
}

TEST_CASE("what a family claims is told once, not for each of its parts", "[diff]") {
  support::TinySources sources;
  const Knowledge was = read(sources);
  sources.replace("families/flasher.toml", "terminal_count = \"2\"", "terminal_count = \"1\"");
  const CatalogueDiff diff = catalogue_diff(was, read(sources));
  CHECK(changes(diff) == 1);
  CHECK(kind_of(diff, "family").changed.at(0).claims.size() == 1);
}

TEST_CASE("a claim that a part restates for itself is no difference", "[diff]") {
  support::TinySources sources;
  const Knowledge was = read(sources);
  sources.replace(parts_file, "form = { can = \"always\"", "terminal_count = \"2\"\nform = { can = \"always\"");
  const CatalogueDiff diff = catalogue_diff(was, read(sources));
  CHECK_FALSE(diff.identical());
  CHECK(changes(diff) == 0);
}

TEST_CASE("the shipped catalogue against one where every part has another id ends soon", "[diff]") {
  catalogue::SourceReport report = catalogue::read_sources(support::real_data());
  REQUIRE(report.ok());
  report.knowledge.hash = catalogue::content_hash(report.knowledge);
  Knowledge renamed = report.knowledge;
  for (Part& part : renamed.parts) part.id = "x-" + part.id;
  renamed.hash = catalogue::content_hash(renamed);
  const CatalogueDiff diff = catalogue_diff(report.knowledge, renamed);
  // Parts that name others differ in those names too, as long as none of them is recognised.
  CHECK(diff.parts.added.size() == diff.parts.removed.size());
  CHECK(diff.parts.added.size() + diff.parts.renamed.size() == renamed.parts.size());
}
