#include <algorithm>
#include <array>

#include "base/text.h"
#include "electrical/plain_signs.h"
#include "evidence/parsed.h"
#include "evidence/set_items.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Knowledge;
using knowledge::SetItems;
using knowledge::Trait;

// Weighing matches every item seen with every item expected; no part carries more than this.
constexpr std::size_t most_items = 12;

constexpr auto includes_phrases =
    std::to_array<std::string_view>({"includes", "include", "including", "at least", "some of them"});
constexpr auto others_phrases = std::to_array<std::string_view>({"maybe others",
                                                                 "perhaps others",
                                                                 "maybe more",
                                                                 "perhaps more",
                                                                 "and others",
                                                                 "and more",
                                                                 "among others",
                                                                 "or more",
                                                                 "others gone",
                                                                 "others are gone",
                                                                 "others missing",
                                                                 "others worn off",
                                                                 "others unreadable",
                                                                 "some gone",
                                                                 "some are gone",
                                                                 "some missing",
                                                                 "some worn off",
                                                                 "rest gone",
                                                                 "rest unreadable",
                                                                 "the rest gone",
                                                                 "the rest unreadable",
                                                                 "...",
                                                                 "etc"});
constexpr auto added_phrases =
    std::to_array<std::string_view>({"on a label", "on label", "on a sticker", "on a tag", "on tape", "on a tape",
                                     "on a strip of tape", "in pen", "in paint", "in marker", "label", "sticker"});
constexpr auto only_phrases = std::to_array<std::string_view>({"only", "just", "exactly"});
constexpr auto no_others_phrases = std::to_array<std::string_view>({"and no others", "no others", "only"});
constexpr auto none_words =
    std::to_array<std::string_view>({"none", "no", "nothing", "none at all", "none to be seen", "no marks"});
constexpr auto none_of_letters = std::to_array<std::string_view>({"no letters", "no lettering", "no letter"});
constexpr auto none_of_colours = std::to_array<std::string_view>({"no leads", "no lead", "no wires", "0"});

bool is_none(const Trait& trait, const std::string& words) {
  if (is_one_of(none_words, words) || (!trait.none_name.empty() && words == words_of(trait.none_name))) return true;
  return trait.items == SetItems::letters ? is_one_of(none_of_letters, words) : is_one_of(none_of_colours, words);
}

// What "includes", "only" and "maybe others" say about a list; they are taken off it.
struct Extent {
  bool partial = false;
  bool complete = false;
};

// The phrase at an end of the text, in lower case so that the marks keep their letter case.
template <typename Phrases, typename Take>
bool take_any(std::string& text, const Phrases& phrases, Take take) {
  for (const std::string_view phrase : phrases) {
    std::string lower = to_lower(text);
    const std::size_t before = lower.size();
    if (!take(lower, phrase)) continue;
    const std::size_t kept = lower.size();
    text = take == &take_prefix ? text.substr(before - kept) : text.substr(0, kept);
    return true;
  }
  return false;
}

Extent take_extent(std::string& list) {
  while (!list.empty() && (list.back() == '!' || list.back() == ';' || list.back() == ',' || list.back() == ' ')) {
    list.pop_back();
  }
  if (list.ends_with('.') && !list.ends_with("..")) list.pop_back();
  Extent extent;
  if (take_any(list, includes_phrases, &take_prefix)) extent.partial = true;
  if (take_any(list, only_phrases, &take_prefix)) extent.complete = true;
  if (take_any(list, others_phrases, &take_suffix)) extent.partial = true;
  if (take_any(list, no_others_phrases, &take_suffix)) extent.complete = true;
  if (extent.partial) take_suffix(list, "and");
  return extent;
}

// "On a label: B, L" or "B and L on tape".
bool take_added(std::string& list) {
  const bool before = take_any(list, added_phrases, &take_prefix);
  const bool behind = take_any(list, added_phrases, &take_suffix);
  if (behind && list.ends_with(',')) list.pop_back();
  return before || behind;
}

// ["AL", "WL"] as a program or a file writes it.
void take_brackets(std::string& list) {
  if (list.size() >= 2 && list.front() == '[' && list.back() == ']') list = trim(list.substr(1, list.size() - 2));
  std::erase(list, '"');
}

tl::unexpected<Error> in_context(const Trait& trait, const Error& error) {
  return fail(error.kind, "'" + trait.name + "': " + error.what, error.where);
}

}  // namespace

tl::unexpected<Error> too_many_alternatives() {
  return fail(ErrorKind::input, "one item could be at most " + std::to_string(most_alternatives) +
                                    " things: leave it out and say 'includes', or say 'cannot tell'");
}

tl::unexpected<Error> lonely_or() {
  return fail(ErrorKind::input, "'or' stands between two readings of one and the same item, as in A or 4");
}

Result<Parsed> parse_set(const Knowledge& knowledge, int trait_index, std::string_view text) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(trait_index)];
  std::string list = trim(electrical::plain_signs(text));
  take_brackets(list);
  list = trim(list);
  const std::string expected =
      trait.items == SetItems::letters
          ? "expected marks such as AL, WL and E; 'includes ...', 'none' or 'cannot tell'"
          : "expected colours such as red, green/yellow; 'includes ...', 'none' or 'cannot tell'";
  if (list.empty()) return in_context(trait, {ErrorKind::input, "nothing is listed: " + expected, {}});

  Parsed parsed;
  const std::string words = words_of(list);
  if (const auto kind = answer_without_content(words)) {
    parsed.value.kind = *kind;
    return parsed;
  }
  parsed.value.kind = Value::Kind::set;
  if (is_none(trait, words)) return parsed;

  parsed.value.added = take_added(list);
  if (parsed.value.added && is_none(trait, words_of(list))) {
    return in_context(trait, {ErrorKind::input, quoted(text) + " lists nothing that is on a label: " + expected, {}});
  }
  const Extent extent = take_extent(list);
  if (take_added(list)) parsed.value.added = true;
  if (extent.partial && extent.complete) {
    return in_context(
        trait, {ErrorKind::input, quoted(text) + " says both that there are others and that there are none", {}});
  }
  parsed.value.complete = !extent.partial;
  auto items =
      trait.items == SetItems::letters ? read_letters(knowledge, list, parsed.notes) : read_colours(knowledge, list);
  if (!items) return in_context(trait, items.error());
  if (items->empty()) return in_context(trait, {ErrorKind::input, quoted(text) + " lists nothing: " + expected, {}});
  if (items->size() > most_items) {
    return in_context(trait, {ErrorKind::input, "at most " + std::to_string(most_items) + " can be listed", {}});
  }
  std::sort(items->begin(), items->end());
  parsed.value.items = std::move(*items);
  return parsed;
}

}  // namespace loomkey::evidence
