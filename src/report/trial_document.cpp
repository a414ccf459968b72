#include "report/trial_document.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "report/finding_words.h"
#include "report/trial_sections.h"

namespace loomkey::report {

using bench::ObserverReport;
using bench::Tally;
using bench::TrialReport;

namespace {

std::string part_id(const Knowledge& knowledge, int part) {
  return part < 0 ? "-" : knowledge.parts[static_cast<std::size_t>(part)].id;
}

void add_opening(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Paragraph{fmt::format(
      "Seed {}, {} conversations with each kind of observer, parts {}. Simulated people hold simulated parts, good and "
      "faulty, and answer what the program asks; unless marked \"always sure\" they say how sure they are, and are "
      "wrong mostly in doubt (with other mistakes: in doubt only a little more often). This measures whether the parts "
      "can be told apart as the catalogue describes them, and "
      "whether the stated confidence fits. It does not measure whether the catalogue is right about the world.",
      report.seed, report.cases, report.by_turns ? "by turns" : "as often as they are brought in")});
  if (report.cases > 0) {
    // Two standard errors of a share of 90 %.
    const double give = 2.0 * std::sqrt(0.9 * 0.1 / report.cases);
    page.blocks.emplace_back(Paragraph{
        fmt::format("A share near 90 % of {} conversations is good to about {}.", report.cases, points(give))});
  }
}

void add_observers(Document& page, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"Observers"});
  KeyValues rows;
  for (std::size_t i = 0; i < report.observers.size(); ++i) {
    const ObserverReport& observer = report.observers[i];
    rows.rows.emplace_back(observer_letter(i), fmt::format("{}; {} all told", observer_words(observer.type),
                                                           share_words(observer.all.share_wrong())));
  }
  page.blocks.emplace_back(std::move(rows));
  page.blocks.emplace_back(Paragraph{
      "Own mistakes: answers come from the program's own idea of how people misread, the same that it reckons with, "
      "and "
      "on top so many are plainly wrong. Other mistakes: from habits that the program knows nothing of: a rewired "
      "bike, "
      "a bent ruler, a cheap meter, a poor eye for colours, one other part held in mind; so many are wrong with all "
      "these counted. All told: share of the answers given that are not what the part in hand was made to be."});
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
      "Class right: the likeliest class at the end is "
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
      "top, so nothing reaches it. It is the same for both kinds of mistakes."});
}

void add_hardest(Document& page, const Knowledge& knowledge, const TrialReport& report) {
  page.blocks.emplace_back(Heading{"Hardest classes, all observers together"});
  Table classes;
  classes.columns = {{"class", false, true}, {"right", true}, {"cases", true}, {"settled", true}, {"questions", true}};
  for (const bench::ClassTally& entry : report.classes) {
    if (classes.rows.size() >= most_trial_rows || entry.tally.right_class == entry.tally.cases) break;
    classes.rows.push_back({class_words(knowledge, entry.advice_class), std::to_string(entry.tally.right_class),
                            std::to_string(entry.tally.cases), std::to_string(entry.tally.declared),
                            fmt::format("{:.1f}", entry.tally.mean_questions())});
  }
  page.blocks.emplace_back(std::move(classes));
  Table confused;
  confused.columns = {{"is", false, true}, {"called", false, true}, {"times", true}, {"settled", true}};
  for (const bench::Confusion& entry : report.confusions) {
    if (confused.rows.size() >= most_trial_rows) break;
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
    if (near.rows.size() >= most_trial_rows || entry.decibans >= report.apart_db) break;
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
    if (table.rows.size() >= most_trial_rows) break;
    table.rows.push_back(
        {knowledge.traits[static_cast<std::size_t>(entry.trait)].id, share_words(entry.count / conversations)});
  }
  page.blocks.emplace_back(std::move(table));
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
    add_conditions(page, report);
    add_calibrations(page, report);
    add_hardest(page, knowledge, report);
    add_asked(page, knowledge, report);
  }
  for (const bench::MistakesReport& mistakes : report.by_mistakes) add_absent(page, knowledge, mistakes);
  return page;
}

}  // namespace loomkey::report
