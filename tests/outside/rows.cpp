#include "outside/rows.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace loomkey::outside {
namespace {

std::vector<std::vector<std::string>> fields_of(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, {""});
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c != '"') {
        rows.back().back() += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        rows.back().back() += text[++i];
      } else {
        quoted = false;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      rows.back().emplace_back();
    } else if (c == '\n') {
      rows.push_back({""});
    } else if (c != '\r') {
      rows.back().back() += c;
    }
  }
  if (rows.back().size() == 1 && rows.back().front().empty()) rows.pop_back();
  return rows;
}

}  // namespace

Rows read_rows(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const auto fields = fields_of(text);
  if (fields.empty()) throw std::runtime_error(path + " is empty");
  Rows out;
  out.columns = fields[0];
  for (std::size_t r = 1; r < fields.size(); ++r) {
    if (fields[r].size() != fields[0].size()) throw std::runtime_error(path + ": a row has too few or too many fields");
    Row row;
    for (std::size_t c = 0; c < fields[0].size(); ++c) row[fields[0][c]] = fields[r][c];
    out.rows.push_back(std::move(row));
  }
  return out;
}

std::vector<Row> reference_rows(const std::string& name) {
  return read_rows(std::string(REFERENCE_DIR) + "/" + name).rows;
}

const Row& row_of(const std::vector<Row>& rows, const std::string& id) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.at("id") == id; });
  if (found == rows.end()) throw std::runtime_error("no row " + id);
  return *found;
}

}  // namespace loomkey::outside
