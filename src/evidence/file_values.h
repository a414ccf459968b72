#pragma once

#include <optional>
#include <string>
#include <vector>

#include <toml++/toml.h>

namespace loomkey::evidence {

// A key of a table with its value and the place of the key.
struct Entry {
  std::string key;
  const toml::node* node = nullptr;
  toml::source_position at;
};

bool is_before(const toml::source_position& a, const toml::source_position& b);

// In the order of the file; the parser's table is in the order of the alphabet.
std::vector<Entry> entries_of(const toml::table& table);

// "a text", "a list", ...
std::string kind_of(const toml::node& node);

// A single value in the words a person would use for it; nothing for lists, tables and dates.
std::optional<std::string> scalar_text(const toml::node& node);

// A list of single texts or whole numbers as one text, separated by commas; nothing if it is or holds anything else.
std::optional<std::string> list_text(const toml::node& node);

}  // namespace loomkey::evidence
