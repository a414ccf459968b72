#include "catalogue/trait_parser.h"

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include "catalogue/claim_parser.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Layer;
using knowledge::SetItems;
using knowledge::Special;
using knowledge::Trait;
using knowledge::TraitKind;

constexpr double most_confused = 0.6;  // beyond this an answer says little about the state
constexpr double count_slip = 0.04;    // chance that a count is one too low, and as much one too high
constexpr double any_number = 1e12;

bool well_formed_state(std::string_view id) {
  return !id.empty() && id.size() <= 32 && id != "verify" && id != "basis" &&
         std::all_of(id.begin(), id.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '+';
         });
}

void read_states(TableReader& reader, Trait& trait, SourceLog& log) {
  FirstUse seen;
  for (TableReader& entry : reader.tables("states")) {
    const auto id = entry.word("id");
    std::string name = entry.text("name");
    entry.finish();
    if (!id) continue;
    if (!well_formed_state(id->text)) {
      log.add(id->place, "a state id is made of small letters, digits, '-', '_', '+', and is not 'verify' or 'basis'");
    } else if (seen.claim(*id, "state", log)) {
      trait.states.push_back({id->text, std::move(name)});
    }
  }
  if (trait.states.size() < 2 && reader.has("states")) {
    log.add(reader.place(), reader.title() + ": a choice needs two states at least");
  }
}

int resolve_state(TableReader& entry, std::string_view key, const Trait& trait, SourceLog& log) {
  const auto word = entry.word(key);
  if (!word) return -1;
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < trait.states.size(); ++i) {
    if (trait.states[i].id == word->text) return static_cast<int>(i);
    ids.push_back(trait.states[i].id);
  }
  log.add(word->place, unknown("state", word->text, ids));
  return -1;
}

void slip(Trait& trait, std::size_t from, std::size_t to, double p) {
  trait.seen[from][from] -= p;
  trait.seen[from][to] += p;
}

void read_observer(TableReader& reader, Trait& trait, SourceLog& log) {
  const std::size_t count = trait.states.size();
  trait.seen.assign(count, std::vector<double>(count, 0.0));
  for (std::size_t s = 0; s < count; ++s) trait.seen[s][s] = 1.0;
  std::map<std::pair<int, int>, Place> known;
  for (TableReader& entry : reader.tables("confusions", Need::optional)) {
    const int from = resolve_state(entry, "from", trait, log);
    const int to = resolve_state(entry, "to", trait, log);
    const auto p = entry.number("p", 0.0, most_confused);
    const bool both = entry.flag("both");
    entry.finish();
    if (from < 0 || to < 0 || !p) continue;
    if (from == to) {
      log.add(entry.place(), reader.title() + ": a state cannot be mistaken for itself");
      continue;
    }
    const auto mistake = [&](int a, int b) {
      const auto [first, fresh] = known.emplace(std::pair(a, b), entry.place());
      if (fresh) {
        slip(trait, static_cast<std::size_t>(a), static_cast<std::size_t>(b), *p);
        return;
      }
      log.add(entry.place(), reader.title() + ": '" + trait.states[static_cast<std::size_t>(a)].id + "' taken for '" +
                                 trait.states[static_cast<std::size_t>(b)].id + "' is given twice; first at " +
                                 first->second.text());
    };
    mistake(from, to);
    if (both) mistake(to, from);
  }
  if (reader.flag("counting")) {
    for (std::size_t s = 0; s + 1 < count; ++s) {
      slip(trait, s, s + 1, count_slip);
      slip(trait, s + 1, s, count_slip);
    }
  }
  for (std::size_t s = 0; s < count; ++s) {
    if (trait.seen[s][s] <= 1.0 - most_confused) {
      log.add(reader.place(), reader.title() + ": state '" + trait.states[s].id + "' is mistaken in " +
                                  show(1.0 - trait.seen[s][s]) + " of all cases; keep the sum below " +
                                  show(most_confused));
    }
  }
}

