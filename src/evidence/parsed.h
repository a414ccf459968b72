#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

// The parsers behind parse_value.h, one for each kind of trait. Each fails with one message that names the nearest
// known word and what is expected.
namespace loomkey::evidence {

struct Parsed {
  Value value;
  std::vector<std::string> notes;  // what was taken where the text left it open
};

Result<Parsed> parse_noted(const knowledge::Knowledge& knowledge, int trait, std::string_view text);

Result<Value> parse_choice(const knowledge::Trait& trait, std::string_view text);
Result<Parsed> parse_number(const knowledge::Knowledge& knowledge, int trait, std::string_view text);
Result<Parsed> parse_set(const knowledge::Knowledge& knowledge, int trait, std::string_view text);

// The range as a value of a number trait. Fails if it lies outside what the trait can take; ends that only an "about"
// or a range from zero carried beyond are cut off, with a note.
Result<Parsed> within_limits(const knowledge::Trait& trait, Interval interval, bool approximate);

}  // namespace loomkey::evidence
