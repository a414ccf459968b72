#include "catalogue/sources.h"

#include <catch2/catch.hpp>

#include "support/tiny_sources.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

Knowledge read(support::TinySources& sources) {
  SourceReport report = read_sources(sources.write());
  for (const Error& error : report.errors) UNSCOPED_INFO(error.message());
  REQUIRE(report.ok());
  return report.knowledge;
}

Knowledge tiny() {
  support::TinySources sources;
  return read(sources);
}

const Claim& own_claim(const std::vector<Claim>& claims, int trait) {
  for (const Claim& claim : claims) {
    if (claim.trait == trait) return claim;
  }
  throw std::runtime_error("no such claim");
}

TEST_CASE("parts, advice and families are sorted by id, traits keep the order of questions") {
  const Knowledge k = tiny();
  REQUIRE(k.parts.size() == 2);
  CHECK(k.parts[0].id == "flasher-electronic");
  CHECK(k.parts[1].id == "flasher-thermal");
  CHECK(k.advice[0].id == "flasher-new");
  std::vector<std::string> ids;
  for (const Trait& trait : k.traits) ids.push_back(trait.id);
  CHECK(ids == std::vector<std::string>{"form", "terminal_count", "letters", "lead_colours", "fins", "state_seen",
                                        "size_long", "size_mid", "size_short", "ohm", "run_ac"});
}

TEST_CASE("frequencies of a choice are normalised, states left out have none") {
  const Knowledge k = tiny();
  const Claim& form = own_claim(k.parts[1].claims, k.trait("form"));
  REQUIRE(form.states.size() == 3);
  CHECK(form.states[0] == Approx(0.97 / 1.02));
  CHECK(form.states[1] == Approx(0.05 / 1.02));
  CHECK(form.states[2] == 0.0);
  const Claim& one = own_claim(k.parts[0].claims, k.trait("form"));
  CHECK(one.states == std::vector<double>{0.0, 1.0, 0.0});
}

TEST_CASE("a range and the answers beside it share one claim") {
  const Knowledge k = tiny();
  const Claim& ohm = own_claim(k.parts[1].claims, k.trait("ohm"));
  REQUIRE(ohm.ranges.size() == 1);
  CHECK(ohm.ranges[0].share == Approx(0.80 / 1.05));
  CHECK(ohm.special[static_cast<std::size_t>(Special::zero)] == Approx(0.25 / 1.05));
  const Claim& two = own_claim(k.parts[0].claims, k.trait("ohm"));
  REQUIRE(two.ranges.size() == 2);
  CHECK(two.ranges[1].low == 20000.0);
  CHECK(two.ranges[1].share == Approx(0.3 / 1.15));
  CHECK(two.special[static_cast<std::size_t>(Special::jumps)] == Approx(0.05 / 1.15));
}

TEST_CASE("a range without a frequency counts as always, and a plain number is a range of one point") {
  support::TinySources sources;
  sources.replace("parts/flasher.toml", "often = \"usual\", zero", "zero");
  sources.replace("parts/flasher.toml", "meter = { ohm = \"ol\" }", "meter = { ohm = 47 }");
  const Knowledge k = read(sources);
  CHECK(own_claim(k.parts[1].claims, k.trait("ohm")).ranges[0].share == Approx(0.97 / 1.22));
  CHECK(own_claim(k.parts[1].conditions[1].claims, k.trait("ohm")).ranges == std::vector<Range>{{47.0, 47.0, 1.0}});
}

TEST_CASE("set items are sorted and may repeat, and none is the empty set") {
  support::TinySources sources;
  sources.replace("parts/flasher.toml", "letters = [\"B\", \"L\", \"E\"]", "letters = [\"B\", \"~\", \"~\"]");
  const Knowledge k = read(sources);
  const Claim& letters = own_claim(k.parts[1].claims, k.trait("letters"));
  REQUIRE(letters.sets.size() == 2);
  CHECK(letters.sets[0].items == std::vector<std::string>{"B", "L"});
  CHECK(letters.sets[0].share == Approx(0.97 / 1.02));
  CHECK(letters.sets[1].items.empty());
  CHECK(own_claim(k.parts[0].claims, k.trait("letters")).sets[0].items == std::vector<std::string>{"B", "~", "~"});
  CHECK(own_claim(k.families[0].claims, k.trait("lead_colours")).sets == std::vector<Alternative>{{{}, 1.0}});
}

