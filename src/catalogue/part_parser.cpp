#include "catalogue/part_parser.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "base/nearest.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Layer;
using knowledge::Part;

constexpr int first_possible_year = 1880;
constexpr int last_possible_year = 2100;
constexpr int most_volts = 48;
constexpr int most_cylinders = 12;

// Fields of a part, besides traits, whose value may be marked as wanting a check.
const std::vector<std::string>& verifiable_fields() {
  static const std::vector<std::string> names = {"era",     "price",   "brought_in", "volts",
                                                 "origins", "markets", "cylinders"};
  return names;
}

std::vector<std::string> chosen(TableReader& reader, std::string_view key, const std::vector<std::string>& known,
                                Need need) {
  std::vector<std::string> out;
  for (Word& word : reader.words(key, need)) {
    if (std::find(known.begin(), known.end(), word.text) == known.end()) {
      reader.log().add(word.place, unknown(key, word.text, known));
    } else {
      out.push_back(std::move(word.text));
    }
  }
  return out;
}

double brought_in(TableReader& reader) {
  std::vector<std::string> words;
  for (const auto& [word, weight] : knowledge::brought_in_words) words.emplace_back(word);
  return knowledge::brought_in_words[reader.one_of("brought_in", words).value_or(1)].second;
}

void read_era(TableReader& reader, Part& part) {
  const auto node = reader.find("era", Need::required);
  if (!node) return;
  const auto span = read_span(*node, reader.log());
  if (!span) return;
  part.first_year = static_cast<int>(std::clamp(span->low, 0.0, 9999.0));
  part.last_year = static_cast<int>(std::clamp(span->high, 0.0, 9999.0));
  const bool whole = span->low == part.first_year && span->high == part.last_year;
  if (!whole || part.first_year < first_possible_year || part.last_year > last_possible_year) {
    reader.log().add(node->place(), "'era' takes two years between " + std::to_string(first_possible_year) + " and " +
                                        std::to_string(last_possible_year));
  }
}

void read_foreign(TableReader& reader, Part& part) {
  auto table = reader.table("foreign", "foreign", Need::optional);
  if (!table) return;
  for (const auto& [key, value] : table->table()) {
    const std::string language(key.str());
    const bool two_letters = language.size() == 2 &&
                             std::all_of(language.begin(), language.end(), [](char c) { return c >= 'a' && c <= 'z'; });
    if (!two_letters) {
      reader.log().add(place_of(table->place().file, key.source()),
                       "a language is two small letters (de, fr, it, nl, es), found '" + language + "'");
      continue;
    }
    for (std::string& term : table->texts(language)) part.foreign.emplace_back(language, std::move(term));
  }
}

void read_partners(Draft& draft, TableReader& reader, Part& part) {
  constexpr std::string_view prefix = "family:";
  for (const Word& word : reader.words("works_with")) {
    knowledge::Partner partner;
    if (word.text.starts_with(prefix)) {
      partner.family = draft.families.resolve({word.text.substr(prefix.size()), word.place}, draft.log);
    } else {
      partner.part = draft.parts.resolve(word, draft.log);
    }
    if (partner.part >= 0 || partner.family >= 0) part.works_with.push_back(partner);
  }
}

void read_successors(Draft& draft, TableReader& reader, Part& part, int self) {
  for (Word& word : reader.words("successors", Need::optional)) {
    const int other = draft.parts.resolve(word, draft.log);
    if (other >= 0 && other == self) draft.log.add(word.place, reader.title() + ": it cannot succeed itself");
    part.successors.push_back(std::move(word.text));
  }
}

void read_look_alikes(Draft& draft, TableReader& reader, Part& part, int self) {
  FirstUse seen;
  for (TableReader& entry : reader.tables("lookalike")) {
    entry.rename(reader.title() + ", look-alike");
    knowledge::LookAlike look_alike;
    const auto other = entry.word("part");
    look_alike.tell = entry.text("tell");
    look_alike.trait = resolve_key(entry, "trait", draft.traits, Need::optional, draft);
    entry.finish();
    if (!other || !seen.claim(*other, "look-alike", draft.log)) continue;
    look_alike.part = draft.parts.resolve(*other, draft.log);
    if (look_alike.part >= 0 && look_alike.part == self) {
      draft.log.add(other->place, reader.title() + ": it is named as its own look-alike");
    }
    part.look_alikes.push_back(std::move(look_alike));
  }
}

void read_checks(Draft& draft, TableReader& reader, Part& part) {
  for (TableReader& entry : reader.tables("check")) {
    entry.rename(reader.title() + ", check");
    knowledge::MeterCheck check;
    check.how = entry.text("do");
    check.good = entry.text("good");
    check.bad = entry.text("bad");
    check.caveat = entry.text("caveat", Need::optional);
    check.basis = resolve_key(entry, "basis", draft.bases, Need::optional, draft);
    entry.finish();
    part.checks.push_back(std::move(check));
  }
}

