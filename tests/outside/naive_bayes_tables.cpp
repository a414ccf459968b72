// Writes tables, readings and the engine's beliefs as JSON for naive_bayes.py, which works the same out with
// scikit-learn. Where nobody lapses, nothing is left to a residual, the background is the plain marginal and no part is
// absent, the engine is a naive Bayes classifier, so both must agree to the last digits.
#include <cmath>
#include <fstream>
#include <iostream>

#include <nlohmann/json.hpp>

#include "oracle/tiny_catalogue.h"
#include "outside/interview.h"

using namespace loomkey;

namespace {

constexpr int classes = 6;
constexpr int traits = 7;
constexpr int cases = 60;
constexpr int queries = 40;

// Laplace: (rows of the class that show the state + 1) / (rows of the class + states).
std::vector<double> laplace(const std::vector<std::vector<int>>& rows, const std::vector<int>& labels, int label,
                            int trait, int states) {
  std::vector<double> shares(static_cast<std::size_t>(states), 1.0);
  double total = states;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    if (labels[r] != label) continue;
    shares[static_cast<std::size_t>(rows[r][static_cast<std::size_t>(trait)])] += 1.0;
    total += 1.0;
  }
  for (double& share : shares) share /= total;
  return shares;
}

nlohmann::json tables(std::uint64_t seed) {
  oracle::Dice dice(seed);
  std::vector<int> states;
  for (int t = 0; t < traits; ++t) states.push_back(dice.from(2, 6));
  std::vector<std::vector<int>> rows;
  std::vector<int> labels;
  for (int i = 0; i < cases; ++i) {
    labels.push_back(i < classes ? i : dice.from(0, classes - 1));
    rows.emplace_back();
    for (const int n : states) rows.back().push_back(dice.chance(0.5) ? labels.back() % n : dice.from(0, n - 1));
  }
  oracle::TinyCatalogue tiny;
  for (int t = 0; t < traits; ++t) tiny.choice(oracle::numbered("t", t), states[static_cast<std::size_t>(t)]);
  for (int c = 0; c < classes; ++c) {
    const auto count = std::count(labels.begin(), labels.end(), c);
    const int part = tiny.part(oracle::numbered("class-", c), static_cast<double>(count));
    for (int t = 0; t < traits; ++t)
      tiny.claim(part, t, laplace(rows, labels, c, t, states[static_cast<std::size_t>(t)]));
  }
  const inference::Model model(tiny.done(), outside::certainty());
  nlohmann::json out = {{"seed", seed}, {"rows", rows}, {"labels", labels}, {"states", states}};
  for (int q = 0; q < queries; ++q) {
    evidence::Case the_case;
    std::vector<int> query;
    for (int t = 0; t < traits; ++t) {
      query.push_back(dice.from(0, states[static_cast<std::size_t>(t)] - 1));
      the_case.readings.push_back(oracle::saw_state(t, query.back()));
    }
    out["queries"].push_back(query);
    out["beliefs"].push_back(inference::believe(model, inference::weigh(model, the_case)).by_class);
  }
  // ln P(state | class) = weight of a lone reading, brought back from decibans, plus ln b.
  for (int t = 0; t < traits; ++t) {
    nlohmann::json table = nlohmann::json::array();
    for (int s = 0; s < states[static_cast<std::size_t>(t)]; ++s) {
      evidence::Case one;
      one.readings = {oracle::saw_state(t, s)};
      const double background = std::log(model.background(t, one.readings.front().value, 0.0));
      const auto lines = inference::weigh(model, one);
      std::vector<double> column;
      for (const double decibans : lines.front().weight) {
        column.push_back(decibans * std::log(10.0) / 10.0 + background);
      }
      table.push_back(column);
    }
    out["log_chances"].push_back(table);  // [trait][state][class]
  }
  return out;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: naive_bayes_tables FILE\n";
    return 2;
  }
  nlohmann::json all = nlohmann::json::array();
  for (std::uint64_t seed = 1; seed <= 20; ++seed) all.push_back(tables(seed));
  std::ofstream file(argv[1]);
  file << all;
  return file.good() ? 0 : 1;
}