void read_number(TableReader& reader, Trait& trait, SourceLog& log) {
  trait.unit = reader.text("unit");
  trait.log_scale = reader.one_of("scale", {"linear", "log"}).value_or(1) == 1;
  const auto range = reader.span("range");
  if (range) {
    trait.low = range->low;
    trait.high = range->high;
    if (range->low >= range->high) log.add(reader.place(), reader.title() + ": 'range' is a single point");
    if (trait.log_scale && range->low <= 0.0) {
      log.add(reader.place(), reader.title() + ": a logarithmic scale needs a 'range' above 0");
    }
  }
  trait.soft = reader.number("soft", 1e-6, any_number).value_or(0.0);
  if (auto error = reader.table("error", reader.title() + ", error")) {
    trait.relative_error = error->number("relative", 0.0, 1.0).value_or(0.0);
    trait.absolute_error = error->number("absolute", 0.0, any_number).value_or(0.0);
    error->finish();
  }
  const std::vector<std::string> known(knowledge::special_ids.begin(), knowledge::special_ids.end());
  for (const Word& word : reader.words("extras", Need::optional)) {
    const auto at = std::find(known.begin(), known.end(), word.text);
    if (at == known.end()) {
      log.add(word.place, unknown("answer", word.text, known));
    } else {
      trait.allows[static_cast<std::size_t>(at - known.begin())] = true;
    }
  }
  // A terminal that is not there has no resistance, but every body has a size: only a trait with other special answers
  // may not apply.
  if (reader.has("extras")) trait.allows[static_cast<std::size_t>(Special::does_not_apply)] = true;
  trait.low_ohm = reader.flag("low_ohm");
}

void read_kind(Draft& draft, TableReader& reader, Trait& trait) {
  const auto kind = reader.one_of("kind", {"choice", "yesno", "number", "set"});
  if (!kind) return;
  switch (*kind) {
    case 0:
      read_states(reader, trait, draft.log);
      read_observer(reader, trait, draft.log);
      break;
    case 1:
      trait.states = {{"no", "no"}, {"yes", "yes"}};
      read_observer(reader, trait, draft.log);
      break;
    case 2:
      trait.kind = TraitKind::number;
      read_number(reader, trait, draft.log);
      break;
    default:
      trait.kind = TraitKind::set;
      trait.items =
          reader.one_of("items", {"letters", "colours"}).value_or(0) == 0 ? SetItems::letters : SetItems::colours;
      trait.none_name = reader.text("none");
  }
}

Trait parse_trait(Draft& draft, TableReader& reader, Layer layer) {
  Trait trait;
  reader.expect("id");
  trait.layer = layer;
  trait.name = reader.text("name");
  trait.ask = reader.text("ask");
  trait.how = reader.text("how");
  trait.effort = std::max(0, resolve_key(reader, "effort", draft.efforts, Need::required, draft));
  trait.group = resolve_key(reader, "group", draft.groups, Need::optional, draft);
  trait.hazard = reader.text("hazard", Need::optional);
  const bool by_effort =
      !draft.efforts.ids().empty() && draft.efforts.ids()[static_cast<std::size_t>(trait.effort)] == "run";
  trait.runs = by_effort || trait.hazard.starts_with("runs");
  trait.asked_with = reader.texts("needs_letters", Need::optional);
  read_kind(draft, reader, trait);
  reader.expect("unless_stated");
  // Without a kind, half of the keys would look unknown.
  if (reader.has("kind")) reader.finish();
  return trait;
}

}  // namespace

void parse_traits(Draft& draft, const std::vector<TraitFile>& files) {
  std::vector<TableReader> readers;
  std::map<std::string, Layer> layers;
  for (const TraitFile& file : files) {
    layers[file.reader.place().file] = file.layer;
    readers.push_back(file.reader);
  }
  std::vector<Item> items = collect_items(readers, "trait", Order::as_written, draft.traits, draft);
  for (TableReader& reader : readers) reader.finish();
  for (Item& item : items) {
    const std::size_t before = draft.log.size();
    Trait trait = parse_trait(draft, item.reader, layers[item.reader.place().file]);
    trait.id = item.id;
    if (item.index < 0) continue;
    if (draft.log.size() != before) draft.broken_traits.insert(item.index);
    draft.knowledge.traits.push_back(std::move(trait));
    if (const auto silent = item.reader.find("unless_stated")) {
      draft.knowledge.traits.back().unless_stated = parse_claim(draft, item.index, *silent);
      if (!draft.knowledge.traits.back().unless_stated) draft.broken_traits.insert(item.index);
    }
  }
}

}  // namespace loomkey::catalogue
