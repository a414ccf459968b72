#include "catalogue/search_index.h"

#include "base/text.h"
#include "catalogue/content_hash.h"
#include "catalogue/row_writer.h"
#include "catalogue/rows.h"

namespace loomkey::catalogue {
namespace {

bool is_word_byte(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z');
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
