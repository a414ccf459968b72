#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "electrical/dimension.h"

namespace loomkey::electrical {

// A quantity in the base unit of its dimension. A single figure has low == high.
struct Measured {
  double low = 0.0;
  double high = 0.0;
  bool unit_stated = false;
  bool approximate = false;  // "about": already widened by 10 % either way
  std::string unit;          // as stated or taken: "mm", "inch"
  std::string explanation;   // what was taken where the text left it open: "no unit: taken as mm"; empty if nothing was
};

// Reads a quantity as people write it: "35", "35 mm", "about 2 1/2 in", "45-55", "between 45 and 55 mm", "1 lb 4 oz",
// "4k7", "550 mV", "half an inch", decimal point or comma. "About" (~, ca., roughly, -ish, or so) widens by 10 %.
// Without a unit the likelier is taken: see usual_unit. Fails with one message on anything else: a negative, infinite
// or implausibly large value, a unit of another dimension, an unknown unit, a range that runs backwards.
Result<Measured> parse_quantity(std::string_view text, Dimension dimension);

// A quantity before its unit is settled, for texts where one unit serves several numbers.
struct Written {
  double low = 0.0;  // in `unit`, or plain numbers when there is none
  double high = 0.0;
  std::string unit;       // empty: none was written
  bool fraction = false;  // written as 2 1/2
  bool decimals = false;  // written as 2.5
  bool approximate = false;
};
Result<Written> read_written(std::string_view text, Dimension dimension);

// The unit meant when none is written. Resistance: ohm. Mass: g. Capacitance: uF. Voltage: V, but mV from 100 up, since
// meters show a diode as 550 and nothing here reaches 100 V. Length: inch for a fraction (no metric rule is read in
// halves and quarters) and for a number under 5 with decimals (2.5 is a likely coil in inches, and nobody measures to
// tenths of a millimetre with a ruler); otherwise mm. `largest` is the largest number that shares the unit.
std::string_view usual_unit(Dimension dimension, bool fraction, bool decimals, double largest);

// Converts to the base unit and widens by 10 % if approximate. `unit` must be a unit of the dimension.
Result<Measured> measure(const Written& written, Dimension dimension, std::string_view unit, bool unit_stated);

}  // namespace loomkey::electrical
