#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// Reads an answer to the question of a trait as people write it. A state may be named by id, by name, by the unique
// beginning of its id, or, where states are counts, by a number; a number may carry a unit or be one of the special
// answers the trait allows; a set is a list, "includes ..." or "none". "Cannot tell" and "not looked" answer every
// question. An answer that is not understood is refused with the nearest known one and the choices, never bent.
Result<Value> parse_value(const knowledge::Knowledge& knowledge, int trait, std::string_view text);

// The readings that one name and value stand for, without observer and place, and notes on what was taken where the
// text left it open: "size_long: no unit: taken as mm".
struct Expanded {
  std::vector<Reading> readings;
  std::vector<std::string> notes;
};

// Besides the traits, a name may be `size` (all measures at once), `diameter` (the middle measure) or `length` (the
// longest).
Result<Expanded> parse_assignment(const knowledge::Knowledge& knowledge, std::string_view name, std::string_view value);

// Whether parse_assignment knows the name at all.
bool is_assignable(const knowledge::Knowledge& knowledge, std::string_view name);

// A diameter and a length given for the same part, as parse_assignment returned them: the diameter counts twice, and
// the three measures are sorted, since a dish is shorter than it is wide. Unless both are numbers they stay as they
// are.
Result<std::vector<Reading>> round_size(const knowledge::Knowledge& knowledge, const Reading& diameter,
                                        const Reading& length);

// Several assignments by one observer; a diameter and a length among them are taken together.
struct Assignment {
  std::string name;
  std::string value;
};
Result<Expanded> parse_assignments(const knowledge::Knowledge& knowledge, const std::vector<Assignment>& assignments);

// What parse_assignment understands besides the traits, for help texts.
struct PseudoTrait {
  std::string_view name;
  std::string_view meaning;
};
std::vector<PseudoTrait> pseudo_traits();

}  // namespace loomkey::evidence
