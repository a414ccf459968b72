#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "catalogue/registry.h"
#include "catalogue/source_log.h"
#include "catalogue/toml_reader.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// Which entries of the log one part, advice record, family or confusion set is answerable for.
struct ItemRecord {
  std::string kind;  // of its registry: "part"
  std::string id;    // as written, be it unusable
  int index = -1;    // -1 when the id is missing, malformed or taken
  Place place;
  std::vector<std::size_t> mistakes;
};

// The knowledge while it is being put together: what has been read, the ids that may be named, and what is wrong.
struct Draft {
  knowledge::Knowledge knowledge;
  SourceLog log;

  Registry efforts{"effort"};
  Registry tools{"tool"};
  Registry groups{"group"};
  Registry colours{"colour"};
  Registry symptoms{"symptom"};
  Registry bases{"basis"};
  Registry cautions{"caution"};
  Registry traits{"trait"};
  Registry families{"family"};
  Registry advice{"advice record"};
  Registry parts{"part"};
  Registry confusions{"confusion set"};

  // Traits that are wrong themselves: their claims are not judged, one mistake shall not be reported a hundred times.
  std::set<int> broken_traits;
  // Per family: the traits it speaks of, be it wrongly.
  std::vector<std::set<int>> family_mentions;
  // Advice that a misspelt name was likely meant for: it counts as used.
  std::set<int> meant_advice;
  // Items to pass over, by kind and id: what is read once more without its mistakes.
  std::set<std::pair<std::string, std::string>> set_aside;
  std::vector<ItemRecord> records;
};

// One [[part]], [[trait]], ... with a usable id, or index -1 when the id is missing, malformed or taken.
struct Item {
  TableReader reader;
  std::string id;
  int index = -1;
  std::vector<std::size_t> mistakes = {};  // entries of the log about its id
};

enum class Order { as_written, by_id };

// Reads the list `key` of every file, checks the ids and registers them; an id that is registered already keeps its
// index. Items that cannot be kept (index -1) are
// returned too, so that the rest of what is wrong with them is found; they come last.
std::vector<Item> collect_items(std::vector<TableReader>& files, const std::string& key, Order order,
                                Registry& registry, Draft& draft);

// Notes that the entries of the log from `first` on are about this item.
void record_item(const Item& item, const Registry& registry, std::size_t first, Draft& draft);

// An advice record that was read and that no part names is never given; most likely the part's `advice` was misspelt.
void demand_users(Draft& draft);

// Puts a value at an index of a list, which grows as far as need be.
template <typename T>
void put_at(std::vector<T>& list, int index, T value) {
  const auto place = static_cast<std::size_t>(index);
  if (list.size() <= place) list.resize(place + 1);
  list[place] = std::move(value);
}

// Resolves the word at `key`, if any; -1 otherwise.
int resolve_key(TableReader& reader, std::string_view key, const Registry& registry, Need need, Draft& draft);

}  // namespace loomkey::catalogue
