#include "electrical/units.h"

#include <array>

#include "base/nearest.h"
#include "base/text.h"

namespace loomkey::electrical {
namespace {

// International inch: 25.4 mm exactly; avoirdupois pound: 0.45359237 kg exactly, its ounce the 16th part,
// 28.349523125 g. Source: the agreement of 1959 between the English-speaking standards laboratories on the
// international yard and pound.
constexpr double mm_per_inch = 25.4;
constexpr double g_per_ounce = 28.349523125;
constexpr double g_per_pound = 453.59237;

constexpr auto length = Dimension::length;
constexpr auto mass = Dimension::mass;
constexpr auto ohms = Dimension::resistance;
constexpr auto farads = Dimension::capacitance;
constexpr auto volts = Dimension::voltage;

// Singular, spelled just so: the letter case tells mega from milli.
constexpr auto exact_case = std::to_array<Unit>({
    {"M", ohms, 1e6, 1, "Mohm"},
    {"Mohm", ohms, 1e6, 1, "Mohm"},
    {"MOhm", ohms, 1e6, 1, "Mohm"},
    {"MOHM", ohms, 1e6, 1, "Mohm"},
    // Old condensers print MF or MFD for microfarads; a meter shows mF for millifarads.
    {"MF", farads, 1, 1, "uF"},
    {"mF", farads, 1e3, 1, "mF"},
    {"mV", volts, 1, 1e3, "mV"},
    {"mVDC", volts, 1, 1e3, "mV"},
    {"mv", volts, 1, 1e3, "mV"},
    {"mvdc", volts, 1, 1e3, "mV"},
});

constexpr auto any_case = std::to_array<Unit>({
    {"mm", length, 1, 1, "mm"},
    {"millimetre", length, 1, 1, "mm"},
    {"millimeter", length, 1, 1, "mm"},
    {"cm", length, 10, 1, "cm"},
    {"centimetre", length, 10, 1, "cm"},
    {"centimeter", length, 10, 1, "cm"},
    {"m", length, 1000, 1, "m"},
    {"metre", length, 1000, 1, "m"},
    {"meter", length, 1000, 1, "m"},
    {"in", length, mm_per_inch, 1, "inch"},
    {"inch", length, mm_per_inch, 1, "inch"},
    {"inches", length, mm_per_inch, 1, "inch"},
    {"\"", length, mm_per_inch, 1, "inch"},
    {"g", mass, 1, 1, "g"},
    {"gm", mass, 1, 1, "g"},
    {"gram", mass, 1, 1, "g"},
    {"gramme", mass, 1, 1, "g"},
    {"kg", mass, 1000, 1, "kg"},
    {"kilo", mass, 1000, 1, "kg"},
    {"kilogram", mass, 1000, 1, "kg"},
    {"oz", mass, g_per_ounce, 1, "oz"},
    {"ounce", mass, g_per_ounce, 1, "oz"},
    {"lb", mass, g_per_pound, 1, "lb"},
    {"pound", mass, g_per_pound, 1, "lb"},
    {"ohm", ohms, 1, 1, "ohm"},
    {"r", ohms, 1, 1, "ohm"},
    {"k", ohms, 1e3, 1, "kohm"},
    {"kohm", ohms, 1e3, 1, "kohm"},
    {"kiloohm", ohms, 1e3, 1, "kohm"},
    {"kilohm", ohms, 1e3, 1, "kohm"},
    {"meg", ohms, 1e6, 1, "Mohm"},
    {"megohm", ohms, 1e6, 1, "Mohm"},
    {"megaohm", ohms, 1e6, 1, "Mohm"},
    {"milliohm", ohms, 1, 1e3, "milliohm"},
    {"pf", farads, 1, 1e6, "pF"},
    {"p", farads, 1, 1e6, "pF"},
    {"nf", farads, 1, 1e3, "nF"},
    {"n", farads, 1, 1e3, "nF"},
    {"uf", farads, 1, 1, "uF"},
    {"u", farads, 1, 1, "uF"},
    {"mfd", farads, 1, 1, "uF"},
    {"microfarad", farads, 1, 1, "uF"},
    {"f", farads, 1e6, 1, "F"},
    {"farad", farads, 1e6, 1, "F"},
    {"v", volts, 1, 1, "V"},
    {"vdc", volts, 1, 1, "V"},
    {"volt", volts, 1, 1, "V"},
    {"voltdc", volts, 1, 1, "V"},
    {"voltsdc", volts, 1, 1, "V"},
    {"millivolt", volts, 1, 1e3, "mV"},
});

// Spellings that mean two things a thousand or more times apart, in lower case.
struct TwoMeanings {
  std::string_view spelling;
  Dimension dimension;
  std::string_view hint;
};
constexpr auto two_meanings = std::to_array<TwoMeanings>({
    {"m", ohms, "write 'Mohm' or 'milliohm'"},
    {"mohm", ohms, "write 'Mohm' or 'milliohm'"},
    {"mf", farads, "write 'uF' (old parts print MF or MFD) or 'mF' (millifarads)"},
    {"mv", volts, "write 'mV' for millivolts"},
});

const TwoMeanings* find_two_meanings(std::string_view spelling, Dimension dimension) {
  std::string lower = to_lower(spelling);
  if (lower.size() > 2 && lower.back() == 's') lower.pop_back();
  for (const TwoMeanings& entry : two_meanings) {
    if (entry.dimension == dimension && entry.spelling == lower) return &entry;
  }
  return nullptr;
}

const Unit* find_singular(std::string_view spelling, Dimension dimension) {
  for (const Unit& unit : exact_case) {
    if (unit.dimension == dimension && unit.spelling == spelling) return &unit;
  }
  if (find_two_meanings(spelling, dimension) != nullptr) return nullptr;
  const std::string lower = to_lower(spelling);
  for (const Unit& unit : any_case) {
    if (unit.dimension == dimension && unit.spelling == lower) return &unit;
  }
  return nullptr;
}

}  // namespace

const Unit* find_unit(std::string_view spelling, Dimension dimension) {
  if (const Unit* unit = find_singular(spelling, dimension)) return unit;
  const bool plural = spelling.size() > 2 && (spelling.back() == 's' || spelling.back() == 'S');
  return plural ? find_singular(spelling.substr(0, spelling.size() - 1), dimension) : nullptr;
}

std::string unit_list(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "mm, cm, m or inch";
    case Dimension::mass:
      return "g, kg, oz or lb";
    case Dimension::resistance:
      return "ohm, kohm, Mohm or milliohm";
    case Dimension::capacitance:
      return "pF, nF, uF or mF";
    case Dimension::voltage:
      return "V or mV";
  }
  return {};
}

std::string refuse_unit(std::string_view spelling, Dimension dimension) {
  const std::string shown = "'" + printable(spelling) + "'";
  const std::string lower = to_lower(spelling);
  if (const TwoMeanings* entry = find_two_meanings(spelling, dimension)) {
    return shown + " can mean two units: " + std::string(entry->hint);
  }
  const std::string expected = "expected " + unit_list(dimension);
  if (dimension == Dimension::length && (lower == "ft" || lower == "foot" || lower == "feet" || lower == "'")) {
    return "feet are not taken: " + expected;
  }
  for (const Dimension other : {length, mass, ohms, farads, volts}) {
    if (other == dimension) continue;
    if (const Unit* unit = find_unit(spelling, other)) {
      return shown + " is a unit of " + std::string(dimension_name(unit->dimension)) + ": " + expected;
    }
  }
  std::vector<std::string> known;
  for (const Unit& unit : any_case) {
    if (unit.dimension == dimension && unit.spelling.size() > 1) known.emplace_back(unit.spelling);
  }
  return "unknown unit " + shown + ": " + expected + "." + did_you_mean(spelling, known);
}

}  // namespace loomkey::electrical
