#include <algorithm>
#include <cctype>

#include "base/text.h"
#include "inference/weigh.h"

// What is known of the bike, and a name somebody gave the part. Both move the prior only, and little: parts travel
// between bikes, and sellers call any small box a regulator. The steps are judgement, from memory.

namespace loomkey::inference {

using knowledge::Part;

namespace {

constexpr double era_fits_db = 2.0;
constexpr double era_misses_db = -2.0;  // per decade away, at most two
constexpr double origin_fits_db = 2.0;
constexpr double origin_misses_db = -3.0;
constexpr double market_fits_db = 3.0;
constexpr double market_misses_db = -3.0;
constexpr double volts_fit_db = 1.5;
constexpr double volts_miss_db = -4.0;
constexpr double cylinders_fit_db = 1.0;
constexpr double cylinders_miss_db = -2.0;
constexpr double symptom_db = 4.0;

double era_weight(const Part& part, int decade) {
  const int last_of_decade = decade + 9;
  if (part.first_year <= last_of_decade && part.last_year >= decade) return era_fits_db;
  if (part.retrofit && part.first_year > last_of_decade) return 0.0;
  const int years = part.first_year > last_of_decade ? part.first_year - last_of_decade : decade - part.last_year;
  return era_misses_db * (years > 10 ? 2.0 : 1.0);
}

template <typename T>
double membership(const std::vector<T>& allowed, const T& value, double fits, double misses) {
  if (allowed.empty()) return 0.0;
  return std::find(allowed.begin(), allowed.end(), value) != allowed.end() ? fits : misses;
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : to_lower(text)) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      words.back() += c;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

bool contains_all(const std::vector<std::string>& text, const std::vector<std::string>& words) {
  return std::all_of(words.begin(), words.end(),
                     [&](const std::string& word) { return std::find(text.begin(), text.end(), word) != text.end(); });
}

}  // namespace

double context_weight(const Model& model, const evidence::Bike& bike, const Hypothesis& h) {
  const Part& part = model.knowledge().parts[static_cast<std::size_t>(h.part)];
  double weight = 0.0;
  if (bike.decade) weight += era_weight(part, *bike.decade);
  if (!bike.origin.empty()) weight += membership(part.origins, bike.origin, origin_fits_db, origin_misses_db);
  if (!bike.market.empty()) weight += membership(part.markets, bike.market, market_fits_db, market_misses_db);
  if (bike.volts) weight += membership(part.volts, *bike.volts, volts_fit_db, volts_miss_db);
  if (bike.cylinders) weight += membership(part.cylinders, *bike.cylinders, cylinders_fit_db, cylinders_miss_db);
  const auto& symptoms = part.conditions[static_cast<std::size_t>(h.condition)].symptoms;
  const bool explains = std::any_of(bike.symptoms.begin(), bike.symptoms.end(), [&](int symptom) {
    return std::find(symptoms.begin(), symptoms.end(), symptom) != symptoms.end();
  });
  if (explains) weight += symptom_db;
  const double half = model.settings().context_limit_db / 2.0;
  return std::clamp(weight, -half, half);
}

double guess_weight(const Model& model, const std::string& guessed_name, int part_index) {
  const Part& part = model.knowledge().parts[static_cast<std::size_t>(part_index)];
  const std::vector<std::string> guess = words_of(guessed_name);
  if (guess.empty()) return 0.0;
  double share = 0.0;
  const auto consider = [&](const std::string& name, double whole, double within) {
    const std::vector<std::string> words = words_of(name);
    if (words == guess) share = std::max(share, whole);
    if (contains_all(words, guess)) share = std::max(share, within);
  };
  consider(part.name, 1.0, 0.8);
  for (const auto& alias : part.aliases) consider(alias, 1.0, 0.8);
  for (const auto& [language, term] : part.foreign) consider(term, 1.0, 0.8);
  if (part.family >= 0) consider(model.knowledge().families[static_cast<std::size_t>(part.family)].name, 0.6, 0.6);
  for (const auto& name : part.called) consider(name, 0.5, 0.3);
  return share * model.settings().guess_limit_db;
}

}  // namespace loomkey::inference
