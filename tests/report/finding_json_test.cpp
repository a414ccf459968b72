#include "report/finding_json.h"

#include <cmath>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "evidence/readings_file.h"
#include "report/page_checks.h"
#include "support/report_cases.h"

using namespace loomkey;
using namespace loomkey::support;
using evidence::Earth;
using inference::Status;
using Json = nlohmann::json;

namespace {

Json json_of(const ReportCase& given) {
  return Json::parse(report::finding_json(*given.knowledge, given.find, given.finding, {"a note"}));
}

}  // namespace

TEST_CASE("the top keys are there") {
  const Json json = json_of(flasher_finding());
  CHECK(json["schema"] == "loomkey/finding/1");
  CHECK(json["catalogue"] == report_knowledge().hash);
  for (const char* key : {"candidates", "verdict", "questions", "not_in_catalogue", "lines", "bike", "readings"}) {
    CHECK(json.contains(key));
  }
  CHECK(json["notes"] == Json{"a note"});
  CHECK(json["bike"]["decade"] == 1960);
  CHECK(json["readings"][3]["understood"] == "green with a yellow tracer and light green, no others");
  CHECK(json["readings"][0]["sure"] == "think so");
}

TEST_CASE("weights re-add to the beliefs from the JSON alone") {
  for (const ReportCase& given : {flasher_finding(), open_finding(), flasher_finding(Earth::negative)}) {
    const Json json = json_of(given);
    const double absent = json["not_in_catalogue"]["probability"];
    const double absent_db = json["not_in_catalogue"]["total_db"];
    for (const Json& candidate : json["candidates"]) {
      double sum = 0.0;
      for (const Json& condition : candidate["conditions"]) {
        double total = condition["prior_db"];
        CHECK(condition["weights"].size() == json["lines"].size());
        for (const double weight : condition["weights"]) total += weight;
        CHECK(total == Approx(condition["total_db"].get<double>()).margin(1e-5));
        const double probability = condition["probability"];
        CHECK(probability == Approx(absent * std::pow(10.0, (total - absent_db) / 10.0)).epsilon(1e-4));
        sum += probability;
      }
      CHECK(sum == Approx(candidate["probability"].get<double>()).epsilon(1e-4));
    }
  }
}

TEST_CASE("no probability reaches one") {
  ReportCase given = flasher_finding();
  given.finding.class_probability = 1.0;
  given.finding.candidates[0].probability = 1.0;
  const Json json = json_of(given);
  CHECK(json["verdict"]["probability"].get<double>() < 1.0);
  CHECK(json["candidates"][0]["probability"].get<double>() < 1.0);
}

TEST_CASE("connecting steps are null until the earth is measured and the part is settled") {
  const auto connects = [](const ReportCase& given) {
    const Json json = json_of(given);
    std::vector<Json> out;
    for (const Json& substitute : json["verdict"]["substitutes"]) out.push_back(substitute["connect"]);
    REQUIRE(out.size() == 2);
    return out;
  };
  for (const Status status : {Status::settled, Status::likely, Status::open}) {
    for (const Json& connect : connects(with_status(flasher_finding(Earth::unknown), status))) CHECK(connect.is_null());
  }
  for (const Json& connect : connects(with_status(flasher_finding(Earth::positive), Status::open)))
    CHECK(connect.is_null());
  const auto shown = connects(with_status(flasher_finding(Earth::positive), Status::settled));
  CHECK(shown[0] == "plus to the frame: red to earth");
}

TEST_CASE("a script can drive the conversation by growing a readings file") {
  const knowledge::Knowledge knowledge = report_knowledge();
  const auto shared = std::make_shared<const knowledge::Knowledge>(knowledge);
  const inference::Model model(shared);
  for (const std::size_t pick : {0U, 1U, 2U}) {
    std::string file = "schema = 1\n[readings]\n";
    evidence::Case find;
    for (std::size_t asked = 0; asked <= knowledge.traits.size(); ++asked) {
      const auto finding = bench::identify(model, find);
      const Json json = Json::parse(report::finding_json(knowledge, find, finding));
      if (json["questions"].empty()) break;
      const Json& question = json["questions"][0];
      const Json& choices = question["choices"];
      REQUIRE_FALSE(choices.empty());
      const std::string value = choices[std::min(pick, choices.size() - 1)]["value"];
      file += question["trait"].get<std::string>() + " = \"" + value + "\"\n";
      const auto read = evidence::read_readings_file(knowledge, file, "grown.toml");
      INFO(file);
      REQUIRE(read);
      REQUIRE(read->find.readings.size() == asked + 1);
      find = read->find;
    }
    CHECK_FALSE(find.readings.empty());
  }
}

TEST_CASE("a contradiction and an absent part have their keys") {
  const Json contradicted = json_of(with_status(flasher_finding(), Status::contradicted));
  CHECK(contradicted["status"] == "contradicted");
  CHECK(contradicted["verdict"]["contradiction"]["trait"] == "blades");
  CHECK(contradicted["verdict"]["contradiction"]["without_it"] == "warning-can");
  const Json absent = json_of(with_status(flasher_finding(), Status::not_in_catalogue));
  CHECK(absent["verdict"]["part"].is_null());
  CHECK(absent["verdict"]["confidence_words"] == "probably");
  CHECK(absent["verdict"]["to_record"].size() == 8);
}

TEST_CASE("invalid UTF-8 and control codes do not get through") {
  const ReportCase given = spoilt_case();
  const std::string text = report::finding_json(*given.knowledge, given.find, given.finding, {"\xff\x1b"});
  CHECK(is_clean(text));
  CHECK_NOTHROW(Json::parse(text));
}