TEST_CASE("a yesno trait is a choice of no and yes") {
  const Knowledge k = tiny();
  const Trait& fins = k.traits[static_cast<std::size_t>(k.trait("fins"))];
  CHECK(fins.kind == TraitKind::choice);
  REQUIRE(fins.states.size() == 2);
  CHECK(fins.states[0].id == "no");
  CHECK(fins.states[1].id == "yes");
  CHECK(fins.unless_stated->states == std::vector<double>{1.0, 0.0});
}

TEST_CASE("confusions move chance from the true state to the reported one") {
  const Knowledge k = tiny();
  const auto& seen = k.traits[static_cast<std::size_t>(k.trait("form"))].seen;
  CHECK(seen[0][0] == Approx(0.92));
  CHECK(seen[0][1] == Approx(0.08));
  CHECK(seen[1][0] == Approx(0.08));
  CHECK(seen[2][1] == Approx(0.1));
  CHECK(seen[1][2] == 0.0);
}

TEST_CASE("a count slips to its neighbours") {
  const Knowledge k = tiny();
  const auto& seen = k.traits[static_cast<std::size_t>(k.trait("terminal_count"))].seen;
  CHECK(seen[0][0] == Approx(0.96));
  CHECK(seen[0][1] == Approx(0.04));
  CHECK(seen[1][0] == Approx(0.04));
  CHECK(seen[1][1] == Approx(0.92));
  CHECK(seen[0][2] == 0.0);
}

TEST_CASE("a round body shows its diameter twice") {
  const Knowledge k = tiny();
  const auto& claims = k.parts[1].claims;
  CHECK(own_claim(claims, k.trait("size_long")).ranges == std::vector<Range>{{35.0, 50.0, 1.0}});
  CHECK(own_claim(claims, k.trait("size_mid")).ranges == std::vector<Range>{{28.0, 38.0, 1.0}});
  CHECK(own_claim(claims, k.trait("size_short")).ranges == std::vector<Range>{{28.0, 38.0, 1.0}});
}

TEST_CASE("a box may be written in any order, and its marks hold for all three measures") {
  const Knowledge k = tiny();
  const auto& claims = k.parts[0].claims;
  CHECK(own_claim(claims, k.trait("size_long")).ranges == std::vector<Range>{{40.0, 50.0, 1.0}});
  CHECK(own_claim(claims, k.trait("size_mid")).ranges == std::vector<Range>{{25.0, 35.0, 1.0}});
  CHECK(own_claim(claims, k.trait("size_short")).ranges == std::vector<Range>{{10.0, 20.0, 1.0}});
  CHECK(own_claim(claims, k.trait("size_mid")).verify);
  CHECK(own_claim(claims, k.trait("size_mid")).basis == 0);
}

TEST_CASE("overlapping measures of a box become ordered ones") {
  support::TinySources sources;
  sources.replace("parts/flasher.toml", "[[10, 20], [40, 50], [25, 35]]", "[[10, 60], [20, 30], [15, 40]]");
  const Knowledge k = read(sources);
  CHECK(own_claim(k.parts[0].claims, k.trait("size_long")).ranges == std::vector<Range>{{20.0, 60.0, 1.0}});
  CHECK(own_claim(k.parts[0].claims, k.trait("size_mid")).ranges == std::vector<Range>{{15.0, 40.0, 1.0}});
  CHECK(own_claim(k.parts[0].claims, k.trait("size_short")).ranges == std::vector<Range>{{10.0, 30.0, 1.0}});
}

TEST_CASE("good comes first, damaged last, and the faults share what is left") {
  const Knowledge k = tiny();
  const auto& conditions = k.parts[1].conditions;
  REQUIRE(conditions.size() == 4);
  CHECK(conditions[0].kind == Condition::Kind::good);
  CHECK(conditions[0].share == Approx(0.6));
  CHECK(conditions[1].id == "open");
  CHECK(conditions[1].share == Approx(0.32 * 0.80 / 1.05));
  CHECK(conditions[2].share == Approx(0.32 * 0.25 / 1.05));
  CHECK(conditions[3].kind == Condition::Kind::damaged);
  CHECK(conditions[3].share == Approx(0.08));
  CHECK(conditions[1].symptoms == std::vector<int>{1});
  const Claim& damage = own_claim(conditions[3].claims, k.trait("state_seen"));
  CHECK(damage.states[0] == Approx(0.1 / 0.8));
  CHECK(damage.states[1] == Approx(0.35 / 0.8));
  CHECK(k.parts[0].conditions[0].share == Approx(0.55));
}

