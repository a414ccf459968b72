#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/registry.h"
#include "catalogue/source_file.h"
#include "catalogue/source_log.h"

namespace loomkey::catalogue {

enum class Need { required, optional };

// A pair of numbers [low, high], low <= high.
struct Span {
  double low = 0.0;
  double high = 0.0;
};

// Reads the keys of one table. Every key that is asked for counts as known; `finish` reports the others, so the code
// that reads a table is the only list of what may stand in it. Wrong and missing values are reported, and an empty
// stand-in is returned, so that reading goes on.
class TableReader {
 public:
  // `title` names the table in messages: "part 'zener-stud'".
  TableReader(const toml::table& table, std::string file, std::string title, SourceLog& log);

  [[nodiscard]] const std::string& title() const { return title_; }
  void rename(std::string title) { title_ = std::move(title); }
  [[nodiscard]] SourceLog& log() const { return *log_; }
  [[nodiscard]] Place place() const;
  [[nodiscard]] const toml::table& table() const { return *table_; }
  [[nodiscard]] bool has(std::string_view key) const { return table_->contains(key); }

  // The value of a key, or nothing.
  std::optional<SourceNode> find(std::string_view key, Need need = Need::optional);
  // Makes a key known without reading it.
  void expect(std::string_view key) { known_.emplace_back(key); }

  // One line of printable text that is not blank; empty if missing or wrong.
  std::string text(std::string_view key, Need need = Need::required);
  std::optional<Word> word(std::string_view key, Need need = Need::required);
  // One of a few words; its index, or nothing.
  std::optional<std::size_t> one_of(std::string_view key, const std::vector<std::string>& known,
                                    Need need = Need::required);
  // A list of texts without repetition.
  std::vector<Word> words(std::string_view key, Need need = Need::required);
  std::vector<std::string> texts(std::string_view key, Need need = Need::required);
  bool flag(std::string_view key);
  // A number within limits, or nothing.
  std::optional<double> number(std::string_view key, double low, double high, Need need = Need::required);
  std::optional<int> integer(std::string_view key, int low, int high, Need need = Need::required);
  std::vector<int> integers(std::string_view key, int low, int high);
  std::optional<Span> span(std::string_view key, Need need = Need::required);

  std::optional<TableReader> table(std::string_view key, std::string title, Need need = Need::required);
  // The tables of a list: [[part]], or an inline list of tables. Their titles are the list's key.
  std::vector<TableReader> tables(std::string_view key, Need need = Need::required);

  // Reports every key that nobody asked for.
  void finish();

 private:
  const toml::table* table_;
  std::string file_;
  std::string title_;
  SourceLog* log_;
  std::vector<std::string> known_;
};

// The pieces the reader is made of, for values that may take several shapes.
std::optional<Word> read_word(const SourceNode& node, SourceLog& log);
std::vector<Word> read_words(const SourceNode& list, SourceLog& log);
std::optional<double> read_number(const SourceNode& node, SourceLog& log);
std::optional<Span> read_span(const SourceNode& node, SourceLog& log);
void expected(std::string_view what, const SourceNode& found, SourceLog& log);

// What stands at a key of a table, with the place of the key itself.
struct KeyedNode {
  Word key;
  SourceNode value;
};
// In the order of the file, not of the alphabet.
std::vector<KeyedNode> entries_of(const toml::table& table, const std::string& file);

}  // namespace loomkey::catalogue
