#include "catalogue/claim_parser.h"

#include <algorithm>
#include <array>
#include <utility>

namespace loomkey::catalogue {
namespace {

using knowledge::Claim;
using knowledge::Trait;
using knowledge::TraitKind;

struct Frequency {
  const char* word;
  double value;
};
constexpr std::array<Frequency, 5> frequencies = {
    {{"always", 0.97}, {"usual", 0.80}, {"sometimes", 0.25}, {"rare", 0.05}, {"never", 0.005}}};
constexpr double always = frequencies[0].value;
constexpr double usual = frequencies[1].value;
constexpr std::size_t most_items = 7;
constexpr std::size_t longest_mark = 12;

// verify and basis, which any claim written as a table may carry.
void read_modifiers(Draft& draft, TableReader& table, Claim& claim) {
  claim.verify = table.flag("verify");
  claim.basis = resolve_key(table, "basis", draft.bases, Need::optional, draft);
}

void normalise(Claim& claim) {
  double total = 0.0;
  for (const double share : claim.states) total += share;
  for (const auto& range : claim.ranges) total += range.share;
  for (const double share : claim.special) total += share;
  for (const auto& set : claim.sets) total += set.share;
  if (total <= 0.0) return;
  for (double& share : claim.states) share /= total;
  for (auto& range : claim.ranges) range.share /= total;
  for (double& share : claim.special) share /= total;
  for (auto& set : claim.sets) set.share /= total;
}

std::vector<std::string> state_ids(const Trait& trait) {
  std::vector<std::string> ids;
  for (const auto& state : trait.states) ids.push_back(state.id);
  return ids;
}

std::string quoted(const Trait& trait) { return "trait '" + trait.id + "'"; }

// ---- choice

void add_state(Draft& draft, const Trait& trait, Claim& claim, const Word& state, double share) {
  const auto ids = state_ids(trait);
  const auto at = std::find(ids.begin(), ids.end(), state.text);
  if (at == ids.end()) {
    draft.log.add(state.place, quoted(trait) + ": " + unknown("state", state.text, ids));
  } else {
    claim.states[static_cast<std::size_t>(at - ids.begin())] = share;
  }
}

void read_choice(Draft& draft, const Trait& trait, const SourceNode& node, Claim& claim) {
  claim.states.assign(trait.states.size(), 0.0);
  if (node.node->is_string()) {
    if (const auto word = read_word(node, draft.log)) add_state(draft, trait, claim, *word, always);
    return;
  }
  if (node.node->is_array()) {
    FirstUse seen;
    const auto words = read_words(node, draft.log);
    if (words.empty()) draft.log.add(node.place(), quoted(trait) + ": the list names no state");
    for (const Word& word : words) {
      if (seen.claim(word, "state", draft.log)) add_state(draft, trait, claim, word, usual);
    }
    return;
  }
  const auto* table = node.node->as_table();
  if (table == nullptr) {
    expected("a state of " + quoted(trait) + " in quotes, or a table of states with frequencies,", node, draft.log);
    return;
  }
  TableReader reader(*table, node.file, quoted(trait), draft.log);
  read_modifiers(draft, reader, claim);
  bool any = false;
  for (const KeyedNode& entry : entries_of(*table, node.file)) {
    if (entry.key.text == "verify" || entry.key.text == "basis") continue;
    any = true;
    const auto share = parse_frequency(entry.value, draft.log);
    add_state(draft, trait, claim, entry.key, share.value_or(usual));
  }
  if (!any) draft.log.add(node.place(), quoted(trait) + ": the claim names no state");
}

// ---- number

void add_range(Draft& draft, const Trait& trait, Claim& claim, const SourceNode& node, std::optional<Span> span,
               double share) {
  if (!span) return;
  if (span->low < trait.low || span->high > trait.high) {
    draft.log.add(node.place(), quoted(trait) + ": the range " + show(span->low) + " to " + show(span->high) +
                                    " lies outside " + show(trait.low) + " to " + show(trait.high) + " " + trait.unit);
    return;
  }
  for (const auto& other : claim.ranges) {
    if (other.low == span->low && other.high == span->high) {
      draft.log.add(node.place(), quoted(trait) + ": the same range is given twice");
      return;
    }
  }
  claim.ranges.push_back({span->low, span->high, share});
}

std::vector<std::string> special_words(const Trait& trait) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < knowledge::special_count; ++i) {
    if (trait.allows[i]) words.emplace_back(knowledge::special_ids[i]);
  }
  return words;
}

