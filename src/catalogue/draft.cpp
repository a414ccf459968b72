#include "catalogue/draft.h"

#include <algorithm>
#include <utility>

namespace loomkey::catalogue {
namespace {

bool well_formed_id(std::string_view id) {
  constexpr std::size_t longest = 48;
  const auto small = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
  return !id.empty() && id.size() <= longest && small(id.front()) &&
         std::all_of(id.begin(), id.end(), [&](char c) { return small(c) || c == '-' || c == '_'; });
}

}  // namespace

std::vector<Item> collect_items(std::vector<TableReader>& files, const std::string& key, Order order,
                                Registry& registry, Draft& draft) {
  std::vector<Item> items;
  std::vector<Item> unusable;
  FirstUse seen;
  for (TableReader& file : files) {
    for (TableReader& reader : file.tables(key)) {
      const std::size_t before = draft.log.size();
      const auto id = reader.word("id");
      bool usable = false;
      if (id) {
        reader.rename(key + " '" + id->text + "'");
        usable = well_formed_id(id->text);
        if (!usable) {
          draft.log.add(id->place, "an id is made of small letters, digits, '-' and '_', at most 48 of them");
        }
        if (draft.set_aside.contains({registry.kind(), id->text})) continue;
        usable = seen.claim(*id, registry.kind() + " id", draft.log) && usable;
      }
      auto& list = usable ? items : unusable;
      list.push_back(Item{std::move(reader), id ? id->text : std::string(), -1});
      for (std::size_t i = before; i < draft.log.size(); ++i) list.back().mistakes.push_back(i);
    }
  }
  if (order == Order::by_id) {
    std::sort(items.begin(), items.end(), [](const Item& a, const Item& b) { return a.id < b.id; });
  }
  for (Item& item : items) item.index = registry.add(item.id);
  std::move(unusable.begin(), unusable.end(), std::back_inserter(items));
  return items;
}

void record_item(const Item& item, const Registry& registry, std::size_t first, Draft& draft) {
  ItemRecord record{registry.kind(), item.id, item.index, item.reader.place(), item.mistakes};
  for (std::size_t i = first; i < draft.log.size(); ++i) record.mistakes.push_back(i);
  draft.records.push_back(std::move(record));
}

void demand_users(Draft& draft) {
  std::vector<bool> used(draft.knowledge.advice.size(), false);
  for (const auto& part : draft.knowledge.parts) {
    if (part.advice >= 0) used[static_cast<std::size_t>(part.advice)] = true;
  }
  for (const int meant : draft.meant_advice) {
    if (meant >= 0) used[static_cast<std::size_t>(meant)] = true;
  }
  for (ItemRecord& record : draft.records) {
    if (record.kind != draft.advice.kind() || record.index < 0 || used[static_cast<std::size_t>(record.index)])
      continue;
    record.mistakes.push_back(draft.log.size());
    draft.log.add(record.place, "advice '" + record.id + "' is used by no part");
  }
}

int resolve_key(TableReader& reader, std::string_view key, const Registry& registry, Need need, Draft& draft) {
  const auto word = reader.word(key, need);
  return word ? registry.resolve(*word, draft.log) : -1;
}

}  // namespace loomkey::catalogue
