#include "electrical/quantity_tokens.h"

#include <charconv>
#include <cmath>

#include "base/text.h"

namespace loomkey::electrical {
namespace {

constexpr std::size_t longest_number = 24;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  Result<std::vector<Token>> scan() {
    std::vector<Token> tokens;
    while (at_ < text_.size()) {
      if (is_blank(text_[at_])) {
        ++at_;
        continue;
      }
      const bool glued = at_ > 0 && !is_blank(text_[at_ - 1]);
      auto token = next();
      if (!token) return tl::unexpected(token.error());
      token->glued = glued;
      tokens.push_back(std::move(*token));
    }
    tokens.emplace_back();
    return tokens;
  }

 private:
  [[nodiscard]] char peek(std::size_t ahead = 0) const {
    return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
  }

  std::string take_digits() {
    const std::size_t start = at_;
    while (is_digit(peek())) ++at_;
    return std::string(text_.substr(start, at_ - start));
  }

  static Token sign_token(std::string_view sign) {
    Token token;
    token.kind = Token::Kind::sign;
    token.text = sign;
    return token;
  }

  Result<Token> next() {
    const char c = peek();
    if (is_digit(c) || ((c == '.' || c == ',') && is_digit(peek(1)))) return number();
    if (is_letter(c)) {
      Token token;
      token.kind = Token::Kind::word;
      while (is_letter(peek())) token.text += text_[at_++];
      return token;
    }
    for (const std::string_view sign : {"+/-", "+-", "...", ".."}) {
      if (text_.substr(at_, sign.size()) != sign) continue;
      at_ += sign.size();
      return sign_token(sign == "+/-" ? "+-" : sign == "..." ? ".." : sign);
    }
    if (std::string_view("+-/~\"'&.,()").find(c) != std::string_view::npos) {
      ++at_;
      return sign_token(std::string_view(&c, 1));
    }
    return fail(ErrorKind::input, "cannot read '" + printable(text_.substr(at_)) + "'");
  }

  Result<Token> number() {
    const std::size_t start = at_;
    std::string plain = take_digits();
    Token token;
    token.kind = Token::Kind::number;
    token.whole = true;
    if ((peek() == '.' || peek() == ',') && is_digit(peek(1))) {
      const bool comma = peek() == ',';
      ++at_;
      const std::string decimals = take_digits();
      token.whole = false;
      const bool thousands = comma && decimals.size() == 3 && !plain.empty() && plain.size() <= 3 && plain[0] != '0';
      if (thousands) {
        return fail(ErrorKind::input, "'" + plain + "," + decimals + "' can mean " + plain + decimals + " or " + plain +
                                          "." + decimals + ": write the one you mean");
      }
      if (plain.empty()) plain = "0";
      plain += "." + decimals;
      const bool again = (peek() == '.' || peek() == ',') && is_digit(peek(1));
      if (again) {
        return fail(ErrorKind::input, "'" + printable(text_.substr(start)) +
                                          "' has more than one decimal sign: write thousands without separators, and "
                                          "sizes as 60 x 40 x 25");
      }
    }
    if ((peek() == 'e' || peek() == 'E') && exponent_follows()) {
      token.whole = false;
      plain += 'e';
      ++at_;
      if (peek() == '-') plain += '-';
      if (peek() == '-' || peek() == '+') ++at_;
      plain += take_digits();
    }
    return finish(std::move(token), plain);
  }

  // "1e6" as programs write it, not "35east".
  [[nodiscard]] bool exponent_follows() const {
    const std::size_t skip = peek(1) == '-' || peek(1) == '+' ? 2 : 1;
    return is_digit(peek(skip));
  }

  static Result<Token> finish(Token token, const std::string& plain) {
    // Doubles written in full may have 17 digits and leading zeros; nobody types more.
    const bool fraction = plain.find('.') != std::string::npos;
    if (plain.size() > (fraction ? 2 * longest_number : longest_number)) {
      return fail(ErrorKind::input, "'" + plain.substr(0, longest_number) + "...' is no number that can be measured");
    }
    const auto [end, problem] = std::from_chars(plain.data(), plain.data() + plain.size(), token.value);
    if (problem != std::errc() || end != plain.data() + plain.size() || !std::isfinite(token.value)) {
      return fail(ErrorKind::input, "'" + plain + "' is no number that can be measured");
    }
    token.text = plain;
    return token;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

bool Token::is_word(std::string_view word) const { return kind == Kind::word && to_lower(text) == word; }

Result<std::vector<Token>> quantity_tokens(std::string_view text) { return Scanner(text).scan(); }

}  // namespace loomkey::electrical
