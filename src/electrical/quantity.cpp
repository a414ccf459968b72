#include "electrical/quantity.h"

#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "electrical/number_text.h"
#include "electrical/plain_signs.h"
#include "electrical/quantity_reader.h"
#include "electrical/quantity_tokens.h"
#include "electrical/units.h"

namespace loomkey::electrical {
namespace {

constexpr double about_widening = 0.10;
constexpr double largest_value = 1e9;  // in base units: a thousand tons, a gigaohm
constexpr std::size_t longest_text = 200;

std::string example(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "35 mm, 45-55 mm, about 2 1/2 inch";
    case Dimension::mass:
      return "120 g, about 1 lb 4 oz";
    case Dimension::resistance:
      return "0.5 ohm, 4.7 kohm, 4k7, 1-2 Mohm";
    case Dimension::capacitance:
      return "0.2 uF, 220 nF, about 4700 uF";
    case Dimension::voltage:
      return "12.6 V, 550 mV";
  }
  return {};
}

Error in_context(const Error& error, std::string_view text, Dimension dimension) {
  constexpr std::size_t shown = 40;
  const std::string start = printable(text.substr(0, shown)) + (text.size() > shown ? "..." : "");
  const std::string stop = error.what.ends_with('?') || error.what.ends_with('.') ? "" : ".";
  return {error.kind,
          fmt::format("cannot read '{}' as a {}: {}{} Examples: {}", start, dimension_name(dimension), error.what, stop,
                      example(dimension)),
          error.where};
}

// "35 mm", "27 to 36 mm", short enough for a message.
std::string in_base_unit(double low, double high, Dimension dimension) {
  const std::string numbers = low == high ? short_number(low) : short_number(low) + " to " + short_number(high);
  return numbers + " " + std::string(base_unit(dimension));
}

void explain(Measured& measured, const std::string& what) {
  if (!measured.explanation.empty()) measured.explanation += "; ";
  measured.explanation += what;
}

}  // namespace

Result<Written> read_written(std::string_view text, Dimension dimension) {
  if (text.size() > longest_text) return fail(ErrorKind::input, "the value is too long to be a quantity");
  auto tokens = quantity_tokens(plain_signs(text));
  if (!tokens) return tl::unexpected(in_context(tokens.error(), text, dimension));
  auto written = QuantityReader(std::move(*tokens), dimension).read();
  if (!written) return tl::unexpected(in_context(written.error(), text, dimension));
  return written;
}

std::string_view usual_unit(Dimension dimension, bool fraction, bool decimals, double largest) {
  constexpr double fewest_inches_in_tenths = 5.0;
  constexpr double fewest_millivolts = 100.0;
  if (dimension == Dimension::length) {
    return fraction || (decimals && largest < fewest_inches_in_tenths) ? "inch" : "mm";
  }
  if (dimension == Dimension::voltage && largest >= fewest_millivolts) return "mV";
  return base_unit(dimension);
}

Result<Measured> measure(const Written& written, Dimension dimension, std::string_view unit_name, bool unit_stated) {
  const Unit* unit = find_unit(unit_name, dimension);
  if (unit == nullptr) return fail(ErrorKind::input, refuse_unit(unit_name, dimension));
  Measured measured;
  measured.low = unit->to_base(written.low);
  measured.high = unit->to_base(written.high);
  measured.unit_stated = unit_stated;
  measured.approximate = written.approximate;
  measured.unit = unit->name;
  if (!std::isfinite(measured.high) || measured.high > largest_value) {
    return fail(ErrorKind::input,
                in_base_unit(measured.low, measured.high, dimension) + " is far too large for any part");
  }
  if (!unit_stated && measured.high > 0) {
    const bool converted = measured.unit != base_unit(dimension);
    explain(measured, "no unit: taken as " + measured.unit +
                          (converted ? " (" + in_base_unit(measured.low, measured.high, dimension) + ")" : ""));
  }
  if (measured.unit == "mF") explain(measured, "mF: taken as millifarads, 1000 uF each");
  if (written.approximate) {
    measured.low *= 1.0 - about_widening;
    measured.high *= 1.0 + about_widening;
    explain(measured, "about: taken as " + in_base_unit(measured.low, measured.high, dimension));
  }
  return measured;
}

Result<Measured> parse_quantity(std::string_view text, Dimension dimension) {
  auto written = read_written(text, dimension);
  if (!written) return tl::unexpected(written.error());
  const bool stated = !written->unit.empty();
  const std::string unit =
      stated ? written->unit : std::string(usual_unit(dimension, written->fraction, written->decimals, written->high));
  return measure(*written, dimension, unit, stated);
}

}  // namespace loomkey::electrical
