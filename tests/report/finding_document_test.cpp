#include "report/finding_document.h"

#include <catch2/catch.hpp>

#include "report/finding_words.h"
#include "report/page_checks.h"
#include "report/text.h"
#include "support/report_cases.h"

using namespace loomkey::report;
using namespace loomkey::support;
using loomkey::evidence::Earth;
using loomkey::inference::Status;

namespace {

std::string page_of(const ReportCase& given, std::size_t width = 80) {
  return to_text(finding_document(*given.knowledge, given.find, given.finding), {width, false});
}

std::string words_of(const ReportCase& given) { return unfolded(page_of(given)); }

}  // namespace

TEST_CASE("no page is wider than asked, nor claims certainty") {
  for (const ReportCase& given : cases_of_every_kind()) {
    for (const std::size_t width : {24U, 40U, 80U}) {
      const std::string page = page_of(given, width);
      CHECK(widest_line(page) <= width);
      CHECK(is_clean(page));
      CHECK_FALSE(contains(page, "100 %"));
      CHECK_FALSE(contains(page, "certain"));
    }
  }
}

TEST_CASE("hostile texts reach no terminal") {
  const ReportCase given = spoilt_case();
  for (const std::size_t width : {24U, 80U}) {
    for (const auto& document : {finding_document(*given.knowledge, given.find, given.finding),
                                 candidates_document(*given.knowledge, given.find, given.finding),
                                 why_document(*given.knowledge, given.find, given.finding, 1)}) {
      const std::string page = to_text(document, {width, false});
      CHECK(is_clean(page));
      CHECK(widest_line(page) <= width);
    }
  }
}

TEST_CASE("a settled part is named with how sure it is, in words and numbers") {
  const ReportCase given = with_status(flasher_finding(), Status::settled);
  const std::string words = words_of(given);
  CHECK(contains(words, "Very likely (>99 %): thermal flasher can."));
  CHECK(contains(words, "could be a burnt part"));
  CHECK(contains(words, "function Makes the indicators flash."));
  CHECK(contains(words, "works with capacitor; any capacitor"));
  CHECK(contains(words, "thermal flasher can"));
  CHECK(contains(words, "lowest resistance; era"));
  CHECK(contains(words, "a published colour code"));
  CHECK(contains(words, "catalogue 0123456789ab"));
}

TEST_CASE("without a measured earth no connecting step is shown, but how to measure it") {
  for (const Status status : {Status::settled, Status::likely, Status::open, Status::cannot_tell}) {
    const std::string words = words_of(with_status(flasher_finding(Earth::unknown), status));
    CHECK(contains(words, "electronic flasher"));
    CHECK_FALSE(contains(words, "red to earth"));
    CHECK_FALSE(contains(words, "black to earth"));
    CHECK_FALSE(contains(words, "feed to B"));
    CHECK(contains(words, "No connecting steps are shown until the earth has been measured."));
    CHECK(contains(words, "red probe on the live feed"));
  }
}

TEST_CASE("a measured earth brings its own connecting steps only") {
  const std::string positive = words_of(with_status(flasher_finding(Earth::positive), Status::settled));
  CHECK(contains(positive, "plus to the frame: red to earth"));
  CHECK_FALSE(contains(positive, "black to earth"));
  CHECK(contains(positive, "feed to B, lamps to L"));
  const std::string negative = words_of(with_status(flasher_finding(Earth::negative), Status::likely));
  CHECK(contains(negative, "minus to the frame: black to earth"));
  CHECK_FALSE(contains(negative, "red to earth"));
}

TEST_CASE("an unsettled part brings no connecting steps even on a measured earth") {
  for (const Status status : {Status::open, Status::cannot_tell, Status::contradicted}) {
    const std::string words = words_of(with_status(flasher_finding(Earth::positive), status));
    CHECK_FALSE(contains(words, "red to earth"));
    CHECK_FALSE(contains(words, "feed to B"));
    CHECK(contains(words, "connect it to nothing"));
  }
}

