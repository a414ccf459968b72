#pragma once

#include <string>
#include <utility>
#include <vector>

#include "evidence/reading.h"
#include "inference/settings.h"
#include "knowledge/knowledge.h"

namespace loomkey::inference {

// How likely a part that makes a claim would be seen so, without lapse and without residual: the raw model of one
// trait. Everything else (background, lapse, groups) is built on these functions.

// Share of one claimed range that lies in [low, high]. The range is flat between its ends and falls off linearly over
// a shoulder on either side; the axis is logarithmic for ohms, microfarads, sizes and weights.
double range_mass(const knowledge::Trait&, const knowledge::Range&, bool verify, const Settings&, double low,
                  double high);

// [low, high] of what was stated, widened by the observer's own error.
evidence::Interval with_error(const knowledge::Trait&, evidence::Interval);

// Chance that a number claim yields a value in [low, high] (as read, error included). On a low-ohm trait a true zero
// may show a small number.
double number_chance(const knowledge::Trait&, const knowledge::Claim&, const Settings&, double low, double high);
double special_chance(const knowledge::Trait&, const knowledge::Claim&, const Settings&, knowledge::Special);

// The uniform part of the background of a number trait: 70 % spread over the trait's range along its axis, the rest
// over the special answers that make sense.
double uniform_number_chance(const knowledge::Trait&, double low, double high);
double uniform_special_chance(const knowledge::Trait&, knowledge::Special);

// Background frequency of single letters or colours, and how one item may be reported as another. Items that the
// catalogue claims are known by an index.
class ItemModel {
 public:
  ItemModel() = default;
  // `frequency`: weighted counts of the items the catalogue claims.
  ItemModel(const knowledge::Knowledge*, knowledge::SetItems, std::vector<std::pair<std::string, double>> frequency);

  [[nodiscard]] std::size_t known_count() const { return frequency_.size(); }
  [[nodiscard]] const std::string& known(std::size_t index) const { return frequency_[index].first; }
  [[nodiscard]] int index(const std::string& item) const;  // -1 for an item that nothing claims

  // Chance that an item nobody claimed (an added lead, a stray letter) is this one. An item with alternatives ("A or
  // 4") has the sum of their chances, here and as it is reported.
  [[nodiscard]] double stray(const std::string& item) const;

  // Chance that the true item is reported as `seen`; of a truth with alternatives, each is as likely.
  [[nodiscard]] double reported(const std::string& item, const std::string& seen) const;

 private:
  [[nodiscard]] double plain_stray(const std::string& item) const;
  [[nodiscard]] double plain_reported(const std::string& item, const std::string& seen) const;
  [[nodiscard]] double colour_reported(const std::string& item, const std::string& seen) const;

  const knowledge::Knowledge* knowledge_ = nullptr;
  knowledge::SetItems items_ = knowledge::SetItems::letters;
  std::vector<std::pair<std::string, double>> frequency_;  // sorted by item, sums to one
};

// A set as it was seen, made ready to be matched with many claimed sets.
class SeenSet {
 public:
  SeenSet(const ItemModel&, const Settings&, const std::vector<std::string>& seen, bool complete);

  // Chance that the expected set is reported so: the sum over all ways to match seen items with expected ones, where
  // expected ones may be missing and seen ones may be strays. "Includes" readings mention an item by chance.
  [[nodiscard]] double chance(const std::vector<int>& expected) const;  // indices of known items
  [[nodiscard]] double chance(const ItemModel&, const std::vector<std::string>& expected) const;

 private:
  [[nodiscard]] double matched(const std::vector<const double*>& rows) const;

  std::vector<std::string> seen_;
  std::vector<double> reported_;  // [known item][seen item]
  std::vector<double> strays_;    // per subset of seen items: chance that exactly the others are strays
  double missing_ = 0.0;
};

// The same for one pair of sets.
double set_chance(const ItemModel&, const Settings&, const std::vector<std::string>& expected,
                  const std::vector<std::string>& seen, bool complete);

// The uniform part of a set's background.
double uniform_set_chance(const ItemModel&, const std::vector<std::string>& seen);

// Chance of a reading's value under a claim, or under the uniform part of the background.
double value_chance(const knowledge::Trait&, const knowledge::Claim&, const ItemModel&, const Settings&,
                    const evidence::Value&, double lead_ohms);
double uniform_value_chance(const knowledge::Trait&, const ItemModel&, const evidence::Value&, double lead_ohms);

}  // namespace loomkey::inference
