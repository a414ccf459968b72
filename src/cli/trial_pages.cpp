#include "cli/trial_pages.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "report/finding_words.h"

namespace loomkey::cli {

using bench::AbsentTally;
using bench::Calibration;
using bench::ObserverReport;
using bench::Tally;
using bench::TrialReport;
using knowledge::Knowledge;
using report::Document;
using report::Table;
using Json = nlohmann::ordered_json;

namespace {

constexpr std::size_t most_confusions = 8;

// Counts, not beliefs: a share of all cases may well be 100 %.
std::string per_cent(double share) { return fmt::format("{:.1f} %", share * 100.0); }
std::string points(double error) { return fmt::format("{:.1f}", error * 100.0); }

std::string observer_words(const bench::ObserverType& type) {
  return fmt::format("{:.0f} % wrong, {:.0f} % cannot tell, {}", type.wrong * 100.0, type.cannot_tell * 100.0,
                     type.meter ? "meter" : "no meter");
}

std::string class_id(const Knowledge& knowledge, int advice_class) {
  return advice_class < 0 ? "not-in-catalogue" : knowledge.advice[static_cast<std::size_t>(advice_class)].id;
}

std::string error_words(const std::optional<double>& error) {
  return error ? points(*error) + " points" : "too few verdicts";
}

std::vector<std::string> tally_row(const std::string& title, const Tally& tally) {
  return {title,
          std::to_string(tally.cases),
          per_cent(tally.share(tally.right_class)),
          per_cent(tally.share(tally.right_part)),
          per_cent(tally.share(tally.declared)),
          per_cent(tally.share_declared(tally.declared_right_class)),
          per_cent(tally.share(tally.confidently_wrong)),
          fmt::format("{:.1f}", tally.mean_questions())};
}

void add_observer(Document& page, const Knowledge& knowledge, const ObserverReport& observer) {
  page.blocks.emplace_back(report::Heading{observer_words(observer.type)});
  Table table;
  table.columns = {{"parts"},         {"cases", true},          {"class right", true},      {"part right", true},
                   {"settled", true}, {"of these right", true}, {"wrong above 90 %", true}, {"questions", true}};
  table.rows.push_back(tally_row("all", observer.all));
  table.rows.push_back(tally_row("that looks can separate", observer.separable));
  page.blocks.emplace_back(std::move(table));
  report::KeyValues rows;
  rows.rows.emplace_back("questions to the bound",
                         fmt::format("{:.1f} to {:.1f}, ratio {:.1f}", observer.all.mean_questions(),
                                     observer.bound.questions, observer.bound_ratio));
  rows.rows.emplace_back("calibration error", error_words(observer.calibration.mean_error) + ", the worst bin " +
                                                  error_words(observer.calibration.largest_error));
  std::vector<std::string> confused;
  for (std::size_t i = 0; i < observer.confusions.size() && i < most_confusions; ++i) {
    const auto& confusion = observer.confusions[i];
    confused.push_back(fmt::format("{} called {} ({})", class_id(knowledge, confusion.true_class),
                                   class_id(knowledge, confusion.called_class), confusion.count));
  }
  if (!confused.empty()) rows.rows.emplace_back("confused most", fmt::format("{}", fmt::join(confused, "; ")));
  page.blocks.emplace_back(std::move(rows));
}

void add_calibration(Document& page, const Calibration& calibration) {
  page.blocks.emplace_back(report::Heading{"Calibration, all observers together"});
  Table table;
  table.columns = {{"stated"}, {"verdicts", true}, {"mean stated", true}, {"right", true}, {"error, points", true}};
  for (std::size_t i = 0; i < calibration.bins.size(); ++i) {
    const auto& bin = calibration.bins[i];
    if (bin.count == 0) continue;
    table.rows.push_back({fmt::format("{} to {} %{}", i * 10, i * 10 + 10, bin.counts() ? "" : " (too few)"),
                          std::to_string(bin.count), per_cent(bin.mean_confidence), per_cent(bin.share_right),
                          points(bin.error())});
  }
  page.blocks.emplace_back(std::move(table));
  page.blocks.emplace_back(
      report::Paragraph{"Error over the bins with enough verdicts: " + error_words(calibration.mean_error) +
                        ", the worst " + error_words(calibration.largest_error) +
                        "; all verdicts as one bin: " + points(calibration.overall_error) + " points."});
}

void add_absent(Document& page, const TrialReport& report) {
  if (report.absent.objects == 0) return;
  const AbsentTally& absent = report.absent;
  const auto share = [&](int count) {
    return per_cent(static_cast<double>(count) / static_cast<double>(absent.objects));
  };
  page.blocks.emplace_back(report::Heading{"Classes taken out of the catalogue"});
  report::KeyValues rows;
  rows.rows.emplace_back("classes, objects", fmt::format("{}, {}", report.absent_classes.size(), absent.objects));
  rows.rows.emplace_back("observer", observer_words(report.absent_observer));
  rows.rows.emplace_back("seen to be absent", share(absent.not_in_catalogue));
  rows.rows.emplace_back("called something else",
                         share(absent.declared) + " settled, " + share(absent.confident) + " with more than 90 %");
  rows.rows.emplace_back("questions", fmt::format("{:.1f}", absent.questions / static_cast<double>(absent.objects)));
  page.blocks.emplace_back(std::move(rows));
}

Json number(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

Json tally_json(const Tally& tally) {
  Json ended;
  for (std::size_t s = 0; s < bench::status_count; ++s) {
    ended[std::string(report::status_id(static_cast<inference::Status>(s)))] = tally.ended[s];
  }
  return {{"cases", tally.cases},
          {"right_class", tally.right_class},
          {"right_part", tally.right_part},
          {"settled", tally.declared},
          {"settled_right_class", tally.declared_right_class},
          {"settled_right_part", tally.declared_right_part},
          {"confidently_wrong", tally.confidently_wrong},
          {"mean_questions", tally.mean_questions()},
          {"mean_checks", tally.mean_checks()},
          {"ended", std::move(ended)}};
}

Json calibration_json(const Calibration& calibration) {
  Json bins = Json::array();
  for (std::size_t i = 0; i < calibration.bins.size(); ++i) {
    const auto& bin = calibration.bins[i];
    bins.push_back({{"from", static_cast<double>(i) / 10.0},
                    {"verdicts", bin.count},
                    {"mean_stated", bin.mean_confidence},
                    {"share_right", bin.share_right},
                    {"counts", bin.counts()}});
  }
  return {{"verdicts", calibration.verdicts},
          {"overall_error", calibration.overall_error},
          {"mean_error", number(calibration.mean_error)},
          {"largest_error", number(calibration.largest_error)},
          {"bins", std::move(bins)}};
}

Json observer_json(const bench::ObserverType& type) {
  return {{"wrong", type.wrong}, {"cannot_tell", type.cannot_tell}, {"meter", type.meter}};
}

Json observer_report_json(const Knowledge& knowledge, const ObserverReport& observer) {
  Json out = {{"observer", observer_json(observer.type)},
              {"all", tally_json(observer.all)},
              {"separable", tally_json(observer.separable)},
              {"calibration", calibration_json(observer.calibration)},
              {"bound_questions", observer.bound.questions},
              {"bound_ratio", observer.bound_ratio},
              {"classes", Json::array()},
              {"confusions", Json::array()},
              {"asked", Json::array()}};
  for (const auto& entry : observer.classes) {
    out["classes"].push_back({{"class", class_id(knowledge, entry.advice_class)},
                              {"cases", entry.tally.cases},
                              {"right_class", entry.tally.right_class},
                              {"settled", entry.tally.declared},
                              {"mean_questions", entry.tally.mean_questions()}});
  }
  for (const auto& confusion : observer.confusions) {
    out["confusions"].push_back({{"true", class_id(knowledge, confusion.true_class)},
                                 {"called", class_id(knowledge, confusion.called_class)},
                                 {"count", confusion.count},
                                 {"settled", confusion.declared}});
  }
  for (const auto& asked : observer.asked) {
    out["asked"].push_back(
        {{"trait", knowledge.traits[static_cast<std::size_t>(asked.trait)].id}, {"count", asked.count}});
  }
  return out;
}

Json absent_json(const AbsentTally& absent) {
  return {{"objects", absent.objects},
          {"not_in_catalogue", absent.not_in_catalogue},
          {"settled", absent.declared},
          {"confident", absent.confident},
          {"questions", absent.questions}};
}

}  // namespace

Document trial_document(const Knowledge& knowledge, const TrialReport& report) {
  Document page;
  page.title = "Trial of the catalogue";
  page.blocks.emplace_back(report::Paragraph{fmt::format(
      "Seed {}, {} conversations with each observer, parts {}. Simulated people hold simulated parts: this measures "
      "whether the catalogue's parts can be told apart and whether the stated confidence fits, not whether the "
      "catalogue "
      "is right about the world.",
      report.seed, report.cases, report.by_turns ? "by turns" : "as often as they are brought in")});
  page.blocks.emplace_back(report::Paragraph{
      fmt::format("Looks can separate {} of {} parts from all that need other advice ({:.0f} decibans or more): {} of "
                  "what is brought in.",
                  report.separable_parts(), report.apart.size(), report.apart_db, per_cent(report.separable_prior))});
  for (const ObserverReport& observer : report.observers) add_observer(page, knowledge, observer);
  add_calibration(page, report.calibration);
  add_absent(page, report);
  return page;
}

std::string trial_json(const Knowledge& knowledge, const TrialReport& report) {
  Json out = {{"schema", "loomkey/trial/1"},
              {"seed", report.seed},
              {"cases", report.cases},
              {"by_turns", report.by_turns},
              {"catalogue", knowledge.hash},
              {"apart_db", report.apart_db},
              {"separable_parts", report.separable_parts()},
              {"separable_prior", report.separable_prior},
              {"parts", Json::array()},
              {"observers", Json::array()},
              {"calibration", calibration_json(report.calibration)}};
  for (const auto& apart : report.apart) {
    const auto id = [&](int part) {
      return part < 0 ? Json(nullptr) : Json(knowledge.parts[static_cast<std::size_t>(part)].id);
    };
    out["parts"].push_back({{"part", id(apart.part)}, {"nearest", id(apart.nearest)}, {"decibans", apart.decibans}});
  }
  for (const ObserverReport& observer : report.observers) {
    out["observers"].push_back(observer_report_json(knowledge, observer));
  }
  out["absent"] = absent_json(report.absent);
  out["absent"]["observer"] = observer_json(report.absent_observer);
  out["absent"]["classes"] = Json::array();
  for (const AbsentTally& absent : report.absent_classes) {
    Json entry = {{"class", class_id(knowledge, absent.advice_class)}};
    entry.update(absent_json(absent));
    if (absent.declared > 0) entry["called_most"] = class_id(knowledge, absent.called_most);
    out["absent"]["classes"].push_back(std::move(entry));
  }
  constexpr int indent = 2;
  return out.dump(indent, ' ', true, Json::error_handler_t::replace) + "\n";
}

}  // namespace loomkey::cli
