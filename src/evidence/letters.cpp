#include <algorithm>
#include <array>
#include <optional>
#include <set>

#include "base/nearest.h"
#include "base/text.h"
#include "evidence/reading.h"
#include "evidence/set_items.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Claim;
using knowledge::Knowledge;
using knowledge::SetItems;

constexpr std::size_t longest_new_mark = 6;

bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Every mark that some part claims to carry.
std::vector<std::string> known_marks(const Knowledge& knowledge) {
  std::set<std::string> marks;
  const auto gather = [&](const std::vector<Claim>& claims) {
    for (const Claim& claim : claims) {
      const bool letters = claim.trait >= 0 && static_cast<std::size_t>(claim.trait) < knowledge.traits.size() &&
                           knowledge.traits[static_cast<std::size_t>(claim.trait)].items == SetItems::letters;
      if (!letters) continue;
      for (const auto& alternative : claim.sets) marks.insert(alternative.items.begin(), alternative.items.end());
    }
  };
  for (const auto& family : knowledge.families) gather(family.claims);
  for (const auto& part : knowledge.parts) {
    gather(part.claims);
    for (const auto& condition : part.conditions) gather(condition.claims);
  }
  for (const auto& trait : knowledge.traits) marks.insert(trait.asked_with.begin(), trait.asked_with.end());
  return {marks.begin(), marks.end()};
}

// Blanks, commas, semicolons, ampersands and the word "and" stand between marks.
std::vector<std::string> pieces_of(std::string_view list) {
  std::vector<std::string> pieces;
  std::string piece;
  const auto finish = [&] {
    if (!piece.empty() && to_lower(piece) != "and") pieces.push_back(piece);
    piece.clear();
  };
  for (const char c : list) {
    if (std::string_view(" \t\r\n,;&").find(c) == std::string_view::npos) {
      piece += c;
    } else {
      finish();
    }
  }
  finish();
  return pieces;
}

tl::unexpected<Error> refuse(const std::string& piece, const std::vector<std::string>& known, const std::string& why) {
  return fail(ErrorKind::input, why + "." + did_you_mean(piece, known));
}

// A mark no part carries, as it may be taken: capitals, figures and signs, or a figure first ("49b").
bool is_plausible_mark(const std::string& piece) {
  const bool capitals = std::none_of(piece.begin(), piece.end(), is_lower) || is_digit(piece[0]);
  const bool telling = std::any_of(piece.begin(), piece.end(), [](char c) { return is_upper(c) || is_digit(c); });
  const bool plain = std::all_of(piece.begin(), piece.end(), [](char c) {
    return is_upper(c) || is_lower(c) || is_digit(c) || std::string_view("+-.~=").find(c) != std::string_view::npos;
  });
  return capitals && telling && plain && piece.size() <= longest_new_mark;
}

Result<std::string> mark_of(const Knowledge& knowledge, const std::vector<std::string>& known, const std::string& piece,
                            std::vector<std::string>& notes) {
  if (is_one_of(known, piece)) return piece;
  const std::string lower = to_lower(piece);
  std::vector<std::string> alike;
  for (const std::string& mark : known) {
    if (to_lower(mark) == lower) alike.push_back(mark);
  }
  if (alike.size() == 1) return alike[0];
  if (alike.size() > 1) return refuse(piece, {}, quoted(piece) + " may be " + either(alike) + ": write it as stamped");
  if (lower == "plus") return "+";
  if (lower == "minus") return "-";
  if (piece == "+" || piece == "-") return piece;
  if (piece.find('/') != std::string::npos) {
    return refuse(piece, known, "no part carries the mark " + quoted(piece) + ": leave a blank between separate marks");
  }
  if (knowledge.colour(lower) >= 0)
    return refuse(piece, {}, quoted(piece) + " is a colour: expected a letter or number");
  if (!is_plausible_mark(piece)) {
    return refuse(piece, known,
                  "no part carries the mark " + quoted(piece) + ": if it is stamped so, write it in capitals");
  }
  notes.push_back("no part in the catalogue carries the mark " + quoted(piece) + "." + did_you_mean(piece, known));
  return piece;
}

}  // namespace

Result<std::vector<std::string>> read_letters(const Knowledge& knowledge, std::string_view list,
                                              std::vector<std::string>& notes) {
  const auto known = known_marks(knowledge);
  std::vector<std::vector<std::string>> marks;  // each with what else it could be
  bool joins = false;                           // "or" stands before the next piece
  for (const std::string& piece : pieces_of(list)) {
    const std::string word = to_lower(piece);
    if (word == "either") continue;
    if (word == "or") {
      if (joins || marks.empty()) return lonely_or();
      joins = true;
      continue;
    }
    auto mark = mark_of(knowledge, known, piece, notes);
    if (!mark) return tl::unexpected(mark.error());
    if (!joins) marks.emplace_back();
    marks.back().push_back(std::move(*mark));
    joins = false;
    if (marks.back().size() > most_alternatives) return too_many_alternatives();
  }
  if (joins) return lonely_or();
  std::vector<std::string> items;
  for (auto& alternatives : marks) items.push_back(item_of(std::move(alternatives)));
  return items;
}

}  // namespace loomkey::evidence
