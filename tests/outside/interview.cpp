#include "outside/interview.h"

#include <algorithm>

#include "oracle/tiny_catalogue.h"

namespace loomkey::outside {

using evidence::Case;
using inference::Model;

std::shared_ptr<const knowledge::Knowledge> knowledge_of(const Table& table) {
  oracle::TinyCatalogue tiny;
  for (std::size_t t = 0; t < table.state_counts.size(); ++t) {
    tiny.choice(oracle::numbered("trait-", static_cast<int>(t)), table.state_counts[t]);
  }
  for (int c = 0; c < table.class_count; ++c) tiny.advice(oracle::numbered("class-", c));
  for (std::size_t p = 0; p < table.rows.size(); ++p) {
    const int part = tiny.part(oracle::numbered("part-", static_cast<int>(p)), 1.0, table.advice_class[p]);
    for (std::size_t t = 0; t < table.rows[p].size(); ++t) {
      if (table.rows[p][t] >= 0) tiny.claim_state(part, static_cast<int>(t), table.rows[p][t]);
    }
  }
  return tiny.done();
}

inference::Settings certainty() {
  inference::Settings settings;
  settings.lapse_sure = settings.residual = settings.uniform_share = settings.prior_absent = 0.0;
  return settings;
}

Ending interview(const Model& model, const Observer& observer, const Rules& rules) {
  Case the_case;
  for (Ending ending;; ++ending.questions) {
    const auto belief = inference::believe(model, inference::weigh(model, the_case));
    ending.leading_class = belief.leading_class();
    ending.confidence =
        ending.leading_class < 0 ? belief.absent : belief.by_class[static_cast<std::size_t>(ending.leading_class)];
    if (ending.confidence >= rules.enough || ending.questions >= rules.most_questions) return ending;
    int trait = -1;
    if (rules.random_order != nullptr) {
      const auto left = inference::askable(model, the_case);
      if (left.empty()) return ending;
      trait = rules.random_order->pick(left);
    } else {
      const auto questions = inference::separating_questions(model, the_case, belief);
      if (questions.empty() || questions.front().gain < rules.least_gain) return ending;
      trait = questions.front().trait;
    }
    const auto answer = observer(trait);
    the_case.readings.push_back(answer ? oracle::saw_state(trait, *answer) : oracle::cannot_tell(trait));
  }
}

Verdict identify(const Model& model, const Observer& observer, int most_questions) {
  Case the_case;
  for (Verdict verdict;; ++verdict.questions) {
    const auto assessment = inference::assess(model, the_case);
    verdict.status = assessment.status;
    verdict.advice_class = assessment.advice_class;
    if (assessment.questions.empty() || verdict.questions >= most_questions) return verdict;
    const int trait = assessment.questions.front().trait;
    const auto answer = observer(trait);
    the_case.readings.push_back(answer ? oracle::saw_state(trait, *answer) : oracle::cannot_tell(trait));
  }
}

Observer observer_of(const Table& table, std::vector<int> truth, Noise noise, oracle::Dice& dice) {
  return [&table, truth = std::move(truth), noise, &dice](int trait) -> std::optional<int> {
    const auto t = static_cast<std::size_t>(trait);
    const int states = table.state_counts[t];
    if (dice.chance(noise.unknown) || truth[t] < 0) return std::nullopt;
    if (dice.chance(noise.lapse)) return dice.from(0, states - 1);
    if (states < 2 || !dice.chance(noise.wrong)) return truth[t];
    const int other = dice.from(0, states - 2);
    return other < truth[t] ? other : other + 1;
  };
}

}  // namespace loomkey::outside
