#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace loomkey::electrical {

// A piece of a quantity as written: "35", "mm", "/".
struct Token {
  enum class Kind { number, word, sign, end };

  Kind kind = Kind::end;
  std::string text;    // a word keeps its letter case
  double value = 0.0;  // number
  bool whole = false;  // number: written without a decimal sign
  bool glued = false;  // no blank before it

  [[nodiscard]] bool is_sign(std::string_view sign) const { return kind == Kind::sign && text == sign; }
  // Letter case is ignored.
  [[nodiscard]] bool is_word(std::string_view word) const;
};

// Cuts a text (with plain signs) into tokens; the last is always `end`. Fails on a number that may mean two things
// ("1,500"), on one without end, and on a sign that no quantity holds.
Result<std::vector<Token>> quantity_tokens(std::string_view text);

}  // namespace loomkey::electrical