void add_special(Draft& draft, const Trait& trait, Claim& claim, const Word& word) {
  const auto words = special_words(trait);
  if (std::find(words.begin(), words.end(), word.text) == words.end()) {
    draft.log.add(word.place, quoted(trait) + ": " + unknown("answer", word.text, words));
    return;
  }
  const auto at = std::find(knowledge::special_ids.begin(), knowledge::special_ids.end(), word.text);
  claim.special[static_cast<std::size_t>(at - knowledge::special_ids.begin())] = always;
}

void read_number_table(Draft& draft, const Trait& trait, const SourceNode& node, Claim& claim) {
  TableReader table(*node.node->as_table(), node.file, quoted(trait), draft.log);
  read_modifiers(draft, table, claim);
  const auto often = table.find("often");
  const double share = often ? parse_frequency(*often, draft.log).value_or(always) : always;
  const auto one = table.find("range");
  const bool many = table.has("ranges");
  if (one) add_range(draft, trait, claim, *one, read_span(*one, draft.log), share);
  if (often && !one) draft.log.add(often->place(), quoted(trait) + ": 'often' belongs to a 'range', and there is none");
  if (one && many) draft.log.add(one->place(), quoted(trait) + ": write 'range' or 'ranges', not both");
  for (TableReader& entry : table.tables("ranges", Need::optional)) {
    const auto range = entry.find("range", Need::required);
    const auto frequency = entry.find("often", Need::required);
    const auto weight = frequency ? parse_frequency(*frequency, draft.log) : std::nullopt;
    if (range && weight) add_range(draft, trait, claim, *range, read_span(*range, draft.log), *weight);
    entry.finish();
  }
  bool any = one || many;
  for (std::size_t i = 0; i < knowledge::special_count; ++i) {
    if (!trait.allows[i]) continue;
    const auto special = table.find(knowledge::special_ids[i]);
    if (!special) continue;
    any = true;
    claim.special[i] = parse_frequency(*special, draft.log).value_or(usual);
  }
  if (!any) draft.log.add(node.place(), quoted(trait) + ": the claim gives neither a range nor an answer");
  table.finish();
}

void read_number_claim(Draft& draft, const Trait& trait, const SourceNode& node, Claim& claim) {
  if (node.node->is_table()) {
    read_number_table(draft, trait, node, claim);
  } else if (node.node->is_string()) {
    if (const auto word = read_word(node, draft.log)) add_special(draft, trait, claim, *word);
  } else if (node.node->is_array()) {
    add_range(draft, trait, claim, node, read_span(node, draft.log), always);
  } else if (node.node->is_number()) {
    if (const auto value = read_number(node, draft.log)) {
      add_range(draft, trait, claim, node, Span{*value, *value}, always);
    }
  } else {
    expected("a range [low, high], an answer in quotes or a table for " + quoted(trait) + ",", node, draft.log);
  }
}

// ---- set

bool well_formed_mark(const std::string& mark) {
  return mark.size() <= longest_mark &&
         std::all_of(mark.begin(), mark.end(), [](char c) { return c > ' ' && c <= '~' && c != ','; });
}

void check_item(Draft& draft, const Trait& trait, const Word& item) {
  if (trait.items == knowledge::SetItems::letters) {
    if (!well_formed_mark(item.text)) {
      draft.log.add(item.place, quoted(trait) + ": a mark is up to 12 characters without blanks or commas");
    }
    return;
  }
  // base, or base/tracer; a second slash makes the tracer an unknown colour.
  const std::size_t slash = item.text.find('/');
  draft.colours.demand({item.text.substr(0, slash), item.place}, draft.log);
  if (slash != std::string::npos) draft.colours.demand({item.text.substr(slash + 1), item.place}, draft.log);
}

