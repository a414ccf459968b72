#include <filesystem>
#include <functional>

#include <catch2/catch.hpp>

#include "catalogue/catalogue.h"
#include "catalogue/content_hash.h"
#include "catalogue/mistakes.h"
#include "catalogue/store.h"
#include "support/same_knowledge.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Knowledge;

constexpr const char* set_file = "confusions.toml";

const std::string& good_text() {
  static const std::string text = R"([[confusion]]
id = "blinkers"
name = "blinking thing"
members = ["flasher-thermal", "flasher-electronic"]
traits = ["ohm", "form"]
tell = "measure it"
twins = [["flasher-electronic", "flasher-thermal"]]
)";
  return text;
}

struct SetSources : support::TinySources {
  explicit SetSources(const std::string& text) { file(set_file) = text; }
};

Knowledge with_set() {
  SetSources sources(good_text());
  const SourceReport report = read_sources(sources.write());
  REQUIRE(report.ok());
  return report.knowledge;
}

TEST_CASE("a confusion set keeps its members and traits in the written order") {
  const Knowledge k = with_set();
  REQUIRE(k.confusions.size() == 1);
  const auto& set = k.confusions[0];
  const int thermal = k.part("flasher-thermal");
  const int electronic = k.part("flasher-electronic");
  CHECK(set.id == "blinkers");
  CHECK(set.name == "blinking thing");
  CHECK(set.tell == "measure it");
  CHECK(set.parts == std::vector<int>{thermal, electronic});
  CHECK(set.traits == std::vector<int>{k.trait("ohm"), k.trait("form")});
  CHECK(set.holds(thermal));
  CHECK_FALSE(set.holds(99));
  CHECK(set.are_twins(thermal, electronic));
  CHECK(set.are_twins(electronic, thermal));
  CHECK_FALSE(set.are_twins(thermal, thermal));
}

TEST_CASE("a catalogue may do without confusion sets") {
  support::TinySources sources;
  const SourceReport report = read_sources(sources.write());
  CHECK(report.ok());
  CHECK(report.knowledge.confusions.empty());
}

TEST_CASE("a file of confusion sets that cannot be read is reported") {
  support::TinySources sources;
  const auto data = sources.write();
  std::filesystem::create_directory(data / set_file);
  const SourceReport report = read_sources(data);
  REQUIRE(report.errors.size() == 1);
  CHECK_THAT(report.errors[0].message(), Catch::StartsWith("confusions.toml:1:1: expected a file of TOML text"));
}

TEST_CASE("confusion sets come back from the file as they went in, and are part of the hash") {
  support::TempDir dir;
  const Knowledge before = with_set();
  REQUIRE(write_catalogue(before, dir / "c.sqlite").has_value());
  const auto opened = open_catalogue(dir / "c.sqlite");
  REQUIRE(opened.has_value());
  CHECK(support::differences(before, *opened->knowledge()) == std::vector<std::string>{});
  const std::string hash = content_hash(before);
  const auto changed = [&](const std::function<void(knowledge::ConfusionSet&)>& change) {
    Knowledge other = before;
    change(other.confusions[0]);
    CHECK(content_hash(other) != hash);
    CHECK(support::differences(before, other) == std::vector<std::string>{"confusions[0]"});
  };
  changed([](auto& set) { set.id += "x"; });
  changed([](auto& set) { set.name += "x"; });
  changed([](auto& set) { set.tell += "x"; });
  changed([](auto& set) { std::swap(set.parts[0], set.parts[1]); });
  changed([](auto& set) { set.traits.pop_back(); });
  changed([](auto& set) { set.twins.clear(); });
}

