#include "evidence/familiar.h"

#include <array>
#include <cmath>

#include "base/text.h"
#include "electrical/number_text.h"
#include "evidence/size.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::FamiliarThing;
using knowledge::Knowledge;

constexpr auto leading_words = std::to_array<std::string_view>(
    {"about", "around", "roughly", "approximately", "approx", "nearly", "ca",   "circa", "~",    "it",   "it's",
     "is",    "as",     "big",     "large",         "long",   "thick",  "like", "the",   "same", "size", "sized",
     "of",    "a",      "an",      "similar",       "in",     "to"});
constexpr auto trailing_words = std::to_array<std::string_view>({"sized", "size", "in size", "or so", "ish"});

std::optional<std::size_t> thing_named(const Knowledge& knowledge, const std::string& words) {
  for (std::size_t i = 0; i < knowledge.familiar.size(); ++i) {
    const FamiliarThing& thing = knowledge.familiar[i];
    if (words == words_of(thing.id)) return i;
    for (const std::string& name : thing.names) {
      if (words == words_of(name)) return i;
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::size_t> familiar_size(const Knowledge& knowledge, std::string_view text) {
  std::string words = words_of(text);
  for (const std::string_view word : trailing_words) {
    if (take_suffix(words, word)) break;
  }
  while (!words.empty()) {
    if (const auto thing = thing_named(knowledge, words)) return thing;
    bool taken = false;
    for (const std::string_view word : leading_words) taken = taken || take_prefix(words, word);
    if (!taken) return std::nullopt;
  }
  return std::nullopt;
}

std::string familiar_note(const FamiliarThing& thing) {
  std::vector<std::string> sizes;
  for (const double size : thing.size) sizes.push_back(electrical::short_number(size));
  return (thing.names.empty() ? thing.id : thing.names[0]) + ": taken as " + join(sizes, " x ") + " mm, " +
         electrical::short_number(std::round(thing.spread * 100.0)) + " % either way";
}

std::vector<std::string> familiar_names(const Knowledge& knowledge) {
  std::vector<std::string> names;
  for (const FamiliarThing& thing : knowledge.familiar)
    names.insert(names.end(), thing.names.begin(), thing.names.end());
  return names;
}

Result<Parsed> familiar_measure(const Knowledge& knowledge, std::size_t index, std::size_t measure) {
  const FamiliarThing& thing = knowledge.familiar[index];
  if (measure >= thing.size.size()) {
    return fail(ErrorKind::input, "a " + (thing.names.empty() ? thing.id : thing.names[0]) + " has no such measure");
  }
  const int trait = size_traits(knowledge)[measure];
  const double size = thing.size[measure];
  auto parsed = within_limits(knowledge.traits[static_cast<std::size_t>(trait)],
                              {size * (1.0 - thing.spread), size * (1.0 + thing.spread)}, true);
  if (parsed) parsed->notes.insert(parsed->notes.begin(), familiar_note(thing));
  return parsed;
}

}  // namespace loomkey::evidence