TEST_CASE("a part that cannot fail is good or damaged") {
  support::TinySources sources;
  std::string& parts = sources.file("parts/flasher.toml");
  const std::size_t from = parts.rfind("[[part.fault]]");
  parts.erase(from, parts.rfind("[[part.check]]") - from);
  sources.replace("parts/flasher.toml", "id = \"flasher-electronic\"\n", "id = \"flasher-electronic\"\nfault = []\n");
  const Knowledge k = read(sources);
  REQUIRE(k.parts[0].conditions.size() == 2);
  CHECK(k.parts[0].conditions[0].share == Approx(0.92));
  CHECK(k.parts[0].conditions[1].share == Approx(0.08));
}

TEST_CASE("verify marks the claims of the part and of its faults, inherited ones too") {
  support::TinySources sources;
  sources.replace("parts/flasher.toml", "verify = [\"ohm\", \"era\"]",
                  "verify = [\"ohm\", \"era\", \"terminal_count\"]");
  const Knowledge k = read(sources);
  const Part& part = k.parts[1];
  CHECK(own_claim(part.claims, k.trait("ohm")).verify);
  CHECK(own_claim(part.conditions[1].claims, k.trait("ohm")).verify);
  CHECK(own_claim(part.claims, k.trait("terminal_count")).verify);
  CHECK(own_claim(part.claims, k.trait("terminal_count")).states == k.families[0].claims[0].states);
  CHECK_FALSE(k.families[0].claims[0].verify);
  CHECK_FALSE(own_claim(part.claims, k.trait("form")).verify);
  CHECK(part.verify == std::vector<std::string>{"ohm", "era", "terminal_count"});
}

TEST_CASE("fields of a part arrive where they belong") {
  const Knowledge k = tiny();
  const Part& thermal = k.parts[1];
  CHECK(thermal.foreign ==
        std::vector<std::pair<std::string, std::string>>{{"de", "Blinkgeber"}, {"fr", "centrale clignotante"}});
  CHECK(thermal.brought_in == 1.0);
  CHECK(k.parts[0].brought_in == 0.15);
  CHECK(k.parts[0].retrofit);
  CHECK(thermal.first_year == 1955);
  REQUIRE(thermal.works_with.size() == 2);
  CHECK(thermal.works_with[0].family == 0);
  CHECK(thermal.works_with[1].part == 0);
  CHECK(thermal.look_alikes[0].trait == k.trait("form"));
  CHECK(thermal.checks[0].basis == 1);
  CHECK(k.parts[0].checks[0].basis == -1);
  CHECK(k.parts[0].note == "comes in many sizes");
}

TEST_CASE("cautions of an advice keep their written order") {
  const Knowledge k = tiny();
  CHECK(k.advice[0].cautions == std::vector<int>{1, 0});
  CHECK(k.advice[0].harmless_if == std::vector<int>{1});
  CHECK(k.advice[0].price == Price::money);
  CHECK(k.advice[1].substitutes[0].not_when == std::vector<std::string>{"6 V"});
}

TEST_CASE("traits carry layer, hazard and what they need") {
  const Knowledge k = tiny();
  const Trait& ohm = k.traits[static_cast<std::size_t>(k.trait("ohm"))];
  CHECK(ohm.layer == Layer::meter);
  CHECK(ohm.low_ohm);
  CHECK(ohm.asked_with == std::vector<std::string>{"B", "L"});
  CHECK(ohm.allows == std::array<bool, special_count>{true, true, true, true});
  CHECK(ohm.unless_stated->special[static_cast<std::size_t>(Special::does_not_apply)] == 1.0);
  CHECK_FALSE(ohm.runs);
  const Trait& ac = k.traits[static_cast<std::size_t>(k.trait("run_ac"))];
  CHECK(ac.runs);
  CHECK(ac.group == -1);
  CHECK(k.efforts[static_cast<std::size_t>(ac.effort)].tool == 0);
  const Trait& length = k.traits[static_cast<std::size_t>(k.trait("size_long"))];
  CHECK(length.layer == Layer::look);
  CHECK(length.allows == std::array<bool, special_count>{});
}

}  // namespace
}  // namespace loomkey::catalogue
