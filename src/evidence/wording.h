#pragma once

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "evidence/reading.h"

// How words are compared and quoted throughout this module.
namespace loomkey::evidence {

// The form in which answers are compared: plain signs, lower case, hyphens within words and underscores as
// blanks, single blanks, no full stop at the end.
std::string words_of(std::string_view text);

// The text in quotes, printable and cut to a length a message can bear.
std::string quoted(std::string_view text);

// "a, b or c"
std::string either(std::span<const std::string> names);

// "Cannot tell" or "not looked", however it is said; nothing if it is neither.
std::optional<Value::Kind> answer_without_content(std::string_view words);

// "sure", "think so" or "guess".
std::optional<Certainty> certainty_of(std::string_view text);
std::string_view certainty_name(Certainty certainty);

template <typename Table, typename Word>
bool is_one_of(const Table& table, const Word& word) {
  return std::find(table.begin(), table.end(), word) != table.end();
}

// Takes a phrase and the blanks behind it off the start, or the blanks before it and the phrase off the end; whole
// words only. False, and nothing is taken, if it is not there.
bool take_prefix(std::string& text, std::string_view phrase);
bool take_suffix(std::string& text, std::string_view phrase);

}  // namespace loomkey::evidence
