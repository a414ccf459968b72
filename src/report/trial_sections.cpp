#include "report/trial_sections.h"

#include <fmt/format.h>

#include "report/finding_words.h"

namespace loomkey::report {

using bench::Calibration;
using bench::MistakesReport;
using bench::ObserverReport;
using bench::ObserverType;
using bench::TrialReport;

namespace {

const char* mistakes_words(bench::Mistakes mistakes) {
  return mistakes == bench::Mistakes::own ? "own mistakes" : "other mistakes";
}

void add_calibration(Document& page, const MistakesReport& report) {
  page.blocks.emplace_back(
      Heading{fmt::format("Calibration, {}, all such observers together", mistakes_words(report.mistakes))});
  Table table;
  table.columns = {{"stated"}, {"verdicts", true}, {"mean stated", true}, {"right", true}, {"error", true}};
  for (std::size_t i = 0; i < report.calibration.bins.size(); ++i) {
    const bench::CalibrationBin& bin = report.calibration.bins[i];
    if (bin.count == 0) continue;
    table.rows.push_back({fmt::format("{} to {} %{}", i * 10, i * 10 + 10, bin.counts() ? "" : " (too few)"),
                          std::to_string(bin.count), share_words(bin.mean_confidence), share_words(bin.share_right),
                          points(bin.error())});
  }
  page.blocks.emplace_back(std::move(table));
  page.blocks.emplace_back(Paragraph{fmt::format(
      "Error over the bins with at least {} verdicts: {}, the worst of them {}; all verdicts as one bin: {}.",
      bench::verdicts_for_calibration, points(report.calibration.mean_error), points(report.calibration.largest_error),
      points(report.calibration.overall_error))});
}

constexpr std::size_t first_bin_alone = 5;  // below 50 % verdicts are few

// Verdicts that were right, of all in each bin.
void add_bins_of_observers(Document& page, const TrialReport& report) {
  Table table;
  table.columns = {{"observer"}, {"under 50 %", true}};
  for (std::size_t b = first_bin_alone; b < bench::calibration_bins; ++b) {
    table.columns.push_back({fmt::format("{} to {} %", b * 10, b * 10 + 10), true});
  }
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    std::vector<std::string> row = {observer_letter(i)};
    int verdicts = 0;
    double right = 0.0;
    for (std::size_t b = 0; b < bench::calibration_bins; ++b) {
      const bench::CalibrationBin& bin = report.observers[i].calibration.bins[b];
      verdicts += bin.count;
      right += bin.share_right * bin.count;
      if (b + 1 < first_bin_alone) continue;
      row.push_back(verdicts == 0 ? "-" : fmt::format("{:.0f} of {}", right, verdicts));
      verdicts = 0;
      right = 0.0;
    }
    table.rows.push_back(std::move(row));
  }
  page.blocks.emplace_back(Paragraph{"Right verdicts of all, by what was stated:"});
  page.blocks.emplace_back(std::move(table));
}

void add_condition(Table& table, std::string name, const char* condition, const ObserverReport& observer,
                   const bench::Share& share) {
  const bench::Tally& tally = share.tally;
  const double bound = observer.bound.questions;
  const double asked = tally.mean_questions();
  table.rows.push_back({std::move(name), condition, std::to_string(tally.cases),
                        share_words(tally.share(tally.right_class)), share_words(tally.share(tally.right_part)),
                        share_words(tally.share(tally.confidently_wrong)), fmt::format("{:.1f}", asked),
                        bound > 0.0 ? fmt::format("{:.1f}", asked / bound) : "-",
                        points(share.calibration.overall_error)});
}

}  // namespace

// Counts, not beliefs: a share of all cases may well be 100 %.
std::string share_words(double share) { return fmt::format("{:.1f} %", share * 100.0); }
std::string points(double error) { return fmt::format("{:.1f} points", error * 100.0); }
std::string points(const std::optional<double>& error) { return error ? points(*error) : "too few verdicts"; }

std::string observer_words(const ObserverType& type) {
  std::string words = fmt::format("{:.0f} % wrong", type.wrong * 100.0);
  if (type.cannot_tell > 0.0) words += fmt::format(", {:.0f} % cannot tell", type.cannot_tell * 100.0);
  if (!type.meter) words += ", no meter";
  if (!type.doubts) words += ", always sure";
  if (type.altered) words += ", altered parts";
  words += std::string(", ") + mistakes_words(type.mistakes);
  return words;
}

