#pragma once

#include <string>
#include <string_view>

namespace loomkey::electrical {

// Replaces the typographic signs that telephones, meters and text programs write by what the parsers read: the ohm sign
// and Greek omega by "ohm", micro sign and Greek mu by "u", vulgar fractions by " 1/2", long dashes by "-", curly
// quotes by straight ones, the multiplication sign by "x", the diameter sign by " dia ", odd blanks by " ". Other text
// is kept.
std::string plain_signs(std::string_view text);

}  // namespace loomkey::electrical
