#include "inference/question.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "inference/answer_table.h"

namespace loomkey::inference {

using evidence::Case;
using evidence::Earth;
using evidence::Reading;
using evidence::Value;
using knowledge::Layer;
using knowledge::Trait;

namespace {

// Pairs of more than so many classes hardly carry weight and cost time.
constexpr std::size_t classes_in_pairs = 8;
constexpr double negligible_mass = 1e-9;

double plogp(double p) { return p > 0.0 ? p * std::log2(p) : 0.0; }

double sum_plogp(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += plogp(value);
  return sum;
}

// Jensen-Shannon divergence of two answer rows (each summing to its own mass), at the odds of those masses, in bits.
double divergence(const std::vector<double>& a, double mass_a, const std::vector<double>& b, double mass_b) {
  const double total = mass_a + mass_b;
  if (mass_a <= 0.0 || mass_b <= 0.0) return 0.0;
  double bits = -plogp(mass_a / total) - plogp(mass_b / total);
  for (std::size_t o = 0; o < a.size(); ++o) {
    bits += plogp(a[o] / total) + plogp(b[o] / total) - plogp((a[o] + b[o]) / total);
  }
  return std::max(bits, 0.0);
}

double chance_of_answer(const Model& model, int trait) {
  const bool meter = model.knowledge().traits[static_cast<std::size_t>(trait)].layer == Layer::meter;
  return 1.0 - (meter ? model.settings().cannot_tell_meter : model.settings().cannot_tell_look);
}

std::set<int> tools_fetched(const Model& model, const Case& the_case) {
  std::set<int> fetched;
  if (the_case.tools) fetched.insert(the_case.tools->begin(), the_case.tools->end());
  for (const Reading& reading : the_case.readings) {
    const Trait& trait = model.knowledge().traits[static_cast<std::size_t>(reading.trait)];
    fetched.insert(model.knowledge().efforts[static_cast<std::size_t>(trait.effort)].tool);
  }
  return fetched;
}

double effort_now(const Model& model, int index, const std::set<int>& fetched) {
  const auto& effort =
      model.knowledge()
          .efforts[static_cast<std::size_t>(model.knowledge().traits[static_cast<std::size_t>(index)].effort)];
  if (effort.tool < 0 || fetched.count(effort.tool) > 0) return effort.cost;
  return effort.cost + model.knowledge().tools[static_cast<std::size_t>(effort.tool)].fetch;
}

// Chance of each answer for a hypothesis whose group may have been changed.
double answer_chance(const AnswerTable& table, int code, double changed, std::size_t answer) {
  const double own = table.row(code)[answer];
  return changed == 0.0 ? own : (1.0 - changed) * own + changed * table.background()[answer];
}

// What an absent part would answer, summing to one: like a relative of what is listed, or like the background.
std::vector<double> absent_row(const Model& model, const Belief& belief, const AnswerTable& table, int trait,
                               const std::vector<double>* switched = nullptr) {
  if (belief.absent <= 0.0) return table.background();
  const std::vector<int>& code = model.trait(trait).code;
  const double kept = (1.0 - model.settings().relative_change) / belief.absent;
  std::vector<double> row(table.size(), 0.0);
  double unlike = 1.0;
  for (std::size_t h = 0; h < code.size(); ++h) {
    const double alike = kept * belief.relative[h];
    if (alike < negligible_mass) continue;
    unlike -= alike;
    const double changed = switched != nullptr ? (*switched)[h] : 0.0;
    for (std::size_t a = 0; a < row.size(); ++a) row[a] += alike * answer_chance(table, code[h], changed, a);
  }
  for (std::size_t a = 0; a < row.size(); ++a) row[a] += unlike * table.background()[a];
  return row;
}

// Answer rows per advice class ("not in the catalogue" last), each summing to the class's probability.
struct ClassRows {
  std::vector<std::vector<double>> row;
  std::vector<double> mass;
  std::vector<double> total;  // the predictive
};

ClassRows class_rows(const Model& model, const Belief& belief, const AnswerTable& table, int trait,
                     const std::vector<double>* switched) {
  const std::size_t classes = static_cast<std::size_t>(model.class_count()) + 1;
  const std::size_t answers = table.size();
  ClassRows out;
  out.mass.assign(classes, 0.0);
  out.row.resize(classes);
  const auto& hypotheses = model.hypotheses();
  const std::vector<int>& code = model.trait(trait).code;
  for (std::size_t h = 0; h < hypotheses.size(); ++h) {
    const double p = belief.hypothesis[h];
    if (p < negligible_mass) continue;
    const auto c = static_cast<std::size_t>(hypotheses[h].advice_class);
    if (out.row[c].empty()) out.row[c].assign(answers, 0.0);
    out.mass[c] += p;
    const double changed = switched != nullptr ? (*switched)[h] : 0.0;
    for (std::size_t a = 0; a < answers; ++a) out.row[c][a] += p * answer_chance(table, code[h], changed, a);
  }
  out.mass.back() = belief.absent;
  out.row.back() = absent_row(model, belief, table, trait, switched);
  for (double& chance : out.row.back()) chance *= belief.absent;
  out.total.assign(answers, 0.0);
  for (const auto& row : out.row) {
    for (std::size_t a = 0; a < row.size(); ++a) out.total[a] += row[a];
  }
  return out;
}

double class_gain(const ClassRows& rows) {
  double gain = -sum_plogp(rows.total);
  double mass = 0.0;
  for (std::size_t c = 0; c < rows.row.size(); ++c) {
    gain += sum_plogp(rows.row[c]) - plogp(rows.mass[c]);
    mass += rows.mass[c];
  }
  // Dropped negligible hypotheses leave the total a hair under one.
  return std::max(gain + plogp(mass), 0.0);
}

// Mean price of the pairs that the question separates, each pair counted by how far it separates it.
double price_factor(const Model& model, const ClassRows& rows) {
  std::vector<std::size_t> order;
  for (std::size_t c = 0; c < rows.mass.size(); ++c) {
    if (rows.mass[c] > negligible_mass) order.push_back(c);
  }
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return rows.mass[a] > rows.mass[b]; });
  if (order.size() > classes_in_pairs) order.resize(classes_in_pairs);
  const std::size_t absent = rows.mass.size() - 1;
  const auto price = [&](std::size_t given, std::size_t truth) {
    if (given == absent) return 0.0;
    return model.price(static_cast<int>(given), truth == absent ? -1 : static_cast<int>(truth));
  };
  double weighted = 0.0;
  double plain = 0.0;
  for (std::size_t i = 0; i < order.size(); ++i) {
    for (std::size_t j = i + 1; j < order.size(); ++j) {
      const std::size_t a = order[i];
      const std::size_t b = order[j];
      const double bits =
          rows.mass[a] * rows.mass[b] * divergence(rows.row[a], rows.mass[a], rows.row[b], rows.mass[b]);
      weighted += bits * (0.5 + std::max(price(a, b), price(b, a)));
      plain += bits;
    }
  }
  return plain > 0.0 ? weighted / plain : 1.0;
}

