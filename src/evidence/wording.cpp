#include "evidence/wording.h"

#include <array>

#include "base/text.h"
#include "electrical/plain_signs.h"

namespace loomkey::evidence {
namespace {

constexpr auto cannot_tell_words = std::to_array<std::string_view>(
    {"cannot tell", "can not tell", "can't tell", "cant tell",   "could not tell", "couldn't tell",
     "?",           "??",           "???",        "don't know",  "dont know",      "do not know",
     "unknown",     "unsure",       "not sure",   "no idea",     "unclear",        "unreadable",
     "illegible",   "cannot say",   "can't say",  "hard to tell"});
constexpr auto not_looked_words = std::to_array<std::string_view>(
    {"not looked", "not looked at", "did not look", "didn't look", "skip", "skipped", "not checked", "not measured",
     "not tried", "not tested", "not yet", "later", "unanswered", "no answer"});

constexpr auto sure_words =
    std::to_array<std::string_view>({"sure", "certain", "definite", "definitely", "quite sure"});
constexpr auto think_so_words =
    std::to_array<std::string_view>({"think so", "i think so", "i think", "think", "probably", "fairly sure"});
constexpr auto guess_words =
    std::to_array<std::string_view>({"guess", "a guess", "guessed", "guessing", "just a guess"});

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\f' || c == '\v'; }

}  // namespace

std::string words_of(std::string_view text) {
  std::string out;
  bool gap = false;
  for (char c : to_lower(electrical::plain_signs(text))) {
    // A hyphen joins words; a sign before a word or figure ("-5") is no hyphen.
    const bool hyphen = c == '-' && !gap && !out.empty();
    if (hyphen || c == '_' || is_blank(c)) {
      gap = true;
      continue;
    }
    if (gap && !out.empty()) out += ' ';
    gap = false;
    out += c;
  }
  while (out.ends_with('.') || out.ends_with('!')) out.pop_back();
  return out;
}

std::string quoted(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::string safe = printable(trim(text.substr(0, 4 * longest)));
  if (display_width(safe) > longest) {
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(safe[end]) & 0xC0U) == 0x80U) --end;
    safe = safe.substr(0, end) + "...";
  }
  return "'" + safe + "'";
}

std::string either(std::span<const std::string> names) {
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) out += i + 1 == names.size() ? " or " : ", ";
    out += names[i];
  }
  return out;
}

std::optional<Value::Kind> answer_without_content(std::string_view words) {
  if (is_one_of(cannot_tell_words, words)) return Value::Kind::cannot_tell;
  if (is_one_of(not_looked_words, words)) return Value::Kind::not_looked;
  return std::nullopt;
}

std::optional<Certainty> certainty_of(std::string_view text) {
  const std::string words = words_of(text);
  if (is_one_of(sure_words, words)) return Certainty::sure;
  if (is_one_of(think_so_words, words)) return Certainty::think_so;
  if (is_one_of(guess_words, words)) return Certainty::guess;
  return std::nullopt;
}

std::string_view certainty_name(Certainty certainty) {
  switch (certainty) {
    case Certainty::sure:
      return "sure";
    case Certainty::think_so:
      return "think so";
    case Certainty::guess:
      return "guess";
  }
  return {};
}

bool take_prefix(std::string& text, std::string_view phrase) {
  if (!text.starts_with(phrase)) return false;
  if (text.size() > phrase.size() && !is_blank(text[phrase.size()]) && text[phrase.size()] != ',' &&
      text[phrase.size()] != ':') {
    return false;
  }
  text.erase(0, phrase.size());
  text.erase(0, text.find_first_not_of(" ,:\t"));
  return true;
}

bool take_suffix(std::string& text, std::string_view phrase) {
  if (!text.ends_with(phrase)) return false;
  const std::size_t rest = text.size() - phrase.size();
  const bool word = !phrase.empty() && phrase.front() >= 'a' && phrase.front() <= 'z';
  if (word && rest > 0 && !is_blank(text[rest - 1]) && text[rest - 1] != ',') return false;
  text.erase(rest);
  const std::size_t last = text.find_last_not_of(" ,;\t");
  text.erase(last == std::string::npos ? 0 : last + 1);
  return true;
}

}  // namespace loomkey::evidence
