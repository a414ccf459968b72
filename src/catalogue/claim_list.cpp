#include <algorithm>
#include <array>
#include <utility>

#include "base/nearest.h"
#include "catalogue/claim_parser.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Claim;
using knowledge::Layer;

const std::vector<std::string> size_words = {"round", "box"};
constexpr std::array<const char*, 3> sizes = {"size_long", "size_mid", "size_short"};

double median(double a, double b, double c) { return std::max(std::min(a, b), std::min(std::max(a, b), c)); }

std::optional<SizeRanges> read_round(TableReader& table) {
  const auto diameter = table.span("diameter", Need::required);
  const auto length = table.span("length", Need::required);
  if (!diameter || !length) return std::nullopt;
  return sizes_of_round(*diameter, *length);
}

std::optional<SizeRanges> read_box(Draft& draft, const SourceNode& node) {
  const auto* list = node.node->as_array();
  if (list == nullptr || list->size() != 3) {
    draft.log.add(node.place(), "'box' takes three ranges: [[low, high], [low, high], [low, high]]");
    return std::nullopt;
  }
  std::vector<Span> spans;
  for (const toml::node& element : *list) {
    if (const auto span = read_span(node.of(element), draft.log)) spans.push_back(*span);
  }
  if (spans.size() != 3) return std::nullopt;
  return sizes_of_box(spans[0], spans[1], spans[2]);
}

}  // namespace

SizeRanges sizes_of_round(Span diameter, Span length) {
  return {{std::max(diameter.low, length.low), std::max(diameter.high, length.high)},
          diameter,
          {std::min(diameter.low, length.low), std::min(diameter.high, length.high)}};
}

SizeRanges sizes_of_box(Span a, Span b, Span c) {
  return {{std::max({a.low, b.low, c.low}), std::max({a.high, b.high, c.high})},
          {median(a.low, b.low, c.low), median(a.high, b.high, c.high)},
          {std::min({a.low, b.low, c.low}), std::min({a.high, b.high, c.high})}};
}

bool ClaimList::mention(Draft& draft, int trait, const Place& place) {
  const auto [first, fresh] = places_.emplace(trait, place);
  if (!fresh) {
    draft.log.add(place, "trait '" + draft.traits.ids()[static_cast<std::size_t>(trait)] +
                             "' is claimed twice; first at " + first->second.text());
  }
  return fresh;
}

void ClaimList::read_size(Draft& draft, const KeyedNode& entry, std::optional<Layer> layer) {
  if (layer == Layer::meter) {
    draft.log.add(entry.key.place, "'" + entry.key.text + "' is a look and belongs among the looks");
    return;
  }
  Claim proto;
  std::optional<SizeRanges> read;
  if (const auto* inner = entry.value.node->as_table()) {
    TableReader table(*inner, entry.value.file, "'" + entry.key.text + "'", draft.log);
    proto.verify = table.flag("verify");
    proto.basis = resolve_key(table, "basis", draft.bases, Need::optional, draft);
    if (entry.key.text == "round") {
      read = read_round(table);
    } else if (const auto of = table.find("of", Need::required)) {
      read = read_box(draft, *of);
    }
    table.finish();
  } else if (entry.key.text == "round") {
    expected("{ diameter = [low, high], length = [low, high] } after 'round',", entry.value, draft.log);
  } else {
    read = read_box(draft, entry.value);
  }
  const SizeRanges found = read.value_or(SizeRanges{});
  const std::array<Span, 3> spans = {found.longest, found.middle, found.shortest};
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const std::string id = sizes[i];
    const Span span = spans[i];
    proto.trait = draft.traits.resolve({id, entry.key.place}, draft.log);
    if (proto.trait < 0 || !mention(draft, proto.trait, entry.key.place) || !read) continue;
    if (draft.broken_traits.contains(proto.trait)) continue;
    const auto& trait = draft.knowledge.traits[static_cast<std::size_t>(proto.trait)];
    if (trait.kind != knowledge::TraitKind::number) {
      draft.log.add(entry.key.place, "'" + entry.key.text + "' needs trait '" + id + "' to be a number");
    } else if (span.low < trait.low || span.high > trait.high) {
      draft.log.add(entry.value.place(), "'" + entry.key.text + "' makes " + id + " " + show(span.low) + " to " +
                                             show(span.high) + ", outside " + show(trait.low) + " to " +
                                             show(trait.high) + " " + trait.unit);
    } else {
      proto.ranges = {{span.low, span.high, 1.0}};
      claims_.push_back(proto);
    }
  }
}

// So that a slip of the pen is one error, and not a second one about a look that is missing.
void ClaimList::guess_meant(const Draft& draft, const std::string& misspelt) {
  std::vector<std::string> known = draft.traits.ids();
  known.insert(known.end(), size_words.begin(), size_words.end());
  const std::string name = nearest(misspelt, known).value_or("");
  if (std::find(size_words.begin(), size_words.end(), name) == size_words.end()) {
    meant_.insert(draft.traits.find(name));
  } else {
    for (const char* size : sizes) meant_.insert(draft.traits.find(size));
  }
}

void ClaimList::read(Draft& draft, TableReader& table, std::optional<Layer> layer) {
  for (const KeyedNode& entry : entries_of(table.table(), table.place().file)) {
    if (entry.key.text == "round" || entry.key.text == "box") {
      read_size(draft, entry, layer);
      continue;
    }
    const int trait = draft.traits.resolve(entry.key, draft.log, size_words);
    if (trait < 0) guess_meant(draft, entry.key.text);
    if (trait < 0 || !mention(draft, trait, entry.key.place)) continue;
    const Layer home = draft.knowledge.traits[static_cast<std::size_t>(trait)].layer;
    if (layer && home != *layer) {
      draft.log.add(entry.key.place, "trait '" + entry.key.text + "' is " +
                                         (home == Layer::meter ? "read with a meter and belongs under 'meter'"
                                                               : "a look and belongs under 'looks'"));
      continue;
    }
    if (auto claim = parse_claim(draft, trait, entry.value)) claims_.push_back(std::move(*claim));
  }
}

std::set<int> ClaimList::mentioned() const {
  std::set<int> traits;
  for (const auto& [trait, place] : places_) traits.insert(trait);
  traits.insert(meant_.begin(), meant_.end());
  return traits;
}

Claim* ClaimList::find(int trait) {
  const auto found = std::find_if(claims_.begin(), claims_.end(), [&](const Claim& c) { return c.trait == trait; });
  return found == claims_.end() ? nullptr : &*found;
}

std::vector<Claim> ClaimList::take() {
  std::sort(claims_.begin(), claims_.end(), [](const Claim& a, const Claim& b) { return a.trait < b.trait; });
  return std::move(claims_);
}

}  // namespace loomkey::catalogue
