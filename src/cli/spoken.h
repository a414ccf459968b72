#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "evidence/reading.h"

namespace loomkey::cli {

// What a person means by a line in a conversation.
enum class Intent {
  nothing,     // an empty line
  answer,      // to the question that stands
  assignment,  // "trait = value"
  why,
  back,
  cannot_tell,
  not_looked,
  change,
  so_far,
  bike,
  verdict,
  stop,
  help,
};

struct Spoken {
  Intent intent = Intent::nothing;
  std::string name;   // assignment: the trait or bike key; change: the trait
  std::string words;  // answer, assignment: the value, without how sure it is; bike: what is said of it
  std::optional<evidence::Certainty> certainty;
};

// A key of the conversation: its letter, its word, and what it does.
struct Key {
  Intent intent;
  char letter;
  std::string_view word;
  std::string_view use;  // as help shows it
  std::string_view meaning;
};

inline constexpr std::array<Key, 11> conversation_keys = {{
    {Intent::cannot_tell, 'c', "cannot tell", "cannot tell", "you looked and cannot tell; moves nothing"},
    {Intent::not_looked, 'k', "skip", "skip", "you have not looked; moves nothing"},
    {Intent::why, 'w', "why", "why", "what this question promises, and what it separates"},
    {Intent::back, 'b', "back", "back", "take the latest answer back"},
    {Intent::change, 'x', "change", "change TRAIT", "answer an earlier question anew; alone, list the answers"},
    {Intent::so_far, 's', "so far", "so far", "what it looks like by now"},
    {Intent::bike, 'i', "bike", "bike KEY VALUE", "say what is known of the bike; alone, list the keys"},
    {Intent::verdict, 'v', "verdict", "verdict", "end now, with the verdict"},
    {Intent::stop, 'q', "stop", "stop", "save and stop; 'loomkey identify --resume' goes on"},
    {Intent::help, 'h', "help", "help", "show this"},
    {Intent::assignment, ' ', "", "TRAIT = VALUE", "any reading out of turn, as in 'size = 50 x 40 x 20'"},
}};

// Takes a line apart. `letters`: single letters are keys; they are not while a question asks for letters or colours.
//
// How sure an answer is stands at its end: "can?" and "can, think so" for think so, "can??" and "can, guess" for guess.
Spoken understand(std::string_view line, bool letters);

}  // namespace loomkey::cli
