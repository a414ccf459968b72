#include "catalogue/search_index.h"

#include <algorithm>
#include <cstdint>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>

#include "base/text.h"
#include "catalogue/content_hash.h"
#include "catalogue/row_writer.h"
#include "catalogue/rows.h"
#include "catalogue/schema.h"

namespace loomkey::catalogue {
namespace {

bool is_word_byte(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z');
}

// Letters and digits between quotes are a phrase and nothing else, whatever they spell.
std::string match_text(const std::vector<std::string>& words, std::string_view joint) {
  std::string text;
  for (const std::string& word : words) {
    if (!text.empty()) text += joint;
    text += '"' + word + '"';
  }
  return text + '*';
}

}  // namespace

void fill_search_index(SQLite::Database& database, const knowledge::Knowledge& k) {
  RowWriter rows(database, "part_search (rowid, names, aliases, foreign_terms, called, functions)", 6);
  for (std::size_t i = 0; i < k.parts.size(); ++i) {
    const knowledge::Part& part = k.parts[i];
    const knowledge::Family& family = at(k.families, part.family);
    const knowledge::Advice& advice = at(k.advice, part.advice);
    std::string foreign;
    for (const auto& [language, term] : part.foreign) foreign += term + "; ";
    const std::string names = part.name + "; " + part.id + "; " + family.name;
    const std::string functions = advice.title + "; " + advice.function + "; " + family.does;
    rows.row(i, names, join(part.aliases, "; "), foreign, join(part.called, "; "), functions);
  }
  // Merges the index into one piece, so that its rows depend on the content alone.
  database.exec("INSERT INTO part_search (part_search) VALUES ('optimize')");
}

std::string search_index_hash(sqlite3* database) {
  std::string all;
  const auto add = [&](std::string_view bytes) {
    all += std::to_string(bytes.size()) + ':';
    all += bytes;
  };
  struct Table {
    std::string_view sql;
    int columns;
  };
  for (const Table& table : {Table{"SELECT id, block FROM part_search_data ORDER BY id", 2},
                             Table{"SELECT segid, term, pgno FROM part_search_idx ORDER BY segid, term", 3},
                             Table{"SELECT id, sz FROM part_search_docsize ORDER BY id", 2},
                             Table{"SELECT k, v FROM part_search_config ORDER BY k", 2}}) {
    Rows rows(database, table.sql);
    while (rows.next()) {
      for (int column = 0; column < table.columns; ++column) add(rows.bytes());
    }
  }
  return sha256(all);
}

std::unique_ptr<SQLite::Database> index_in_memory(const knowledge::Knowledge& knowledge) {
  auto database = std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database->exec(std::string(schema_sql()));
  SQLite::Transaction transaction(*database);
  fill_search_index(*database, knowledge);
  transaction.commit();
  return database;
}

std::vector<SearchHit> search_index(SQLite::Database& database, std::string_view text, std::size_t parts,
                                    std::size_t limit) {
  constexpr std::size_t most_words = 16;
  constexpr std::size_t longest_word = 64;
  constexpr std::size_t longest_text = 4096;
  std::vector<std::string> words = search_words(text.substr(0, longest_text));
  std::erase_if(words, [](const std::string& word) { return word.size() > longest_word; });
  if (words.size() > most_words) words.resize(most_words);
  std::vector<SearchHit> hits;
  if (words.empty() || limit == 0) return hits;
  const auto most = static_cast<std::int64_t>(std::min(limit, parts));
  for (const std::string_view joint : {" AND ", " OR "}) {
    // A name counts for more than a word somewhere in the description. bm25 is the better the lower it is.
    SQLite::Statement query(database,
                            "SELECT rowid, bm25(part_search, 10.0, 6.0, 5.0, 3.0, 1.0) AS cost FROM part_search "
                            "WHERE part_search MATCH ? ORDER BY cost, rowid LIMIT ?");
    query.bind(1, match_text(words, joint));
    query.bind(2, most);
    while (query.executeStep()) {
      const std::int64_t part = query.getColumn(0).getInt64();
      if (part < 0 || part >= static_cast<std::int64_t>(parts)) continue;
      hits.push_back({static_cast<int>(part), -query.getColumn(1).getDouble()});
    }
    if (!hits.empty()) return hits;
  }
  return hits;
}

std::vector<std::string> search_words(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text) {
    if (is_word_byte(c)) {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

}  // namespace loomkey::catalogue
