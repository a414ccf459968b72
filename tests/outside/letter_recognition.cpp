// Lets the engine name the letters of a table of numbers: a catalogue of the training rows, number claims only, its
// questions put to the test rows. Writes what it reached as JSON for letter_recognition.py, which holds the reference.
//
// usage: letter_recognition FILE.csv TRAINING_ROWS STEP     tests every STEPth row behind the training rows
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <iostream>
#include <sstream>

#include <nlohmann/json.hpp>

#include "inference/belief.h"
#include "inference/question.h"
#include "oracle/tiny_catalogue.h"
#include "outside/interview.h"

using namespace loomkey;

namespace {

constexpr std::size_t letters = 26;
constexpr std::size_t features = 16;
constexpr int values = 16;  // 0 to 15

struct Letter {
  std::size_t name = 0;  // A is 0
  std::array<int, features> seen{};
};

// The letter, then 16 whole numbers; the first line names the columns.
std::vector<Letter> read(const std::string& path) {
  std::ifstream file(path);
  std::string line;
  std::getline(file, line);
  std::vector<Letter> rows;
  while (std::getline(file, line)) {
    std::erase(line, '"');
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream fields(line);
    char name = 0;
    Letter row;
    fields >> name;
    for (int& value : row.seen) fields >> value;
    row.name = static_cast<std::size_t>(name - 'A');
    const bool sound = std::all_of(row.seen.begin(), row.seen.end(), [](int v) { return v >= 0 && v < values; });
    if (!fields || row.name >= letters || !sound) throw std::runtime_error("no row of letters: " + line);
    rows.push_back(row);
  }
  return rows;
}

// Per letter and feature one range a value, by its Laplace frequency in the training rows.
std::shared_ptr<const knowledge::Knowledge> learn(const std::vector<Letter>& rows, std::size_t training) {
  oracle::TinyCatalogue tiny;
  for (std::size_t f = 0; f < features; ++f) {
    knowledge::Trait& trait = tiny.trait(tiny.number(oracle::numbered("number-", static_cast<int>(f)), -0.5, 15.5));
    trait.log_scale = false;
    trait.soft = 0.01;
    trait.relative_error = trait.absolute_error = 0.0;
  }
  for (std::size_t letter = 0; letter < letters; ++letter) {
    double count = 0.0;
    std::array<std::array<double, values>, features> counts{};
    for (std::size_t r = 0; r < training; ++r) {
      if (rows[r].name != letter) continue;
      count += 1.0;
      for (std::size_t f = 0; f < features; ++f) counts[f][static_cast<std::size_t>(rows[r].seen[f])] += 1.0;
    }
    const int part = tiny.part(std::string(1, static_cast<char>('A' + letter)), count);
    for (std::size_t f = 0; f < features; ++f) {
      knowledge::Claim claim;
      claim.trait = static_cast<int>(f);
      for (int v = 0; v < values; ++v) {
        const double share = (counts[f][static_cast<std::size_t>(v)] + 1.0) / (count + values);
        claim.ranges.push_back({v - 0.5, v + 0.5, share});
      }
      tiny.claim(part, std::move(claim));
    }
  }
  return tiny.done();
}

struct Ending {
  bool right = false;
  int questions = 0;
  double bits_left = 0.0;
};

// Asks what promises most, until one letter has reached `enough` or all 16 numbers are known.
Ending ask(const inference::Model& model, const Letter& letter, double enough) {
  evidence::Case the_case;
  for (Ending ending;; ++ending.questions) {
    const auto belief = inference::believe(model, inference::weigh(model, the_case));
    const auto leading = static_cast<std::size_t>(belief.leading_class());
    const bool done = belief.by_class[leading] >= enough;
    const auto questions =
        done ? std::vector<inference::Question>{} : inference::separating_questions(model, the_case, belief);
    if (questions.empty()) {
      ending.right = leading == letter.name;
      for (const double p : belief.by_class) ending.bits_left -= p > 0.0 ? p * std::log2(p) : 0.0;
      return ending;
    }
    const int trait = questions.front().trait;
    const double value = letter.seen[static_cast<std::size_t>(trait)];
    the_case.readings.push_back(oracle::saw_number(trait, value - 0.5, value + 0.5));
  }
}

bool right_with_all(const inference::Model& model, const Letter& letter) {
  evidence::Case the_case;
  for (std::size_t f = 0; f < features; ++f) {
    the_case.readings.push_back(oracle::saw_number(static_cast<int>(f), letter.seen[f] - 0.5, letter.seen[f] + 0.5));
  }
  const auto belief = inference::believe(model, inference::weigh(model, the_case));
  return static_cast<std::size_t>(belief.leading_class()) == letter.name;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) {
    std::cerr << "usage: letter_recognition FILE.csv TRAINING_ROWS STEP\n";
    return 2;
  }
  const auto rows = read(argv[1]);
  const auto training = static_cast<std::size_t>(std::stoul(argv[2]));
  const inference::Model model(learn(rows, training), outside::certainty());
  double tested = 0.0;
  double right = 0.0;
  double all_right = 0.0;
  double questions = 0.0;
  double bits_left = 0.0;
  for (std::size_t r = training; r < rows.size(); r += std::stoul(argv[3])) {
    const Ending ending = ask(model, rows[r], 0.95);
    tested += 1.0;
    right += ending.right ? 1.0 : 0.0;
    questions += ending.questions;
    bits_left += ending.bits_left;
    all_right += right_with_all(model, rows[r]) ? 1.0 : 0.0;
  }
  std::cout << nlohmann::json{{"tested", tested},
                              {"right", right / tested},
                              {"all_right", all_right / tested},
                              {"questions", questions / tested},
                              {"bits_left", bits_left / tested}}
            << "\n";
}
