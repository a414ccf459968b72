#include "catalogue/toml_reader.h"

#include <algorithm>
#include <utility>

namespace loomkey::catalogue {

TableReader::TableReader(const toml::table& table, std::string file, std::string title, SourceLog& log)
    : table_(&table), file_(std::move(file)), title_(std::move(title)), log_(&log) {}

Place TableReader::place() const { return place_of(file_, table_->source()); }

std::optional<SourceNode> TableReader::find(std::string_view key, Need need) {
  expect(key);
  if (const toml::node* node = table_->get(key)) return SourceNode{node, file_};
  if (need == Need::required) log_->add(place(), title_ + ": '" + std::string(key) + "' is missing");
  return std::nullopt;
}

std::optional<Word> TableReader::word(std::string_view key, Need need) {
  const auto node = find(key, need);
  return node ? read_word(*node, *log_) : std::nullopt;
}

std::string TableReader::text(std::string_view key, Need need) {
  auto found = word(key, need);
  return found ? std::move(found->text) : std::string();
}

std::optional<std::size_t> TableReader::one_of(std::string_view key, const std::vector<std::string>& known, Need need) {
  const auto found = word(key, need);
  if (!found) return std::nullopt;
  const auto at = std::find(known.begin(), known.end(), found->text);
  if (at != known.end()) return static_cast<std::size_t>(at - known.begin());
  log_->add(found->place, unknown(key, found->text, known));
  return std::nullopt;
}

std::vector<Word> TableReader::words(std::string_view key, Need need) {
  const auto node = find(key, need);
  if (!node) return {};
  std::vector<Word> kept;
  FirstUse seen;
  for (Word& entry : read_words(*node, *log_)) {
    if (seen.claim(entry, key, *log_)) kept.push_back(std::move(entry));
  }
  return kept;
}

std::vector<std::string> TableReader::texts(std::string_view key, Need need) {
  std::vector<std::string> out;
  for (Word& entry : words(key, need)) out.push_back(std::move(entry.text));
  return out;
}

bool TableReader::flag(std::string_view key) {
  const auto node = find(key);
  if (!node) return false;
  if (const auto* value = node->node->as_boolean()) return value->get();
  expected("true or false", *node, *log_);
  return false;
}

std::optional<double> TableReader::number(std::string_view key, double low, double high, Need need) {
  const auto node = find(key, need);
  if (!node) return std::nullopt;
  const auto value = read_number(*node, *log_);
  if (!value || (*value >= low && *value <= high)) return value;
  log_->add(node->place(), "'" + std::string(key) + "' is " + show(*value) + "; it must lie between " + show(low) +
                               " and " + show(high));
  return std::nullopt;
}

std::optional<int> TableReader::integer(std::string_view key, int low, int high, Need need) {
  const auto node = find(key, need);
  if (!node) return std::nullopt;
  const auto* value = node->node->as_integer();
  if (value == nullptr) {
    expected("a whole number", *node, *log_);
    return std::nullopt;
  }
  if (value->get() >= low && value->get() <= high) return static_cast<int>(value->get());
  log_->add(node->place(),
            "'" + std::string(key) + "' must lie between " + std::to_string(low) + " and " + std::to_string(high));
  return std::nullopt;
}

std::vector<int> TableReader::integers(std::string_view key, int low, int high) {
  const auto node = find(key);
  if (!node) return {};
  const auto* list = node->node->as_array();
  if (list == nullptr) {
    expected("a list of whole numbers", *node, *log_);
    return {};
  }
  std::vector<int> out;
  FirstUse seen;
  for (const toml::node& element : *list) {
    const SourceNode item = node->of(element);
    const auto* value = element.as_integer();
    if (value == nullptr) {
      expected("a whole number", item, *log_);
    } else if (value->get() < low || value->get() > high) {
      log_->add(item.place(), "every one of '" + std::string(key) + "' must lie between " + std::to_string(low) +
                                  " and " + std::to_string(high));
    } else if (seen.claim({std::to_string(value->get()), item.place()}, key, *log_)) {
      out.push_back(static_cast<int>(value->get()));
    }
  }
  return out;
}

std::optional<Span> TableReader::span(std::string_view key, Need need) {
  const auto node = find(key, need);
  return node ? read_span(*node, *log_) : std::nullopt;
}

std::optional<TableReader> TableReader::table(std::string_view key, std::string title, Need need) {
  const auto node = find(key, need);
  if (!node) return std::nullopt;
  if (const auto* inner = node->node->as_table()) return TableReader(*inner, file_, std::move(title), *log_);
  expected("a table", *node, *log_);
  return std::nullopt;
}

std::vector<TableReader> TableReader::tables(std::string_view key, Need need) {
  const auto node = find(key, need);
  if (!node) return {};
  const auto* list = node->node->as_array();
  if (list == nullptr) {
    expected("a list of tables, each headed [[" + std::string(key) + "]],", *node, *log_);
    return {};
  }
  std::vector<TableReader> readers;
  for (const toml::node& element : *list) {
    if (const auto* inner = element.as_table()) {
      readers.emplace_back(*inner, file_, std::string(key), *log_);
    } else {
      expected("a table", node->of(element), *log_);
    }
  }
  return readers;
}

void TableReader::finish() {
  for (const KeyedNode& entry : entries_of(*table_, file_)) {
    if (std::find(known_.begin(), known_.end(), entry.key.text) == known_.end()) {
      log_->add(entry.key.place, title_ + ": " + unknown("key", entry.key.text, known_));
    }
  }
}

}  // namespace loomkey::catalogue
