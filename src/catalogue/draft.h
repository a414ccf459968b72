#pragma once

#include <set>
#include <string>
#include <vector>

#include "catalogue/registry.h"
#include "catalogue/source_log.h"
#include "catalogue/toml_reader.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

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
};

// One [[part]], [[trait]], ... with a usable id, or index -1 when the id is missing, malformed or taken.
struct Item {
  TableReader reader;
  std::string id;
  int index = -1;
};

enum class Order { as_written, by_id };

// Reads the list `key` of every file, checks the ids and registers them. Items that cannot be kept (index -1) are
// returned too, so that the rest of what is wrong with them is found; they come last.
std::vector<Item> collect_items(std::vector<TableReader>& files, const std::string& key, Order order,
                                Registry& registry, Draft& draft);

// Resolves the word at `key`, if any; -1 otherwise.
int resolve_key(TableReader& reader, std::string_view key, const Registry& registry, Need need, Draft& draft);

}  // namespace loomkey::catalogue
