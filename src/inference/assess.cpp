#include "inference/assess.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace loomkey::inference {

using evidence::Case;

namespace {

constexpr std::size_t fewest_readings_to_contradict = 3;
constexpr double absent_leads = 0.5;
constexpr double as_good_as_the_best = 0.8;

double odds_db(double probability) {
  constexpr double floor = 1e-15;
  return 10.0 * std::log10(std::max(probability, floor) / std::max(1.0 - probability, floor));
}

double class_chance(const Belief& belief, int advice_class) {
  return advice_class < 0 ? belief.absent : belief.by_class[static_cast<std::size_t>(advice_class)];
}

bool is_safe(const Model& model, const Belief& belief) {
  const int leader = belief.leading_class();
  return leader >= 0 && class_chance(belief, leader) >= model.settings().class_threshold &&
         expected_loss(model, belief, leader) <= model.settings().loss_limit;
}

// Hypothesis of the class with the most belief.
std::size_t leading_hypothesis(const Model& model, const Belief& belief, int advice_class) {
  std::size_t best = 0;
  double best_chance = -1.0;
  for (std::size_t h = 0; h < belief.hypothesis.size(); ++h) {
    if (model.hypotheses()[h].advice_class == advice_class && belief.hypothesis[h] > best_chance) {
      best = h;
      best_chance = belief.hypothesis[h];
    }
  }
  return best;
}

// Readings beyond the fewest that already make the leader safe, and that could have told it from an absent part. The
// lines are taken strongest first, so the count depends on the set of readings only, not on their order.
int checks_made(const Model& model, const Case& the_case, const Assessment& assessment) {
  const std::size_t leader = leading_hypothesis(model, assessment.belief, assessment.advice_class);
  std::vector<std::size_t> order;
  std::vector<WeightLine> used;
  for (std::size_t i = 0; i < assessment.lines.size(); ++i) {
    if (assessment.lines[i].kind == WeightLine::Kind::readings) {
      order.push_back(i);
    } else {
      used.push_back(assessment.lines[i]);
    }
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return assessment.lines[a].weight[leader] > assessment.lines[b].weight[leader];
  });
  int made = 0;
  bool decided = is_safe(model, believe(model, used));
  for (const std::size_t i : order) {
    if (!decided) {
      used.push_back(assessment.lines[i]);
      const Belief belief = believe(model, used);
      decided = belief.leading_class() == assessment.advice_class && is_safe(model, belief);
      continue;
    }
    for (const int r : assessment.lines[i].readings) {
      const int trait = the_case.readings[static_cast<std::size_t>(r)].trait;
      if (check_gain(model, assessment.belief, trait, assessment.advice_class) >= model.settings().check_bits) ++made;
    }
  }
  return made;
}

void find_contradiction(const Model& model, const Case& the_case, Assessment& assessment) {
  const auto informs = [](const evidence::Reading& r) { return r.value.informs(); };
  const auto count = std::count_if(the_case.readings.begin(), the_case.readings.end(), informs);
  if (static_cast<std::size_t>(count) < fewest_readings_to_contradict) return;
  double best = 0.0;
  for (std::size_t i = 0; i < the_case.readings.size(); ++i) {
    if (!the_case.readings[i].value.informs()) continue;
    const Belief belief = believe(model, weigh_without(model, the_case, assessment.lines, static_cast<int>(i)));
    const int leader = belief.leading_class();
    if (leader < 0 || !is_safe(model, belief)) continue;
    const double odds = odds_db(class_chance(belief, leader));
    const double held_back = odds - odds_db(class_chance(assessment.belief, leader));
    if (held_back < model.settings().contradiction_db) continue;
    const bool first = !assessment.contradicting.has_value();
    const bool earlier_trait =
        !first && odds == best &&
        the_case.readings[i].trait < the_case.readings[static_cast<std::size_t>(*assessment.contradicting)].trait;
    if (first || odds > best || earlier_trait) {
      best = odds;
      assessment.contradicting = static_cast<int>(i);
      assessment.contradicted_class = leader;
    }
  }
}

double informing_readings(const Case& the_case) {
  return static_cast<double>(std::count_if(the_case.readings.begin(), the_case.readings.end(),
                                           [](const evidence::Reading& r) { return r.value.informs(); }));
}

