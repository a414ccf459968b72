#include "catalogue/catalogue.h"

#include <exception>
#include <string>
#include <utility>

#include <SQLiteCpp/Database.h>

#include "catalogue/content_hash.h"
#include "catalogue/file_header.h"
#include "catalogue/load.h"
#include "catalogue/rows.h"
#include "catalogue/search_index.h"

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;

// SQLite's address of a file that nobody writes: no locks, no journal, no file beside it.
std::string immutable_uri(const fs::path& path) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string uri = "file://";
  for (const char c : fs::absolute(path).lexically_normal().string()) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/' ||
                       c == '.' || c == '-' || c == '_';
    if (plain) {
      uri += c;
    } else {
      uri += '%';
      uri += digits[byte >> 4U];
      uri += digits[byte & 15U];
    }
  }
  return uri + "?immutable=1";
}

// Nothing in a file from outside may make SQLite do more than read tables.
void restrain(SQLite::Database& database) {
  sqlite3* handle = database.getHandle();
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
  constexpr int longest_value = 16 << 20;
  sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, longest_value);
  database.exec("PRAGMA cell_size_check = ON");
  database.exec("PRAGMA mmap_size = 0");
}

std::string stored(sqlite3* database, const std::string& name) {
  Rows rows(database, "SELECT value FROM meta WHERE name = '" + name + "'");
  if (!rows.next()) throw BadRow("its " + name + " is missing");
  return rows.text();
}

knowledge::Knowledge load_and_prove(sqlite3* database) {
  knowledge::Knowledge knowledge = load_knowledge(database);
  knowledge.hash = content_hash(knowledge);
  if (knowledge.hash != stored(database, "content_hash")) throw BadRow("its content does not match its hash");
  if (search_index_hash(database) != stored(database, "search_hash")) {
    throw BadRow("its search index does not match its hash");
  }
  return knowledge;
}

}  // namespace

Catalogue::Catalogue(fs::path path, std::shared_ptr<const knowledge::Knowledge> knowledge,
                     std::unique_ptr<SQLite::Database> database)
    : path_(std::move(path)), knowledge_(std::move(knowledge)), database_(std::move(database)) {}
Catalogue::~Catalogue() = default;
Catalogue::Catalogue(Catalogue&&) noexcept = default;
Catalogue& Catalogue::operator=(Catalogue&&) noexcept = default;

std::vector<SearchHit> Catalogue::search(std::string_view text, std::size_t limit) const {
  const std::size_t parts = knowledge_->parts.size();
  try {
    if (database_) return search_index(*database_, text, parts, limit);
    return search_index(*index_in_memory(*knowledge_), text, parts, limit);
  } catch (const std::exception&) {
    // The index was proved when the catalogue was opened: only a disk that fails now, or no memory, leads here.
    return {};
  }
}

Catalogue Catalogue::with(knowledge::Knowledge knowledge) && {
  return {std::move(path_), std::make_shared<const knowledge::Knowledge>(std::move(knowledge)), nullptr};
}

Result<Catalogue> open_catalogue(const fs::path& path) {
  if (auto header = check_file_header(path); !header) return tl::unexpected<Error>(header.error());
  try {
    auto database = std::make_unique<SQLite::Database>(immutable_uri(path), SQLite::OPEN_READONLY | SQLite::OPEN_URI);
    restrain(*database);
    auto knowledge = std::make_shared<const knowledge::Knowledge>(load_and_prove(database->getHandle()));
    return Catalogue(path, std::move(knowledge), std::move(database));
  } catch (const std::exception& problem) {
    return fail(ErrorKind::catalogue, std::string("damaged: ") + problem.what() + ". Build or copy it again",
                path.string());
  }
}

}  // namespace loomkey::catalogue
