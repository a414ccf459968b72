#include "electrical/number_text.h"

#include <array>
#include <charconv>

namespace loomkey::electrical {

std::string exact_number(double value) {
  std::array<char, 1100> digits{};  // the smallest double has 1,077 characters when written in full
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed).ptr;
  return {digits.data(), end};
}

std::string short_number(double value) {
  constexpr int decimals = 3;  // behind the first digit
  std::array<char, 32> digits{};
  const auto end =
      std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::scientific, decimals).ptr;
  double rounded = 0.0;
  std::from_chars(digits.data(), end, rounded);
  return exact_number(rounded);
}

}  // namespace loomkey::electrical
