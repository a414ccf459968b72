#pragma once

#include <optional>
#include <string_view>

namespace loomkey::electrical {

// What a quantity measures. Values are kept in one base unit each: mm, g, ohm, uF, V.
enum class Dimension { length, mass, resistance, capacitance, voltage };

// "length", "mass", ...
std::string_view dimension_name(Dimension dimension);

// "mm", "g", "ohm", "uF", "V".
std::string_view base_unit(Dimension dimension);

// The dimension whose base unit this is.
std::optional<Dimension> dimension_of(std::string_view base_unit_name);

}  // namespace loomkey::electrical
