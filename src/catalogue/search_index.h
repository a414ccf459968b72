#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include <sqlite3.h>

#include "knowledge/knowledge.h"

namespace SQLite {  // NOLINT(readability-identifier-naming): the library's own name
class Database;
}

namespace loomkey::catalogue {

// Fills the full-text index over names, aliases, foreign terms, wrong names and functions of all parts.
void fill_search_index(SQLite::Database& database, const knowledge::Knowledge& knowledge);

// SHA-256 over the stored rows of the index: the content hash does not cover them.
std::string search_index_hash(sqlite3* database);

// An index of its own in memory, for knowledge that no file holds. Throws if there is no memory.
std::unique_ptr<SQLite::Database> index_in_memory(const knowledge::Knowledge& knowledge);

// A part that a search found; `score` grows with how well it fits and has no unit.
struct SearchHit {
  int part = -1;  // index into Knowledge::parts
  double score = 0.0;
};

// See Catalogue::search. `parts`: how many there are.
std::vector<SearchHit> search_index(SQLite::Database& database, std::string_view text, std::size_t parts,
                                    std::size_t limit);

// The words of a free text, as the index cuts them: runs of letters and digits, bytes above 127 counting as letters.
std::vector<std::string> search_words(std::string_view text);

}  // namespace loomkey::catalogue
