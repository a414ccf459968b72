#include "bench/trial_measures.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace loomkey::bench {

void Tally::add(const Outcome& outcome) {
  ++cases;
  if (outcome.right_class()) ++right_class;
  if (outcome.right_part()) ++right_part;
  if (outcome.declared()) {
    ++declared;
    if (outcome.right_class()) ++declared_right_class;
    if (outcome.right_part()) ++declared_right_part;
  }
  if (outcome.called_class >= 0 && !outcome.right_class() && outcome.confidence > confident) ++confidently_wrong;
  questions += static_cast<double>(outcome.asked.size());
  checks += outcome.checks;
  ++ended[static_cast<std::size_t>(outcome.status)];
  if (outcome.contradicted) ++contradicted_on_the_way;
  answers += outcome.answers;
  wrong_answers += outcome.wrong_answers;
}

double Tally::share(int count) const { return cases > 0 ? static_cast<double>(count) / cases : 0.0; }
double Tally::share_declared(int count) const { return declared > 0 ? static_cast<double>(count) / declared : 0.0; }
double Tally::mean_questions() const { return cases > 0 ? questions / cases : 0.0; }
double Tally::mean_checks() const { return cases > 0 ? checks / cases : 0.0; }
double Tally::share_wrong() const { return answers > 0 ? static_cast<double>(wrong_answers) / answers : 0.0; }

double CalibrationBin::error() const { return count > 0 ? std::abs(mean_confidence - share_right) : 0.0; }

Calibration calibrate(const std::vector<Verdict>& verdicts) {
  Calibration out;
  CalibrationBin whole;
  for (const Verdict& verdict : verdicts) {
    const auto place = static_cast<std::size_t>(verdict.confidence * static_cast<double>(calibration_bins));
    for (CalibrationBin* bin : {&out.bins[std::min(place, calibration_bins - 1)], &whole}) {
      ++bin->count;
      bin->mean_confidence += verdict.confidence;
      bin->share_right += verdict.right ? 1.0 : 0.0;
    }
  }
  const auto to_means = [](CalibrationBin& bin) {
    if (bin.count == 0) return;
    bin.mean_confidence /= bin.count;
    bin.share_right /= bin.count;
  };
  to_means(whole);
  out.verdicts = whole.count;
  out.overall_error = whole.error();
  int counted = 0;
  double sum = 0.0;
  for (CalibrationBin& bin : out.bins) {
    to_means(bin);
    if (!bin.counts()) continue;
    counted += bin.count;
    sum += bin.count * bin.error();
    out.largest_error = std::max(out.largest_error.value_or(0.0), bin.error());
  }
  if (counted > 0) out.mean_error = sum / counted;
  return out;
}

std::vector<Verdict> verdicts(const std::vector<Outcome>& outcomes) {
  std::vector<Verdict> out;
  for (const Outcome& outcome : outcomes) {
    if (outcome.called_class >= 0) out.push_back({outcome.confidence, outcome.right_class()});
  }
  return out;
}

std::vector<ClassTally> by_class(const std::vector<Outcome>& outcomes) {
  std::map<int, Tally> tallies;
  for (const Outcome& outcome : outcomes) tallies[outcome.true_class].add(outcome);
  std::vector<ClassTally> out;
  for (const auto& [advice_class, tally] : tallies) out.push_back({advice_class, tally});
  std::stable_sort(out.begin(), out.end(), [](const ClassTally& a, const ClassTally& b) {
    const double share_a = a.tally.share(a.tally.right_class);
    const double share_b = b.tally.share(b.tally.right_class);
    return share_a != share_b ? share_a < share_b : a.tally.cases > b.tally.cases;
  });
  return out;
}

std::vector<Confusion> confusions(const std::vector<Outcome>& outcomes) {
  std::map<std::pair<int, int>, Confusion> found;
  for (const Outcome& outcome : outcomes) {
    if (outcome.right_class()) continue;
    Confusion& confusion = found[{outcome.true_class, outcome.called_class}];
    confusion.true_class = outcome.true_class;
    confusion.called_class = outcome.called_class;
    ++confusion.count;
    if (outcome.declared()) ++confusion.declared;
  }
  std::vector<Confusion> out;
  for (const auto& [pair, confusion] : found) out.push_back(confusion);
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.count > b.count; });
  return out;
}

std::vector<AskedTrait> asked_traits(const std::vector<Outcome>& outcomes) {
  std::map<int, int> counts;
  for (const Outcome& outcome : outcomes) {
    for (const int trait : outcome.asked) ++counts[trait];
  }
  std::vector<AskedTrait> out;
  for (const auto& [trait, count] : counts) out.push_back({trait, count});
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.count > b.count; });
  return out;
}

}  // namespace loomkey::bench
