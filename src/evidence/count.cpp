#include "evidence/count.h"

#include <array>
#include <charconv>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "base/text.h"
#include "electrical/plain_signs.h"
#include "electrical/quantity_tokens.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using electrical::Token;
using knowledge::State;
using knowledge::Trait;

constexpr int no_limit = std::numeric_limits<int>::max();
constexpr int largest_count = 1000;
constexpr auto number_words = std::to_array<std::string_view>(
    {"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"});

struct Span {
  int low = 0;
  int high = 0;
};

// "3", "5-6" or "12+"; nothing for any other id.
std::optional<Span> span_of(std::string_view id) {
  Span span;
  const char* const end = id.data() + id.size();
  const auto [next, problem] = std::from_chars(id.data(), end, span.low);
  if (problem != std::errc()) return std::nullopt;
  span.high = span.low;
  if (next == end) return span;
  if (*next == '+' && next + 1 == end) return Span{span.low, no_limit};
  if (*next != '-') return std::nullopt;
  const auto [last, wrong] = std::from_chars(next + 1, end, span.high);
  return wrong == std::errc() && last == end ? std::optional(span) : std::nullopt;
}

class CountReader {
 public:
  explicit CountReader(std::vector<Token> tokens) : tokens_(std::move(tokens)) {}

  // Nothing if it does not begin like a count.
  std::optional<Span> read() {
    bool at_least = take({"at", "least"});
    const bool more = take({"more", "than"}) || take({"over"});
    const bool between = take({"between"});
    const auto first = number();
    if (!first) return std::nullopt;
    Span span{*first + (more ? 1 : 0), *first};
    if (take_sign("+") || take({"or", "more"}) || take({"and", "more"}) || more) at_least = true;
    if (at_least) return Span{span.low, no_limit};
    const std::size_t start = at_;
    if (take_sign("-") || take({"to"}) || take({"or"}) || (between && take({"and"}))) {
      if (const auto last = number()) {
        span.high = *last;
      } else {
        at_ = start;
      }
    }
    if (span.high < span.low) return std::nullopt;
    return span;
  }

  // The words behind the number: "coils".
  [[nodiscard]] std::vector<std::string> rest() const {
    std::vector<std::string> words;
    for (std::size_t i = at_; i + 1 < tokens_.size(); ++i) words.push_back(to_lower(tokens_[i].text));
    return words;
  }

 private:
  bool take(std::initializer_list<std::string_view> words) {
    std::size_t ahead = at_;
    for (const std::string_view word : words) {
      if (ahead >= tokens_.size() || !tokens_[ahead].is_word(word)) return false;
      ++ahead;
    }
    at_ = ahead;
    return true;
  }
  bool take_sign(std::string_view sign) {
    if (!tokens_[at_].is_sign(sign)) return false;
    ++at_;
    return true;
  }
  std::optional<int> number() {
    const Token& token = tokens_[at_];
    if (token.kind == Token::Kind::number && token.whole && token.value <= largest_count) {
      ++at_;
      return static_cast<int>(token.value);
    }
    for (std::size_t i = 0; i < number_words.size(); ++i) {
      if (!token.is_word(number_words[i])) continue;
      ++at_;
      return static_cast<int>(i);
    }
    return std::nullopt;
  }

  std::vector<Token> tokens_;
  std::size_t at_ = 0;
};

// Whether the question is about such things: "coils", "V".
bool is_counted(const Trait& trait, std::string word) {
  if (word == ".") return true;
  const std::string text = " " + words_of(trait.name + " " + trait.ask + " " + trait.how);
  if (word.size() > 3 && word.ends_with('s')) word.pop_back();
  if (word.size() == 1) return word == "v" && text.find(" volts") != std::string::npos;
  return text.find(" " + word) != std::string::npos;
}

}  // namespace

std::optional<Result<std::size_t>> read_count(const Trait& trait, std::string_view text) {
  std::vector<std::pair<std::size_t, Span>> spans;
  for (std::size_t i = 0; i < trait.states.size(); ++i) {
    if (const auto span = span_of(trait.states[i].id)) spans.emplace_back(i, *span);
  }
  if (spans.empty()) return std::nullopt;
  auto tokens = electrical::quantity_tokens(electrical::plain_signs(text));
  if (!tokens) return std::nullopt;
  CountReader reader(std::move(*tokens));
  const auto count = reader.read();
  if (!count) return std::nullopt;
  for (const std::string& word : reader.rest()) {
    if (!is_counted(trait, word)) {
      return fail(ErrorKind::input, "what does " + quoted(word) + " mean as an answer to '" + trait.name + "'");
    }
  }
  for (const auto& [state, span] : spans) {
    if (span.low <= count->low && count->high <= span.high) return state;
  }
  const bool single = count->low == count->high;
  return fail(
      ErrorKind::input,
      quoted(text) + (single ? " fits none of the answers to '" : " fits no single answer to '") + trait.name + "'");
}

}  // namespace loomkey::evidence
