#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "electrical/dimension.h"

namespace loomkey::electrical {

// A unit as a person may spell it. One of it is times / over base units: two factors, because a division by a power of
// ten is exactly rounded and a multiplication by its inverse is not (550 mV is to be 0.55 V to the last bit).
struct Unit {
  std::string_view spelling;
  Dimension dimension;
  double times;
  double over;
  std::string_view name;  // the spelling used in messages and files: "inch" for "ins"

  [[nodiscard]] double to_base(double value) const { return value * times / over; }
};

// The unit of this spelling, or nullptr. Letter case counts only where two units would be mixed up (M and m).
const Unit* find_unit(std::string_view spelling, Dimension dimension);

// Why a spelling that is no unit of the dimension is refused: two units it may stand for, the unit of another
// dimension, or an unknown word with the nearest known one. Ends with what is expected.
std::string refuse_unit(std::string_view spelling, Dimension dimension);

// "mm, cm, m or inch".
std::string unit_list(Dimension dimension);

}  // namespace loomkey::electrical
