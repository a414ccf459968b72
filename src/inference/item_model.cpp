#include <algorithm>
#include <array>
#include <cmath>

#include "inference/likelihood.h"

// Sets of letters and of lead colours. A set is matched item by item: expected items may be gone, seen ones may be
// strays, and an item may be reported as another (a faded lead, a worn letter). The chance of a whole set is the sum
// over all such matchings, computed by a dynamic programme over the seen items already used; 7 expected against 12 seen
// items stays under half a million steps.

namespace loomkey::inference {

using knowledge::Knowledge;
using knowledge::SetItems;

namespace {

constexpr double letter_read_right = 0.95;
constexpr double letter_misread = 0.015;  // as one particular look-alike
constexpr double tracer_swapped = 0.08;   // base and tracer named the wrong way round
constexpr double tracer_imagined = 0.01;  // a plain lead reported with some tracer
constexpr double stray_uniform_share = 0.3;
constexpr double uniform_empty_set = 0.4;
constexpr double uniform_next_item = 0.5;

// Worn letters that pass for one another: common practice, no source.
constexpr std::array<std::pair<char, char>, 12> worn_letters = {{{'B', '8'},
                                                                 {'E', 'F'},
                                                                 {'D', 'O'},
                                                                 {'O', '0'},
                                                                 {'I', '1'},
                                                                 {'L', 'I'},
                                                                 {'S', '5'},
                                                                 {'A', '4'},
                                                                 {'B', 'E'},
                                                                 {'P', 'F'},
                                                                 {'W', 'V'},
                                                                 {'C', 'O'}}};

bool worn_alike(const std::string& a, const std::string& b) {
  if (a.size() != b.size()) return false;
  int differences = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (a[i] == b[i]) continue;
    const bool alike = std::any_of(worn_letters.begin(), worn_letters.end(), [&](const auto& pair) {
      return (pair.first == a[i] && pair.second == b[i]) || (pair.first == b[i] && pair.second == a[i]);
    });
    if (!alike) return false;
    ++differences;
  }
  return differences == 1;
}

std::pair<std::string, std::string> base_and_tracer(const std::string& colour) {
  const std::size_t slash = colour.find('/');
  if (slash == std::string::npos) return {colour, {}};
  return {colour.substr(0, slash), colour.substr(slash + 1)};
}

// Chance that one plain colour is reported as another, or as "dark".
double colour_seen_as(const Knowledge& knowledge, const std::string& true_colour, const std::string& seen) {
  if (seen == "dark") return knowledge.dark_chance;
  const int index = knowledge.colour(true_colour);
  double kept = 1.0 - knowledge.dark_chance;
  double chance = 0.0;
  if (index >= 0) {
    for (const auto& [other, p] : knowledge.colours[static_cast<std::size_t>(index)].becomes) {
      kept -= p;
      if (knowledge.colours[static_cast<std::size_t>(other)].id == seen) chance = p;
    }
  }
  return seen == true_colour ? kept : chance;
}

double factorial_of_repeats(std::vector<std::string> items) {
  std::sort(items.begin(), items.end());
  double product = 1.0;
  std::size_t run = 1;
  for (std::size_t i = 1; i < items.size(); ++i) {
    run = items[i] == items[i - 1] ? run + 1 : 1;
    product *= static_cast<double>(run);
  }
  return product;
}

}  // namespace

ItemModel::ItemModel(const Knowledge* knowledge, SetItems items, std::vector<std::pair<std::string, double>> frequency)
    : knowledge_(knowledge), items_(items), frequency_(std::move(frequency)) {
  std::sort(frequency_.begin(), frequency_.end());
  double total = 0.0;
  for (const auto& entry : frequency_) total += entry.second;
  for (auto& entry : frequency_) entry.second /= total;
}

int ItemModel::index(const std::string& item) const {
  const auto found = std::lower_bound(frequency_.begin(), frequency_.end(), item,
                                      [](const auto& entry, const std::string& key) { return entry.first < key; });
  return found != frequency_.end() && found->first == item ? static_cast<int>(found - frequency_.begin()) : -1;
}

double ItemModel::stray(const std::string& item) const {
  double chance = 0.0;
  for (const std::string& one : evidence::alternatives_of(item)) chance += plain_stray(one);
  return chance;
}

double ItemModel::plain_stray(const std::string& item) const {
  const int known = index(item);
  const double uniform = stray_uniform_share / static_cast<double>(frequency_.size() + 1);
  return uniform + (known < 0 ? 0.0 : (1.0 - stray_uniform_share) * frequency_[static_cast<std::size_t>(known)].second);
}

double ItemModel::reported(const std::string& item, const std::string& seen) const {
  const auto truths = evidence::alternatives_of(item);
  double chance = 0.0;
  for (const std::string& truth : truths) {
    for (const std::string& one : evidence::alternatives_of(seen)) chance += plain_reported(truth, one);
  }
  return chance / static_cast<double>(truths.size());
}

