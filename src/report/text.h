#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "report/document.h"

namespace loomkey::report {

struct TextStyle {
  std::size_t width = 80;  // columns; fewer than 24 are taken as 24
  bool escapes = false;    // terminal codes for bold and colour; the words say the same without them
};

// The document as plain text, ending in a newline. No line is wider than the style's width, and nothing of the content
// reaches the terminal as a control code.
std::string to_text(const Document& document, const TextStyle& style = {});

// A text broken at blanks into lines no wider than `width`; a longer word is cut by code points. Control characters
// become '?', line breaks and tabs blanks. An empty text gives no line.
std::vector<std::string> fold(std::string_view text, std::size_t width);

}  // namespace loomkey::report
