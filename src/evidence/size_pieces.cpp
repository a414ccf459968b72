#include "evidence/size_pieces.h"

#include <array>

#include "base/text.h"
#include "electrical/units.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

constexpr auto diameter_words = std::to_array<std::string_view>({"dia", "diam", "diameter", "across", "round"});
constexpr auto length_words = std::to_array<std::string_view>({"long", "length", "longest"});
constexpr auto other_words = std::to_array<std::string_view>(
    {"high", "height", "tall", "deep", "depth", "thick", "thickness", "wide", "width", "broad"});
constexpr auto articles = std::to_array<std::string_view>({"a", "an", "the", "of", "is", "it"});

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

MeasureRole role_of(const std::string& word) {
  if (is_one_of(diameter_words, word)) return MeasureRole::diameter;
  if (is_one_of(length_words, word)) return MeasureRole::length;
  if (is_one_of(other_words, word)) return MeasureRole::other;
  return MeasureRole::none;
}

// A run of letters, or a single other character (a blank included).
std::vector<std::string> runs_of(std::string_view text) {
  std::vector<std::string> runs;
  bool letters = false;
  for (const char c : text) {
    if (letters && is_letter(c)) {
      runs.back() += c;
    } else {
      runs.emplace_back(1, c);
    }
    letters = is_letter(c);
  }
  return runs;
}

class PieceCutter {
 public:
  explicit PieceCutter(std::string_view text) : runs_(runs_of(text)), pieces_(1) {}

  std::vector<SizePiece> cut() {
    for (at_ = 0; at_ < runs_.size(); ++at_) {
      if (is_letter(runs_[at_][0])) {
        word(to_lower(runs_[at_]));
      } else {
        sign(runs_[at_][0]);
      }
    }
    std::vector<SizePiece> full;
    for (SizePiece& piece : pieces_) {
      piece.number = trim(piece.number);
      // "60x" lacks a measure: the empty piece is kept, and refused where it is read.
      const bool lacking = pieces_.size() > 1 && &piece == &pieces_.back();
      if (!piece.number.empty() || piece.role != MeasureRole::none || lacking) full.push_back(std::move(piece));
    }
    return full;
  }

 private:
  void word(const std::string& lower) {
    const MeasureRole role = role_of(lower);
    const MeasureRole before = pieces_.back().role;
    // A second, other word stays beside the number, where it is refused.
    if (role != MeasureRole::none && (before == MeasureRole::none || before == role)) {
      pieces_.back().role = role;
      pieces_.back().number += ' ';
    } else if (lower == "x" || lower == "by" || (lower == "and" && (follows_role() || precedes_role()))) {
      next();
    } else if (lower.size() > 1 && lower.back() == 'x' && is_length_unit(lower.substr(0, lower.size() - 1))) {
      pieces_.back().number += runs_[at_].substr(0, lower.size() - 1);  // "60mmx40mm"
      next();
    } else if (is_one_of(articles, lower) && beside_role()) {
      return;
    } else if (lower == "in" && introduces_role()) {
      return;
    } else {
      pieces_.back().number += runs_[at_];
    }
  }

  void sign(char c) {
    const bool comma_between =
        c == ',' && (at_ + 1 == runs_.size() || is_blank(runs_[at_ + 1][0]) || is_letter(runs_[at_ + 1][0]));
    if (c == '*' || c == ';' || comma_between) {
      next();
    } else {
      const bool abbreviated = c == '.' && at_ > 0 && role_of(to_lower(runs_[at_ - 1])) != MeasureRole::none;  // "dia."
      pieces_.back().number += c == ':' || c == '=' || abbreviated ? ' ' : c;
    }
  }

  void next() { pieces_.emplace_back(); }

  static bool is_length_unit(const std::string& word) {
    return electrical::find_unit(word, electrical::Dimension::length) != nullptr;
  }

  // The nearest run that is no blank, before (-1) or after (1) this one; empty at the ends.
  [[nodiscard]] std::string neighbour(int step) const {
    for (int i = static_cast<int>(at_) + step; i >= 0 && i < static_cast<int>(runs_.size()); i += step) {
      const std::string& run = runs_[static_cast<std::size_t>(i)];
      if (!is_blank(run[0])) return to_lower(run);
    }
    return {};
  }
  [[nodiscard]] bool follows_role() const { return role_of(neighbour(-1)) != MeasureRole::none; }
  // "and a length of"
  [[nodiscard]] bool precedes_role() const {
    for (std::size_t i = at_ + 1; i < runs_.size(); ++i) {
      const std::string run = to_lower(runs_[i]);
      if (is_blank(run[0]) || is_one_of(articles, run)) continue;
      return role_of(run) != MeasureRole::none;
    }
    return false;
  }
  // "a diameter of", "the length is"
  [[nodiscard]] bool beside_role() const { return follows_role() || role_of(neighbour(1)) != MeasureRole::none; }
  // "35 mm in diameter", but not "2 in diameter", where it is the unit.
  [[nodiscard]] bool introduces_role() const {
    const std::string before = neighbour(-1);
    return role_of(neighbour(1)) != MeasureRole::none && (is_length_unit(before) || before == "'");
  }

  std::vector<std::string> runs_;
  std::vector<SizePiece> pieces_;
  std::size_t at_ = 0;
};

}  // namespace

std::vector<SizePiece> size_pieces(std::string_view text) { return PieceCutter(text).cut(); }

}  // namespace loomkey::evidence
