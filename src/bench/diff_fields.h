#pragma once

#include <string>
#include <utility>
#include <vector>

#include "knowledge/knowledge.h"

// Every entry of a catalogue as texts that name other entries by id, so that entries of two catalogues can be compared.
// What a rider reads stays word for word; claims are compared apart from them (see catalogue_diff.h).

namespace loomkey::bench {

struct Field {
  std::string what;  // "also called"
  std::string text;  // "" when empty

  bool operator==(const Field&) const = default;
};
using Fields = std::vector<Field>;

Fields fields_of(const knowledge::Knowledge&, const knowledge::Part&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Advice&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Family&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::ConfusionSet&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Trait&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Effort&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Tool&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Group&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Colour&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::FamiliarThing&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Symptom&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Basis&);
Fields fields_of(const knowledge::Knowledge&, const knowledge::Caution&);

// A condition of a part, without its claims.
Fields fields_of(const knowledge::Knowledge&, const knowledge::Condition&);

// A claim to the last digit, with states and bases by id: equal texts claim the same.
std::string exact_claim(const knowledge::Knowledge&, const knowledge::Claim&);

// A figure to the last digit, as short as it can be: "0.97".
std::string exact(double value);

}  // namespace loomkey::bench
