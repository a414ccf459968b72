#pragma once

#include <string>
#include <vector>

namespace loomkey::report {

// Decibans with one decimal and a sign: "+12.3", "-0.4", "0.0".
std::string decibans(double value);

// The same for the lines of a sum, the total last. The figures shown add up exactly: where plain rounding would miss,
// the lines that were rounded furthest the other way give a tenth.
std::vector<std::string> column_that_adds_up(const std::vector<double>& lines);

// "16 to 1" for 12 decibans; "1 to 16" for -12.
std::string odds_words(double decibans);

}  // namespace loomkey::report
