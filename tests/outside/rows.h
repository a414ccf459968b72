#pragma once

#include <map>
#include <string>
#include <vector>

// Rows of comma-separated files (RFC 4180): published values kept under tests/reference, and exported datasets.
namespace loomkey::outside {

using Row = std::map<std::string, std::string>;  // column, value

struct Rows {
  std::vector<std::string> columns;  // in the order of the file
  std::vector<Row> rows;
};

// Throws std::runtime_error if the file cannot be read or a row has another number of fields than the header.
Rows read_rows(const std::string& path);

// A file of tests/reference.
std::vector<Row> reference_rows(const std::string& name);

// The one row with this id; throws if it is missing.
const Row& row_of(const std::vector<Row>& rows, const std::string& id);

}  // namespace loomkey::outside
