#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.h"
#include "catalogue/toml_reader.h"

namespace loomkey::catalogue {

void expected(std::string_view what, const SourceNode& found, SourceLog& log) {
  log.add(found.place(), "expected " + std::string(what) + ", found " + describe(*found.node));
}

std::optional<Word> read_word(const SourceNode& node, SourceLog& log) {
  const auto* value = node.node->as_string();
  if (value == nullptr) {
    expected("a text in quotes", node, log);
    return std::nullopt;
  }
  const std::string& text = value->get();
  if (trim(text).empty()) {
    log.add(node.place(), "the text is blank");
    return std::nullopt;
  }
  if (printable(text) != text) {
    log.add(node.place(), "the text holds a line break or another control character; write it in one line");
    return std::nullopt;
  }
  return Word{text, node.place()};
}

std::vector<Word> read_words(const SourceNode& list, SourceLog& log) {
  const auto* array = list.node->as_array();
  if (array == nullptr) {
    expected("a list of texts", list, log);
    return {};
  }
  std::vector<Word> words;
  for (const toml::node& element : *array) {
    if (auto word = read_word(list.of(element), log)) words.push_back(std::move(*word));
  }
  return words;
}

std::optional<double> read_number(const SourceNode& node, SourceLog& log) {
  if (!node.node->is_number()) {
    expected("a number", node, log);
    return std::nullopt;
  }
  const double value = node.node->is_integer() ? static_cast<double>(node.node->as_integer()->get())
                                               : node.node->as_floating_point()->get();
  if (std::isfinite(value)) return value;
  log.add(node.place(), "'inf' and 'nan' are no values here");
  return std::nullopt;
}

std::optional<Span> read_span(const SourceNode& node, SourceLog& log) {
  const auto* pair = node.node->as_array();
  if (pair == nullptr || pair->size() != 2) {
    log.add(node.place(), pair == nullptr
                              ? "expected a range [low, high], found " + describe(*node.node)
                              : "expected a range [low, high], found a list of " + std::to_string(pair->size()));
    return std::nullopt;
  }
  const auto low = read_number(node.of(*pair->get(0)), log);
  const auto high = read_number(node.of(*pair->get(1)), log);
  if (!low || !high) return std::nullopt;
  if (*low > *high) {
    log.add(node.place(), "the range is inverted: " + show(*low) + " is more than " + show(*high));
    return std::nullopt;
  }
  return Span{*low, *high};
}

std::vector<KeyedNode> entries_of(const toml::table& table, const std::string& file) {
  std::vector<KeyedNode> entries;
  for (const auto& [key, value] : table) {
    entries.push_back({{std::string(key.str()), place_of(file, key.source())}, {&value, file}});
  }
  std::stable_sort(entries.begin(), entries.end(), [](const KeyedNode& a, const KeyedNode& b) {
    return std::pair(a.key.place.line, a.key.place.column) < std::pair(b.key.place.line, b.key.place.column);
  });
  return entries;
}

}  // namespace loomkey::catalogue
