#include <array>
#include <optional>
#include <set>

#include "base/nearest.h"
#include "base/text.h"
#include "electrical/plain_signs.h"
#include "evidence/count.h"
#include "evidence/parsed.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::State;
using knowledge::Trait;

constexpr auto yes_words =
    std::to_array<std::string_view>({"yes", "y", "true", "1", "yep", "yeah", "it has", "it does", "present"});
constexpr auto no_words = std::to_array<std::string_view>(
    {"no", "n", "false", "0", "none", "nope", "not", "it has not", "it does not", "absent", "nothing"});
constexpr auto nothing_words = std::to_array<std::string_view>({"none", "no", "nothing", "not any"});
constexpr auto nothing_ids = std::to_array<std::string_view>({"none", "no", "0"});

bool begins_with_digit(std::string_view text) { return !text.empty() && text[0] >= '0' && text[0] <= '9'; }

Value state_value(std::size_t state) {
  Value value;
  value.kind = Value::Kind::state;
  value.state = static_cast<int>(state);
  return value;
}

std::string without_blanks(std::string text) {
  std::erase(text, ' ');
  return text;
}

// Hyphens are kept between digits: "5-6" is not "56".
std::string number_form(std::string_view text) { return without_blanks(to_lower(trim(text))); }

std::optional<std::size_t> exact_state(const Trait& trait, std::string_view text, const std::string& words) {
  const bool number = begins_with_digit(words);
  std::string singular = words;
  if (words.size() > 3 && words.ends_with('s')) singular.pop_back();
  for (std::size_t i = 0; i < trait.states.size(); ++i) {
    const State& state = trait.states[i];
    if (number) {
      if (number_form(text) == number_form(state.id) || number_form(text) == number_form(state.name)) return i;
      continue;
    }
    const std::string id = words_of(state.id);
    if (words == id || words == words_of(state.name) || singular == id) return i;
  }
  return std::nullopt;
}

int state_index(const Trait& trait, std::string_view id) {
  for (std::size_t i = 0; i < trait.states.size(); ++i) {
    if (trait.states[i].id == id) return static_cast<int>(i);
  }
  return -1;
}

// "Yes" and "no" where they are the only answers; "none" where exactly one state stands for it.
std::optional<std::size_t> plain_answer(const Trait& trait, const std::string& words) {
  const int yes = state_index(trait, "yes");
  const int no = state_index(trait, "no");
  if (trait.states.size() == 2 && yes >= 0 && no >= 0) {
    if (is_one_of(yes_words, words)) return static_cast<std::size_t>(yes);
    if (is_one_of(no_words, words)) return static_cast<std::size_t>(no);
    return std::nullopt;
  }
  if (!is_one_of(nothing_words, words)) return std::nullopt;
  std::optional<std::size_t> found;
  for (const std::string_view id : nothing_ids) {
    const int state = state_index(trait, id);
    if (state < 0) continue;
    if (found) return std::nullopt;
    found = static_cast<std::size_t>(state);
  }
  return found;
}

// The beginning of an id, or at least two words of a name: one adjective ("metal") may begin a name without meaning it.
std::set<std::size_t> states_beginning(const Trait& trait, const std::string& words) {
  std::set<std::size_t> found;
  if (words.size() < 2 || begins_with_digit(words) || is_one_of(nothing_words, words) || is_one_of(yes_words, words)) {
    return found;
  }
  const bool phrase = words.find(' ') != std::string::npos && words.size() >= 8;
  for (std::size_t i = 0; i < trait.states.size(); ++i) {
    const bool id = words_of(trait.states[i].id).starts_with(words);
    if (id || (phrase && words_of(trait.states[i].name).starts_with(words))) found.insert(i);
  }
  return found;
}

std::string suggestion(const Trait& trait, const std::string& words) {
  std::vector<std::string> known;
  for (const State& state : trait.states) known.push_back(words_of(state.id));
  for (const State& state : trait.states) known.push_back(words_of(state.name));
  std::optional<std::size_t> at;
  if (const auto name = nearest(words, known)) {
    at = static_cast<std::size_t>(std::find(known.begin(), known.end(), *name) - known.begin()) % trait.states.size();
  }
  for (std::size_t i = 0; !at && words.size() >= 3 && i < trait.states.size(); ++i) {
    if ((" " + words_of(trait.states[i].name) + " ").find(" " + words) != std::string::npos) at = i;
  }
  if (!at) return {};
  const State& state = trait.states[*at];
  const bool plain = words_of(state.id) == words_of(state.name);
  return " Did you mean '" + state.id + "'" + (plain ? "?" : " (" + state.name + ")?");
}

tl::unexpected<Error> refuse(const Trait& trait, const std::string& why, const std::string& hint) {
  std::vector<std::string> ids;
  for (const State& state : trait.states) ids.push_back(state.id);
  return fail(ErrorKind::input, why + "." + hint + " Choices: " + join(ids, ", ") + "; or 'cannot tell', 'not looked'");
}

}  // namespace

Result<Value> parse_choice(const Trait& trait, std::string_view text) {
  std::string words = words_of(text);
  const std::string about = "'" + trait.name + "'";
  if (words.empty()) return refuse(trait, "no answer for " + about, "");
  if (const auto state = exact_state(trait, text, words)) return state_value(*state);
  if (const auto kind = answer_without_content(words)) {
    Value value;
    value.kind = *kind;
    return value;
  }
  if (const auto state = plain_answer(trait, words)) return state_value(*state);
  // A hyphen before a figure is a sign, and no count is negative.
  const std::string signs = trim(electrical::plain_signs(text));
  const bool negative = signs.size() > 1 && signs[0] == '-' && signs[1] >= '0' && signs[1] <= '9';
  if (negative) return refuse(trait, "cannot read " + quoted(text), "");
  if (const auto count = read_count(trait, text)) {
    if (!*count) return refuse(trait, count->error().what, "");
    return state_value(**count);
  }
  for (const std::string_view article : {"a", "an", "the"}) {
    if (take_prefix(words, article)) break;
  }
  if (const auto state = exact_state(trait, words, words)) return state_value(*state);
  const auto candidates = states_beginning(trait, words);
  if (candidates.size() == 1) return state_value(*candidates.begin());
  if (candidates.size() > 1) {
    std::vector<std::string> ids;
    for (const std::size_t state : candidates) ids.push_back("'" + trait.states[state].id + "'");
    return refuse(trait, quoted(text) + " may be " + either(ids) + " for " + about, "");
  }
  return refuse(trait, quoted(text) + " is no answer to " + about, suggestion(trait, words));
}

}  // namespace loomkey::evidence
