#include "electrical/quantity_reader.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "base/text.h"

namespace loomkey::electrical {
namespace {

constexpr auto number_words = std::to_array<std::pair<std::string_view, double>>({{"a", 1},
                                                                                  {"an", 1},
                                                                                  {"one", 1},
                                                                                  {"two", 2},
                                                                                  {"three", 3},
                                                                                  {"four", 4},
                                                                                  {"five", 5},
                                                                                  {"six", 6},
                                                                                  {"seven", 7},
                                                                                  {"eight", 8},
                                                                                  {"nine", 9},
                                                                                  {"ten", 10},
                                                                                  {"eleven", 11},
                                                                                  {"twelve", 12}});
constexpr auto fraction_words = std::to_array<std::pair<std::string_view, double>>({{"half", 2},
                                                                                    {"halves", 2},
                                                                                    {"third", 3},
                                                                                    {"thirds", 3},
                                                                                    {"quarter", 4},
                                                                                    {"quarters", 4},
                                                                                    {"eighth", 8},
                                                                                    {"eighths", 8},
                                                                                    {"sixteenth", 16},
                                                                                    {"sixteenths", 16}});
constexpr auto about_words = std::to_array<std::string_view>(
    {"about", "approx", "approximately", "around", "circa", "ca", "c", "roughly", "nearly", "almost", "some", "near"});
// Words that may follow a number and are no unit.
constexpr auto joining_words = std::to_array<std::string_view>({"to", "and", "or", "ish"});

template <typename Table>
std::optional<double> look_up(const Table& table, const Token& token) {
  if (token.kind != Token::Kind::word) return std::nullopt;
  const std::string word = to_lower(token.text);
  const auto found = std::find_if(table.begin(), table.end(), [&](const auto& entry) { return entry.first == word; });
  return found == table.end() ? std::nullopt : std::optional<double>(found->second);
}

template <typename Table>
bool holds(const Table& table, const Token& token) {
  return token.kind == Token::Kind::word && std::find(table.begin(), table.end(), to_lower(token.text)) != table.end();
}

// Rulers are divided by halving; a third and a tenth are said as well.
bool is_ruled(double bottom) {
  constexpr auto divisions = std::to_array<double>({2, 3, 4, 8, 10, 16, 32, 64});
  return std::find(divisions.begin(), divisions.end(), bottom) != divisions.end();
}

tl::unexpected<Error> bad(std::string what) { return fail(ErrorKind::input, std::move(what)); }
Error problem(std::string what) { return Error{ErrorKind::input, std::move(what), {}}; }

}  // namespace

Result<Written> QuantityReader::read() {
  take_about();
  between_ = take_word("between") || take_word("from");
  const auto first = amount();
  if (!first) return tl::unexpected(first.error());
  take_ish();
  std::optional<Amount> last;
  const bool tolerance = take_sign("+-");
  if (tolerance || take_range_sign()) {
    const auto second = amount();
    if (!second) return tl::unexpected(second.error());
    take_ish();
    last = *second;
  } else if (between_) {
    return bad("a range needs two numbers: write 45-55");
  }
  if (peek().kind == Token::Kind::number && peek(1).is_sign("/"))
    return bad("cannot read the fraction '" + rest() + "'");
  if (!take_end()) return bad("what does '" + rest() + "' mean here?");
  return combine(*first, last, tolerance);
}

const Token& QuantityReader::peek(std::size_t ahead) const {
  return tokens_[std::min(at_ + ahead, tokens_.size() - 1)];
}

std::string QuantityReader::rest() const {
  std::string out;
  for (std::size_t i = at_; i + 1 < tokens_.size(); ++i) {
    if (!out.empty() && !tokens_[i].glued) out += ' ';
    out += tokens_[i].text;
  }
  constexpr std::size_t shown = 40;
  return printable(out.substr(0, shown));
}

bool QuantityReader::take_word(std::string_view word) {
  if (!peek().is_word(word)) return false;
  ++at_;
  return true;
}

bool QuantityReader::take_sign(std::string_view sign) {
  if (!peek().is_sign(sign)) return false;
  ++at_;
  return true;
}

bool QuantityReader::take_range_sign() {
  if (take_sign("-") || take_sign("..") || take_word("to")) return true;
  return between_ && (take_word("and") || take_sign("&"));
}

void QuantityReader::take_about() {
  while (peek().is_sign("~") || holds(about_words, peek())) {
    approximate_ = true;
    ++at_;
    take_sign(".");
  }
}

// "35ish", "35-ish mm"
void QuantityReader::take_ish() {
  if (peek().is_sign("-") && peek(1).is_word("ish")) ++at_;
  if (take_word("ish")) approximate_ = true;
}

bool QuantityReader::take_end() {
  if (peek().is_word("or") && peek(1).is_word("so")) {
    at_ += 2;
    approximate_ = true;
  }
  take_about();
  take_sign(".");
  return peek().kind == Token::Kind::end;
}

Result<QuantityReader::Amount> QuantityReader::amount() {
  take_about();
  if (peek().is_sign("-")) return bad("a negative value cannot be measured here");
  take_sign("+");
  Amount found;
  if (take_coded_value(found)) return found;
  if (auto wrong = take_value(found)) return tl::unexpected(*wrong);
  take_ish();
  if (auto wrong = take_unit(found)) return tl::unexpected(*wrong);
  if (found.unit != nullptr) {
    take_trailing_fraction(found);
    if (auto wrong = take_smaller_units(found)) return tl::unexpected(*wrong);
  }
  return found;
}

// The letter in place of the decimal point, as stamped on resistors and capacitors: 4k7, 0R5, 1M5, 2u2.
bool QuantityReader::take_coded_value(Amount& found) {
  if (dimension_ != Dimension::resistance && dimension_ != Dimension::capacitance) return false;
  const Token& whole = peek();
  const Token& letter = peek(1);
  const Token& decimals = peek(2);
  const bool numbers = whole.kind == Token::Kind::number && whole.whole && decimals.kind == Token::Kind::number &&
                       decimals.whole && decimals.glued;
  if (!numbers || letter.kind != Token::Kind::word || !letter.glued || letter.text.size() != 1) return false;
  const Unit* unit = find_unit(letter.text, dimension_);
  if (unit == nullptr) return false;
  const std::string plain = whole.text + "." + decimals.text;
  std::from_chars(plain.data(), plain.data() + plain.size(), found.value);
  found.unit = unit;
  at_ += 3;
  // "4k7 ohm", "2u2 F": the unit itself says no more.
  if (!take_word(dimension_ == Dimension::resistance ? "ohm" : "f")) take_word("ohms");
  return true;
}

// "3/4", "a half", "three quarters"; takes nothing if there is none.
std::optional<double> QuantityReader::take_fraction() {
  const std::size_t start = at_;
  if (peek().kind == Token::Kind::number && peek(1).is_sign("/") && peek(2).kind == Token::Kind::number) {
    const double top = peek().value;
    const double bottom = peek(2).value;
    if (!peek().whole || !peek(2).whole || !is_ruled(bottom) || top < 1 || top >= bottom) return std::nullopt;
    at_ += 3;
    return top / bottom;
  }
  double count = 1.0;
  if (const auto word = look_up(number_words, peek())) {
    count = *word;
    ++at_;
  } else if (peek().kind == Token::Kind::number && peek().whole) {
    count = peek().value;
    ++at_;
  }
  const auto parts = look_up(fraction_words, peek());
  if (parts && count >= 1 && count < *parts) {
    ++at_;
    return count / *parts;
  }
  at_ = start;
  return std::nullopt;
}

QuantityReader::Problem QuantityReader::take_value(Amount& found) {
  if (const auto part = take_fraction()) {
    found.value = *part;
    found.fraction = true;
    take_word("of");
    if (!take_word("a")) take_word("an");
    return std::nullopt;
  }
  if (peek().kind == Token::Kind::number) {
    found.value = peek().value;
    found.decimals = !peek().whole;
  } else if (const auto word = look_up(number_words, peek())) {
    found.value = *word;
  } else {
    return no_number();
  }
  ++at_;
  if (!found.decimals) take_mixed(found);
  if (peek().is_sign("/")) return problem("cannot read a fraction with '" + rest() + "'");
  return std::nullopt;
}

// The fraction of "2 1/2", "2-1/2", "2 and a half".
void QuantityReader::take_mixed(Amount& found) {
  const std::size_t start = at_;
  const bool hyphen = peek().is_sign("-") && peek().glued && peek(1).glued;
  const bool spoken = !between_ && (peek().is_word("and") || peek().is_sign("&"));
  if (hyphen || spoken) ++at_;
  if (const auto part = take_fraction()) {
    found.value += *part;
    found.fraction = true;
  } else {
    at_ = start;
  }
}

Error QuantityReader::no_number() const {
  if (peek().kind == Token::Kind::end) return problem("a number is missing");
  const std::string word = to_lower(peek().text);
  if (word == "nan" || word == "inf" || word == "infinity" || word == "infinite") {
    return problem("'" + word + "' is no number that can be measured");
  }
  return problem("expected a number, found '" + rest() + "'");
}

// Takes the unit if there is one; fails if a word stands in its place.
QuantityReader::Problem QuantityReader::take_unit(Amount& found) {
  std::size_t taken = 1;
  std::string spelling = peek().text;
  if (peek().is_sign("'") && peek(1).is_sign("'")) {
    taken = 2;
    spelling = "\"";
  } else if (peek().kind == Token::Kind::word) {
    if (holds(joining_words, peek()) || holds(about_words, peek())) return std::nullopt;
    const std::size_t second = peek(1).is_sign("-") ? 2 : 1;  // "k ohm", "k-ohm"
    if (peek(second).kind == Token::Kind::word && find_unit(spelling + peek(second).text, dimension_) != nullptr) {
      taken = second + 1;
      spelling += peek(second).text;
    }
  } else if (!peek().is_sign("\"") && !peek().is_sign("'")) {
    return std::nullopt;
  }
  found.unit = find_unit(spelling, dimension_);
  if (found.unit == nullptr) return problem(refuse_unit(spelling, dimension_));
  at_ += taken;
  if (peek().glued) take_sign(".");  // "2 in."
  return std::nullopt;
}

// "an inch and a half". A unit behind it would make it a number of its own.
void QuantityReader::take_trailing_fraction(Amount& found) {
  const std::size_t start = at_;
  if (!take_word("and")) return;
  const auto part = take_fraction();
  const bool unit_follows =
      peek().kind == Token::Kind::word && !holds(joining_words, peek()) && !holds(about_words, peek());
  const bool range_goes_on = peek().is_word("and") || peek().is_word("to") || peek().is_sign("-");
  if (part && (between_ ? range_goes_on : !unit_follows)) {
    found.value += *part;
    found.fraction = true;
  } else {
    at_ = start;
  }
}

// "1 lb 4 oz": every further unit must be smaller than the one before.
QuantityReader::Problem QuantityReader::take_smaller_units(Amount& found) {
  const Unit* last = found.unit;
  while (!between_) {
    const std::size_t start = at_;
    if (!take_sign(",")) take_word("and");
    Amount next;
    if (peek().kind == Token::Kind::number) {
      if (auto wrong = take_value(next)) return wrong;
      if (auto wrong = take_unit(next)) return wrong;
    }
    if (next.unit == nullptr || next.unit->to_base(1) >= last->to_base(1)) {
      at_ = start;
      return std::nullopt;
    }
    last = next.unit;
    found.value = found.unit->to_base(found.value) + next.unit->to_base(next.value);
    found.unit = find_unit(base_unit(dimension_), dimension_);
  }
  return std::nullopt;
}

Result<Written> QuantityReader::combine(Amount first, std::optional<Amount> last, bool tolerance) const {
  if (last && first.unit != nullptr && last->unit != nullptr && first.unit->name != last->unit->name) {
    first.value = first.unit->to_base(first.value);
    last->value = last->unit->to_base(last->value);
    first.unit = last->unit = find_unit(base_unit(dimension_), dimension_);
  }
  const Unit* unit = first.unit == nullptr && last ? last->unit : first.unit;
  Written written;
  if (unit != nullptr) written.unit = unit->name;
  written.fraction = first.fraction || (last && last->fraction);
  written.decimals = first.decimals || (last && last->decimals);
  written.approximate = approximate_;
  written.low = tolerance ? first.value - last->value : first.value;
  written.high = tolerance ? first.value + last->value : last ? last->value : first.value;
  if (written.low < 0) return bad("the tolerance is larger than the value");
  if (written.low > written.high) {
    const bool shared = last && (first.unit == nullptr) != (last->unit == nullptr);
    return bad(shared ? "the range runs backwards: give each number its unit"
                      : "the range runs backwards: write the smaller number first");
  }
  return written;
}

}  // namespace loomkey::electrical