TEST_CASE("polarity and heat come first, other cautions with the checks, the supplement once") {
  const std::string words = words_of(with_status(flasher_finding(), Status::settled));
  CHECK(in_order(words, "Reversed polarity", "Burns"));
  CHECK(in_order(words, "Burns", "Candidates"));
  CHECK(in_order(words, "Candidates", "Shock"));
  CHECK(in_order(words, "Shock", "How to check it with a meter"));
  const std::string supplement = "They do not replace local codes or the work of a licensed person.";
  CHECK(in_order(words, supplement, "Candidates"));
  const std::size_t first = words.find(supplement);
  CHECK(words.find(supplement, first + 1) == std::string::npos);
}

TEST_CASE("an open case shows candidates, questions and reasons before the part") {
  const std::string words = words_of(open_finding());
  CHECK(in_order(words, "Not settled yet.", "Candidates"));
  CHECK(in_order(words, "Candidates", "Next questions"));
  CHECK(in_order(words, "Next questions", "Reasons for and against"));
  CHECK(contains(words, "connect it to nothing"));
  CHECK(contains(words, "not in the catalogue"));
}

TEST_CASE("nothing read yet is said plainly") {
  const std::string words = words_of(report_case(report_knowledge(), {}));
  CHECK(contains(words, "Nothing has been read yet"));
}

TEST_CASE("a part that is likely asks for its checks") {
  ReportCase given = with_status(flasher_finding(), Status::likely);
  given.finding.checks_left = 1;
  CHECK(contains(words_of(given), "make sure it is nothing outside the catalogue (1 check left)"));
}

TEST_CASE("a contradiction names the reading and what the others point to") {
  const std::string words = words_of(with_status(flasher_finding(Earth::positive), Status::contradicted));
  CHECK(contains(words, "'blades: two' cannot stand with the others; look at it again."));
  CHECK(contains(words, "the others point to: warning-can."));
  CHECK_FALSE(contains(words, "What may take its place"));
}

TEST_CASE("a part that is not in the catalogue brings a list of what to record") {
  const std::string words = words_of(with_status(flasher_finding(), Status::not_in_catalogue));
  CHECK(contains(words, "Probably (72 %) not in the catalogue"));
  for (const std::string item : {"ruler in the picture", "markings on every face", "where each of its wires led",
                                 "ohms between all pairs", "which battery post goes to the frame"}) {
    CHECK(contains(words, item));
  }
}

TEST_CASE("cannot tell yet names the check that would decide") {
  const std::string words = words_of(with_status(open_finding(), Status::cannot_tell));
  CHECK(contains(words, "Cannot tell yet."));
  CHECK(contains(words, "To tell"));
}

TEST_CASE("a dead part is named as such in the first line") {
  loomkey::evidence::Case find = flasher_case(report_knowledge());
  find.readings.back().value = {};
  find.readings.back().value.kind = loomkey::evidence::Value::Kind::special;
  find.readings.back().value.special = loomkey::knowledge::Special::over_range;
  const ReportCase given = with_status(report_case(report_knowledge(), find), Status::settled);
  CHECK(contains(words_of(given), "thermal flasher can. Its condition: "));
  CHECK(contains(words_of(given), "burnt-out."));
  CHECK_FALSE(contains(words_of(with_status(flasher_finding(), Status::settled)), "Its condition:"));
}

TEST_CASE("a deciding check with the engine running waits until the earth has been measured") {
  ReportCase given = open_finding();
  auto knowledge = *given.knowledge;
  for (auto& trait : knowledge.traits) trait.runs = true;
  given.knowledge = std::make_shared<const loomkey::knowledge::Knowledge>(knowledge);
  REQUIRE(given.finding.deciding);
  given.finding.deciding->trait = 0;
  CHECK(contains(words_of(given), "check, but only once the earth has been measured: "));
  given.finding.earth_settled = true;
  CHECK_FALSE(contains(words_of(given), "only once the earth"));
}

