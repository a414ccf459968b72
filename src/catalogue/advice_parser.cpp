#include "catalogue/advice_parser.h"

#include <utility>

#include "catalogue/claim_parser.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Advice;
using knowledge::Substitute;

const std::vector<std::string>& prices() {
  static const std::vector<std::string> names = {"harmless", "money", "burnt-part", "burnt-loom", "injury"};
  return names;
}

Substitute parse_substitute(Draft& draft, TableReader& reader) {
  Substitute substitute;
  substitute.what = reader.text("what");
  substitute.when = reader.texts("when");
  substitute.not_when = reader.texts("not_when", Need::optional);
  substitute.connect = reader.text("connect", Need::optional);
  substitute.connect_positive = reader.text("connect_positive", Need::optional);
  substitute.connect_negative = reader.text("connect_negative", Need::optional);
  substitute.basis = resolve_key(reader, "basis", draft.bases, Need::optional, draft);
  reader.finish();
  return substitute;
}

Advice parse_record(Draft& draft, TableReader& reader, int self) {
  Advice advice;
  reader.expect("id");
  advice.title = reader.text("title");
  advice.function = reader.text("function");
  advice.needed = reader.text("needed");
  advice.price = static_cast<knowledge::Price>(reader.one_of("price", prices()).value_or(1));
  for (const Word& word : reader.words("harmless_if", Need::optional)) {
    const int other = draft.advice.resolve(word, draft.log);
    if (other >= 0 && other == self) {
      draft.log.add(word.place, reader.title() + ": acting on it is harmless if it is right, that goes without saying");
    } else if (other >= 0) {
      advice.harmless_if.push_back(other);
    }
  }
  for (const Word& word : reader.words("cautions")) {
    const int caution = draft.cautions.resolve(word, draft.log);
    if (caution >= 0) advice.cautions.push_back(caution);
  }
  advice.basis = resolve_key(reader, "basis", draft.bases, Need::required, draft);
  for (TableReader& entry : reader.tables("substitute")) {
    entry.rename(reader.title() + ", substitute");
    advice.substitutes.push_back(parse_substitute(draft, entry));
  }
  reader.finish();
  return advice;
}

}  // namespace

void parse_families(Draft& draft, std::vector<TableReader> files) {
  std::vector<Item> items = collect_items(files, "family", Order::by_id, draft.families, draft);
  for (TableReader& file : files) file.finish();
  for (Item& item : items) {
    const std::size_t before = draft.log.size();
    knowledge::Family family;
    item.reader.expect("id");
    family.id = item.id;
    family.name = item.reader.text("name");
    family.does = item.reader.text("does");
    ClaimList list;
    if (auto claims = item.reader.table("claims", item.reader.title() + ", claims", Need::optional)) {
      list.read(draft, *claims, std::nullopt);
      family.claims = list.take();
    }
    item.reader.finish();
    record_item(item, draft.families, before, draft);
    if (item.index < 0) continue;
    put_at(draft.knowledge.families, item.index, std::move(family));
    put_at(draft.family_mentions, item.index, list.mentioned());
  }
}

void parse_advice(Draft& draft, std::vector<TableReader> files) {
  std::vector<Item> items = collect_items(files, "advice", Order::by_id, draft.advice, draft);
  for (TableReader& file : files) file.finish();
  for (Item& item : items) {
    const std::size_t before = draft.log.size();
    Advice advice = parse_record(draft, item.reader, item.index);
    advice.id = item.id;
    record_item(item, draft.advice, before, draft);
    if (item.index >= 0) put_at(draft.knowledge.advice, item.index, std::move(advice));
  }
}

}  // namespace loomkey::catalogue
