#pragma once

#include <string>
#include <vector>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// An index that may be -1, for "none".
struct OptionalIndex {
  int value = -1;
};

// Inserts rows into one table, column by column.
class RowWriter {
 public:
  RowWriter(SQLite::Database& database, const std::string& table, int columns);

  template <typename... Columns>
  void row(const Columns&... columns) {
    int at = 0;
    (bind(++at, columns), ...);
    statement_.exec();
    statement_.reset();
  }

 private:
  void bind(int at, int value) { statement_.bind(at, value); }
  void bind(int at, bool value) { statement_.bind(at, value ? 1 : 0); }
  void bind(int at, double value) { statement_.bind(at, value); }
  void bind(int at, std::size_t value) { statement_.bind(at, static_cast<std::int64_t>(value)); }
  void bind(int at, const std::string& value) { statement_.bindNoCopy(at, value); }
  void bind(int at, const char* value) { statement_.bind(at, value); }
  void bind(int at, OptionalIndex index);

  SQLite::Statement statement_;
};

// Fill the tables of an empty catalogue. Rows come in the order in which they refer to each other.
void store_vocabulary(SQLite::Database& database, const knowledge::Knowledge& knowledge);
void store_traits(SQLite::Database& database, const knowledge::Knowledge& knowledge);
void store_advice(SQLite::Database& database, const knowledge::Knowledge& knowledge);
void store_parts(SQLite::Database& database, const knowledge::Knowledge& knowledge);
void store_claims(SQLite::Database& database, const knowledge::Knowledge& knowledge);

}  // namespace loomkey::catalogue
