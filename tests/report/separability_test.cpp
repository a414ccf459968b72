#include <algorithm>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "bench/trial_knowledge.h"
#include "report/page_checks.h"
#include "report/separability_document.h"
#include "report/text.h"

using namespace loomkey;
using support::contains;

namespace {

// Two of the eight parts are described alike; one of them and a family have hostile names.
std::shared_ptr<knowledge::Knowledge> twins() {
  const auto out = support::clean_knowledge();
  out->families = {{"one", "one <script>alert(1)</script> & \"two\"", "", {}}, {"two", "two\x1b[31m", "", {}}};
  for (std::size_t p = 0; p < out->parts.size(); ++p) out->parts[p].family = p < 4 ? 0 : 1;
  out->parts[5].claims = out->parts[2].claims;
  out->parts[5].name = "a \"part\", =1+1\x1b";
  return out;
}

}  // namespace

TEST_CASE("pairs that cannot be told apart stand under each other, 80 columns wide") {
  const auto knowledge = twins();
  const auto found = bench::separability(inference::Model(knowledge));
  const std::string page = report::to_text(report::separability_document(*knowledge, found));
  CHECK(support::widest_line(page) <= 80);
  CHECK(support::is_clean(page));
  const std::string words = support::unfolded(page);
  CHECK(contains(words, "Of 28 pairs of parts that need different advice, 1 is not separated"));
  CHECK(contains(words, "part-2 0.0 0.0 0.0 none 0.0 and part-5"));
  CHECK(contains(words, "with ruler the same with ruler with meter the same with meter"));
}

TEST_CASE("long ids leave the figures whole") {
  const auto knowledge = twins();
  knowledge->parts[2].id = std::string(48, 'a');
  const auto found = bench::separability(inference::Model(knowledge));
  const std::string page = report::to_text(report::separability_document(*knowledge, found));
  CHECK(support::widest_line(page) <= 80);
  CHECK(contains(page, std::string(48, 'a')));
}

TEST_CASE("without such a pair the page says so and has no table") {
  const auto model = support::clean_model();
  const std::string page =
      report::to_text(report::separability_document(model.knowledge(), bench::separability(model)));
  CHECK(contains(support::unfolded(page), "0 are not separated"));
  CHECK_FALSE(contains(page, "and part"));
}

TEST_CASE("as a table for other programs every pair is one row, quoted where it must be") {
  const auto knowledge = twins();
  const std::string csv = report::separability_csv(*knowledge, bench::separability(inference::Model(knowledge)));
  CHECK(std::count(csv.begin(), csv.end(), '\n') == 2);
  CHECK(support::is_clean(csv));
  CHECK(contains(csv, "\npart-2,part-5,,\"a \"\"part\"\", =1+1?\",advice-2,advice-5,0.000,0.000,0.000,"));
}

TEST_CASE("as JSON pairs and cells of families carry their figures") {
  const auto knowledge = twins();
  const auto json =
      nlohmann::json::parse(report::separability_json(*knowledge, bench::separability(inference::Model(knowledge))));
  CHECK(json["schema"] == "loomkey/separability/1");
  CHECK(json["compared"] == 28);
  REQUIRE(json["pairs"].size() == 1);
  CHECK(json["pairs"][0]["part_a"] == "part-2");
  CHECK(json["pairs"][0]["with_meter"] == 0.0);
  REQUIRE(json["families"].size() == 3);
  CHECK(json["families"][1]["family_a"] == "one");
  CHECK(json["families"][1]["part_b"] == "part-5");
}

TEST_CASE("the picture says in words what it shows, and hostile names stay names") {
  const auto knowledge = twins();
  const std::string svg = report::separability_svg(*knowledge, bench::separability(inference::Model(knowledge)));
  CHECK(support::is_clean(svg));
  CHECK(contains(svg, "role=\"img\" aria-labelledby=\"title desc\""));
  CHECK(contains(svg, "<title id=\"title\">"));
  CHECK(contains(svg, "part-2 and part-5, 0.0 decibans"));
  CHECK(contains(svg, "&lt;script&gt;"));
  CHECK_FALSE(contains(svg, "<script"));
  CHECK_FALSE(contains(svg, "href"));
  CHECK_FALSE(contains(svg, "url("));
}

TEST_CASE("a catalogue without families still gives a picture") {
  const auto model = support::clean_model();
  CHECK(contains(report::separability_svg(model.knowledge(), bench::separability(model)), "</svg>"));
}
