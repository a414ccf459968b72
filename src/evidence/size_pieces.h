#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loomkey::evidence {

// What the words beside a number say it measures.
enum class MeasureRole { none, diameter, length, other };

// One number of a size with its unit, as parse_quantity reads it, freed of the words beside it.
struct SizePiece {
  std::string number;
  MeasureRole role = MeasureRole::none;
};

// Cuts "35 mm dia x 45 long" or "60 by 40 by 25" (with plain signs) into its numbers. "x", "by", "*", a semicolon, a
// comma with a blank behind it, and "and" behind a word such as "dia" stand between them; a piece
// is empty where a number is missing.
std::vector<SizePiece> size_pieces(std::string_view text);

}  // namespace loomkey::evidence