void add_set(Draft& draft, const Trait& trait, const SourceNode& list, double share, Claim& claim,
             std::map<std::vector<std::string>, Place>& seen) {
  if (!list.node->is_array()) {
    expected("a list of " + std::string(trait.items == knowledge::SetItems::letters ? "letters" : "colours"), list,
             draft.log);
    return;
  }
  std::vector<std::string> items;
  for (const Word& item : read_words(list, draft.log)) {
    check_item(draft, trait, item);
    items.push_back(item.text);
  }
  if (items.size() > most_items) {
    draft.log.add(list.place(), quoted(trait) + ": at most 7 items make a set, found " + std::to_string(items.size()));
  }
  std::sort(items.begin(), items.end());
  const auto [first, fresh] = seen.emplace(items, list.place());
  if (!fresh) {
    draft.log.add(list.place(), quoted(trait) + ": the same set is given twice; first at " + first->second.text());
    return;
  }
  claim.sets.push_back({std::move(items), share});
}

void read_set(Draft& draft, const Trait& trait, const SourceNode& node, Claim& claim) {
  std::map<std::vector<std::string>, Place> seen;
  if (node.node->is_string()) {
    const auto word = read_word(node, draft.log);
    if (word && word->text != "none") {
      draft.log.add(word->place, quoted(trait) + ": " + unknown("set", word->text, {"none"}) +
                                     " Write \"none\" or a list in square brackets.");
    } else {
      claim.sets.push_back({{}, always});
    }
  } else if (node.node->is_array()) {
    add_set(draft, trait, node, always, claim, seen);
  } else if (const auto* inner = node.node->as_table()) {
    TableReader table(*inner, node.file, quoted(trait), draft.log);
    read_modifiers(draft, table, claim);
    for (TableReader& entry : table.tables("sets")) {
      const auto list = entry.find("of", Need::required);
      const auto often = entry.find("often", Need::required);
      const auto share = often ? parse_frequency(*often, draft.log) : std::nullopt;
      if (list) add_set(draft, trait, *list, share.value_or(usual), claim, seen);
      entry.finish();
    }
    if (claim.sets.empty() && table.has("sets")) {
      draft.log.add(node.place(), quoted(trait) + ": the claim gives no set");
    }
    table.finish();
  } else {
    expected("\"none\", a list or a table for " + quoted(trait) + ",", node, draft.log);
  }
}

}  // namespace

std::optional<double> parse_frequency(const SourceNode& node, SourceLog& log) {
  if (node.node->is_number()) {
    const auto value = read_number(node, log);
    if (!value || (*value > 0.0 && *value <= 1.0)) return value;
    log.add(node.place(), "a frequency given as a number must be above 0 and not above 1, found " + show(*value));
    return std::nullopt;
  }
  const auto word = read_word(node, log);
  if (!word) return std::nullopt;
  std::vector<std::string> known;
  for (const Frequency& frequency : frequencies) {
    if (word->text == frequency.word) return frequency.value;
    known.emplace_back(frequency.word);
  }
  log.add(word->place, unknown("frequency", word->text, known));
  return std::nullopt;
}

std::optional<Claim> parse_claim(Draft& draft, int trait_index, const SourceNode& node) {
  if (draft.broken_traits.contains(trait_index)) return std::nullopt;
  const Trait& trait = draft.knowledge.traits[static_cast<std::size_t>(trait_index)];
  const std::size_t before = draft.log.size();
  Claim claim;
  claim.trait = trait_index;
  switch (trait.kind) {
    case TraitKind::choice:
      read_choice(draft, trait, node, claim);
      break;
    case TraitKind::number:
      read_number_claim(draft, trait, node, claim);
      break;
    case TraitKind::set:
      read_set(draft, trait, node, claim);
      break;
  }
  if (draft.log.size() != before) return std::nullopt;
  normalise(claim);
  return claim;
}

}  // namespace loomkey::catalogue
