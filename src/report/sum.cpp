#include "report/sum.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

namespace loomkey::report {
namespace {

std::string tenths_text(long tenths) {
  if (tenths == 0) return "0.0";
  return fmt::format("{}{}.{}", tenths < 0 ? '-' : '+', std::labs(tenths) / 10, std::labs(tenths) % 10);
}

}  // namespace

std::string decibans(double value) { return tenths_text(std::lround(value * 10.0)); }

std::vector<std::string> column_that_adds_up(const std::vector<double>& lines) {
  std::vector<long> tenths;
  for (const double line : lines) tenths.push_back(std::lround(line * 10.0));
  const long total = std::lround(std::accumulate(lines.begin(), lines.end(), 0.0) * 10.0);
  long missing = total - std::accumulate(tenths.begin(), tenths.end(), 0L);
  const long step = missing < 0 ? -1 : 1;
  std::vector<std::size_t> order(lines.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto short_by = [&](std::size_t i) {
    return static_cast<double>(step) * (lines[i] * 10.0 - std::round(lines[i] * 10.0));
  };
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return short_by(a) > short_by(b); });
  for (std::size_t i = 0; i < order.size() && missing != 0; ++i, missing -= step) tenths[order[i]] += step;
  std::vector<std::string> out;
  for (const long value : tenths) out.push_back(tenths_text(value));
  out.push_back(tenths_text(total));
  return out;
}

std::string odds_words(double decibans) {
  const double odds = std::pow(10.0, std::abs(decibans) / 10.0);
  const std::string text = odds > 10000.0 ? "more than 10000" : fmt::format("{:.{}f}", odds, odds < 9.95 ? 1 : 0);
  return decibans < 0.0 ? "1 to " + text : text + " to 1";
}

}  // namespace loomkey::report
