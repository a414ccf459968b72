#include "inference/steps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <ostream>
#include <sstream>
#include <stdexcept>

#include <fmt/format.h>

#include "base/text.h"
#include "inference/assess.h"
#include "oracle/tiny_catalogue.h"

namespace loomkey::replay {

using evidence::Case;
using evidence::Certainty;
using evidence::Reading;
using evidence::Value;
using inference::Belief;
using inference::Model;
using knowledge::Knowledge;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

const std::array<std::string, 3> certainties = {"sure", "think-so", "guess"};

const Trait& trait_of(const Knowledge& knowledge, const Reading& reading) {
  return knowledge.traits[static_cast<std::size_t>(reading.trait)];
}

std::string value_text(const Trait& trait, const Value& value) {
  switch (value.kind) {
    case Value::Kind::state:
      return trait.states[static_cast<std::size_t>(value.state)].id;
    case Value::Kind::interval:
      return fmt::format("{} {}", value.interval.low, value.interval.high);
    case Value::Kind::special:
      return knowledge::special_ids[static_cast<std::size_t>(value.special)];
    case Value::Kind::set: {
      std::string text = value.complete ? "only" : "includes";
      for (const auto& item : value.items) text += " " + item;
      return text;
    }
    case Value::Kind::cannot_tell:
      return "cannot-tell";
    case Value::Kind::not_looked:
      break;
  }
  return "not-looked";
}

Value parse_value(const Knowledge& knowledge, const Reading& reading, const std::vector<std::string>& words) {
  const Trait& trait = trait_of(knowledge, reading);
  const std::string first = words.empty() ? "" : words.front();
  Value value;
  if (first == "not-looked") return value;
  if (first == "cannot-tell") {
    value.kind = Value::Kind::cannot_tell;
    return value;
  }
  const auto special = std::find(knowledge::special_ids.begin(), knowledge::special_ids.end(), first);
  if (special != knowledge::special_ids.end()) {
    value.kind = Value::Kind::special;
    value.special = static_cast<knowledge::Special>(special - knowledge::special_ids.begin());
  } else if (trait.kind == TraitKind::choice) {
    value.kind = Value::Kind::state;
    value.state = knowledge.state(reading.trait, first);
    if (value.state < 0) throw std::runtime_error("no state '" + first + "' of " + trait.id);
  } else if (trait.kind == TraitKind::set) {
    if (first != "only" && first != "includes") throw std::runtime_error("a set starts with 'only' or 'includes'");
    value.kind = Value::Kind::set;
    value.complete = first == "only";
    value.items.assign(words.begin() + 1, words.end());
    std::sort(value.items.begin(), value.items.end());
  } else {
    if (words.size() != 2) throw std::runtime_error("a number is 'LOW HIGH'");
    value.kind = Value::Kind::interval;
    value.interval = {std::stod(words[0]), std::stod(words[1])};
  }
  return value;
}

Step parse_line(const Knowledge& knowledge, const std::string& line) {
  std::istringstream stream(line);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  if (words.size() < 2 || (words[0] != "read" && words[0] != "forget"))
    throw std::runtime_error("neither read nor forget");
  Step step;
  step.kind = words[0] == "read" ? Step::Kind::read : Step::Kind::forget;
  step.reading.trait = knowledge.trait(words[1]);
  if (step.reading.trait < 0) throw std::runtime_error("no trait '" + words[1] + "'");
  words.erase(words.begin(), words.begin() + 2);
  if (step.kind == Step::Kind::forget) return step;
  if (words.size() >= 2 && words[words.size() - 2] == "by") {
    step.reading.observer = words.back();
    words.resize(words.size() - 2);
  }
  for (std::size_t c = 0; c < certainties.size(); ++c) {
    if (words.empty() || words.back() != certainties[c]) continue;
    step.reading.certainty = static_cast<Certainty>(c);
    words.pop_back();
    break;
  }
  step.reading.value = parse_value(knowledge, step.reading, words);
  return step;
}

bool same(const Belief& a, const Belief& b) {
  return a.hypothesis == b.hypothesis && a.absent == b.absent && a.by_class == b.by_class && a.by_part == b.by_part;
}

Belief belief_of(const Model& model, const Case& the_case) {
  return inference::believe(model, inference::weigh(model, the_case));
}

std::string not_a_probability(const Belief& belief) {
  double total = belief.absent;
  double classes = belief.absent;
  double parts = belief.absent;
  for (const double p : belief.hypothesis) total += p;
  for (const double p : belief.by_class) classes += p;
  for (const double p : belief.by_part) parts += p;
  for (const double sum : {total, classes, parts}) {
    if (!(std::abs(sum - 1.0) < 1e-12)) return fmt::format("probabilities sum to {}", sum);
  }
  const auto outside = [](double p) { return !(p >= 0.0 && p <= 1.0); };
  if (outside(belief.absent) || std::any_of(belief.hypothesis.begin(), belief.hypothesis.end(), outside)) {
    return "a probability is outside 0 to 1";
  }
  return {};
}

// The verdict can be added up again by hand: prior odds against "not in the catalogue" times the sum of the column,
// less what the readings say for "not in the catalogue".
std::string does_not_add_up(const Model& model, const std::vector<inference::WeightLine>& lines, const Belief& belief) {
  for (std::size_t h = 0; h < belief.hypothesis.size(); ++h) {
    double decibans = 0.0;
    for (const auto& line : lines) decibans += line.weight[h];
    if (!std::isfinite(decibans)) return fmt::format("the weights of hypothesis {} sum to {}", h, decibans);
    const double odds =
        model.hypotheses()[h].prior / model.prior_absent() * std::pow(10.0, (decibans - belief.absent_db) / 10.0);
    const double stated = belief.hypothesis[h] / belief.absent;
    if (!(std::abs(stated - odds) <= 1e-9 * odds)) return fmt::format("hypothesis {}: {} against {}", h, stated, odds);
  }
  return {};
}

std::string depends_on_order(const Model& model, const Case& the_case, const Belief& belief) {
  Case other = the_case;
  std::reverse(other.readings.begin(), other.readings.end());
  if (!same(belief_of(model, other), belief)) return "the readings in reverse give another belief";
  for (std::size_t turn = 1; turn < the_case.readings.size(); ++turn) {
    std::rotate(other.readings.begin(), other.readings.begin() + 1, other.readings.end());
    if (!same(belief_of(model, other), belief)) return "the readings in another order give another belief";
  }
  return {};
}

// Leaving one reading out of lines already made is leaving it out of the case.
std::string left_out_otherwise(const Model& model, const Case& the_case,
                               const std::vector<inference::WeightLine>& lines) {
  for (std::size_t i = 0; i < the_case.readings.size(); ++i) {
    if (!the_case.readings[i].value.informs()) continue;
    Case rest = the_case;
    rest.readings.erase(rest.readings.begin() + static_cast<std::ptrdiff_t>(i));
    const Belief wanted = belief_of(model, rest);
    const Belief got = inference::believe(model, inference::weigh_without(model, the_case, lines, static_cast<int>(i)));
    for (std::size_t h = 0; h < wanted.hypothesis.size(); ++h) {
      if (!(std::abs(got.hypothesis[h] - wanted.hypothesis[h]) <= 1e-12)) {
        return fmt::format("without reading {}: hypothesis {} at {}, not {}", i, h, got.hypothesis[h],
                           wanted.hypothesis[h]);
      }
    }
  }
  return {};
}

std::string moved_by_nothing(const Model& model, const Case& the_case, const Belief& belief) {
  for (int t = 0; t < model.trait_count(); ++t) {
    const auto read = [t](const Reading& r) { return r.trait == t; };
    if (std::any_of(the_case.readings.begin(), the_case.readings.end(), read)) continue;
    for (const Reading& nothing : {oracle::cannot_tell(t), oracle::not_looked(t)}) {
      Case other = the_case;
      other.readings.insert(other.readings.begin(), nothing);
      if (!same(belief_of(model, other), belief)) return "'cannot tell' or 'not looked' moved the belief";
    }
  }
  return {};
}

std::string judged_otherwise(const oracle::Oracle& judge, const Case& the_case, const Belief& belief) {
  // As in the oracle's own tests: the mass of a narrow interval is a small difference of large numbers.
  double tolerance = 1e-9;
  for (const Reading& reading : the_case.readings) {
    if (reading.value.kind != Value::Kind::interval) continue;
    for (const double lead : {0.0, 0.2, 0.4}) {
      const double b = judge.background(reading.trait, reading.value, lead);
      if (b > 0.0) tolerance = std::max(tolerance, 1e-14 / b);
    }
  }
  const oracle::Belief judged = judge.belief(the_case);
  for (std::size_t h = 0; h < belief.hypothesis.size(); ++h) {
    if (!(std::abs(belief.hypothesis[h] - judged.pair[h]) <= tolerance)) {
      return fmt::format("hypothesis {}: {} and the judge says {}", h, belief.hypothesis[h], judged.pair[h]);
    }
  }
  return {};
}

}  // namespace

