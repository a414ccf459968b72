#include "catalogue/template.h"

#include <catch2/catch.hpp>
#include <toml++/toml.h>

#include "catalogue/sources.h"
#include "support/real_data.h"
#include "support/tiny_sources.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Knowledge;

Knowledge tiny() {
  support::TinySources sources;
  return read_sources(sources.write()).knowledge;
}

void replace(std::string& text, std::string_view from, std::string_view to) {
  const std::size_t at = text.find(from);
  INFO(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
}

TEST_CASE("the skeleton of every family is valid TOML and states what must be stated") {
  const Knowledge k = read_sources(support::real_data()).knowledge;
  REQUIRE_FALSE(k.families.empty());
  for (const auto& family : k.families) {
    const auto text = part_template(k, family.id);
    REQUIRE(text.has_value());
    const toml::table parsed = toml::parse(*text);
    const auto* part = parsed["part"][0].as_table();
    REQUIRE(part != nullptr);
    CHECK((*part)["family"].value<std::string>() == family.id);
    for (std::size_t t = 0; t < k.traits.size(); ++t) {
      const auto& trait = k.traits[t];
      INFO(trait.id);
      const bool inherited = std::any_of(family.claims.begin(), family.claims.end(),
                                         [&](const auto& claim) { return claim.trait == static_cast<int>(t); });
      const bool size = trait.id.starts_with("size_");
      const bool demanded = trait.layer == knowledge::Layer::look && !trait.unless_stated && !inherited;
      CHECK((*part)["looks"].as_table()->contains(size ? "round" : trait.id) == demanded);
      if (!size) CHECK_THAT(*text, Catch::Contains("\n" + trait.id + " = ") || Catch::Contains("# " + trait.id));
    }
  }
}

TEST_CASE("a skeleton lists states and what the family says") {
  const auto text = part_template(tiny(), "flasher");
  REQUIRE(text.has_value());
  CHECK_THAT(*text, Catch::Contains("#   can: round can\n#   box: box\n#   stick: stick\nform = \"CHANGE-ME\""));
  CHECK_THAT(*text, Catch::Contains("# terminal_count: inherited, 2\n"));
  CHECK_THAT(*text, Catch::Contains("# fins = \"CHANGE-ME\"  # cooling fins; left out: no; choose from: no, yes"));
  CHECK_THAT(*text, Catch::Contains("in ohm, within 0.05 to 10000000; or \"ol\", \"zero\", \"jumps\", \"na\""));
  CHECK_THAT(*text, Catch::Contains("#   flasher-new\n#   flasher-old\n"));
}

TEST_CASE("a skeleton left as it is names every gap, and nothing else") {
  support::TinySources sources;
  sources.file("parts/new.toml") = part_template(tiny(), "flasher").value();
  const SourceReport report = read_sources(sources.write());
  CHECK(report.errors.size() >= 7);
  for (const Error& error : report.errors) {
    CHECK_THAT(error.where, Catch::StartsWith("parts/new.toml:"));
    CHECK_THAT(error.what, !Catch::Contains("missing") && !Catch::Contains("unknown key"));
  }
}

TEST_CASE("a filled-in skeleton is a part") {
  std::string text = part_template(tiny(), "flasher").value();
  replace(text, "id = \"CHANGE-ME\"", "id = \"flasher-third\"");
  replace(text, "name = \"CHANGE-ME\"", "name = \"third\"");
  replace(text, "advice = \"CHANGE-ME\"", "advice = \"flasher-old\"");
  replace(text, "era = [0, 0]", "era = [1960, 1970]");
  replace(text, "[\"CHANGE-ME\"]", "[\"british\"]");
  replace(text, "where = \"CHANGE-ME\"", "where = \"here\"");
  replace(text, "strays = \"CHANGE-ME\"", "strays = \"there\"");
  replace(text, "basis = \"CHANGE-ME\"", "basis = \"memory\"");
  replace(text, "form = \"CHANGE-ME\"", "form = \"stick\"");
  replace(text, "letters = [\"CHANGE-ME\"]", "letters = [\"B\"]");
  replace(text, "diameter = [0, 0], length = [0, 0]", "diameter = [10, 20], length = [30, 40]");
  replace(text, "[[part.fault]]\nid = \"CHANGE-ME\"\nname = \"CHANGE-ME\"",
          "[[part.fault]]\nid = \"dead\"\nname = \"dead\"");
  replace(text, "part = \"CHANGE-ME\"", "part = \"flasher-thermal\"");
  support::TinySources sources;
  sources.file("parts/new.toml") = text;
  const SourceReport report = read_sources(sources.write());
  for (const Error& error : report.errors) UNSCOPED_INFO(error.message());
  REQUIRE(report.errors.empty());
  CHECK(report.knowledge.part("flasher-third") >= 0);
}

TEST_CASE("an unknown family names the nearest") {
  const auto text = part_template(tiny(), "flahser");
  REQUIRE_FALSE(text.has_value());
  CHECK(text.error().kind == ErrorKind::usage);
  CHECK(text.error().what == "unknown family 'flahser'. Did you mean 'flasher'?");
  CHECK_THAT(part_template(tiny(), "").error().what, Catch::Contains("Known: flasher"));
}

}  // namespace
}  // namespace loomkey::catalogue
