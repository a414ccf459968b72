#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// What a readings file holds.
struct ReadingsFile {
  Case find;
  std::string note;                // free text, not weighed
  std::vector<std::string> notes;  // what was taken where a value left it open: "find.toml:5: size_long: no unit: ..."
};

// Reads a readings file (TOML) from its text; `name` is what messages call it. All keys are optional:
//   schema = 1, title = "...", note = "...", guess = "regulator", tools = ["ruler", "meter"], meter_leads_zeroed = true
//   [bike]      the keys of bike.h
//   [readings]  trait = value, a value being a text, a number, true or false, for a set a list of texts, or
//               { value = ..., sure = "sure" | "think so" | "guess", by = "name", said = "the words it was given in" }
//   [[reading]] trait, value, sure, by, said: for the readings of further observers
// Fails with one message that names the place on the first thing it does not understand, and on two values for one
// trait by the same observer, naming both lines.
Result<ReadingsFile> read_readings_file(const knowledge::Knowledge& knowledge, std::string_view text,
                                        const std::string& name);

// Writes a case so that reading it gives the same case, but for the places (`where`) and the words of a reading that
// has none: those come back as the words written here. Readings of the one at the bench come first; `find` may hold
// only one reading of a trait by each observer.
std::string write_readings_file(const knowledge::Knowledge& knowledge, const Case& find, std::string_view note = {});

}  // namespace loomkey::evidence
