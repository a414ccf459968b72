#include "report/json_numbers.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

namespace loomkey::report {

double shown_probability(double probability) {
  constexpr double most = 0.999999;
  if (!(probability > 0.0)) return 0.0;
  return std::min(most, std::stod(fmt::format("{:.6g}", std::max(probability, 1e-300))));
}

double shown_weight(double value) {
  if (!std::isfinite(value)) return 0.0;
  return std::round(value * 1e6) / 1e6 + 0.0;
}

}  // namespace loomkey::report
