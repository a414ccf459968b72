#include "bench/finding.h"

#include <algorithm>
#include <cmath>

namespace loomkey::bench {

using evidence::Case;
using evidence::Earth;
using inference::Assessment;
using inference::Model;
using inference::Status;
using inference::WeightLine;

namespace {

// A reading that costs the leader more than this was outweighed, and the user should know.
constexpr double misfit_db = -3.0;

double ratio_db(double a, double b) {
  constexpr double floor = 1e-12;
  return 10.0 * std::log10(std::max(a, floor) / std::max(b, floor));
}

std::vector<int> ranked_parts(const Assessment& assessment) {
  std::vector<int> order(assessment.belief.by_part.size());
  for (std::size_t p = 0; p < order.size(); ++p) order[p] = static_cast<int>(p);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return assessment.belief.by_part[static_cast<std::size_t>(a)] >
           assessment.belief.by_part[static_cast<std::size_t>(b)];
  });
  return order;
}

Candidate candidate(const Model& model, const Assessment& assessment, int part) {
  Candidate out;
  out.part = part;
  out.probability = assessment.belief.by_part[static_cast<std::size_t>(part)];
  for (std::size_t h = 0; h < model.hypotheses().size(); ++h) {
    const auto& hypothesis = model.hypotheses()[h];
    if (hypothesis.part != part) continue;
    ConditionShare share;
    share.condition = hypothesis.condition;
    share.probability = assessment.belief.hypothesis[h];
    share.prior_db = ratio_db(hypothesis.prior, model.prior_absent());
    share.total_db = share.prior_db;
    for (const WeightLine& line : assessment.lines) {
      share.line_db.push_back(line.weight[h]);
      share.total_db += line.weight[h];
    }
    out.conditions.push_back(std::move(share));
  }
  std::stable_sort(out.conditions.begin(), out.conditions.end(),
                   [](const auto& a, const auto& b) { return a.probability > b.probability; });
  return out;
}

int best_part_of_class(const Model& model, const std::vector<int>& ranked, int advice_class) {
  for (const int p : ranked) {
    if (model.knowledge().parts[static_cast<std::size_t>(p)].advice == advice_class) return p;
  }
  return -1;
}

// Single readings that weigh against the leader. Inside a line of several, each is weighed alone.
std::vector<int> misfits(const Model& model, const Case& the_case, const Candidate& leader) {
  std::vector<int> out;
  const auto& hypotheses = model.hypotheses();
  const auto place = std::find_if(hypotheses.begin(), hypotheses.end(), [&](const auto& h) {
    return h.part == leader.part && h.condition == leader.conditions.front().condition;
  });
  const auto h = static_cast<std::size_t>(place - hypotheses.begin());
  for (std::size_t i = 0; i < the_case.readings.size(); ++i) {
    const auto& reading = the_case.readings[i];
    if (!reading.value.informs()) continue;
    const int code = model.trait(reading.trait).code[h];
    if (code < 0) continue;
    const auto ratios = inference::trait_ratios(model, {&reading}, 0.0);
    if (10.0 * std::log10(ratios[static_cast<std::size_t>(code)]) <= misfit_db) out.push_back(static_cast<int>(i));
  }
  return out;
}

std::string tell(const knowledge::Knowledge& knowledge, int a, int b) {
  for (const auto& [from, to] : {std::pair{a, b}, std::pair{b, a}}) {
    for (const auto& look_alike : knowledge.parts[static_cast<std::size_t>(from)].look_alikes) {
      if (look_alike.part == to) return look_alike.tell;
    }
  }
  return {};
}

void add_advice(const Model& model, const Case& the_case, Finding& finding) {
  const auto& knowledge = model.knowledge();
  const auto& advice = knowledge.advice[static_cast<std::size_t>(finding.advice)];
  finding.cautions = advice.cautions;
  std::stable_sort(finding.cautions.begin(), finding.cautions.end(), [&](int a, int b) {
    return knowledge.cautions[static_cast<std::size_t>(a)].order <
           knowledge.cautions[static_cast<std::size_t>(b)].order;
  });
  const Earth earth = the_case.bike.settled_earth();
  for (std::size_t i = 0; i < advice.substitutes.size(); ++i) {
    const auto& substitute = advice.substitutes[i];
    std::string connect;
    if (earth == Earth::positive) connect = substitute.connect_positive;
    if (earth == Earth::negative) connect = substitute.connect_negative;
    if (earth != Earth::unknown && connect.empty()) connect = substitute.connect;
    finding.substitutes.push_back({static_cast<int>(i), connect});
  }
}

