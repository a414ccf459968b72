#include "report/trial_document.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "report/finding_words.h"

namespace loomkey::report {

using bench::ObserverReport;
using bench::ObserverType;
using bench::Tally;
using bench::TrialReport;

namespace {

constexpr std::size_t most_rows = 12;

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
  return words;
}

std::string class_words(const Knowledge& knowledge, int advice_class) {
  return advice_class < 0 ? "(not in the catalogue)" : knowledge.advice[static_cast<std::size_t>(advice_class)].id;
}

std::string part_id(const Knowledge& knowledge, int part) {
  return part < 0 ? "-" : knowledge.parts[static_cast<std::size_t>(part)].id;
}

void add_opening(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Paragraph{fmt::format(
      "Seed {}, {} conversations with each kind of observer, parts {}. Simulated people hold simulated parts, good and "
      "faulty, and answer what the program asks; unless marked \"always sure\" they say how sure they are, and are "
      "wrong mostly in doubt. This measures whether the parts can be told apart as the catalogue describes them, and "
      "whether the stated confidence fits. It does not measure whether the catalogue is right about the world.",
      report.seed, report.cases, report.by_turns ? "by turns" : "as often as they are brought in")});
  if (report.cases > 0) {
    // Two standard errors of a share of 90 %.
    const double give = 2.0 * std::sqrt(0.9 * 0.1 / report.cases);
    page.blocks.emplace_back(Paragraph{
        fmt::format("A share near 90 % of {} conversations is good to about {}.", report.cases, points(give))});
  }
}

// Observers are named once, by letter; their tables have no room for more.
std::string observer_letter(std::size_t index) {
  constexpr std::size_t letters = 26;
  std::string name(1, static_cast<char>('A' + index % letters));
  return index < letters ? name : name + std::to_string(index / letters + 1);
}

void add_observers(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"Observers"});
  KeyValues rows;
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    rows.rows.emplace_back(observer_letter(i), observer_words(report.observers[i].type));
  }
  page.blocks.emplace_back(std::move(rows));
}

Table tally_table(const TrialReport& report, const std::function<const Tally&(const ObserverReport&)>& tally_of) {
  Table table;
  table.columns = {{"observer"}};
  for (const char* title :
       {"cases", "class right", "part right", "settled", "these right", "wrong > 90 %", "asked", "checks"}) {
    table.columns.push_back({title, true});
  }
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    const ObserverReport& observer = report.observers[i];
    const Tally& tally = tally_of(observer);
    std::vector<std::string> row = {observer_letter(i)};
    row.push_back(std::to_string(tally.cases));
    for (const double share :
         {tally.share(tally.right_class), tally.share(tally.right_part), tally.share(tally.declared),
          tally.share_declared(tally.declared_right_class), tally.share(tally.confidently_wrong)}) {
      row.push_back(share_words(share));
    }
    row.push_back(fmt::format("{:.1f}", tally.mean_questions()));
    row.push_back(fmt::format("{:.1f}", tally.mean_checks()));
    table.rows.push_back(std::move(row));
  }
  return table;
}

void add_shares(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"All parts"});
  page.blocks.emplace_back(tally_table(report, [](const auto& observer) -> const Tally& { return observer.all; }));
  page.blocks.emplace_back(Heading{"Parts that looks can separate"});
  page.blocks.emplace_back(Paragraph{fmt::format(
      "Known before the trial: everything that eye, ruler and magnet can read is expected to weigh {:.0f} decibans or "
      "more against every part that needs other advice. {} of {} parts; {} of what is brought in.",
      report.apart_db, report.separable_parts(), report.apart.size(), share_words(report.separable_prior))});
  page.blocks.emplace_back(
      tally_table(report, [](const auto& observer) -> const Tally& { return observer.separable; }));
  page.blocks.emplace_back(Paragraph{
      "Wrong: share of the answers given that are plainly wrong. Class right: the likeliest class at the end is "
      "the true one, settled or not. These right: share of the settled ones whose class is right. Wrong > 90 %: "
      "a wrong class is believed with more than 90 %. Asked: mean questions, \"cannot tell\" and the checks "
      "against \"not in the catalogue\" included."});
}

void add_endings(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"How conversations ended"});
  Table table;
  table.columns = {{"observer"}};
  for (const char* title :
       {"open", "likely", "settled", "cannot tell", "contradicted", "not in the catalogue", "once contradicted"}) {
    table.columns.push_back({title, true});
  }
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    const ObserverReport& observer = report.observers[i];
    std::vector<std::string> row = {observer_letter(i)};
    for (const int count : observer.all.ended) row.push_back(std::to_string(count));
    row.push_back(std::to_string(observer.all.contradicted_on_the_way));
    table.rows.push_back(std::move(row));
  }
  page.blocks.emplace_back(std::move(table));
}

