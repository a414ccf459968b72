#include "catalogue/vocabulary_parser.h"

#include <algorithm>
#include <functional>
#include <utility>

namespace loomkey::catalogue {
namespace {

constexpr double most_faded = 0.6;  // a colour that is mostly seen as another could not be found again
constexpr double dearest = 1000.0;

std::vector<Item> items_of(Draft& draft, TableReader file, const std::string& key, Registry& registry) {
  std::vector<TableReader> files{std::move(file)};
  std::vector<Item> items = collect_items(files, key, Order::as_written, registry, draft);
  files.front().finish();
  for (Item& item : items) item.reader.expect("id");
  return items;
}

// Keeps what was read, unless its id is unusable.
template <typename T>
void keep(std::vector<T>& list, Item& item, T value) {
  item.reader.finish();
  if (item.index >= 0) list.push_back(std::move(value));
}

}  // namespace

void parse_bases(Draft& draft, TableReader file) {
  const std::vector<std::string> kinds = {"standard", "handbook", "practice", "memory"};
  for (Item& item : items_of(draft, std::move(file), "basis", draft.bases)) {
    const auto kind = static_cast<knowledge::Basis::Kind>(item.reader.one_of("kind", kinds).value_or(3));
    keep(draft.knowledge.bases, item, {item.id, kind, item.reader.text("text")});
  }
}

void parse_efforts(Draft& draft, TableReader file) {
  std::vector<TableReader> files{std::move(file)};
  auto tools = collect_items(files, "tool", Order::as_written, draft.tools, draft);
  auto efforts = collect_items(files, "effort", Order::as_written, draft.efforts, draft);
  files.front().finish();
  for (Item& item : tools) {
    item.reader.expect("id");
    std::string name = item.reader.text("name");
    const double fetch = item.reader.number("fetch", 0.0, dearest).value_or(0.0);
    keep(draft.knowledge.tools, item, {item.id, std::move(name), fetch});
  }
  for (Item& item : efforts) {
    item.reader.expect("id");
    knowledge::Effort effort{item.id, item.reader.text("name"), 1.0, -1};
    effort.cost = item.reader.number("cost", 0.01, dearest).value_or(1.0);
    effort.tool = resolve_key(item.reader, "tool", draft.tools, Need::optional, draft);
    keep(draft.knowledge.efforts, item, std::move(effort));
  }
}

void parse_groups(Draft& draft, TableReader file) {
  for (Item& item : items_of(draft, std::move(file), "group", draft.groups)) {
    knowledge::Group group{item.id, item.reader.text("name"), 0.0, 0.0};
    group.switched = item.reader.number("switch", 0.0, 0.99).value_or(0.0);
    group.overlap = item.reader.number("overlap", 0.0, 0.99).value_or(0.0);
    keep(draft.knowledge.groups, item, std::move(group));
  }
}

void parse_colours(Draft& draft, TableReader file) {
  draft.knowledge.tracer_lost = file.number("tracer_lost", 0.0, 0.9).value_or(0.0);
  draft.knowledge.dark_chance = file.number("dark_chance", 0.0, 0.9).value_or(0.0);
  for (Item& item : items_of(draft, std::move(file), "colour", draft.colours)) {
    knowledge::Colour colour{item.id, {}};
    if (item.id == "dark") draft.log.add(item.reader.place(), "'dark' is the answer 'too dirty to tell' and no colour");
    double total = draft.knowledge.dark_chance;
    if (const auto becomes = item.reader.table("becomes", item.reader.title() + ", becomes")) {
      for (const KeyedNode& entry : entries_of(becomes->table(), becomes->place().file)) {
        const int other = draft.colours.resolve(entry.key, draft.log);
        const auto chance = read_number(entry.value, draft.log);
        if (!chance || other < 0) continue;
        if (other == item.index) draft.log.add(entry.key.place, "a colour cannot become itself");
        if (*chance <= 0.0 || *chance >= most_faded) {
          draft.log.add(entry.value.place(), "a chance must lie above 0 and below " + show(most_faded));
          continue;
        }
        total += *chance;
        colour.becomes.emplace_back(other, *chance);
      }
    }
    if (total >= most_faded) {
      draft.log.add(item.reader.place(), item.reader.title() + ": the chances sum to " + show(total) +
                                             " with dark_chance; keep them below " + show(most_faded));
    }
    keep(draft.knowledge.colours, item, std::move(colour));
  }
}

void parse_familiar(Draft& draft, TableReader file) {
  Registry things("thing");
  FirstUse names;
  for (Item& item : items_of(draft, std::move(file), "thing", things)) {
    knowledge::FamiliarThing thing{item.id, {}, {}, 0.2};
    auto written = item.reader.words("names");
    if (written.empty() && item.reader.has("names")) {
      draft.log.add(item.reader.place(), item.reader.title() + ": 'names' gives no name");
    }
    for (Word& name : written) {
      if (names.claim(name, "name", draft.log)) thing.names.push_back(std::move(name.text));
    }
    if (const auto size = item.reader.find("size", Need::required)) {
      const auto* list = size->node->as_array();
      if (list == nullptr || list->size() < 2 || list->size() > 3) {
        draft.log.add(size->place(), "'size' takes two or three measures in mm, longest first");
      } else {
        for (const toml::node& element : *list) {
          if (const auto measure = read_number(size->of(element), draft.log)) thing.size.push_back(*measure);
        }
        if (!std::is_sorted(thing.size.begin(), thing.size.end(), std::greater<>())) {
          draft.log.add(size->place(), "'size' must be sorted, longest first");
        }
        if (!thing.size.empty() && (thing.size.back() <= 0.0 || thing.size.front() > 5000.0)) {
          draft.log.add(size->place(), "'size' is in mm: above 0 and at most 5000");
        }
      }
    }
    thing.spread = item.reader.number("spread", 0.01, 0.9).value_or(0.2);
    item.reader.text("basis", Need::optional);
    keep(draft.knowledge.familiar, item, std::move(thing));
  }
}

void parse_symptoms(Draft& draft, TableReader file) {
  for (Item& item : items_of(draft, std::move(file), "symptom", draft.symptoms)) {
    keep(draft.knowledge.symptoms, item, {item.id, item.reader.text("name")});
  }
}

void parse_cautions(Draft& draft, TableReader file) {
  for (Item& item : items_of(draft, std::move(file), "caution", draft.cautions)) {
    knowledge::Caution caution{item.id, 0, {}, {}};
    caution.order = item.reader.integer("order", 1, 99).value_or(99);
    caution.hazard = item.reader.text("hazard");
    caution.text = item.reader.text("text");
    keep(draft.knowledge.cautions, item, std::move(caution));
  }
}

}  // namespace loomkey::catalogue
