#pragma once

namespace loomkey::report {

// Six significant digits, and less than 1: nothing is certain, in data either.
double shown_probability(double);

// Six decimals; enough for decibans, bits and prices to be added up again.
double shown_weight(double);

}  // namespace loomkey::report