TEST_CASE("a wrong confusion set names its place, what was expected and the nearest known name") {
  check_mistakes(
      {
          {set_file, "[\"flasher-thermal\", \"flasher-e", "[\"flasher-thermal\", \"flasher-electonic\", \"flasher-e",
           "\"flasher-electonic\"", "unknown part 'flasher-electonic'. Did you mean 'flasher-electronic'?"},
          {set_file, "\"ohm\"", "\"ohn\"", "\"ohn\"", "unknown trait 'ohn'. Did you mean 'ohm'?"},
          {set_file, "\"ohm\", \"form\"", "\"form\", \"form\"", "\"form\"]",
           "traits 'form' is given twice; first at confusions.toml"},
          {set_file, "[\"ohm\", \"form\"]", "[]", "[]", "confusion 'blinkers': 'traits' names no trait"},
          {set_file, "[\"ohm\", \"form\"]", "\"ohm\"", "\"ohm\"", "expected a list of texts"},
          {set_file, ", \"flasher-electronic\"]\ntr", ", \"flasher-electronic\", \"flasher-thermal\"]\ntr",
           "\"flasher-thermal\"]\ntr", "members 'flasher-thermal' is given twice; first at confusions.toml:4:12"},
          {set_file, "tell = \"measure it\"\n", "", "[[confusion]]", "confusion 'blinkers': 'tell' is missing"},
          {set_file, "tell", "tells = \"x\"\ntell", "tells", "unknown key 'tells'. Did you mean 'tell'?"},
          {set_file, "\"blinkers\"", "\"Blinkers\"", "\"Blinkers\"", "an id is made of small letters"},
          {set_file, "[[\"flasher-electronic\", ", "[[", "[\"flasher-thermal\"]]", "twins are pairs of two members"},
          {set_file, "[[\"flasher-electronic\", \"flasher-thermal\"]]", "\"none\"", "\"none\"",
           "expected a list of pairs"},
          {set_file, "[[\"flasher-electronic\", \"flasher-th", "[[\"flasher-electronic\", \"flasher-thx",
           "\"flasher-thx", "unknown part"},
          {set_file, "[[\"flasher-electronic\"", "[[\"flasher-thermal\"", "\"flasher-thermal\"]]",
           "is no twin of itself"},
          {set_file, "\"flasher-thermal\"]]\n",
           "\"flasher-thermal\"], [\"flasher-thermal\", \"flasher-electronic\"]]\n",
           "[\"flasher-thermal\", \"flasher-electronic\"]]", "these twins are given twice"},
      },
      {{set_file, good_text()}});
}

TEST_CASE("a set of one is no confusion") {
  check_mistakes({{set_file,
                   ", \"flasher-electronic\"]\ntraits = [\"ohm\", \"form\"]\ntell = \"measure it\"\ntwins = "
                   "[[\"flasher-electronic\", \"flasher-thermal\"]]",
                   "]\ntraits = [\"ohm\"]\ntell = \"x\"", "[\"flasher-thermal\"]",
                   "confusion 'blinkers': two members at least can be mixed up"}},
                 {{set_file, good_text()}});
}

TEST_CASE("a set given twice names both places") {
  SetSources sources(good_text() + good_text());
  const SourceReport report = read_sources(sources.write());
  REQUIRE(report.errors.size() == 1);
  CHECK(report.errors[0].message() ==
        "confusions.toml:9:6: confusion set id 'blinkers' is given twice; first at confusions.toml:2:6");
}

TEST_CASE("members that share an advice record must be twins") {
  const auto judged = [](const std::string& text) {
    SetSources sources(text);
    sources.replace(parts, "advice = \"flasher-old\"", "advice = \"flasher-new\"");
    std::vector<std::string> messages;
    for (const Error& error : read_sources(sources.write()).errors) {
      if (error.where.starts_with(set_file)) messages.push_back(error.message());
    }
    return messages;
  };
  CHECK(judged(good_text()).empty());
  CHECK(judged(good_text().substr(0, good_text().find("twins"))) ==
        std::vector<std::string>{"confusions.toml:4:31: confusion 'blinkers': 'flasher-electronic' shares the advice "
                                 "record 'flasher-new' with 'flasher-thermal'; name the two as twins or part their "
                                 "advice"});
}

TEST_CASE("a twin from outside the set is refused") {
  SetSources sources(good_text());
  sources.file(parts) += sources.file(parts).substr(0, sources.file(parts).find("[[part]]", 1));
  std::string& text = sources.file(parts);
  text.replace(text.rfind("id = \"flasher-thermal\""), 22, "id = \"flasher-third\"");
  sources.replace(set_file, "[[\"flasher-electronic\"", "[[\"flasher-third\"");
  const SourceReport report = read_sources(sources.write());
  REQUIRE(report.errors.size() == 1);
  CHECK(report.errors[0].where == place_of(set_file, sources.file(set_file), "\"flasher-third\""));
  CHECK_THAT(report.errors[0].what, Catch::Contains("the twin 'flasher-third' is no member of the set"));
}

TEST_CASE("confusion sets that cannot be true are not written") {
  support::TempDir dir;
  const auto refused = [&](const std::function<void(Knowledge&)>& spoil) {
    Knowledge k = with_set();
    spoil(k);
    CHECK_FALSE(write_catalogue(k, dir / "c.sqlite").has_value());
  };
  refused([](Knowledge& k) { k.confusions[0].parts[0] = 9; });
  refused([](Knowledge& k) { k.confusions[0].parts.pop_back(); });
  refused([](Knowledge& k) { k.confusions[0].traits = {99}; });
  refused([](Knowledge& k) { k.confusions[0].traits.clear(); });
  refused([](Knowledge& k) { k.confusions[0].twins[0] = {0, 0}; });
  refused([](Knowledge& k) { k.confusions.push_back(k.confusions[0]); });
  refused([](Knowledge& k) {
    k.confusions[0].twins.clear();
    k.parts[0].advice = k.parts[1].advice;
  });
}

}  // namespace
}  // namespace loomkey::catalogue