double ItemModel::plain_reported(const std::string& item, const std::string& seen) const {
  if (items_ == SetItems::colours) return colour_reported(item, seen);
  if (item == seen) return letter_read_right;
  return worn_alike(item, seen) ? letter_misread : 0.0;
}

double ItemModel::colour_reported(const std::string& item, const std::string& seen) const {
  const auto [base, tracer] = base_and_tracer(item);
  const auto [seen_base, seen_tracer] = base_and_tracer(seen);
  const double base_chance = colour_seen_as(*knowledge_, base, seen_base);
  if (tracer.empty()) {
    if (seen_tracer.empty()) return base_chance * (1.0 - tracer_imagined);
    return base_chance * tracer_imagined / static_cast<double>(knowledge_->colours.size());
  }
  // A lead too dirty to name has lost its tracer as well.
  if (seen_base == "dark") return seen_tracer.empty() ? base_chance : 0.0;
  if (seen_tracer.empty()) return base_chance * knowledge_->tracer_lost;
  const double named = 1.0 - knowledge_->tracer_lost;
  const double right_way = base_chance * colour_seen_as(*knowledge_, tracer, seen_tracer);
  const double swapped =
      colour_seen_as(*knowledge_, tracer, seen_base) * colour_seen_as(*knowledge_, base, seen_tracer);
  return named * ((1.0 - tracer_swapped) * right_way + tracer_swapped * swapped);
}

SeenSet::SeenSet(const ItemModel& model, const Settings& settings, const std::vector<std::string>& seen, bool complete)
    : seen_(seen), missing_(complete ? settings.set_missing : 1.0 - settings.set_mention) {
  const std::size_t count = seen.size();
  reported_.resize(model.known_count() * count);
  for (std::size_t k = 0; k < model.known_count(); ++k) {
    for (std::size_t j = 0; j < count; ++j) reported_[k * count + j] = model.reported(model.known(k), seen[j]);
  }
  // Seen items that no expected one accounts for are strays: a Poisson number of them, each by its own frequency. Equal
  // items are told apart by the matching although nobody can: the last factor takes that back.
  const double none = std::exp(-settings.set_extra) / factorial_of_repeats(seen);
  strays_.assign(std::size_t{1} << count, none);
  for (std::size_t used = 0; used < strays_.size(); ++used) {
    for (std::size_t j = 0; j < count; ++j) {
      if ((used >> j & 1U) == 0) strays_[used] *= settings.set_extra * model.stray(seen[j]);
    }
  }
}

double SeenSet::matched(const std::vector<const double*>& rows) const {
  const std::size_t count = seen_.size();
  const std::size_t subsets = strays_.size();
  std::vector<double> ways(subsets, 0.0);
  ways[0] = 1.0;
  for (const double* row : rows) {
    // Downwards, so that a subset is read before this item is added to it.
    for (std::size_t used = subsets; used-- > 0;) {
      double sum = ways[used] * missing_;
      for (std::size_t j = 0; j < count; ++j) {
        const std::size_t bit = std::size_t{1} << j;
        if ((used & bit) != 0) sum += ways[used ^ bit] * (1.0 - missing_) * row[j];
      }
      ways[used] = sum;
    }
  }
  double chance = 0.0;
  for (std::size_t used = 0; used < subsets; ++used) chance += ways[used] * strays_[used];
  return chance;
}

double SeenSet::chance(const std::vector<int>& expected) const {
  std::vector<const double*> rows;
  rows.reserve(expected.size());
  for (const int k : expected) rows.push_back(reported_.data() + static_cast<std::size_t>(k) * seen_.size());
  return matched(rows);
}

double SeenSet::chance(const ItemModel& model, const std::vector<std::string>& expected) const {
  std::vector<std::vector<double>> own(expected.size());
  std::vector<const double*> rows;
  for (std::size_t i = 0; i < expected.size(); ++i) {
    for (const std::string& item : seen_) own[i].push_back(model.reported(expected[i], item));
    rows.push_back(own[i].data());
  }
  return matched(rows);
}

double set_chance(const ItemModel& model, const Settings& settings, const std::vector<std::string>& expected,
                  const std::vector<std::string>& seen, bool complete) {
  return SeenSet(model, settings, seen, complete).chance(model, expected);
}

double uniform_set_chance(const ItemModel& model, const std::vector<std::string>& seen) {
  double chance = seen.empty() ? uniform_empty_set : 1.0 - uniform_empty_set;
  for (std::size_t i = 0; i < seen.size(); ++i) {
    const double count = i + 1 < seen.size() ? uniform_next_item : 1.0 - uniform_next_item;
    chance *= count * model.stray(seen[i]) * static_cast<double>(i + 1);
  }
  return chance / factorial_of_repeats(seen);
}

}  // namespace loomkey::inference