std::string text_of(const Knowledge& knowledge, const Step& step) {
  const Trait& trait = trait_of(knowledge, step.reading);
  if (step.kind == Step::Kind::forget) return "forget " + trait.id;
  std::string text = "read " + trait.id + " " + value_text(trait, step.reading.value);
  if (step.reading.certainty != Certainty::sure) {
    text += " " + certainties[static_cast<std::size_t>(step.reading.certainty)];
  }
  if (!step.reading.observer.empty()) text += " by " + step.reading.observer;
  return text;
}

void showValue(const Step& step, std::ostream& out) { out << text_of(*oracle::replay_catalogue(), step); }

std::vector<Step> parse(const Knowledge& knowledge, const std::string& text) {
  std::vector<Step> steps;
  for (const std::string& line : split(text, '\n')) {
    const std::string trimmed = trim(line);
    if (trimmed.empty() || trimmed.front() == '#') continue;
    try {
      steps.push_back(parse_line(knowledge, trimmed));
    } catch (const std::exception& trouble) {
      throw std::runtime_error("'" + trimmed + "': " + trouble.what());
    }
  }
  return steps;
}

void apply(const Step& step, Case& the_case) {
  auto& readings = the_case.readings;
  if (step.kind == Step::Kind::forget) {
    const auto gone = [&](const Reading& r) { return r.trait == step.reading.trait; };
    readings.erase(std::remove_if(readings.begin(), readings.end(), gone), readings.end());
    return;
  }
  const auto before = std::find_if(readings.begin(), readings.end(), [&](const Reading& r) {
    return r.trait == step.reading.trait && r.observer == step.reading.observer;
  });
  if (before != readings.end()) {
    *before = step.reading;
  } else {
    readings.push_back(step.reading);
  }
}

