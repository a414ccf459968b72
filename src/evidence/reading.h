#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "knowledge/claim.h"

namespace loomkey::evidence {

// How sure the observer is. Each step stands for a chance of a plain mistake (inference/settings.h).
enum class Certainty { sure, think_so, guess };

// A stated range in the trait's unit; a single figure has low == high. The observer's own error is added later.
struct Interval {
  double low = 0.0;
  double high = 0.0;

  bool operator==(const Interval&) const = default;
};

// What an observer answered.
struct Value {
  enum class Kind { state, interval, special, set, cannot_tell, not_looked };

  Kind kind = Kind::not_looked;
  int state = -1;                                                   // choice
  Interval interval;                                                // number
  knowledge::Special special = knowledge::Special::does_not_apply;  // number
  std::vector<std::string> items;                                   // set: sorted; one may be "A or 4"
  bool complete = true;                                             // set: "these and no others"
  bool added = false;                                               // set: on a label, on tape or in pen

  // "Cannot tell" and "not looked" move nothing.
  [[nodiscard]] bool informs() const { return kind != Kind::cannot_tell && kind != Kind::not_looked; }
  bool operator==(const Value&) const = default;
};

// An item that could not be told from another is kept as one item, "A or 4". What it may be, in order of text; an
// item that was read plainly is its own only alternative.
std::vector<std::string> alternatives_of(std::string_view item);
// The item that stands for any of these; equal ones count once.
std::string item_of(std::vector<std::string> alternatives);

// One trait as this observer saw it.
struct Reading {
  int trait = -1;  // index into Knowledge::traits
  Value value;
  Certainty certainty = Certainty::sure;
  std::string observer;  // empty: the one person at the bench
  std::string text;      // as it was written or typed
  std::string where;     // "find.toml:12", or empty
};

enum class Earth { unknown, positive, negative };

// What is known of the bike. It moves the prior only, never the evidence.
struct Bike {
  std::optional<int> decade;  // 1960
  std::string origin;         // british, continental, japanese, american, soviet; empty if unknown
  std::string market;         // britain, europe, usa, japan, elsewhere; empty if unknown
  std::optional<int> cylinders;
  std::optional<int> volts;
  Earth earth_as_built = Earth::unknown;
  Earth earth_found = Earth::unknown;
  Earth earth_measured = Earth::unknown;
  std::vector<int> symptoms;  // indices into Knowledge::symptoms

  // The earth that advice may rely on: only what was measured.
  [[nodiscard]] Earth settled_earth() const { return earth_measured; }
};

// All that is known of one find: the input of every identification.
struct Case {
  std::string title;
  Bike bike;
  std::string guessed_name;               // "I think it is the regulator"
  std::optional<std::vector<int>> tools;  // tools at hand; none given: all can be fetched
  bool leads_zeroed = false;              // meter leads were shorted and their ohms taken off
  std::vector<Reading> readings;          // at most one per trait and observer

  // Readings that say something.
  [[nodiscard]] bool has_evidence() const;
};

// Takes in what was answered in a conversation: a later reading replaces the earlier one of the same trait and
// observer.
void add_reading(Case& find, Reading reading);

}  // namespace loomkey::evidence
