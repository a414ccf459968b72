#include "report/catalogue_document.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "bench/compare.h"
#include "report/catalogue_json.h"
#include "report/page_checks.h"
#include "report/text.h"
#include "support/report_cases.h"

using namespace loomkey;
using namespace loomkey::report;
using namespace loomkey::support;

namespace {

std::shared_ptr<const knowledge::Knowledge> shared_knowledge() {
  return std::make_shared<const knowledge::Knowledge>(report_knowledge());
}

}  // namespace

TEST_CASE("a part's page says all of it, but no connecting steps") {
  const auto knowledge = shared_knowledge();
  const std::string words = unfolded(to_text(part_document(*knowledge, knowledge->part("flasher"))));
  for (const std::string wanted :
       {"Thermal flasher can", "blinker can", "de: Blinkgeber", "relay", "1958 to 1985", "Makes the indicators flash.",
        "in the headlamp shell", "neither side lights", "no flash", "nearly always small closed round can",
        "4 to 35 ohm", "blade to blade", "the other can has three blades", "electronic flasher", "LED lamps",
        "It keeps its charge.", "a published colour code", "lowest resistance; era", "green with a yellow tracer"}) {
    INFO(wanted);
    CHECK(contains(words, wanted));
  }
  CHECK_FALSE(contains(words, "red to earth"));
  CHECK_FALSE(contains(words, "feed to B"));
  const std::string json = part_json(*knowledge, knowledge->part("flasher"));
  CHECK_FALSE(contains(json, "red to earth"));
  CHECK_FALSE(contains(json, "feed to B"));
}

TEST_CASE("a part's page names the sets it is mixed up in, with the test that separates them") {
  knowledge::Knowledge knowledge = report_knowledge();
  const int flasher = knowledge.part("flasher");
  const int can = knowledge.part("warning-can");
  const int trait = knowledge.trait("form");
  knowledge.confusions = {{"cans", "small metal can", {flasher, can}, {trait}, "Read the letters.", {{can, flasher}}}};
  const std::string words = unfolded(to_text(part_document(knowledge, flasher)));
  CHECK(contains(words, "small metal can Read the letters. Among them: warning-can."));
  const auto json = nlohmann::json::parse(part_json(knowledge, flasher));
  REQUIRE(json["confusion_sets"].size() == 1);
  const auto& set = json["confusion_sets"][0];
  CHECK(set["set"] == "cans");
  CHECK(set["parts"] == std::vector<std::string>{"flasher", "warning-can"});
  CHECK(set["traits"] == std::vector<std::string>{"form"});
  CHECK(set["tell"] == "Read the letters.");
  CHECK(set["twins"] == std::vector<std::string>{"warning-can"});
  const int outside = knowledge.part("zener");
  CHECK_FALSE(contains(to_text(part_document(knowledge, outside)), "Mixed up with"));
  CHECK(nlohmann::json::parse(part_json(knowledge, outside))["confusion_sets"].empty());
}

TEST_CASE("an era that reaches today ends in today") {
  knowledge::Knowledge knowledge = report_knowledge();
  knowledge.parts[1].last_year = 2026;
  CHECK(contains(to_text(part_document(knowledge, 1)), "1958 to today"));
}

TEST_CASE("parts are listed by family") {
  const auto knowledge = shared_knowledge();
  const std::string page = to_text(parts_list_document(*knowledge, {3, 1}));
  CHECK(in_order(page, "flasher", "zener"));
  CHECK(contains(page, "2 parts."));
  CHECK(contains(to_text(parts_list_document(*knowledge, {})), "No part."));
}

TEST_CASE("a comparison shows what separates, and what each part claims") {
  const auto knowledge = shared_knowledge();
  const std::vector<int> parts = {knowledge->part("flasher"), knowledge->part("warning-can")};
  const auto separations = bench::compare(inference::Model(knowledge), parts);
  REQUIRE_FALSE(separations.empty());
  const std::string words = unfolded(to_text(comparison_document(*knowledge, parts, separations)));
  CHECK(contains(words, "A, mistaken for B the other can has three blades"));
  CHECK(contains(words, "[look and feel]"));
  const auto json = nlohmann::json::parse(comparison_json(*knowledge, parts, separations));
  CHECK(json["schema"] == "loomkey/comparison/1");
  CHECK(json["separations"].size() == separations.size());
  CHECK(json["separations"][0]["claims"].size() == 2);
  CHECK(contains(to_text(comparison_document(*knowledge, parts, {})), "Nothing that the catalogue asks for"));
}

TEST_CASE("traits are shown from the objects that run") {
  const auto knowledge = shared_knowledge();
  const std::string all = to_text(traits_document(*knowledge));
  for (const auto& trait : knowledge->traits) CHECK(contains(all, trait.id));
  const std::string one = unfolded(to_text(trait_document(*knowledge, knowledge->trait("form"))));
  for (const std::string wanted :
       {"What shape is it?", "Leave leads out of it.", "can small closed round can", "box 1 %"}) {
    INFO(wanted);
    CHECK(contains(one, wanted));
  }
  CHECK(contains(unfolded(to_text(trait_document(*knowledge, knowledge->trait("ohm_lowest")))),
                 "ol (over-range (OL)), zero, jumps (jumps about) or na (does not apply)"));
  const auto json = nlohmann::json::parse(traits_json(*knowledge, {knowledge->trait("blades")}));
  CHECK(json["traits"][0]["values"].size() == 4);
}

TEST_CASE("catalogue pages keep the width and are clean, hostile texts or not") {
  for (const auto& knowledge : {shared_knowledge(), spoilt_case().knowledge}) {
    const std::vector<int> parts = {1, 2};
    const auto separations = bench::compare(inference::Model(knowledge), parts);
    for (const std::size_t width : {24U, 80U}) {
      std::vector<Document> pages = {traits_document(*knowledge), parts_list_document(*knowledge, parts),
                                     comparison_document(*knowledge, parts, separations)};
      for (int p = 0; p < 4; ++p) pages.push_back(part_document(*knowledge, p));
      for (int t = 0; t < 6; ++t) pages.push_back(trait_document(*knowledge, t));
      for (const Document& page : pages) {
        const std::string text = to_text(page, {width, false});
        CHECK(widest_line(text) <= width);
        CHECK(is_clean(text));
      }
    }
  }
}

TEST_CASE("catalogue JSON survives invalid UTF-8") {
  const auto knowledge = spoilt_case().knowledge;
  for (const std::string& text : {part_json(*knowledge, 1), parts_json(*knowledge, {0, 1}),
                                  traits_json(*knowledge, {0, 1}), comparison_json(*knowledge, {0, 1}, {})}) {
    CHECK(is_clean(text));
    CHECK_NOTHROW(nlohmann::json::parse(text));
  }
}