void add_bound(Document& page, const Knowledge& knowledge, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"Questions against the bound"});
  Table table;
  table.columns = {{"observer"}};
  for (const char* title : {"asked", "bound", "ratio"}) table.columns.push_back({title, true});
  table.columns.push_back({"best trait"});
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    const ObserverReport& observer = report.observers[i];
    const bench::QuestionBound& bound = observer.bound;
    const std::string trait = bound.trait < 0 ? "-" : knowledge.traits[static_cast<std::size_t>(bound.trait)].id;
    std::vector<std::string> row = {observer_letter(i)};
    row.push_back(fmt::format("{:.1f}", observer.all.mean_questions()));
    row.push_back(fmt::format("{:.2f}", bound.questions));
    row.push_back(fmt::format("{:.1f}", observer.bound_ratio));
    row.push_back(fmt::format("{}, {:.2f} bit", trait, bound.capacity));
    table.rows.push_back(std::move(row));
  }
  page.blocks.emplace_back(std::move(table));
  page.blocks.emplace_back(Paragraph{
      "Bound: entropy of the classes before any reading, less what may be left when one is settled, over the most bits "
      "that one answer about the best single trait can carry. That trait can be asked only once, and checks come on "
      "top, so nothing reaches it."});
}

void add_calibration(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"Calibration, all observers together"});
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
  KeyValues rows;
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    rows.rows.emplace_back("observer " + observer_letter(i), points(report.observers[i].calibration.mean_error));
  }
  page.blocks.emplace_back(std::move(rows));
}

void add_hardest(Document& page, const Knowledge& knowledge, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"Hardest classes, all observers together"});
  Table classes;
  classes.columns = {{"class", false, true}, {"right", true}, {"cases", true}, {"settled", true}, {"questions", true}};
  for (const bench::ClassTally& entry : report.classes) {
    if (classes.rows.size() >= most_rows || entry.tally.right_class == entry.tally.cases) break;
    classes.rows.push_back({class_words(knowledge, entry.advice_class), std::to_string(entry.tally.right_class),
                            std::to_string(entry.tally.cases), std::to_string(entry.tally.declared),
                            fmt::format("{:.1f}", entry.tally.mean_questions())});
  }
  page.blocks.emplace_back(std::move(classes));
  Table confused;
  confused.columns = {{"is", false, true}, {"called", false, true}, {"times", true}, {"settled", true}};
  for (const bench::Confusion& entry : report.confusions) {
    if (confused.rows.size() >= most_rows) break;
    confused.rows.push_back({class_words(knowledge, entry.true_class), class_words(knowledge, entry.called_class),
                             std::to_string(entry.count), std::to_string(entry.declared)});
  }
  page.blocks.emplace_back(Heading{"Confused most often"});
  page.blocks.emplace_back(std::move(confused));

  std::vector<bench::LooksApart> apart = report.apart;
  std::stable_sort(apart.begin(), apart.end(), [](const auto& a, const auto& b) { return a.decibans < b.decibans; });
  Table near;
  near.columns = {{"part", false, true}, {"hardest to tell from", false, true}, {"decibans", true}};
  for (const bench::LooksApart& entry : apart) {
    if (near.rows.size() >= most_rows || entry.decibans >= report.apart_db) break;
    near.rows.push_back({part_id(knowledge, entry.part), part_id(knowledge, entry.nearest),
                         fmt::format("{:.1f}", std::max(entry.decibans, 0.0))});
  }
  page.blocks.emplace_back(Heading{"Looks alone hardly separate"});
  page.blocks.emplace_back(std::move(near));
}

void add_asked(Document& page, const Knowledge& knowledge, const TrialReport& report) {
  double conversations = 0.0;
  for (const ObserverReport& observer : report.observers) conversations += observer.all.cases;
  if (conversations <= 0.0) return;
  page.blocks.emplace_back(Heading{"Asked most often"});
  Table table;
  table.columns = {{"trait", false, true}, {"of conversations", true}};
  for (const bench::AskedTrait& entry : report.asked) {
    if (table.rows.size() >= most_rows) break;
    table.rows.push_back(
        {knowledge.traits[static_cast<std::size_t>(entry.trait)].id, share_words(entry.count / conversations)});
  }
  page.blocks.emplace_back(std::move(table));
}

void add_absent(Document& page, const Knowledge& knowledge, const TrialReport& report) {
  const bench::AbsentTally& absent = report.absent;
  if (absent.objects == 0) return;
  page.blocks.emplace_back(Heading{"Classes taken out of the catalogue"});
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
    if (table.rows.size() >= most_rows || entry.declared == 0) break;
    table.rows.push_back({class_words(knowledge, entry.advice_class), std::to_string(entry.objects),
                          std::to_string(entry.declared), class_words(knowledge, entry.called_most)});
  }
  if (!table.rows.empty()) page.blocks.emplace_back(std::move(table));
}

}  // namespace

Document trial_document(const Knowledge& knowledge, const TrialReport& report) {
  Document page;
  page.title = "Trial of the catalogue";
  add_opening(page, report);
  if (!report.observers.empty() && report.cases > 0) {
    add_observers(page, report);
    add_shares(page, report);
    add_endings(page, report);
    add_bound(page, knowledge, report);
    add_calibration(page, report);
    add_hardest(page, knowledge, report);
    add_asked(page, knowledge, report);
  }
  add_absent(page, knowledge, report);
  return page;
}

}  // namespace loomkey::report