TEST_CASE("an earth that disagrees is a caution") {
  ReportCase given = flasher_finding(Earth::negative);
  given.find.bike.earth_as_built = Earth::positive;
  given.finding.earth_disagrees = true;
  const std::string words = words_of(given);
  CHECK(contains(words, "as built positive, found unknown, measured negative"));
  CHECK(contains(words, "Measure once more before connecting anything."));
}

TEST_CASE("a part labelled for the other earth must not be connected") {
  ReportCase given = flasher_finding(Earth::positive);
  CHECK_FALSE(contains(words_of(given), "is labelled for"));
  given.finding.label_disagrees = true;
  CHECK(contains(words_of(given), "labelled for negative earth, and the bike is positive earth. Do not connect it"));
}

TEST_CASE("misfits and silent readings are named") {
  ReportCase given = with_status(flasher_finding(), Status::settled);
  given.finding.misfits = {1};
  given.find.readings.push_back(state_reading(*given.knowledge, "form", "can"));
  given.find.readings.back().value.kind = loomkey::evidence::Value::Kind::cannot_tell;
  const std::string words = words_of(given);
  CHECK(contains(words, "blades: two: does not fit and was outweighed."));
  CHECK(contains(words, "moves nothing: form."));
}

TEST_CASE("lead colours are named in words") {
  CHECK(contains(words_of(flasher_finding()), "green with a yellow tracer and light green"));
}

TEST_CASE("the class is named before its part while the part is not clear") {
  ReportCase given = with_status(flasher_finding(), Status::settled);
  for (auto& candidate : given.finding.candidates) {
    if (candidate.part == given.finding.part) candidate.probability = 0.6;
  }
  const std::string words = words_of(given);
  CHECK(contains(words, "Very likely (>99 %): thermal flasher. Of its kinds probably (60 %) the thermal flasher can"));
}

TEST_CASE("condition is told with what the rider notices, and without a meter says so") {
  ReportCase given = flasher_finding();
  const auto* candidate = candidate_of(given.finding, given.finding.part);
  REQUIRE(candidate != nullptr);
  CHECK_FALSE(contains(condition_words(*given.knowledge, given.find, *candidate), "No meter reading"));
  given = open_finding();
  candidate = candidate_of(given.finding, given.knowledge->part("flasher"));
  REQUIRE(candidate != nullptr);
  const std::string words = condition_words(*given.knowledge, given.find, *candidate);
  CHECK(contains(words, "probably good (60 %); or burnt-out (30 %; sign: neither side lights)"));
  CHECK(contains(words, "No meter reading stands behind this"));
}

TEST_CASE("the sum of one part can be added up again from the page") {
  const ReportCase given = flasher_finding();
  const Document document = why_document(*given.knowledge, given.find, given.finding, given.finding.part);
  const Table* sum = nullptr;
  for (const Block& block : document.blocks) {
    const auto* table = std::get_if<Table>(&block);
    if (table != nullptr && table->ends_in_total) sum = table;
  }
  REQUIRE(sum != nullptr);
  REQUIRE(sum->columns.size() == 3);
  for (std::size_t column = 1; column < 3; ++column) {
    double total = 0.0;
    for (std::size_t row = 0; row + 1 < sum->rows.size(); ++row) total += std::stod(sum->rows[row][column]);
    CHECK(total == Approx(std::stod(sum->rows.back()[column])).margin(1e-9));
  }
  CHECK(contains(to_text(document), "burnt-out"));
}

TEST_CASE("a part that was not kept among the candidates is said to be missing") {
  ReportCase given = flasher_finding();
  given.finding.candidates.clear();
  CHECK(contains(to_text(why_document(*given.knowledge, given.find, given.finding, 0)), "not among the candidates"));
  CHECK_NOTHROW(page_of(given));
}

TEST_CASE("the short answer holds candidates and the deciding check") {
  const ReportCase given = open_finding();
  const std::string words = unfolded(to_text(candidates_document(*given.knowledge, given.find, given.finding)));
  CHECK(contains(words, "So far"));
  CHECK(contains(words, "not in the catalogue"));
  CHECK(contains(words, "To tell"));
  CHECK_FALSE(contains(words, "Reasons"));
}
