#include "bench/trial_examiner.h"

#include <algorithm>
#include <set>

namespace loomkey::bench {

using inference::Assessment;
using inference::Model;
using inference::Question;
using inference::Status;

namespace {

// Every tool that no meter trait needs.
std::vector<int> tools_but_meter(const knowledge::Knowledge& knowledge) {
  std::set<int> needed;
  for (const auto& trait : knowledge.traits) {
    if (trait.layer != knowledge::Layer::meter) continue;
    needed.insert(knowledge.efforts[static_cast<std::size_t>(trait.effort)].tool);
  }
  std::vector<int> tools;
  for (std::size_t i = 0; i < knowledge.tools.size(); ++i) {
    if (needed.count(static_cast<int>(i)) == 0) tools.push_back(static_cast<int>(i));
  }
  return tools;
}

int best_part(const Model& model, const Assessment& assessment) {
  int best = -1;
  for (std::size_t p = 0; p < assessment.belief.by_part.size(); ++p) {
    if (model.knowledge().parts[p].advice != assessment.advice_class) continue;
    if (best < 0 || assessment.belief.by_part[p] > assessment.belief.by_part[static_cast<std::size_t>(best)]) {
      best = static_cast<int>(p);
    }
  }
  return best;
}

}  // namespace

Outcome examine(const Model& model, const Observer& observer, const ObserverType& type, int most_questions) {
  return examine(
      model, observer.object(), [&](int trait) { return observer.answer(trait); }, type.meter, most_questions);
}

Outcome examine(const Model& model, TrialObject object, const std::function<evidence::Reading(int)>& answer,
                bool has_meter, int most_questions) {
  evidence::Case the_case;
  if (!has_meter) the_case.tools = tools_but_meter(model.knowledge());
  Outcome out;
  out.object = object;
  while (true) {
    const Assessment assessment = inference::assess(model, the_case);
    if (assessment.status == Status::contradicted) out.contradicted = true;
    const bool ended = assessment.status == Status::settled || assessment.questions.empty() ||
                       static_cast<int>(out.asked.size()) >= most_questions;
    if (ended) {
      out.status = assessment.status;
      out.called_class = assessment.advice_class;
      if (out.called_class >= 0) out.called_part = best_part(model, assessment);
      out.confidence = out.called_class >= 0 ? assessment.belief.by_class[static_cast<std::size_t>(out.called_class)]
                                             : assessment.belief.absent;
      return out;
    }
    const Question& question = assessment.questions.front();
    out.asked.push_back(question.trait);
    if (question.purpose == Question::Purpose::check) ++out.checks;
    the_case.readings.push_back(answer(question.trait));
  }
}

}  // namespace loomkey::bench
