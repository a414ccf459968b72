#include "outside/datasets.h"

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

namespace loomkey::outside {

Rows dataset(const std::string& name) {
  const char* folder = std::getenv("DATASETS");
  if (folder == nullptr)
    throw std::runtime_error("run through tests/outside/with_datasets.sh, which exports the datasets");
  return read_rows(std::string(folder) + "/" + name + ".csv");
}

namespace {

std::vector<std::string> values_of(const std::vector<Row>& rows, const std::string& column) {
  std::vector<std::string> values;
  for (const Row& row : rows) {
    if (!row.at(column).empty()) values.push_back(row.at(column));
  }
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  return values;
}

int place_of(const std::vector<std::string>& values, const std::string& value) {
  if (value.empty()) return -1;
  return static_cast<int>(std::lower_bound(values.begin(), values.end(), value) - values.begin());
}

}  // namespace

Coded code(const Rows& data, const std::string& label, const std::vector<std::string>& left_out) {
  const std::vector<Row>& rows = data.rows;
  Coded out;
  out.classes = values_of(rows, label);
  out.rows.resize(rows.size());
  for (const Row& row : rows) out.labels.push_back(place_of(out.classes, row.at(label)));
  for (const auto& column : data.columns) {
    if (column == label || std::count(left_out.begin(), left_out.end(), column) > 0) continue;
    const auto values = values_of(rows, column);
    out.features.push_back(column);
    out.state_counts.push_back(static_cast<int>(values.size()));
    for (std::size_t r = 0; r < rows.size(); ++r) out.rows[r].push_back(place_of(values, rows[r].at(column)));
  }
  return out;
}

std::vector<int> groups_of_equal_rows(const Coded& coded) {
  std::vector<std::vector<int>> seen;
  std::vector<int> groups;
  for (const auto& row : coded.rows) {
    const auto found = std::find(seen.begin(), seen.end(), row);
    groups.push_back(static_cast<int>(found - seen.begin()));
    if (found == seen.end()) seen.push_back(row);
  }
  return groups;
}

}  // namespace loomkey::outside
