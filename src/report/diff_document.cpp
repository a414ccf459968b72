#include "report/diff_document.h"

#include <nlohmann/json.hpp>

#include "base/text.h"
#include "bench/diff_fields.h"
#include "report/words.h"

namespace loomkey::report {

using bench::ClaimChange;
using bench::FieldChange;
using bench::ItemChange;
using bench::KindDiff;
using bench::NamedId;
using bench::Regrouping;
using knowledge::Claim;
using knowledge::Knowledge;
using knowledge::Trait;
using Json = nlohmann::ordered_json;

namespace {

const Trait& trait_at(const Knowledge& knowledge, int trait) {
  return knowledge.traits[static_cast<std::size_t>(trait)];
}

struct WasIs {
  std::string was;
  std::string is;
};

// In words; where these are the same, in figures; where these are the same too, to the last digit and basis.
WasIs claim_change(const Compared& all, const ClaimChange& change) {
  if (!change.was || !change.is) {
    return {change.was ? claim_words(trait_at(all.was, change.trait_was), *change.was) : "",
            change.is ? claim_words(trait_at(all.is, change.trait_is), *change.is) : ""};
  }
  const Trait& then = trait_at(all.was, change.trait_was);
  const Trait& now = trait_at(all.is, change.trait_is);
  WasIs words{claim_words(then, *change.was), claim_words(now, *change.is)};
  if (words.was != words.is) return words;
  WasIs figures{claim_figures(then, *change.was), claim_figures(now, *change.is)};
  if (figures.was != figures.is) return figures;
  return {bench::exact_claim(all.was, *change.was), bench::exact_claim(all.is, *change.is)};
}

std::string shown(const std::string& text) { return text.empty() ? "nothing" : text; }

std::string change_words(const std::string& what, const WasIs& change) {
  return what + ": was " + shown(change.was) + "; now " + shown(change.is);
}

std::string claim_title(const Compared& all, const ClaimChange& change) {
  const std::string name = trait_at(all.is, change.trait_is).name;
  return change.of.empty() ? name : change.of + ", " + name;
}

std::string item_words(const NamedId& item) { return item.name.empty() ? item.id : item.id + " (" + item.name + ")"; }

void add_list(Document& page, const std::string& title, const std::vector<NamedId>& items) {
  if (items.empty()) return;
  Bullets bullets;
  for (const NamedId& item : items) bullets.items.push_back(item_words(item));
  page.blocks.emplace_back(Heading{title});
  page.blocks.emplace_back(std::move(bullets));
}

void add_changed(Document& page, const Compared& all, const KindDiff& kind) {
  if (kind.changed.empty()) return;
  page.blocks.emplace_back(Heading{sentence(kind.many) + " changed"});
  for (const ItemChange& item : kind.changed) {
    Bullets bullets;
    for (const FieldChange& field : item.fields) {
      bullets.items.push_back(change_words(field.what, {field.was, field.is}));
    }
    for (const ClaimChange& claim : item.claims) {
      bullets.items.push_back(change_words(claim_title(all, claim), claim_change(all, claim)));
    }
    page.blocks.emplace_back(Paragraph{item_words(item.item)});
    page.blocks.emplace_back(std::move(bullets));
  }
}

void add_kind(Document& page, const Compared& all, const KindDiff& kind) {
  add_list(page, sentence(kind.many) + " added", kind.added);
  add_list(page, sentence(kind.many) + " removed", kind.removed);
  if (!kind.renamed.empty()) {
    Bullets bullets;
    for (const auto& [was, is] : kind.renamed) bullets.items.push_back(was.id + " is now " + item_words(is));
    page.blocks.emplace_back(Heading{sentence(kind.many) + " renamed"});
    page.blocks.emplace_back(std::move(bullets));
  }
  add_changed(page, all, kind);
  if (kind.reordered) page.blocks.emplace_back(Paragraph{"The " + kind.many + " stand in another order."});
}

void add_regroupings(Document& page, const bench::CatalogueDiff& diff) {
  Bullets bullets;
  for (const Regrouping& entry : diff.replaced) {
    bullets.items.push_back("part " + entry.one + " gave way to " + listed(entry.many));
  }
  for (const Regrouping& entry : diff.merged) {
    bullets.items.push_back("the advice classes " + listed(entry.many) + " are one now: " + entry.one);
  }
  for (const Regrouping& entry : diff.split) {
    bullets.items.push_back("the advice class " + entry.one + " was split into " + listed(entry.many));
  }
  if (bullets.items.empty()) return;
  page.blocks.emplace_back(Heading{"Merged and split"});
  page.blocks.emplace_back(std::move(bullets));
}

std::string counts(const KindDiff& kind) {
  std::vector<std::string> out;
  for (const auto& [count, verb] :
       {std::pair{kind.added.size(), "added"}, std::pair{kind.removed.size(), "removed"},
        std::pair{kind.renamed.size(), "renamed"}, std::pair{kind.changed.size(), "changed"}}) {
    if (count > 0) out.push_back(std::to_string(count) + " " + verb);
  }
  if (kind.reordered) out.emplace_back("another order");
  return join(out, ", ");
}

bool nothing_listed(const bench::CatalogueDiff& diff) {
  for (const KindDiff& kind : diff.rest) {
    if (!kind.empty()) return false;
  }
  return diff.parts.empty() && diff.advice.empty() && diff.merged.empty() && diff.split.empty();
}

std::vector<const KindDiff*> kinds(const bench::CatalogueDiff& diff) {
  std::vector<const KindDiff*> out = {&diff.parts, &diff.advice};
  for (const KindDiff& kind : diff.rest) out.push_back(&kind);
  return out;
}

Json named_json(const NamedId& item) { return {{"id", item.id}, {"name", item.name}}; }

Json named_json(const std::vector<NamedId>& items) {
  Json out = Json::array();
  for (const NamedId& item : items) out.push_back(named_json(item));
  return out;
}

Json changed_json(const Compared& all, const KindDiff& kind) {
  Json out = Json::array();
  for (const ItemChange& item : kind.changed) {
    Json entry = named_json(item.item);
    entry["fields"] = Json::array();
    for (const FieldChange& field : item.fields) {
      entry["fields"].push_back({{"what", field.what}, {"was", field.was}, {"is", field.is}});
    }
    entry["claims"] = Json::array();
    for (const ClaimChange& claim : item.claims) {
      const WasIs words = claim_change(all, claim);
      entry["claims"].push_back({{"of", claim.of},
                                 {"trait", trait_at(all.is, claim.trait_is).id},
                                 {"was", claim.was ? Json(words.was) : Json(nullptr)},
                                 {"is", claim.is ? Json(words.is) : Json(nullptr)}});
    }
    out.push_back(std::move(entry));
  }
  return out;
}

Json kind_json(const Compared& all, const KindDiff& kind) {
  Json renamed = Json::array();
  for (const auto& [was, is] : kind.renamed) renamed.push_back({{"was", was.id}, {"is", is.id}});
  return {{"kind", kind.one},
          {"added", named_json(kind.added)},
          {"removed", named_json(kind.removed)},
          {"renamed", std::move(renamed)},
          {"changed", changed_json(all, kind)},
          {"reordered", kind.reordered}};
}

Json regrouping_json(const std::vector<Regrouping>& list, const char* one, const char* many) {
  Json out = Json::array();
  for (const Regrouping& entry : list) out.push_back({{one, entry.one}, {many, entry.many}});
  return out;
}

}  // namespace

Document diff_document(const Compared& all) {
  Document page;
  page.title = "What differs";
  KeyValues head;
  head.rows.emplace_back("was", short_hash(all.was) + ", " + counted(all.was.parts.size(), "part", "parts"));
  head.rows.emplace_back("is", short_hash(all.is) + ", " + counted(all.is.parts.size(), "part", "parts"));
  if (all.diff.identical()) {
    page.blocks.emplace_back(std::move(head));
    page.blocks.emplace_back(Paragraph{"Nothing: the two are identical."});
    return page;
  }
  for (const KindDiff* kind : kinds(all.diff)) {
    if (!kind->empty()) head.rows.emplace_back(kind->many, counts(*kind));
  }
  page.blocks.emplace_back(std::move(head));
  if (nothing_listed(all.diff)) {
    page.blocks.emplace_back(
        Paragraph{"They claim the same of every part; only where it is written differs, a claim stated by a part "
                  "itself or by its "
                  "family, for instance."});
  }
  add_regroupings(page, all.diff);
  for (const KindDiff* kind : kinds(all.diff)) add_kind(page, all, *kind);
  return page;
}

std::string diff_json(const Compared& all) {
  Json list = Json::array();
  for (const KindDiff* kind : kinds(all.diff)) list.push_back(kind_json(all, *kind));
  const Json out = {{"schema", "loomkey/diff/1"},
                    {"was", all.diff.hash_was},
                    {"is", all.diff.hash_is},
                    {"identical", all.diff.identical()},
                    {"replaced", regrouping_json(all.diff.replaced, "part", "by")},
                    {"merged", regrouping_json(all.diff.merged, "class", "of")},
                    {"split", regrouping_json(all.diff.split, "class", "into")},
                    {"kinds", std::move(list)}};
  return out.dump(2, ' ', true, Json::error_handler_t::replace) + "\n";
}

}  // namespace loomkey::report