// A label on the part that names the other earth than the one measured.
bool label_disagrees(const knowledge::Knowledge& knowledge, const Case& the_case) {
  const Earth earth = the_case.bike.settled_earth();
  if (earth == Earth::unknown) return false;
  const std::string other = earth == Earth::positive ? "negative-earth" : "positive-earth";
  return std::any_of(the_case.readings.begin(), the_case.readings.end(), [&](const evidence::Reading& reading) {
    if (reading.value.kind != evidence::Value::Kind::state) return false;
    const auto& trait = knowledge.traits[static_cast<std::size_t>(reading.trait)];
    return trait.states[static_cast<std::size_t>(reading.value.state)].id == other;
  });
}

bool disagrees(const evidence::Bike& bike) {
  const auto differs = [&](Earth other) {
    return other != Earth::unknown && bike.earth_measured != Earth::unknown && other != bike.earth_measured;
  };
  const bool unmeasured = bike.earth_measured == Earth::unknown && bike.earth_found != Earth::unknown &&
                          bike.earth_as_built != Earth::unknown && bike.earth_found != bike.earth_as_built;
  return differs(bike.earth_found) || differs(bike.earth_as_built) || unmeasured;
}

}  // namespace

Finding identify(const Model& model, const Case& the_case, const Amount& amount) {
  const Assessment assessment = inference::assess(model, the_case);
  Finding out;
  out.status = assessment.status;
  out.absent = assessment.belief.absent;
  out.absent_db = assessment.belief.absent_db;
  out.loss = assessment.loss;
  out.checks_left = assessment.checks_left;
  out.contradicting = assessment.contradicting;
  out.deciding = inference::deciding_check(model, the_case, assessment.belief);
  out.earth_settled = the_case.bike.settled_earth() != Earth::unknown;
  out.earth_disagrees = disagrees(the_case.bike);
  out.label_disagrees = label_disagrees(model.knowledge(), the_case);
  out.questions = assessment.questions;
  if (out.questions.size() > amount.questions) out.questions.resize(amount.questions);

  const std::vector<int> ranked = ranked_parts(assessment);
  for (std::size_t i = 0; i < ranked.size() && i < amount.candidates; ++i) {
    out.candidates.push_back(candidate(model, assessment, ranked[i]));
  }
  if (out.deciding) out.deciding_tell = tell(model.knowledge(), out.deciding->part_a, out.deciding->part_b);
  if (assessment.contradicted_class) {
    out.without_it = best_part_of_class(model, ranked, *assessment.contradicted_class);
  }
  out.advice = assessment.advice_class;
  out.part = best_part_of_class(model, ranked, assessment.advice_class);
  const bool named = out.advice >= 0;
  out.class_probability = named ? assessment.belief.by_class[static_cast<std::size_t>(out.advice)] : 0.0;
  if (!out.candidates.empty()) {
    const Candidate leader = named ? candidate(model, assessment, out.part) : out.candidates.front();
    const auto next = std::find_if(out.candidates.begin(), out.candidates.end(),
                                   [&](const Candidate& c) { return c.part != leader.part; });
    for (std::size_t i = 0; i < assessment.lines.size(); ++i) {
      Reason reason;
      reason.kind = assessment.lines[i].kind;
      reason.readings = assessment.lines[i].readings;
      reason.for_leader_db = leader.conditions.front().line_db[i];
      if (next != out.candidates.end()) reason.for_next_db = next->conditions.front().line_db[i];
      out.reasons.push_back(std::move(reason));
    }
    if (named) out.misfits = misfits(model, the_case, leader);
  }
  if (named) add_advice(model, the_case, out);
  return out;
}

}  // namespace loomkey::bench
