#include "catalogue/store.h"

#include <exception>
#include <memory>
#include <stdexcept>
#include <string>

#include <SQLiteCpp/Transaction.h>
#include <sqlite3.h>

#include "catalogue/atomic_file.h"
#include "catalogue/content_hash.h"
#include "catalogue/load.h"
#include "catalogue/row_writer.h"
#include "catalogue/schema.h"
#include "catalogue/search_index.h"

namespace loomkey::catalogue {
namespace {

void fill(SQLite::Database& database, const knowledge::Knowledge& knowledge, const std::string& hash) {
  SQLite::Transaction transaction(database);
  store_vocabulary(database, knowledge);
  store_traits(database, knowledge);
  store_advice(database, knowledge);
  store_parts(database, knowledge);
  store_claims(database, knowledge);
  fill_search_index(database, knowledge);
  transaction.commit();
  // The index reaches its tables with the commit, so its hash comes after it.
  RowWriter meta(database, "meta", 2);
  meta.row("content_hash", hash);
  meta.row("search_hash", search_index_hash(database.getHandle()));
}

std::string serialise(SQLite::Database& database) {
  sqlite3_int64 size = 0;
  const std::unique_ptr<unsigned char, void (*)(void*)> bytes(sqlite3_serialize(database.getHandle(), "main", &size, 0),
                                                              sqlite3_free);
  if (bytes == nullptr || size <= 0) throw std::runtime_error("out of memory");
  return {bytes.get(), bytes.get() + size};
}

// The whole file, made in memory: nothing half done ever reaches the disk.
std::string compile(const knowledge::Knowledge& knowledge) {
  const std::string hash = content_hash(knowledge);
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  // secure_delete clears what the library would leave lying in unused corners of pages.
  database.exec("PRAGMA page_size = 4096; PRAGMA secure_delete = ON; PRAGMA foreign_keys = ON");
  database.exec(std::string(schema_sql()));
  fill(database, knowledge, hash);
  database.exec("VACUUM");
  if (content_hash(load_knowledge(database.getHandle())) != hash) {
    throw std::runtime_error("it does not read back as it was written");
  }
  return serialise(database);
}

}  // namespace

Result<void> write_catalogue(const knowledge::Knowledge& knowledge, const std::filesystem::path& out) {
  std::string bytes;
  try {
    bytes = compile(knowledge);
  } catch (const std::exception& problem) {
    return fail(ErrorKind::catalogue, std::string("the knowledge does not fit the catalogue: ") + problem.what(),
                out.string());
  }
  return write_atomically(out, bytes);
}

}  // namespace loomkey::catalogue
