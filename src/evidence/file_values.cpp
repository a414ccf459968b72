#include "evidence/file_values.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.h"
#include "electrical/number_text.h"

namespace loomkey::evidence {

bool is_before(const toml::source_position& a, const toml::source_position& b) {
  return std::pair(a.line, a.column) < std::pair(b.line, b.column);
}

std::vector<Entry> entries_of(const toml::table& table) {
  std::vector<Entry> entries;
  for (const auto& [key, node] : table) entries.push_back({std::string(key.str()), &node, key.source().begin});
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Entry& a, const Entry& b) { return is_before(a.at, b.at); });
  return entries;
}

std::string kind_of(const toml::node& node) {
  if (node.is_table()) return "a table";
  if (node.is_array()) return "a list";
  if (node.is_string()) return "a text";
  if (node.is_number()) return "a number";
  if (node.is_boolean()) return "true or false";
  return "a date or time";
}

std::optional<std::string> scalar_text(const toml::node& node) {
  if (const auto* text = node.as_string()) return text->get();
  if (const auto* number = node.as_integer()) return std::to_string(number->get());
  if (const auto* flag = node.as_boolean()) return flag->get() ? "true" : "false";
  const auto* number = node.as_floating_point();
  if (number == nullptr) return std::nullopt;
  if (std::isnan(number->get())) return "nan";
  if (std::isinf(number->get())) return number->get() > 0 ? "inf" : "-inf";
  return electrical::exact_number(number->get());
}

std::optional<std::string> list_text(const toml::node& node) {
  const auto* list = node.as_array();
  if (list == nullptr) return std::nullopt;
  std::vector<std::string> items;
  for (const toml::node& item : *list) {
    if (!item.is_string() && !item.is_integer()) return std::nullopt;
    auto text = scalar_text(item);
    if (!text || trim(*text).empty() || text->find(',') != std::string::npos) return std::nullopt;
    items.push_back(std::move(*text));
  }
  return join(items, ", ");
}

}  // namespace loomkey::evidence
