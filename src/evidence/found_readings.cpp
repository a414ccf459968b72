#include "evidence/found_readings.h"

#include <algorithm>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "evidence/toml_text.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

constexpr std::size_t most_readings = 1000;
constexpr std::size_t longest_observer = 200;

}  // namespace

Result<void> FoundReadings::take_table(const toml::node& node) {
  const auto* table = node.as_table();
  if (table == nullptr) {
    return bad(node.source().begin,
               node.is_array_of_tables()
                   ? "expected one table [readings]; the blocks of further observers are [[reading]]"
                   : "expected a table [readings], found " + kind_of(node));
  }
  for (const Entry& entry : entries_of(*table)) {
    Found found;
    found.name = entry.key;
    found.name_at = entry.at;
    const auto* block = entry.node->as_table();
    auto taken = block != nullptr ? take_block(*block, std::move(found)) : take_value(*entry.node, std::move(found));
    if (!taken) return taken;
  }
  return {};
}

Result<void> FoundReadings::take_blocks(const toml::node& node) {
  const auto* list = node.as_array();
  if (list == nullptr) return bad(node.source().begin, "expected blocks [[reading]], found " + kind_of(node));
  for (const toml::node& item : *list) {
    const auto* block = item.as_table();
    if (block == nullptr) return bad(item.source().begin, "expected a block [[reading]], found " + kind_of(item));
    Found found;
    found.name_at = item.source().begin;
    if (auto taken = take_block(*block, std::move(found)); !taken) return taken;
  }
  return {};
}

std::vector<Found> FoundReadings::finish() {
  std::stable_sort(found_.begin(), found_.end(),
                   [](const Found& a, const Found& b) { return is_before(a.name_at, b.name_at); });
  return std::move(found_);
}

// { value = ..., sure = ..., by = ..., said = ... }; without a name it must hold a key `trait`.
Result<void> FoundReadings::take_block(const toml::table& table, Found found) {
  const toml::node* value = nullptr;
  const bool named = !found.name.empty();
  for (const Entry& entry : entries_of(table)) {
    if (entry.key == "value") {
      value = entry.node;
    } else if (auto taken = take_word(entry, found, named); !taken) {
      return taken;
    }
  }
  if (trim(found.name).empty()) return bad(found.name_at, "this reading names no 'trait'");
  if (value == nullptr) return bad(found.name_at, "the reading of " + quoted(found.name) + " has no 'value'");
  return take_value(*value, std::move(found));
}

Result<void> FoundReadings::take_word(const Entry& entry, Found& found, bool named) const {
  std::vector<std::string> known = {"value", "sure", "by", "said"};
  if (!named) known.emplace_back("trait");
  const auto& at = entry.node->source().begin;
  if (!is_one_of(known, entry.key)) {
    return bad(entry.at, "unknown key " + quoted(entry.key) + " in a reading." + did_you_mean(entry.key, known) +
                             " Known keys: " + join(known, ", "));
  }
  const auto* node = entry.node->as_string();
  if (node == nullptr) return bad(at, "expected a text for '" + entry.key + "', found " + kind_of(*entry.node));
  const std::string& text = node->get();
  if (entry.key == "trait") {
    found.name = text;
    found.name_at = at;
  } else if (entry.key == "said") {
    found.said = text;
  } else if (entry.key == "by") {
    found.observer = trim(text);
    if (found.observer.size() > longest_observer) return bad(at, "the name of the observer is too long");
  } else {
    const auto certainty = certainty_of(text);
    if (!certainty) return bad(at, "expected 'sure', 'think so' or 'guess' for 'sure', found " + quoted(text));
    found.certainty = *certainty;
  }
  return {};
}

Result<void> FoundReadings::take_value(const toml::node& node, Found found) {
  found.value_at = node.source().begin;
  const int trait = knowledge_->trait(found.name);
  const bool set = trait >= 0 && knowledge_->traits[static_cast<std::size_t>(trait)].kind == knowledge::TraitKind::set;
  auto text = scalar_text(node);
  if (!text && set) text = list_text(node);
  if (!text) {
    return bad(found.value_at, std::string("expected ") +
                                   (set ? "a text or a list of single texts" : "a single value") + " for " +
                                   quoted(found.name) + ", found " + kind_of(node));
  }
  if (found_.size() == most_readings) return bad(found.name_at, "more than 1,000 readings are not taken");
  found.value = std::move(*text);
  found_.push_back(std::move(found));
  return {};
}

tl::unexpected<Error> FoundReadings::bad(const toml::source_position& at, std::string what) const {
  return fail(ErrorKind::input, std::move(what), place_text(file_, at));
}

}  // namespace loomkey::evidence