// The belief that questions are chosen by. One early wrong answer can lift "not in the catalogue" far above the true
// part; if that were taken at its word no question would promise anything, and the truth could never come back.
Belief in_question(Belief belief, double most_absent) {
  if (belief.absent <= most_absent) return belief;
  const double scale = (1.0 - most_absent) / (1.0 - belief.absent);
  const double was_absent = belief.absent;
  belief.absent = most_absent;
  for (double& p : belief.hypothesis) p *= scale;
  for (double& p : belief.relative) p *= most_absent / was_absent;
  for (double& p : belief.by_class) p *= scale;
  for (double& p : belief.by_part) p *= scale;
  return belief;
}

std::vector<Question> worth_asking(const Model& model, std::vector<Question> questions) {
  const Settings& settings = model.settings();
  const auto useless = [&](const Question& q) {
    const double least = q.purpose == Question::Purpose::check ? settings.check_bits : settings.useful_gain_bits;
    return q.gain < least || (q.purpose == Question::Purpose::separate && q.score < settings.useful_gain_per_effort);
  };
  questions.erase(std::remove_if(questions.begin(), questions.end(), useless), questions.end());
  return questions;
}

}  // namespace

Assessment assess(const Model& model, const Case& the_case) {
  Assessment out;
  out.lines = weigh(model, the_case);
  out.belief = believe(model, out.lines);
  out.advice_class = out.belief.leading_class();
  if (out.advice_class >= 0) out.loss = expected_loss(model, out.belief, out.advice_class);

  if (is_safe(model, out.belief)) {
    const bool ruled_out = out.belief.absent <= model.settings().absent_ruled_out;
    const int wanted = ruled_out ? 0 : static_cast<int>(model.settings().checks_wanted);
    out.checks_left = std::max(0, wanted - checks_made(model, the_case, out));
    if (out.checks_left > 0) {
      out.questions = worth_asking(model, checking_questions(model, the_case, out.belief, out.advice_class));
    }
    if (out.questions.empty()) out.checks_left = 0;
    out.status = out.checks_left > 0 ? Status::likely : Status::settled;
    return out;
  }
  find_contradiction(model, the_case, out);
  const bool absent = out.belief.absent >= model.settings().absent_threshold &&
                      informing_readings(the_case) >= model.settings().absent_readings;
  if (!absent) {
    out.questions = worth_asking(
        model, separating_questions(model, the_case, in_question(out.belief, model.settings().absent_in_question)));
  }
  if (out.contradicting) {
    out.status = Status::contradicted;
  } else if (!out.questions.empty()) {
    out.status = Status::open;
  } else {
    out.status = out.belief.absent >= absent_leads ? Status::not_in_catalogue : Status::cannot_tell;
  }
  return out;
}

std::optional<DecidingCheck> deciding_check(const Model& model, const Case& the_case, const Belief& belief) {
  std::vector<int> order(belief.by_part.size());
  for (std::size_t p = 0; p < order.size(); ++p) order[p] = static_cast<int>(p);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return belief.by_part[static_cast<std::size_t>(a)] > belief.by_part[static_cast<std::size_t>(b)];
  });
  if (order.size() < 2) return std::nullopt;
  // The pair that matters is the leader and the first part that needs other advice.
  const auto& parts = model.knowledge().parts;
  const int first = order[0];
  const auto other = std::find_if(order.begin() + 1, order.end(), [&](int p) {
    return parts[static_cast<std::size_t>(p)].advice != parts[static_cast<std::size_t>(first)].advice;
  });
  DecidingCheck check{first, other == order.end() ? order[1] : *other, -1, 0.0};
  std::set<int> answered;
  for (const auto& reading : the_case.readings) answered.insert(reading.trait);
  std::vector<double> bits(static_cast<std::size_t>(model.trait_count()), 0.0);
  for (int t = 0; t < model.trait_count(); ++t) {
    if (answered.count(t) == 0)
      bits[static_cast<std::size_t>(t)] = pair_gain(model, belief, t, check.part_a, check.part_b);
  }
  const double most = *std::max_element(bits.begin(), bits.end());
  if (most < model.settings().check_bits) return check;
  for (int t = 0; t < model.trait_count(); ++t) {
    if (bits[static_cast<std::size_t>(t)] < as_good_as_the_best * most) continue;
    if (check.trait >= 0 && model.effort(t) >= model.effort(check.trait)) continue;
    check.trait = t;
    check.bits = bits[static_cast<std::size_t>(t)];
  }
  return check;
}

}  // namespace loomkey::inference