void read_fields(Draft& draft, TableReader& reader, Part& part, int self) {
  reader.expect("id");
  part.name = reader.text("name");
  part.family = resolve_key(reader, "family", draft.families, Need::required, draft);
  if (const auto advice = reader.word("advice")) {
    part.advice = draft.advice.resolve(*advice, draft.log);
    draft.meant_advice.insert(draft.advice.find(nearest(advice->text, draft.advice.ids()).value_or("")));
  }
  part.aliases = reader.texts("aliases");
  read_foreign(reader, part);
  part.called = reader.texts("called", Need::optional);
  read_era(reader, part);
  part.retrofit = reader.flag("retrofit");
  part.brought_in = brought_in(reader);
  part.origins =
      chosen(reader, "origins", {"british", "continental", "japanese", "american", "soviet"}, Need::required);
  part.markets = chosen(reader, "markets", {"britain", "europe", "usa", "japan", "elsewhere"}, Need::optional);
  part.volts = reader.integers("volts", 1, most_volts);
  part.cylinders = reader.integers("cylinders", 1, most_cylinders);
  part.where = reader.text("where");
  part.strays = reader.text("strays");
  read_partners(draft, reader, part);
  part.redundant_when = reader.text("redundant_when", Need::optional);
  part.note = reader.text("note", Need::optional);
  part.basis = resolve_key(reader, "basis", draft.bases, Need::required, draft);
  read_successors(draft, reader, part, self);
  read_look_alikes(draft, reader, part, self);
  read_checks(draft, reader, part);
}

struct VerifyWord {
  Word word;
  int trait = -1;
};

std::vector<VerifyWord> read_verify(Draft& draft, TableReader& reader, Part& part) {
  std::vector<VerifyWord> out;
  for (const Word& word : reader.words("verify", Need::optional)) {
    part.verify.push_back(word.text);
    const auto& fields = verifiable_fields();
    if (std::find(fields.begin(), fields.end(), word.text) != fields.end()) continue;
    const int trait = draft.traits.resolve(word, draft.log, fields);
    if (trait >= 0) out.push_back({word, trait});
  }
  return out;
}

const knowledge::Claim* inherited(const Draft& draft, const Part& part, int trait) {
  if (part.family < 0) return nullptr;
  for (const auto& claim : draft.knowledge.families[static_cast<std::size_t>(part.family)].claims) {
    if (claim.trait == trait) return &claim;
  }
  return nullptr;
}

bool family_mentions(const Draft& draft, const Part& part, int trait) {
  return part.family >= 0 && draft.family_mentions[static_cast<std::size_t>(part.family)].contains(trait);
}

// An inherited claim that is marked for this part only becomes the part's own.
void mark_unsure(Draft& draft, const std::vector<VerifyWord>& words, const Part& part, ClaimList& claims) {
  for (const VerifyWord& entry : words) {
    if (knowledge::Claim* own = claims.find(entry.trait)) {
      own->verify = true;
    } else if (const auto* from_family = inherited(draft, part, entry.trait)) {
      claims.push(*from_family);
      claims.find(entry.trait)->verify = true;
    }
  }
}

// A mark on a trait of which nothing is claimed is a slip of the pen. Wrongly written claims count as made.
void demand_claims(Draft& draft, const std::vector<VerifyWord>& words, const Part& part, const ClaimList& claims) {
  for (const VerifyWord& entry : words) {
    const bool by_fault = std::any_of(part.conditions.begin(), part.conditions.end(), [&](const auto& condition) {
      return std::any_of(condition.claims.begin(), condition.claims.end(),
                         [&](const auto& claim) { return claim.trait == entry.trait; });
    });
    if (by_fault || claims.mentions(entry.trait) || family_mentions(draft, part, entry.trait)) continue;
    draft.log.add(entry.word.place, "'verify' names '" + entry.word.text + "', of which this part claims nothing");
  }
}

// A part that says little must not win by its silence.
void demand_looks(Draft& draft, const Place& place, const std::string& title, const Part& part,
                  const ClaimList& claims) {
  if (part.family < 0) return;
  for (std::size_t t = 0; t < draft.knowledge.traits.size(); ++t) {
    const auto& trait = draft.knowledge.traits[t];
    const int index = static_cast<int>(t);
    if (trait.layer != Layer::look || trait.unless_stated || draft.broken_traits.contains(index)) continue;
    if (claims.mentions(index) || family_mentions(draft, part, index)) continue;
    draft.log.add(place, title + ": look '" + trait.id + "' (" + trait.name +
                             ") is not stated, and neither its family nor the trait states it");
  }
}

Part parse_part(Draft& draft, Item& item) {
  Part part;
  part.id = item.id;
  TableReader& reader = item.reader;
  read_fields(draft, reader, part, item.index);
  ClaimList claims;
  Place place_of_looks = reader.place();
  if (auto looks = reader.table("looks", reader.title() + ", looks")) {
    place_of_looks = looks->place();
    claims.read(draft, *looks, Layer::look);
  }
  if (auto meter = reader.table("meter", reader.title() + ", meter")) claims.read(draft, *meter, Layer::meter);
  const auto verify = read_verify(draft, reader, part);
  std::vector<int> verified_traits;
  for (const VerifyWord& entry : verify) verified_traits.push_back(entry.trait);
  part.conditions = parse_conditions(draft, reader, verified_traits);
  mark_unsure(draft, verify, part, claims);
  demand_claims(draft, verify, part, claims);
  demand_looks(draft, place_of_looks, reader.title(), part, claims);
  part.claims = claims.take();
  reader.finish();
  return part;
}

}  // namespace

void parse_parts(Draft& draft, std::vector<TableReader> files) {
  std::vector<Item> items = collect_items(files, "part", Order::by_id, draft.parts, draft);
  for (TableReader& file : files) file.finish();
  for (Item& item : items) {
    const std::size_t before = draft.log.size();
    Part part = parse_part(draft, item);
    record_item(item, draft.parts, before, draft);
    if (item.index >= 0) put_at(draft.knowledge.parts, item.index, std::move(part));
  }
}

}  // namespace loomkey::catalogue
