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
      const auto id = reader.word("id");
      bool usable = false;
      if (id) {
        reader.rename(key + " '" + id->text + "'");
        usable = well_formed_id(id->text);
        if (!usable) {
          draft.log.add(id->place, "an id is made of small letters, digits, '-' and '_', at most 48 of them");
        }
        usable = seen.claim(*id, registry.kind() + " id", draft.log) && usable;
      }
      auto& list = usable ? items : unusable;
      list.push_back(Item{std::move(reader), id ? id->text : std::string(), -1});
    }
  }
  if (order == Order::by_id) {
    std::sort(items.begin(), items.end(), [](const Item& a, const Item& b) { return a.id < b.id; });
  }
  for (std::size_t i = 0; i < items.size(); ++i) {
    items[i].index = static_cast<int>(i);
    registry.add(items[i].id);
  }
  std::move(unusable.begin(), unusable.end(), std::back_inserter(items));
  return items;
}

int resolve_key(TableReader& reader, std::string_view key, const Registry& registry, Need need, Draft& draft) {
  const auto word = reader.word(key, need);
  return word ? registry.resolve(*word, draft.log) : -1;
}

}  // namespace loomkey::catalogue
