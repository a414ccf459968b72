#pragma once

#include <string>

namespace loomkey::electrical {

// The shortest decimal that reads back as the same double, never with an exponent: "0.00047", "1000000".
std::string exact_number(double value);

// Four significant digits, never with an exponent: "63.5", "4700000".
std::string short_number(double value);

}  // namespace loomkey::electrical
