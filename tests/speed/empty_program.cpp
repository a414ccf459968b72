#include <sqlite3.h>

// The least a program can do with the catalogue: open it, read one row, and end. Start-up times are given as ratios to
// it.
int main(int argc, char** argv) {
  sqlite3* db = nullptr;
  if (argc != 2 || sqlite3_open_v2(argv[1], &db, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK) return 1;
  const int result = sqlite3_exec(db, "SELECT count(*) FROM sqlite_schema", nullptr, nullptr, nullptr);
  sqlite3_close(db);
  return result == SQLITE_OK ? 0 : 1;
}
