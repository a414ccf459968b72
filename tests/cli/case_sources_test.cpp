#include "cli/case_sources.h"

#include <catch2/catch.hpp>

#include "cli/bike_line.h"
#include "support/small_knowledge.h"
#include "support/temp_dir.h"

using namespace loomkey;
using cli::CaseSources;
using evidence::Certainty;

namespace {

knowledge::Knowledge small_knowledge() {
  return support::SmallKnowledge()
      .tool("ruler", 0.5)
      .choice("form", {"can", "box", "dish"})
      .number("size_long", "mm", 3, 600)
      .part("flasher")
      .has("form", "can")
      .range("size_long", 45, 60)
      .build();
}

evidence::ReadingsFile gathered(const CaseSources& sources) {
  auto result = cli::gather_case(small_knowledge(), sources);
  if (!result) FAIL(result.error().message());
  return *result;
}

std::string refusal(const CaseSources& sources) {
  const auto result = cli::gather_case(small_knowledge(), sources);
  REQUIRE_FALSE(result);
  return result.error().message();
}

bool has(const std::string& text, std::string_view piece) { return text.find(piece) != std::string::npos; }

}  // namespace

TEST_CASE("nothing given is an empty case") { CHECK(gathered({}).find.readings.empty()); }

TEST_CASE("options give readings, each as sure as it says") {
  CaseSources sources;
  sources.readings = {"form = can (guess)", "size_long=45 mm"};
  sources.certainty = "think-so";
  sources.bike = {"volts=12"};
  sources.guessed_name = "relay";
  sources.tools = "ruler";
  sources.leads_zeroed = true;
  const evidence::Case find = gathered(sources).find;
  REQUIRE(find.readings.size() == 2);
  for (const auto& reading : find.readings) {
    CHECK(reading.certainty == (reading.trait == 0 ? Certainty::guess : Certainty::think_so));
  }
  CHECK(find.bike.volts == 12);
  CHECK(find.guessed_name == "relay");
  CHECK(find.tools == std::vector<int>{0});
  CHECK(find.leads_zeroed);
}

TEST_CASE("no tools at all can be said") {
  CaseSources sources;
  sources.tools = "none";
  CHECK(gathered(sources).find.tools == std::vector<int>{});
  sources.tools = "rular";
  CHECK(has(refusal(sources), "Did you mean 'ruler'?"));
}

TEST_CASE("a wrong reading names the option, the nearest word and the trait") {
  CaseSources sources;
  sources.readings = {"from=can"};
  CHECK(has(refusal(sources), "--reading 'from=can': "));
  CHECK(has(refusal(sources), "'form'"));
  sources.readings = {"form=bax"};
  CHECK(has(refusal(sources), "'box'"));
  sources.readings = {"form"};
  CHECK(has(refusal(sources), "expected TRAIT=VALUE, found 'form'"));
  sources.readings = {"form=can", "form=box"};
  CHECK(has(refusal(sources), "two values for 'form'"));
}

TEST_CASE("an option replaces what a file says, and says so") {
  const support::TempDir folder;
  support::write_bytes(folder / "find.toml", "[readings]\nform = \"can\"\n");
  CaseSources sources;
  sources.files = {(folder / "find.toml").string()};
  sources.readings = {"form=box"};
  const auto given = gathered(sources);
  REQUIRE(given.find.readings.size() == 1);
  CHECK(given.find.readings.front().value.state == 1);
  REQUIRE(given.notes.size() == 1);
  CHECK(has(given.notes.front(), "find.toml:2"));
}

TEST_CASE("two files are one case unless they disagree") {
  const support::TempDir folder;
  support::write_bytes(folder / "a.toml", "[bike]\nvolts = 12\n[readings]\nform = \"can\"\n");
  support::write_bytes(folder / "b.toml", "[bike]\nvolts = 12\n[readings]\nsize_long = 50\n");
  support::write_bytes(folder / "c.toml", "[readings]\nform = { value = \"box\", by = \"a neighbour\" }\n");
  support::write_bytes(folder / "d.toml", "[readings]\nform = \"box\"\n");
  support::write_bytes(folder / "e.toml", "[bike]\nvolts = 6\n");
  const auto with = [&](const char* other) {
    CaseSources sources;
    sources.files = {(folder / "a.toml").string(), (folder / other).string()};
    return sources;
  };
  CHECK(gathered(with("b.toml")).find.readings.size() == 2);
  CHECK(gathered(with("c.toml")).find.readings.size() == 2);
  CHECK(has(refusal(with("d.toml")), "a.toml:4"));
  CHECK(has(refusal(with("d.toml")), "d.toml:2"));
  CHECK(has(refusal(with("e.toml")), "'volts' of the bike is '6'"));
}

TEST_CASE("one line says several things of the bike, or changes nothing") {
  const knowledge::Knowledge knowledge = small_knowledge();
  evidence::Bike bike;
  REQUIRE(cli::set_bike(knowledge, bike, "decade 1960, volts = 12, earth measured positive"));
  CHECK(bike.decade == 1960);
  CHECK(bike.volts == 12);
  CHECK(bike.earth_measured == evidence::Earth::positive);
  const auto refused = cli::set_bike(knowledge, bike, "volts 6, wheels 3");
  REQUIRE_FALSE(refused);
  CHECK(has(refused.error().what, "wheels"));
  CHECK(bike.volts == 12);
}