std::string broken_promise(const Model& model, const oracle::Oracle& judge, const Case& the_case) {
  const auto lines = inference::weigh(model, the_case);
  const Belief belief = inference::believe(model, lines);
  for (const std::string& complaint :
       {not_a_probability(belief), does_not_add_up(model, lines, belief), depends_on_order(model, the_case, belief),
        moved_by_nothing(model, the_case, belief), left_out_otherwise(model, the_case, lines),
        judged_otherwise(judge, the_case, belief)}) {
    if (!complaint.empty()) return complaint;
  }
  return {};
}

std::string broken_promise(const Model& model, const oracle::Oracle& judge, const std::vector<Step>& steps) {
  Case the_case;
  for (const Step& step : steps) {
    const Belief before = belief_of(model, the_case);
    Case changed = the_case;
    apply(step, changed);
    const std::string complaint = broken_promise(model, judge, changed);
    if (!complaint.empty()) return "after '" + text_of(model.knowledge(), step) + "': " + complaint;
    // Undo: the readings as they were before.
    Case undone = changed;
    undone.readings = the_case.readings;
    if (!same(belief_of(model, undone), before))
      return "undoing '" + text_of(model.knowledge(), step) + "' is not exact";
    the_case = std::move(changed);
  }
  return {};
}

}  // namespace loomkey::replay
