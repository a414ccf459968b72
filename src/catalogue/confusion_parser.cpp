#include "catalogue/confusion_parser.h"

#include <utility>

#include "catalogue/rows.h"

namespace loomkey::catalogue {
namespace {

using knowledge::ConfusionSet;

// A member that the catalogue knows, and where the set names it.
struct Member {
  int part = -1;
  Word word;
};

std::vector<Member> read_members(Draft& draft, TableReader& reader) {
  const std::vector<Word> words = reader.words("members");
  const auto list = reader.find("members");
  // A list with anything unreadable in it has been reported already.
  const auto* array = list ? list->node->as_array() : nullptr;
  if (array != nullptr && array->size() < 2) {
    draft.log.add(list->place(), reader.title() + ": two members at least can be mixed up");
  }
  std::vector<Member> members;
  for (const Word& word : words) {
    if (const int part = draft.parts.resolve(word, draft.log); part >= 0) members.push_back({part, word});
  }
  return members;
}

std::vector<int> read_traits(Draft& draft, TableReader& reader) {
  const std::vector<Word> words = reader.words("traits");
  const auto list = reader.find("traits");
  const auto* array = list ? list->node->as_array() : nullptr;
  if (array != nullptr && array->empty()) {
    draft.log.add(list->place(), reader.title() + ": 'traits' names no trait");
  }
  std::vector<int> traits;
  for (const Word& word : words) {
    if (const int trait = draft.traits.resolve(word, draft.log); trait >= 0) traits.push_back(trait);
  }
  return traits;
}

// The member a twin is, or -1 after saying what is wrong with it.
int read_twin(Draft& draft, const Word& word, const ConfusionSet& set, const std::string& title) {
  const int part = draft.parts.resolve(word, draft.log);
  if (part < 0 || set.holds(part)) return part;
  draft.log.add(word.place, title + ": the twin '" + word.text + "' is no member of the set");
  return -1;
}

void read_twins(Draft& draft, TableReader& reader, ConfusionSet& set) {
  const auto list = reader.find("twins");
  if (!list) return;
  const auto* array = list->node->as_array();
  if (array == nullptr) {
    expected("a list of pairs [[\"a\", \"b\"]]", *list, draft.log);
    return;
  }
  for (const toml::node& element : *array) {
    const SourceNode node = list->of(element);
    const auto* pair = element.as_array();
    if (pair == nullptr || pair->size() != 2) {
      draft.log.add(node.place(), reader.title() + ": twins are pairs of two members");
      continue;
    }
    const std::vector<Word> words = read_words(node, draft.log);
    if (words.size() != 2) continue;
    const int a = read_twin(draft, words[0], set, reader.title());
    const int b = read_twin(draft, words[1], set, reader.title());
    if (a < 0 || b < 0) continue;
    if (a == b) {
      draft.log.add(words[1].place, reader.title() + ": '" + words[1].text + "' is no twin of itself");
    } else if (set.are_twins(a, b)) {
      draft.log.add(node.place(), reader.title() + ": these twins are given twice");
    } else {
      set.twins.emplace_back(a, b);
    }
  }
}

// One advice record for two members says that it does not matter which of them it is; then the set must say so too.
void refuse_shared_advice(Draft& draft, const std::vector<Member>& members, const ConfusionSet& set,
                          const std::string& title) {
  for (std::size_t j = 1; j < members.size(); ++j) {
    const int advice = at(draft.knowledge.parts, members[j].part).advice;
    if (advice < 0) continue;
    for (std::size_t i = 0; i < j; ++i) {
      if (at(draft.knowledge.parts, members[i].part).advice != advice) continue;
      if (set.are_twins(members[i].part, members[j].part)) continue;
      draft.log.add(members[j].word.place, title + ": '" + members[j].word.text + "' shares the advice record '" +
                                               at(draft.knowledge.advice, advice).id + "' with '" +
                                               members[i].word.text + "'; name the two as twins or part their advice");
    }
  }
}

}  // namespace

void parse_confusions(Draft& draft, TableReader file) {
  std::vector<TableReader> files{std::move(file)};
  std::vector<Item> items = collect_items(files, "confusion", Order::as_written, draft.confusions, draft);
  files.front().finish();
  for (Item& item : items) {
    const std::size_t before = draft.log.size();
    ConfusionSet set;
    item.reader.expect("id");
    set.id = item.id;
    set.name = item.reader.text("name");
    const std::vector<Member> members = read_members(draft, item.reader);
    for (const Member& member : members) set.parts.push_back(member.part);
    set.traits = read_traits(draft, item.reader);
    set.tell = item.reader.text("tell");
    read_twins(draft, item.reader, set);
    item.reader.finish();
    refuse_shared_advice(draft, members, set, item.reader.title());
    record_item(item, draft.confusions, before, draft);
    if (item.index >= 0) put_at(draft.knowledge.confusions, item.index, std::move(set));
  }
}

}  // namespace loomkey::catalogue
