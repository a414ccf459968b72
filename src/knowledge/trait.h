#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "knowledge/claim.h"

namespace loomkey::knowledge {

// What kind of value a trait takes.
enum class TraitKind {
  choice,  // one of a list of states
  number,  // a measured quantity, or one of the special answers
  set,     // a set of letters or of lead colours
};

enum class SetItems { letters, colours };

// Whether a trait is seen on the part as it is, or only with a meter. Looks do not depend on a fault unless the fault
// says so; meter readings do.
enum class Layer { look, meter };

struct State {
  std::string id;
  std::string name;
};

// What a reading costs, and which tool it needs (index into Knowledge::tools, or -1).
struct Effort {
  std::string id;
  std::string name;
  double cost = 1.0;
  int tool = -1;
};

struct Tool {
  std::string id;
  std::string name;
  double fetch = 0.0;
};

// Traits that go wrong together. `switched` is the chance that somebody changed the whole group; `overlap` the share of
// every further reading that only repeats the first.
struct Group {
  std::string id;
  std::string name;
  double switched = 0.0;
  double overlap = 0.0;
};

// Something observable, with the wording of its question and the model of how observers get it wrong.
struct Trait {
  std::string id;
  std::string name;  // noun phrase: "overall form"
  std::string ask;   // the question
  std::string how;   // how to look
  TraitKind kind = TraitKind::choice;
  Layer layer = Layer::look;
  int effort = 0;      // index into Knowledge::efforts
  int group = -1;      // index into Knowledge::groups, or -1
  std::string hazard;  // caution that goes with taking the reading; empty for none
  bool runs = false;   // needs the engine or power on: only asked once the earth is settled

  // choice: seen[s][o] is the chance that true state s is reported as o; every row sums to one.
  std::vector<State> states;
  std::vector<std::vector<double>> seen;

  // number: values are in `unit`; `soft` is the width of the shoulder beyond a claimed range (relative on a
  // logarithmic scale, in units on a linear one); the observer's error is relative and absolute.
  std::string unit;
  bool log_scale = true;
  double low = 0.0;
  double high = 0.0;
  double soft = 0.0;
  double relative_error = 0.0;
  double absolute_error = 0.0;
  std::array<bool, special_count> allows{};  // which special answers make sense
  bool low_ohm = false;                      // reads through meter leads that may not be zeroed

  // set
  SetItems items = SetItems::letters;
  std::string none_name;                // wording of the empty set
  std::vector<std::string> asked_with;  // letters of which one must have been read before this is asked

  std::optional<Claim> unless_stated;  // what a silent part is taken to claim
};

}  // namespace loomkey::knowledge