std::vector<Answer> answers_of(const AnswerTable& table, const std::vector<double>& predictive) {
  double total = 0.0;
  for (const double chance : predictive) total += chance;
  std::vector<Answer> answers;
  for (std::size_t a = 0; a < predictive.size(); ++a) answers.push_back({table.values()[a], predictive[a] / total});
  return answers;
}

void sort_by_score(std::vector<Question>& questions) {
  std::stable_sort(questions.begin(), questions.end(), [](const Question& a, const Question& b) {
    return a.score != b.score ? a.score > b.score : a.trait < b.trait;
  });
}

// Mean answer row of some hypotheses under the belief, summing to one; false if they have no mass.
template <typename Filter>
bool mean_row(const Model& model, const Belief& belief, const AnswerTable& table, int trait, Filter belongs,
              std::vector<double>& row) {
  const auto& hypotheses = model.hypotheses();
  const std::vector<int>& code = model.trait(trait).code;
  for (const bool by_prior : {false, true}) {
    row.assign(table.size(), 0.0);
    double mass = 0.0;
    for (std::size_t h = 0; h < hypotheses.size(); ++h) {
      if (!belongs(hypotheses[h])) continue;
      const double p = by_prior ? hypotheses[h].prior : belief.hypothesis[h];
      mass += p;
      for (std::size_t a = 0; a < row.size(); ++a) row[a] += p * table.row(code[h])[a];
    }
    if (mass > negligible_mass) {
      for (double& value : row) value /= mass;
      return true;
    }
  }
  return false;
}

double even_divergence(const std::vector<double>& a, const std::vector<double>& b) {
  return divergence(a, 1.0, b, 1.0);
}

}  // namespace

