#include "bench/trial.h"

#include <algorithm>
#include <map>
#include <memory>
#include <mutex>
#include <set>

#include "bench/in_parallel.h"
#include "bench/trial_other_observer.h"

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

// Everybody who answers in a trial. Constant once made; threads share it.
class Crowd {
 public:
  Crowd(const Model& truth, const std::vector<ObserverType>& types) : truth_(&truth), sampler_(truth) {
    for (const ObserverType& type : types) {
      if (type.mistakes == Mistakes::other) others_.try_emplace(type.wrong, truth, sampler_, type.wrong);
    }
  }
  Crowd(const Crowd&) = delete;  // its people refer to its sampler
  Crowd(Crowd&&) = delete;
  Crowd& operator=(const Crowd&) = delete;
  Crowd& operator=(Crowd&&) = delete;
  ~Crowd() = default;

  [[nodiscard]] Outcome converse(const Model& examiner, const ObserverType& type, TrialObject object,
                                 std::uint64_t seed, int most_questions) const {
    const auto with = [&](const Person& person) { return examine(examiner, person, type, most_questions); };
    Outcome outcome = type.mistakes == Mistakes::other ? with(OtherObserver(others_.at(type.wrong), type, object, seed))
                                                       : with(Observer(*truth_, sampler_, type, object, seed));
    const auto& part = truth_->knowledge().parts[static_cast<std::size_t>(object.part)];
    outcome.true_class = part.advice;
    outcome.faulty =
        part.conditions[static_cast<std::size_t>(object.condition)].kind != knowledge::Condition::Kind::good;
    return outcome;
  }

 private:
  const Model* truth_;
  TraitSampler sampler_;
  std::map<double, OtherPeople> others_;  // by their share of wrong answers
};

ObserverType with_mistakes(ObserverType type, Mistakes mistakes) {
  type.mistakes = mistakes;
  return type;
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

std::vector<AbsentTally> run_absent(const Model& model, const Crowd& crowd, const ObserverType& type,
                                    const TrialOptions& options, const std::vector<int>& classes, Progress& progress) {
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
      outcomes.push_back(crowd.converse(examiner, type, object, case_seed, options.most_questions));
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

Share share_of(const std::vector<Outcome>& outcomes, bool faulty) {
  std::vector<Outcome> chosen;
  std::copy_if(outcomes.begin(), outcomes.end(), std::back_inserter(chosen),
               [&](const Outcome& outcome) { return outcome.faulty == faulty; });
  Share share;
  for (const Outcome& outcome : chosen) share.tally.add(outcome);
  share.calibration = calibrate(verdicts(chosen));
  return share;
}

ObserverReport observer_report(const Model& model, const ObserverType& type, const std::vector<Outcome>& outcomes,
                               const TrialReport& report) {
  ObserverReport out;
  out.type = type;
  for (const Outcome& outcome : outcomes) {
    out.all.add(outcome);
    if (is_separable(report, outcome.object.part)) out.separable.add(outcome);
  }
  out.good = share_of(outcomes, false);
  out.faulty = share_of(outcomes, true);
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
  if (knowledge.parts.empty()) return report;

  report.apart = looks_apart(model);
  double brought_in = 0.0;
  for (const LooksApart& apart : report.apart) {
    const double often = knowledge.parts[static_cast<std::size_t>(apart.part)].brought_in;
    brought_in += often;
    if (is_separable(report, apart)) report.separable_prior += often;
  }
  report.separable_prior /= brought_in;

  std::vector<ObserverType> types;
  std::vector<ObserverType> everybody;
  for (const Mistakes mistakes : options.mistakes) {
    for (const ObserverType& type : options.observers) types.push_back(with_mistakes(type, mistakes));
    everybody.push_back(with_mistakes(options.absent_observer, mistakes));
  }
  everybody.insert(everybody.end(), types.begin(), types.end());
  const Crowd crowd(model, everybody);
  const std::vector<int> classes = classes_to_take_out(knowledge, options.absent_classes);
  const auto cases = static_cast<std::size_t>(options.cases);
  const std::size_t count = cases * types.size();
  const std::size_t absent_count =
      classes.size() * static_cast<std::size_t>(options.absent_cases) * options.mistakes.size();
  Progress progress(options, static_cast<int>(count + absent_count));

  std::vector<std::vector<Outcome>> outcomes(types.size(), std::vector<Outcome>(cases));
  const std::uint64_t seed = seed_for(options.seed, of_catalogue);
  in_parallel(count, options.threads, [&](std::size_t i) {
    const std::size_t type = i / cases;
    const std::size_t number = i % cases;
    const std::uint64_t case_seed = seed_for(seed, number);
    const TrialObject object = draw_object(knowledge, case_seed, static_cast<int>(number), options.by_turns, -1);
    outcomes[type][number] = crowd.converse(model, types[type], object, case_seed, options.most_questions);
    progress.step();
  });
  std::vector<Outcome> every;
  for (std::size_t type = 0; type < outcomes.size(); ++type) {
    report.observers.push_back(observer_report(model, types[type], outcomes[type], report));
    every.insert(every.end(), outcomes[type].begin(), outcomes[type].end());
  }
  report.calibration = calibrate(verdicts(every));
  report.classes = by_class(every);
  report.confusions = confusions(every);
  report.asked = asked_traits(every);

  for (std::size_t m = 0; m < options.mistakes.size(); ++m) {
    MistakesReport& out = report.by_mistakes.emplace_back();
    out.mistakes = options.mistakes[m];
    std::vector<Outcome> of_these;
    for (std::size_t type = 0; type < outcomes.size(); ++type) {
      if (types[type].mistakes != out.mistakes) continue;
      of_these.insert(of_these.end(), outcomes[type].begin(), outcomes[type].end());
    }
    out.calibration = calibrate(verdicts(of_these));
    out.absent_observer = with_mistakes(options.absent_observer, out.mistakes);
    out.absent_classes = run_absent(model, crowd, out.absent_observer, options, classes, progress);
    for (const AbsentTally& tally : out.absent_classes) {
      add(out.absent, tally);
      if (separable_class(knowledge, report, tally.advice_class)) add(out.absent_separable, tally);
    }
  }
  return report;
}

}  // namespace loomkey::bench
