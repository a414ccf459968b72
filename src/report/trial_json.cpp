#include <optional>

#include <nlohmann/json.hpp>

#include "report/finding_words.h"
#include "report/json_numbers.h"
#include "report/trial_document.h"

namespace loomkey::report {

using bench::AbsentTally;
using bench::Calibration;
using bench::ObserverReport;
using bench::ObserverType;
using bench::Tally;
using bench::TrialReport;
using Json = nlohmann::ordered_json;

namespace {

Json optional_number(const std::optional<double>& value) { return value ? Json(shown_weight(*value)) : Json(nullptr); }

Json class_id(const Knowledge& knowledge, int advice_class) {
  if (advice_class < 0) return nullptr;
  return knowledge.advice[static_cast<std::size_t>(advice_class)].id;
}

Json part_id(const Knowledge& knowledge, int part) {
  if (part < 0) return nullptr;
  return knowledge.parts[static_cast<std::size_t>(part)].id;
}

Json tally_json(const Tally& tally) {
  Json ended;
  for (std::size_t s = 0; s < bench::status_count; ++s) {
    ended[std::string(status_id(static_cast<inference::Status>(s)))] = tally.ended[s];
  }
  return {{"cases", tally.cases},
          {"right_class", tally.right_class},
          {"right_part", tally.right_part},
          {"settled", tally.declared},
          {"settled_right_class", tally.declared_right_class},
          {"settled_right_part", tally.declared_right_part},
          {"confidently_wrong", tally.confidently_wrong},
          {"mean_questions", shown_weight(tally.mean_questions())},
          {"mean_checks", shown_weight(tally.mean_checks())},
          {"ended", std::move(ended)},
          {"contradicted_on_the_way", tally.contradicted_on_the_way},
          {"answers", tally.answers},
          {"wrong_answers", tally.wrong_answers}};
}

Json calibration_json(const Calibration& calibration) {
  Json bins = Json::array();
  for (std::size_t i = 0; i < calibration.bins.size(); ++i) {
    const bench::CalibrationBin& bin = calibration.bins[i];
    bins.push_back({{"from", static_cast<double>(i) / static_cast<double>(bench::calibration_bins)},
                    {"verdicts", bin.count},
                    {"mean_stated", shown_weight(bin.mean_confidence)},
                    {"share_right", shown_weight(bin.share_right)},
                    {"counts", bin.counts()}});
  }
  return {{"verdicts", calibration.verdicts},
          {"overall_error", shown_weight(calibration.overall_error)},
          {"mean_error", optional_number(calibration.mean_error)},
          {"largest_error", optional_number(calibration.largest_error)},
          {"bins", std::move(bins)}};
}

const char* mistakes_id(bench::Mistakes mistakes) { return mistakes == bench::Mistakes::own ? "own" : "other"; }

Json observer_json(const ObserverType& type) {
  return {{"mistakes", mistakes_id(type.mistakes)},
          {"wrong", shown_weight(type.wrong)},
          {"cannot_tell", shown_weight(type.cannot_tell)},
          {"meter", type.meter},
          {"doubts", type.doubts},
          {"wrong_answers", type.wrong_answers == bench::WrongAnswers::any ? "any" : "plausible"},
          {"altered", type.altered}};
}

Json classes_json(const Knowledge& knowledge, const std::vector<bench::ClassTally>& classes) {
  Json out = Json::array();
  for (const bench::ClassTally& entry : classes) {
    out.push_back({{"class", class_id(knowledge, entry.advice_class)},
                   {"cases", entry.tally.cases},
                   {"right_class", entry.tally.right_class},
                   {"settled", entry.tally.declared},
                   {"mean_questions", shown_weight(entry.tally.mean_questions())}});
  }
  return out;
}

Json confusions_json(const Knowledge& knowledge, const std::vector<bench::Confusion>& confusions) {
  Json out = Json::array();
  for (const bench::Confusion& entry : confusions) {
    out.push_back({{"true", class_id(knowledge, entry.true_class)},
                   {"called", class_id(knowledge, entry.called_class)},
                   {"count", entry.count},
                   {"settled", entry.declared}});
  }
  return out;
}

Json asked_json(const Knowledge& knowledge, const std::vector<bench::AskedTrait>& asked) {
  Json out = Json::array();
  for (const bench::AskedTrait& entry : asked) {
    out.push_back({{"trait", knowledge.traits[static_cast<std::size_t>(entry.trait)].id}, {"count", entry.count}});
  }
  return out;
}

Json share_json(const bench::Share& share, double bound) {
  Json out = tally_json(share.tally);
  out["ratio"] = shown_weight(bound > 0.0 ? share.tally.mean_questions() / bound : 0.0);
  out["calibration"] = calibration_json(share.calibration);
  return out;
}

Json observer_report_json(const Knowledge& knowledge, const ObserverReport& report) {
  const bench::QuestionBound& bound = report.bound;
  const Json trait = bound.trait < 0 ? Json(nullptr) : Json(knowledge.traits[static_cast<std::size_t>(bound.trait)].id);
  return {{"observer", observer_json(report.type)},
          {"all", tally_json(report.all)},
          {"separable", tally_json(report.separable)},
          {"good", share_json(report.good, bound.questions)},
          {"faulty", share_json(report.faulty, bound.questions)},
          {"calibration", calibration_json(report.calibration)},
          {"bound",
           {{"entropy", shown_weight(bound.entropy)},
            {"residue", shown_weight(bound.residue)},
            {"capacity", shown_weight(bound.capacity)},
            {"trait", trait},
            {"questions", shown_weight(bound.questions)},
            {"ratio", shown_weight(report.bound_ratio)}}},
          {"classes", classes_json(knowledge, report.classes)},
          {"confusions", confusions_json(knowledge, report.confusions)},
          {"asked", asked_json(knowledge, report.asked)}};
}

Json absent_json(const AbsentTally& absent) {
  return {{"objects", absent.objects},
          {"not_in_catalogue", absent.not_in_catalogue},
          {"settled", absent.declared},
          {"confident", absent.confident},
          {"questions", absent.questions}};
}

Json mistakes_json(const Knowledge& knowledge, const bench::MistakesReport& report) {
  Json absent = absent_json(report.absent);
  absent["observer"] = observer_json(report.absent_observer);
  absent["separable"] = absent_json(report.absent_separable);
  absent["classes"] = Json::array();
  for (const AbsentTally& tally : report.absent_classes) {
    Json entry = {{"class", class_id(knowledge, tally.advice_class)}};
    entry.update(absent_json(tally));
    entry["called_most"] = class_id(knowledge, tally.called_most);
    absent["classes"].push_back(std::move(entry));
  }
  return {{"mistakes", mistakes_id(report.mistakes)},
          {"calibration", calibration_json(report.calibration)},
          {"absent", std::move(absent)}};
}

}  // namespace

std::string trial_json(const Knowledge& knowledge, const TrialReport& report) {
  Json out = {{"schema", "loomkey/trial/2"},
              {"catalogue", knowledge.hash},
              {"seed", report.seed},
              {"cases", report.cases},
              {"by_turns", report.by_turns},
              {"apart_db", report.apart_db},
              {"separable_parts", report.separable_parts()},
              {"separable_prior", shown_weight(report.separable_prior)},
              {"calibration", calibration_json(report.calibration)},
              {"classes", classes_json(knowledge, report.classes)},
              {"confusions", confusions_json(knowledge, report.confusions)},
              {"asked", asked_json(knowledge, report.asked)},
              {"parts", Json::array()},
              {"observers", Json::array()}};
  for (const bench::LooksApart& apart : report.apart) {
    out["parts"].push_back({{"part", part_id(knowledge, apart.part)},
                            {"nearest", part_id(knowledge, apart.nearest)},
                            {"decibans", shown_weight(apart.decibans)}});
  }
  for (const ObserverReport& observer : report.observers) {
    out["observers"].push_back(observer_report_json(knowledge, observer));
  }
  out["by_mistakes"] = Json::array();
  for (const bench::MistakesReport& mistakes : report.by_mistakes) {
    out["by_mistakes"].push_back(mistakes_json(knowledge, mistakes));
  }
  constexpr int indent = 2;
  return out.dump(indent, ' ', true, Json::error_handler_t::replace) + "\n";
}

std::string verdicts_json(const Knowledge& knowledge, const std::vector<bench::Outcome>& verdicts) {
  Json list = Json::array();
  for (const bench::Outcome& verdict : verdicts) {
    list.push_back({{"part", part_id(knowledge, verdict.object.part)},
                    {"class", class_id(knowledge, verdict.true_class)},
                    {"called_class", class_id(knowledge, verdict.called_class)},
                    {"called_part", part_id(knowledge, verdict.called_part)},
                    {"status", std::string(status_id(verdict.status))},
                    {"probability", shown_probability(verdict.confidence)},
                    {"questions", verdict.asked.size()}});
  }
  const Json out = {{"schema", "loomkey/verdicts/1"}, {"catalogue", knowledge.hash}, {"verdicts", std::move(list)}};
  constexpr int indent = 2;
  return out.dump(indent, ' ', true, Json::error_handler_t::replace) + "\n";
}

}  // namespace loomkey::report