std::vector<int> askable(const Model& model, const Case& the_case) {
  const auto& knowledge = model.knowledge();
  std::set<int> read;
  const Reading* letters = nullptr;
  for (const Reading& reading : the_case.readings) {
    read.insert(reading.trait);
    if (knowledge.traits[static_cast<std::size_t>(reading.trait)].id == "letters") letters = &reading;
  }
  std::vector<int> out;
  for (int t = 0; t < model.trait_count(); ++t) {
    const Trait& trait = knowledge.traits[static_cast<std::size_t>(t)];
    if (read.count(t) > 0) continue;
    const int tool = knowledge.efforts[static_cast<std::size_t>(trait.effort)].tool;
    if (tool >= 0 && the_case.tools &&
        std::find(the_case.tools->begin(), the_case.tools->end(), tool) == the_case.tools->end()) {
      continue;
    }
    if (trait.runs && the_case.bike.settled_earth() == Earth::unknown) continue;
    if (!trait.asked_with.empty()) {
      const auto named = [&](const std::string& wanted) {
        return letters != nullptr &&
               std::any_of(letters->value.items.begin(), letters->value.items.end(), [&](const std::string& item) {
                 const auto may_be = evidence::alternatives_of(item);
                 return std::find(may_be.begin(), may_be.end(), wanted) != may_be.end();
               });
      };
      if (std::none_of(trait.asked_with.begin(), trait.asked_with.end(), named)) continue;
    }
    out.push_back(t);
  }
  return out;
}

std::vector<Question> separating_questions(const Model& model, const Case& the_case, const Belief& belief) {
  const auto& knowledge = model.knowledge();
  std::set<int> touched;
  for (const Reading& reading : the_case.readings) {
    if (reading.value.informs()) touched.insert(knowledge.traits[static_cast<std::size_t>(reading.trait)].group);
  }
  touched.erase(-1);
  std::map<int, std::vector<double>> switched;
  for (const int group : touched) switched.emplace(group, switched_chance(model, the_case, group));
  const std::set<int> fetched = tools_fetched(model, the_case);
  std::vector<Question> questions;
  for (const int t : askable(model, the_case)) {
    const Trait& trait = knowledge.traits[static_cast<std::size_t>(t)];
    const AnswerTable table(model, t, belief);
    const auto in_group = switched.find(trait.group);
    const ClassRows rows =
        class_rows(model, belief, table, t, in_group == switched.end() ? nullptr : &in_group->second);
    Question question;
    question.trait = t;
    question.gain = class_gain(rows);
    if (in_group != switched.end()) {
      question.gain *= 1.0 - knowledge.groups[static_cast<std::size_t>(trait.group)].overlap;
    }
    question.score =
        question.gain * price_factor(model, rows) * chance_of_answer(model, t) / effort_now(model, t, fetched);
    question.answers = answers_of(table, rows.total);
    questions.push_back(std::move(question));
  }
  sort_by_score(questions);
  return questions;
}

double check_gain(const Model& model, const Belief& belief, int trait, int advice_class) {
  const AnswerTable table(model, trait, belief);
  std::vector<double> row;
  if (!mean_row(
          model, belief, table, trait, [&](const Hypothesis& h) { return h.advice_class == advice_class; }, row)) {
    return 0.0;
  }
  return even_divergence(row, absent_row(model, belief, table, trait));
}

std::vector<Question> checking_questions(const Model& model, const Case& the_case, const Belief& belief,
                                         int advice_class) {
  const std::set<int> fetched = tools_fetched(model, the_case);
  std::vector<Question> questions;
  for (const int t : askable(model, the_case)) {
    const AnswerTable table(model, t, belief);
    std::vector<double> row;
    const bool has_mass = mean_row(
        model, belief, table, t, [&](const Hypothesis& h) { return h.advice_class == advice_class; }, row);
    if (!has_mass) continue;
    Question question;
    question.trait = t;
    question.purpose = Question::Purpose::check;
    question.gain = even_divergence(row, absent_row(model, belief, table, t));
    question.score = question.gain * chance_of_answer(model, t) / effort_now(model, t, fetched);
    question.answers = answers_of(table, row);
    questions.push_back(std::move(question));
  }
  sort_by_score(questions);
  return questions;
}

double pair_gain(const Model& model, const Belief& belief, int trait, int part_a, int part_b) {
  const AnswerTable table(model, trait, belief);
  std::vector<double> a;
  std::vector<double> b;
  const bool both = mean_row(
                        model, belief, table, trait, [&](const Hypothesis& h) { return h.part == part_a; }, a) &&
                    mean_row(
                        model, belief, table, trait, [&](const Hypothesis& h) { return h.part == part_b; }, b);
  return both ? even_divergence(a, b) : 0.0;
}

}  // namespace loomkey::inference
