#include "bench/trial.h"

#include <algorithm>
#include <map>
#include <memory>
#include <mutex>
#include <set>

#include "bench/in_parallel.h"

namespace loomkey::bench {

using inference::Model;

namespace {

// Seeds of the two halves of a trial.
enum Half : std::uint64_t { of_catalogue, of_absent };

// Tells how far the trial is, from whichever thread.
class Progress {
 public:
  Progress(const TrialOptions& options, int total) : options_(&options), total_(total) {}

  void step() {
    if (!options_->progress) return;
    const std::lock_guard<std::mutex> lock(mutex_);
    options_->progress(++done_, total_);
  }

 private:
  const TrialOptions* options_;
  std::mutex mutex_;
  int done_ = 0;
  int total_ = 0;
};

Outcome converse(const Model& examiner, const Model& truth, const TraitSampler& sampler, const ObserverType& type,
                 TrialObject object, std::uint64_t seed, int most_questions) {
  Outcome outcome = examine(examiner, Observer(truth, sampler, type, object, seed), type, most_questions);
  outcome.true_class = truth.knowledge().parts[static_cast<std::size_t>(object.part)].advice;
  return outcome;
}

// Advice classes that have parts, evenly spread over all of them.
std::vector<int> classes_to_take_out(const knowledge::Knowledge& knowledge, int wanted) {
  std::set<int> used;
  for (const auto& part : knowledge.parts) used.insert(part.advice);
  const std::vector<int> all(used.begin(), used.end());
  if (wanted >= static_cast<int>(all.size())) return all;
  std::vector<int> chosen;
  for (int i = 0; i < wanted; ++i) {
    chosen.push_back(all[static_cast<std::size_t>(i) * all.size() / static_cast<std::size_t>(wanted)]);
  }
  return chosen;
}

AbsentTally tally_absent(int advice_class, const std::vector<Outcome>& outcomes) {
  AbsentTally tally;
  tally.advice_class = advice_class;
  std::map<int, int> called;
  for (const Outcome& outcome : outcomes) {
    ++tally.objects;
    tally.questions += static_cast<double>(outcome.asked.size());
    if (outcome.called_class < 0) ++tally.not_in_catalogue;
    if (!outcome.declared()) continue;
    ++tally.declared;
    if (outcome.confidence > confident) ++tally.confident;
    ++called[outcome.called_class];
  }
  int most = 0;
  for (const auto& [other, count] : called) {
    if (count <= most) continue;
    most = count;
    tally.called_most = other;
  }
  return tally;
}

std::vector<AbsentTally> run_absent(const Model& model, const TraitSampler& sampler, const TrialOptions& options,
                                    const std::vector<int>& classes, Progress& progress) {
  std::vector<AbsentTally> tallies(classes.size());
  in_parallel(classes.size(), options.threads, [&](std::size_t i) {
    const auto rest = std::make_shared<const knowledge::Knowledge>(without_class(model.knowledge(), classes[i]));
    if (rest->parts.empty()) return;
    const Model examiner(rest, model.settings());
    const std::uint64_t seed = seed_for(seed_for(options.seed, of_absent), static_cast<std::uint64_t>(classes[i]));
    std::vector<Outcome> outcomes;
    for (int n = 0; n < options.absent_cases; ++n) {
      const std::uint64_t case_seed = seed_for(seed, static_cast<std::uint64_t>(n));
      const TrialObject object = draw_object(model.knowledge(), case_seed, n, options.by_turns, classes[i]);
      outcomes.push_back(
          converse(examiner, model, sampler, options.absent_observer, object, case_seed, options.most_questions));
      progress.step();
    }
    tallies[i] = tally_absent(classes[i], outcomes);
  });
  std::stable_sort(tallies.begin(), tallies.end(), [](const AbsentTally& a, const AbsentTally& b) {
    return a.confident != b.confident ? a.confident > b.confident : a.declared > b.declared;
  });
  return tallies;
}

bool is_separable(const TrialReport& report, const LooksApart& part) {
  return part.nearest < 0 || part.decibans >= report.apart_db;
}

bool is_separable(const TrialReport& report, int part) {
  return is_separable(report, report.apart[static_cast<std::size_t>(part)]);
}

bool separable_class(const knowledge::Knowledge& knowledge, const TrialReport& report, int advice_class) {
  for (std::size_t p = 0; p < knowledge.parts.size(); ++p) {
    if (knowledge.parts[p].advice == advice_class && !is_separable(report, static_cast<int>(p))) return false;
  }
  return true;
}

void add(AbsentTally& sum, const AbsentTally& tally) {
  sum.objects += tally.objects;
  sum.not_in_catalogue += tally.not_in_catalogue;
  sum.declared += tally.declared;
  sum.confident += tally.confident;
  sum.questions += tally.questions;
}

ObserverReport observer_report(const Model& model, const ObserverType& type, const std::vector<Outcome>& outcomes,
                               const TrialReport& report) {
  ObserverReport out;
  out.type = type;
  for (const Outcome& outcome : outcomes) {
    out.all.add(outcome);
    if (is_separable(report, outcome.object.part)) out.separable.add(outcome);
  }
  out.calibration = calibrate(verdicts(outcomes));
  out.bound = question_bound(model, type);
  if (out.bound.questions > 0.0) out.bound_ratio = out.all.mean_questions() / out.bound.questions;
  out.classes = by_class(outcomes);
  out.confusions = confusions(outcomes);
  out.asked = asked_traits(outcomes);
  return out;
}

}  // namespace

std::vector<ObserverType> standard_observers() {
  return {{.wrong = 0.0, .doubts = true},
          {.wrong = 0.1, .doubts = true},
          {.wrong = 0.2, .doubts = true},
          {.wrong = 0.1, .cannot_tell = 0.2, .doubts = true},
          {.wrong = 0.1, .meter = false, .doubts = true},
          {.wrong = 0.1}};
}

knowledge::Knowledge without_class(const knowledge::Knowledge& knowledge, int advice_class) {
  knowledge::Knowledge out = knowledge;
  std::erase_if(out.parts, [&](const knowledge::Part& part) { return part.advice == advice_class; });
  // These name parts by index, and no question is chosen by them.
  for (auto& part : out.parts) {
    part.look_alikes.clear();
    part.works_with.clear();
  }
  return out;
}

int TrialReport::separable_parts() const {
  return static_cast<int>(
      std::count_if(apart.begin(), apart.end(), [&](const LooksApart& part) { return is_separable(*this, part); }));
}

TrialReport run_trial(const Model& model, const TrialOptions& options) {
  const auto& knowledge = model.knowledge();
  TrialReport report;
  report.seed = options.seed;
  report.cases = options.cases;
  report.by_turns = options.by_turns;
  report.apart_db = options.apart_db;
  report.absent_observer = options.absent_observer;
  if (knowledge.parts.empty()) return report;

  report.apart = looks_apart(model);
  double brought_in = 0.0;
  for (const LooksApart& apart : report.apart) {
    const double often = knowledge.parts[static_cast<std::size_t>(apart.part)].brought_in;
    brought_in += often;
    if (is_separable(report, apart)) report.separable_prior += often;
  }
  report.separable_prior /= brought_in;

  const TraitSampler sampler(model);
  const std::vector<int> classes = classes_to_take_out(knowledge, options.absent_classes);
  const auto cases = static_cast<std::size_t>(options.cases);
  const std::size_t count = cases * options.observers.size();
  Progress progress(options, static_cast<int>(count) + static_cast<int>(classes.size()) * options.absent_cases);

  std::vector<std::vector<Outcome>> outcomes(options.observers.size(), std::vector<Outcome>(cases));
  const std::uint64_t seed = seed_for(options.seed, of_catalogue);
  in_parallel(count, options.threads, [&](std::size_t i) {
    const std::size_t type = i / cases;
    const std::size_t number = i % cases;
    const std::uint64_t case_seed = seed_for(seed, number);
    const TrialObject object = draw_object(knowledge, case_seed, static_cast<int>(number), options.by_turns, -1);
    outcomes[type][number] =
        converse(model, model, sampler, options.observers[type], object, case_seed, options.most_questions);
    progress.step();
  });
  std::vector<Outcome> every;
  for (std::size_t type = 0; type < outcomes.size(); ++type) {
    report.observers.push_back(observer_report(model, options.observers[type], outcomes[type], report));
    every.insert(every.end(), outcomes[type].begin(), outcomes[type].end());
  }
  report.calibration = calibrate(verdicts(every));
  report.classes = by_class(every);
  report.confusions = confusions(every);
  report.asked = asked_traits(every);

  report.absent_classes = run_absent(model, sampler, options, classes, progress);
  for (const AbsentTally& tally : report.absent_classes) {
    add(report.absent, tally);
    if (separable_class(knowledge, report, tally.advice_class)) add(report.absent_separable, tally);
  }
  return report;
}

}  // namespace loomkey::bench
