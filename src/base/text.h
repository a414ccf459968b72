#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loomkey {

// ASCII lower case; bytes above 127 are left alone.
std::string to_lower(std::string_view text);

std::string trim(std::string_view text);

std::vector<std::string> split(std::string_view text, char separator);

std::string join(const std::vector<std::string>& pieces, std::string_view separator);

// "1 part", "2 parts".
std::string counted(std::size_t count, std::string_view one, std::string_view many);

// Offset of the first byte that is not well-formed UTF-8 (RFC 3629), or npos.
std::size_t first_invalid_utf8(std::string_view text);

// What may safely reach a terminal or a message: control characters (C0, C1, DEL) and the Unicode direction overrides
// become '?', invalid UTF-8 too; a newline is kept only when `keep_newlines`.
std::string printable(std::string_view text, bool keep_newlines = false);

// Columns a text takes on a terminal, counting every code point as one. (The program's own texts are ASCII.)
std::size_t display_width(std::string_view text);

// Breaks at spaces so that no line is wider than `width`; words longer than that stay whole. Every line after the
// first starts with `indent` spaces.
std::string wrap(std::string_view text, std::size_t width, std::size_t indent = 0);

}  // namespace loomkey
