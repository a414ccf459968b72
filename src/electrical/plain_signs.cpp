#include "electrical/plain_signs.h"

#include <array>
#include <utility>

namespace loomkey::electrical {
namespace {

// UTF-8 sequences (RFC 3629) and what stands for them.
constexpr auto replacements = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"\xC2\xA0", " "},             // no-break space
    {"\xC2\xB1", "+-"},            // plus-minus sign
    {"\xC2\xB5", "u"},             // micro sign
    {"\xC2\xBC", " 1/4"},          // one quarter
    {"\xC2\xBD", " 1/2"},          // one half
    {"\xC2\xBE", " 3/4"},          // three quarters
    {"\xC3\x97", "x"},             // multiplication sign
    {"\xC3\x98", " dia "},         // capital o with stroke, used for a diameter
    {"\xC3\xB8", " dia "},         // small o with stroke
    {"\xCE\xA9", "ohm"},           // Greek capital omega
    {"\xCF\x89", "ohm"},           // Greek small omega
    {"\xCE\xBC", "u"},             // Greek small mu
    {"\xE2\x80\x87", " "},         // figure space
    {"\xE2\x80\x88", " "},         // punctuation space
    {"\xE2\x80\x89", " "},         // thin space
    {"\xE2\x80\x8A", " "},         // hair space
    {"\xE2\x80\xAF", " "},         // narrow no-break space
    {"\xE2\x80\x90", "-"},         // hyphen
    {"\xE2\x80\x91", "-"},         // no-break hyphen
    {"\xE2\x80\x92", "-"},         // figure dash
    {"\xE2\x80\x93", "-"},         // en dash
    {"\xE2\x80\x94", "-"},         // em dash
    {"\xE2\x80\x95", "-"},         // horizontal bar
    {"\xE2\x80\x98", "'"},         // left single quotation mark
    {"\xE2\x80\x99", "'"},         // right single quotation mark
    {"\xE2\x80\x9C", "\""},        // left double quotation mark
    {"\xE2\x80\x9D", "\""},        // right double quotation mark
    {"\xE2\x80\xA6", "..."},       // ellipsis
    {"\xE2\x80\xB2", "'"},         // prime
    {"\xE2\x80\xB3", "\""},        // double prime
    {"\xE2\x81\x84", "/"},         // fraction slash
    {"\xE2\x84\xA6", "ohm"},       // ohm sign
    {"\xE2\x85\x9B", " 1/8"},      // one eighth
    {"\xE2\x85\x9C", " 3/8"},      // three eighths
    {"\xE2\x85\x9D", " 5/8"},      // five eighths
    {"\xE2\x85\x9E", " 7/8"},      // seven eighths
    {"\xE2\x85\x93", " 1/3"},      // one third
    {"\xE2\x85\x94", " 2/3"},      // two thirds
    {"\xE2\x88\x92", "-"},         // minus sign
    {"\xE2\x88\x9E", "infinite"},  // infinity
    {"\xE2\x89\x88", "~"},         // almost equal to
    {"\xE2\x8C\x80", " dia "},     // diameter sign
    {"\xEF\xBC\x8F", "/"},         // fullwidth solidus
});

}  // namespace

std::string plain_signs(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    bool replaced = false;
    if (static_cast<unsigned char>(text[at]) >= 0x80U) {
      for (const auto& [sign, plain] : replacements) {
        if (text.substr(at, sign.size()) != sign) continue;
        out += plain;
        at += sign.size();
        replaced = true;
        break;
      }
    }
    if (!replaced) out += text[at++];
  }
  return out;
}

}  // namespace loomkey::electrical