std::string class_words(const Knowledge& knowledge, int advice_class) {
  return advice_class < 0 ? "(not in the catalogue)" : knowledge.advice[static_cast<std::size_t>(advice_class)].id;
}

// Observers are named once, by letter; their tables have no room for more.
std::string observer_letter(std::size_t index) {
  constexpr std::size_t letters = 26;
  std::string name(1, static_cast<char>('A' + index % letters));
  return index < letters ? name : name + std::to_string(index / letters + 1);
}

void add_conditions(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"Good parts and faulty parts"});
  Table table;
  table.columns = {{"observer"}, {"parts"}};
  for (const char* title : {"cases", "class right", "part right", "wrong > 90 %", "asked", "ratio", "stated off by"}) {
    table.columns.push_back({title, true});
  }
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    const ObserverReport& observer = report.observers[i];
    add_condition(table, observer_letter(i), "good", observer, observer.good);
    add_condition(table, "", "faulty", observer, observer.faulty);
  }
  page.blocks.emplace_back(std::move(table));
  page.blocks.emplace_back(
      Paragraph{"Faulty: everything not in good order. Ratio: asked, over the bound. Stated off by: mean stated "
                "confidence against "
                "the share right."});
}

void add_calibrations(Document& page, const TrialReport& report) {
  for (const MistakesReport& mistakes : report.by_mistakes) add_calibration(page, mistakes);
  page.blocks.emplace_back(Heading{"Calibration of each observer"});
  Table table;
  table.columns = {{"observer"}};
  for (const char* title : {"verdicts", "all as one bin", "over the bins", "worst bin"}) {
    table.columns.push_back({title, true});
  }
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    const Calibration& calibration = report.observers[i].calibration;
    table.rows.push_back({observer_letter(i), std::to_string(calibration.verdicts), points(calibration.overall_error),
                          points(calibration.mean_error), points(calibration.largest_error)});
  }
  page.blocks.emplace_back(std::move(table));
  add_bins_of_observers(page, report);
}

void add_absent(Document& page, const Knowledge& knowledge, const MistakesReport& report) {
  const bench::AbsentTally& absent = report.absent;
  if (absent.objects == 0) return;
  page.blocks.emplace_back(
      Heading{fmt::format("Classes taken out of the catalogue, {}", mistakes_words(report.mistakes))});
  page.blocks.emplace_back(
      Paragraph{fmt::format("{} classes, one at a time; objects of them shown to an observer with {}. Something else "
                            "with more than 90 %: settled on another class, wrongly sure of it.",
                            report.absent_classes.size(), observer_words(report.absent_observer))});
  Table shares;
  shares.columns = {{"classes"},
                    {"objects", true},
                    {"not in the catalogue", true},
                    {"settled as another", true},
                    {"with more than 90 %", true},
                    {"asked", true}};
  const auto add_row = [&](const char* name, const bench::AbsentTally& tally) {
    if (tally.objects == 0) return;
    const auto share = [&](int count) { return share_words(static_cast<double>(count) / tally.objects); };
    shares.rows.push_back({name, std::to_string(tally.objects), share(tally.not_in_catalogue), share(tally.declared),
                           share(tally.confident), fmt::format("{:.1f}", tally.questions / tally.objects)});
  };
  add_row("all", absent);
  add_row("that looks can separate from the rest", report.absent_separable);
  page.blocks.emplace_back(std::move(shares));
  Table table;
  table.columns = {{"class", false, true}, {"objects", true}, {"settled as another", true}, {"mostly", false, true}};
  for (const bench::AbsentTally& entry : report.absent_classes) {
    if (table.rows.size() >= most_trial_rows || entry.declared == 0) break;
    table.rows.push_back({class_words(knowledge, entry.advice_class), std::to_string(entry.objects),
                          std::to_string(entry.declared), class_words(knowledge, entry.called_most)});
  }
  if (!table.rows.empty()) page.blocks.emplace_back(std::move(table));
}

}  // namespace loomkey::report
