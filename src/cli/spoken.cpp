#include "cli/spoken.h"

#include <utility>

#include "base/text.h"
#include "cli/case_sources.h"
#include "evidence/wording.h"

namespace loomkey::cli {

using evidence::Certainty;

namespace {

struct Synonym {
  std::string_view word;
  Intent intent;
};

constexpr std::array<Synonym, 16> synonyms = {{
    {"undo", Intent::back},
    {"quit", Intent::stop},
    {"exit", Intent::stop},
    {"save", Intent::stop},
    {"pause", Intent::stop},
    {"keys", Intent::help},
    {"what", Intent::help},
    {"readings", Intent::change},
    {"answers", Intent::change},
    {"list", Intent::change},
    {"sofar", Intent::so_far},
    {"now", Intent::so_far},
    {"done", Intent::verdict},
    {"end", Intent::verdict},
    {"why this", Intent::why},
    {"why this question", Intent::why},
}};

struct Ending {
  std::string_view words;
  Certainty certainty;
};

// Longer endings stand before those they end in.
constexpr std::array<Ending, 8> endings = {{
    {"i think so", Certainty::think_so},
    {"think so", Certainty::think_so},
    {"i think", Certainty::think_so},
    {"probably", Certainty::think_so},
    {"just a guess", Certainty::guess},
    {"a guess", Certainty::guess},
    {"guess", Certainty::guess},
    {"sure", Certainty::sure},
}};

// "can, think so": the words and how sure they are. An ending needs a blank or a comma before it, "sure" a comma: "not
// sure" means something else.
Sureness split_certainty(std::string_view text) {
  Sureness bracketed = split_bracketed_certainty(text);
  if (bracketed.certainty) return bracketed;
  std::string words = std::move(bracketed.words);
  const std::size_t last = words.find_last_not_of("? ");
  if (last != std::string::npos && words.find('?', last) != std::string::npos) {
    const bool guess = words.find("??", last) != std::string::npos;
    return {trim(words.substr(0, last + 1)), guess ? Certainty::guess : Certainty::think_so};
  }
  const std::string lower = to_lower(words);
  for (const Ending& ending : endings) {
    if (!lower.ends_with(ending.words)) continue;
    const std::string before = trim(words.substr(0, words.size() - ending.words.size()));
    if (before.empty()) break;
    const bool comma = before.back() == ',' || before.back() == ';';
    const bool apart = comma || lower[words.size() - ending.words.size() - 1] == ' ';
    if (!apart || (ending.certainty == Certainty::sure && !comma)) continue;
    return {comma ? trim(before.substr(0, before.size() - 1)) : before, ending.certainty};
  }
  return {std::move(words), std::nullopt};
}

std::optional<Intent> key_of(const std::string& words, bool letters) {
  for (const Key& key : conversation_keys) {
    if (key.intent == Intent::assignment) continue;
    if (words == key.word || (letters && words.size() == 1 && words[0] == key.letter)) return key.intent;
  }
  for (const Synonym& synonym : synonyms) {
    if (words == synonym.word) return synonym.intent;
  }
  const auto without_content = evidence::answer_without_content(words);
  if (without_content == evidence::Value::Kind::cannot_tell) return Intent::cannot_tell;
  if (without_content == evidence::Value::Kind::not_looked) return Intent::not_looked;
  return std::nullopt;
}

}  // namespace

Spoken understand(std::string_view line, bool letters) {
  const std::string text = trim(line);
  if (text.empty()) return {};
  const std::string words = evidence::words_of(text);
  if (const auto intent = key_of(words, letters)) return {*intent, {}, {}, {}};
  const std::size_t gap = text.find(' ');
  const std::string first = to_lower(text.substr(0, gap));
  const std::string rest = gap == std::string::npos ? "" : trim(text.substr(gap + 1));
  if (first == "bike") return {Intent::bike, {}, rest, {}};
  const std::size_t equals = text.find('=');
  if (first == "change" && equals == std::string::npos) return {Intent::change, to_lower(rest), {}, {}};
  if (equals != std::string::npos) {
    const std::string name = first == "change" ? rest.substr(0, rest.find('=')) : text.substr(0, equals);
    Sureness value = split_certainty(text.substr(equals + 1));
    return {Intent::assignment, to_lower(trim(name)), std::move(value.words), value.certainty};
  }
  Sureness answer = split_certainty(text);
  return {Intent::answer, {}, std::move(answer.words), answer.certainty};
}

}  // namespace loomkey::cli
