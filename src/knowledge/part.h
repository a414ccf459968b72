#pragma once

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "knowledge/claim.h"

namespace loomkey::knowledge {

// A state a part may be in: good, one of its authored faults, or otherwise damaged.
struct Condition {
  enum class Kind { good, fault, damaged };

  Kind kind = Kind::good;
  std::string id;             // "good", the fault's id, or "damaged"
  std::string name;           // "good", "heated wire burnt out", "otherwise damaged"
  std::string sees;           // what the rider notices; empty for good
  double share = 0;           // chance of this condition for a part that is brought in; they sum to one over a part
  std::vector<int> symptoms;  // indices into Knowledge::symptoms
  std::vector<Claim> claims;  // only what differs from the good part
};

struct LookAlike {
  int part = -1;     // index into Knowledge::parts
  std::string tell;  // the one separating observation
  int trait = -1;    // the trait that carries it, or -1 when nothing separates them
};

// A check with a meter: which lead where, what good and bad look like.
struct MeterCheck {
  std::string how;
  std::string good;
  std::string bad;
  std::string caveat;
  int basis = -1;
};

// How often a part is brought in, in the words of the sources, and as Part::brought_in.
inline constexpr std::array<std::pair<const char*, double>, 4> brought_in_words = {
    {{"often", 1.0}, {"sometimes", 0.4}, {"seldom", 0.15}, {"rarely", 0.05}}};

// "works with": a part or a whole family.
struct Partner {
  int part = -1;
  int family = -1;
};

struct Family {
  std::string id;
  std::string name;
  std::string does;
  std::vector<Claim> claims;  // inherited by members that do not state the trait
};

// A generic kind of part, never one maker's article.
struct Part {
  std::string id;  // permanent
  std::string name;
  int family = -1;
  int advice = -1;
  std::vector<std::string> aliases;
  std::vector<std::pair<std::string, std::string>> foreign;  // language (ISO 639-1), trade term
  std::vector<std::string> called;                           // what owners wrongly call it
  int first_year = 0;
  int last_year = 0;
  bool retrofit = false;    // a modern part: any older bike may carry it
  double brought_in = 0.0;  // relative frequency, before normalising
  std::vector<std::string> origins;
  std::vector<std::string> markets;  // empty: all
  std::vector<int> volts;            // system volts it belongs to; empty: any
  std::vector<int> cylinders;        // empty: any
  std::string where;
  std::string strays;
  std::vector<Partner> works_with;
  std::string redundant_when;
  std::string note;
  int basis = -1;
  std::vector<std::string> successors;  // ids that replace a split or retired part
  std::vector<std::string> verify;      // traits and fields whose values want checking
  std::vector<Claim> claims;            // of the good part
  std::vector<Condition> conditions;    // good first, damaged last
  std::vector<LookAlike> look_alikes;
  std::vector<MeterCheck> checks;
};

// What acting on an advice costs if the part is really something else.
enum class Price { harmless, money, burnt_part, burnt_loom, injury };

struct Substitute {
  std::string what;
  std::vector<std::string> when;  // conditions: volts, earth, phases, watts, space, heat
  std::vector<std::string> not_when;
  std::string connect;  // steps; the next two hold where they differ by earth
  std::string connect_positive;
  std::string connect_negative;
  int basis = -1;
};

// One authored record; parts that name the same record form one advice class.
struct Advice {
  std::string id;
  std::string title;
  std::string function;
  std::string needed;
  Price price = Price::money;
  std::vector<int> harmless_if;  // advice records for which acting on this one does no harm
  std::vector<int> cautions;     // indices into Knowledge::cautions, in order of danger
  std::vector<Substitute> substitutes;
  int basis = -1;
};

// Parts that people mix up with one another, and what tells them apart.
struct ConfusionSet {
  std::string id;
  std::string name;                        // what a rider would call the bunch
  std::vector<int> parts;                  // indices into Knowledge::parts; two or more
  std::vector<int> traits;                 // that separate them, the best for its effort first; into Knowledge::traits
  std::string tell;                        // the separating test in words
  std::vector<std::pair<int, int>> twins;  // members that no single reading separates; only these may share an advice

  [[nodiscard]] bool holds(int part) const;
  // Whether the two are twins, in either order.
  [[nodiscard]] bool are_twins(int a, int b) const;
};

struct Caution {
  std::string id;
  int order = 0;
  std::string hazard;
  std::string text;
};

struct Basis {
  enum class Kind { standard, handbook, practice, memory };
  std::string id;
  Kind kind = Kind::practice;
  std::string text;
};

struct Symptom {
  std::string id;
  std::string name;
};

// A lead colour and what it may be reported as: index into Knowledge::colours, chance.
struct Colour {
  std::string id;
  std::vector<std::pair<int, double>> becomes;
};

// A thing people compare sizes with: sorted measures in mm, longest first, and the relative half-width of "about as
// big".
struct FamiliarThing {
  std::string id;
  std::vector<std::string> names;
  std::vector<double> size;
  double spread = 0.2;
};

}  // namespace loomkey::knowledge
