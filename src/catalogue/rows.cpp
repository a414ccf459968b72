#include "catalogue/rows.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.h"

namespace loomkey::catalogue {
namespace {

bool plain_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

}  // namespace

Rows::Rows(sqlite3* database, std::string_view sql) : database_(database) {
  sqlite3_stmt* statement = nullptr;
  if (sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &statement, nullptr) != SQLITE_OK) {
    throw BadRow(sqlite3_errmsg(database));
  }
  statement_.reset(statement);
}

bool Rows::next() {
  column_ = 0;
  const int outcome = sqlite3_step(statement_.get());
  if (outcome == SQLITE_ROW) return true;
  if (outcome == SQLITE_DONE) return false;
  throw BadRow(sqlite3_errmsg(database_));
}

void Rows::refuse(const std::string& why) const {
  const char* name = sqlite3_column_name(statement_.get(), column_ - 1);
  throw BadRow("column '" + std::string(name == nullptr ? "?" : name) + "' " + why);
}

int Rows::take(int type, const char* what) {
  const int column = column_++;
  if (sqlite3_column_type(statement_.get(), column) != type) refuse(std::string("is not ") + what);
  return column;
}

long long Rows::whole() { return sqlite3_column_int64(statement_.get(), take(SQLITE_INTEGER, "a whole number")); }

void Rows::sequence(std::size_t expected) {
  const long long value = whole();
  if (value < 0 || static_cast<unsigned long long>(value) != expected) refuse("is not the next of its list");
}

int Rows::integer(int low, int high) {
  const long long value = whole();
  if (value < low || value > high) refuse("is out of range");
  return static_cast<int>(value);
}

int Rows::index(std::size_t size) {
  const long long value = whole();
  if (value < 0 || static_cast<unsigned long long>(value) >= size) refuse("points to nothing");
  return static_cast<int>(value);
}

int Rows::optional_index(std::size_t size) {
  if (sqlite3_column_type(statement_.get(), column_) != SQLITE_NULL) return index(size);
  ++column_;
  return -1;
}

double Rows::real(double low, double high) {
  const double value = sqlite3_column_double(statement_.get(), take(SQLITE_FLOAT, "a number"));
  if (!std::isfinite(value) || value < low || value > high) refuse("is out of range");
  return value;
}

std::string Rows::text() {
  const int column = take(SQLITE_TEXT, "a text");
  const auto* bytes = sqlite3_column_text(statement_.get(), column);
  if (bytes == nullptr) refuse("cannot be read");
  const auto length = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  std::string value(bytes, bytes + length);
  if (!plain_ascii(value) && printable(value) != value) refuse("is not a line of printable text");
  return value;
}

std::string_view Rows::bytes() {
  const int column = column_++;
  const auto* start = static_cast<const char*>(sqlite3_column_blob(statement_.get(), column));
  return {start == nullptr ? "" : start, static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column))};
}

}  // namespace loomkey::catalogue
