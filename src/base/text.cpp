#include "base/text.h"

#include <algorithm>
#include <cstdint>
#include <sstream>

#include <fmt/format.h>

namespace loomkey {
namespace {

// Length of the well-formed sequence at `text[at]`, or 0.
std::size_t sequence_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return 1;
  std::size_t length = 0;
  if (first >= 0xC2 && first <= 0xDF) length = 2;
  if (first >= 0xE0 && first <= 0xEF) length = 3;
  if (first >= 0xF0 && first <= 0xF4) length = 4;
  if (length == 0 || at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return 0;
  }
  const unsigned char second = byte(at + 1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool surrogate = first == 0xED && second > 0x9F;
  const bool too_high = first == 0xF4 && second > 0x8F;
  return overlong || surrogate || too_high ? 0 : length;
}

std::uint32_t code_point(std::string_view sequence) {
  if (sequence.size() == 1) return static_cast<unsigned char>(sequence[0]);
  std::uint32_t value = static_cast<unsigned char>(sequence[0]) & (0xFFU >> (sequence.size() + 1));
  for (std::size_t i = 1; i < sequence.size(); ++i) {
    value = (value << 6U) | (static_cast<unsigned char>(sequence[i]) & 0x3FU);
  }
  return value;
}

bool is_unsafe(std::uint32_t point) {
  const bool control = point < 0x20 || (point >= 0x7F && point <= 0x9F);
  const bool direction = point == 0x061C || point == 0x200E || point == 0x200F ||
                         (point >= 0x202A && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
  const bool separator = point == 0x2028 || point == 0x2029 || point == 0xFEFF;
  return control || direction || separator;
}

}  // namespace

std::string to_lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string trim(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n\f\v";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(blanks) - first + 1));
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> pieces;
  std::size_t start = 0;
  while (true) {
    const std::size_t end = text.find(separator, start);
    pieces.emplace_back(text.substr(start, end - start));
    if (end == std::string_view::npos) return pieces;
    start = end + 1;
  }
}

std::string join(const std::vector<std::string>& pieces, std::string_view separator) {
  return fmt::format("{}", fmt::join(pieces, separator));
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::size_t first_invalid_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

std::string printable(std::string_view text, bool keep_newlines) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    if (length == 0) {
      out += '?';
      ++at;
      continue;
    }
    const std::string_view sequence = text.substr(at, length);
    if (keep_newlines && sequence == "\n") {
      out += '\n';
    } else if (is_unsafe(code_point(sequence))) {
      out += '?';
    } else {
      out += sequence;
    }
    at += length;
  }
  return out;
}

std::size_t display_width(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string wrap(std::string_view text, std::size_t width, std::size_t indent) {
  std::istringstream words{std::string(text)};
  std::string out;
  std::string word;
  std::size_t column = 0;
  while (words >> word) {
    const std::size_t length = display_width(word);
    if (column > 0 && column + 1 + length > width) {
      out += '\n' + std::string(indent, ' ');
      column = indent;
    } else if (column > 0) {
      out += ' ';
      ++column;
    }
    out += word;
    column += length;
  }
  return out;
}

}  // namespace loomkey
