#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "base/text.h"

namespace loomkey::support {

inline std::size_t widest_line(const std::string& page) {
  std::size_t widest = 0;
  for (const std::string& line : split(page, '\n')) widest = std::max(widest, display_width(line));
  return widest;
}

// Nothing but printable characters and line ends: no terminal codes, no broken UTF-8, no direction overrides.
inline bool is_clean(const std::string& page) { return printable(page, true) == page; }

inline bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

// True if `first` stands before `second`, and both are there.
inline bool in_order(const std::string& text, std::string_view first, std::string_view second) {
  const std::size_t at = text.find(first);
  return at != std::string::npos && text.find(second, at) != std::string::npos;
}

// The text without line breaks and indents, so that a sentence can be searched for.
inline std::string unfolded(const std::string& page) {
  std::string out;
  for (const char c : page) {
    const bool blank = c == ' ' || c == '\n';
    if (blank && (out.empty() || out.back() == ' ')) continue;
    out += blank ? ' ' : c;
  }
  return out;
}

}  // namespace loomkey::support
