#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

// What is to be said, before anybody decides how it looks. Every output format renders this one tree, so they cannot
// tell different stories. Strings are plain text as it came, hostile input included: each renderer does its own
// escaping.

namespace loomkey::report {

struct Heading {
  std::string text;
};

struct Paragraph {
  std::string text;
};

struct Bullets {
  std::vector<std::string> items;
};

// Short names with what belongs to each: "era: 1964 to 1982".
struct KeyValues {
  std::vector<std::pair<std::string, std::string>> rows;
};

struct Column {
  std::string title;
  bool right = false;  // figures stand under each other
  bool whole = false;  // words to be copied, ids for instance: not broken while there is any other way
};

// Every row has one cell a column.
struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  bool ends_in_total = false;  // the last row is the sum of those above
};

struct Note {
  enum class Kind { note, caution };

  Kind kind = Kind::note;
  std::string text;
};

using Block = std::variant<Heading, Paragraph, Bullets, KeyValues, Table, Note>;

struct Document {
  std::string title;
  std::vector<Block> blocks;
};

}  // namespace loomkey::report
