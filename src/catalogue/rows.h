#pragma once

#include <cstddef>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <sqlite3.h>

namespace loomkey::catalogue {

// A row that cannot be there: stops the loading and becomes one Error at the border of this module.
class BadRow : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// Steps through the rows of a query and judges every value as it is read: a damaged file must never put an index out of
// range, a text with escape codes or a number that is none into the knowledge. Columns are read from left to right.
class Rows {
 public:
  Rows(sqlite3* database, std::string_view sql);

  bool next();

  // The position in a list, which must be the next one.
  void sequence(std::size_t expected);
  int integer(int low, int high);
  // An index into a list of `size`.
  int index(std::size_t size);
  // The same; NULL gives -1.
  int optional_index(std::size_t size);
  bool flag() { return integer(0, 1) == 1; }
  double real(double low, double high);
  // Printable UTF-8 in one line.
  std::string text();
  // The raw bytes, for hashing.
  std::string_view bytes();

 private:
  [[noreturn]] void refuse(const std::string& why) const;
  int take(int type, const char* what);
  long long whole();

  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  sqlite3* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  int column_ = 0;
};

// The list member an index points to.
template <typename T>
T& at(std::vector<T>& list, int index) {
  return list[static_cast<std::size_t>(index)];
}
template <typename T>
const T& at(const std::vector<T>& list, int index) {
  return list[static_cast<std::size_t>(index)];
}

}  // namespace loomkey::catalogue
