#include "bench/catalogue_diff.h"

#include <algorithm>
#include <map>
#include <set>
#include <type_traits>

#include "bench/diff_fields.h"

namespace loomkey::bench {

using namespace knowledge;

namespace {

template <typename Item>
std::string name_of(const Item& item) {
  if constexpr (requires { item.name; }) {
    return item.name;
  } else if constexpr (requires { item.title; }) {
    return item.title;
  } else if constexpr (requires { item.text; }) {
    return item.text;
  } else {
    return {};
  }
}

template <typename Item>
NamedId named(const Item& item) {
  return {item.id, name_of(item)};
}

void compare_fields(const std::string& of, const Fields& was, const Fields& is, std::vector<FieldChange>& out) {
  const auto text_in = [](const Fields& fields, const std::string& what) {
    for (const Field& field : fields) {
      if (field.what == what) return field.text;
    }
    return std::string();
  };
  std::set<std::string> seen;
  for (const Fields* fields : {&was, &is}) {
    for (const Field& field : *fields) {
      if (!seen.insert(field.what).second) continue;
      const std::string before = text_in(was, field.what);
      const std::string now = text_in(is, field.what);
      if (before != now) out.push_back({of + field.what, before, now});
    }
  }
}

const Claim* find_claim(const std::vector<Claim>& claims, int trait) {
  for (const Claim& claim : claims) {
    if (claim.trait == trait) return &claim;
  }
  return nullptr;
}

class Differ {
 public:
  Differ(const Knowledge& was, const Knowledge& is) : was_(was), is_(&is) {
    for (std::size_t t = 0; t < was.traits.size(); ++t) {
      const int now = is.trait(was.traits[t].id);
      if (now >= 0) common_traits_.emplace_back(static_cast<int>(t), now);
    }
  }

  CatalogueDiff compare() {
    out_.hash_was = was_.hash;
    out_.hash_is = is_->hash;
    rename_parts();
    rename_advice();
    out_.parts = kind("part", "parts", was_.parts, is_->parts, part_names_);
    out_.advice = kind("advice record", "advice records", was_.advice, is_->advice, advice_names_);
    out_.rest.push_back(kind("family", "families", was_.families, is_->families));
    out_.rest.push_back(kind("confusion set", "confusion sets", was_.confusions, is_->confusions));
    out_.rest.push_back(kind("trait", "traits", was_.traits, is_->traits));
    out_.rest.push_back(kind("effort", "efforts", was_.efforts, is_->efforts));
    out_.rest.push_back(kind("tool", "tools", was_.tools, is_->tools));
    out_.rest.push_back(kind("group of traits", "groups of traits", was_.groups, is_->groups));
    out_.rest.push_back(kind("colour", "colours", was_.colours, is_->colours));
    add_colour_chances(out_.rest.back());
    out_.rest.push_back(kind("familiar thing", "familiar things", was_.familiar, is_->familiar));
    out_.rest.push_back(kind("symptom", "symptoms", was_.symptoms, is_->symptoms));
    out_.rest.push_back(kind("basis", "bases", was_.bases, is_->bases));
    out_.rest.push_back(kind("caution", "cautions", was_.cautions, is_->cautions));
    regroup();
    return std::move(out_);
  }

 private:
  using Names = std::map<std::string, std::string>;  // id now, id then; only where they differ

  template <typename Item>
  KindDiff kind(std::string one, std::string many, const std::vector<Item>& was, const std::vector<Item>& is,
                const Names& names = {}) {
    KindDiff out{std::move(one), std::move(many), {}, {}, {}, {}, false};
    std::map<std::string, const Item*> now;
    for (const Item& item : is) now.emplace(item.id, &item);
    std::set<std::string> kept;
    std::vector<std::string> order_was;
    for (const Item& item : was) {
      const auto match = now.find(item.id);
      if (match == now.end()) {
        out.removed.push_back(named(item));
        continue;
      }
      if (const auto renamed = names.find(item.id); renamed != names.end()) {
        out.renamed.emplace_back(NamedId{renamed->second, name_of(item)}, named(*match->second));
      }
      kept.insert(match->first);
      order_was.push_back(match->first);
      ItemChange change = change_of(item, *match->second);
      if (!change.fields.empty() || !change.claims.empty()) out.changed.push_back(std::move(change));
    }
    std::vector<std::string> order_is;
    for (const Item& item : is) {
      if (kept.contains(item.id)) {
        order_is.push_back(item.id);
      } else {
        out.added.push_back(named(item));
      }
    }
    // A new name moves what is sorted by it, and says nothing.
    out.reordered = names.empty() && order_was != order_is;
    return out;
  }

  template <typename Item>
  ItemChange change_of(const Item& was, const Item& is) const {
    ItemChange out{named(is), {}, {}};
    compare_fields("", fields_of(was_, was), fields_of(*is_, is), out.fields);
    if constexpr (std::is_same_v<Item, Part>) {
      compare_part_claims(was, is, out.claims);
      compare_conditions(was, is, out);
    }
    if constexpr (std::is_same_v<Item, Family>) compare_claims("", was.claims, is.claims, out.claims);
    return out;
  }

  void add_claim(const std::string& of, int trait_was, int trait_is, const Claim* was, const Claim* is,
                 std::vector<ClaimChange>& out) const {
    if (was == nullptr && is == nullptr) return;
    if (was != nullptr && is != nullptr && exact_claim(was_, *was) == exact_claim(*is_, *is)) return;
    ClaimChange change{of, trait_was, trait_is, std::nullopt, std::nullopt};
    if (was != nullptr) change.was = *was;
    if (is != nullptr) change.is = *is;
    out.push_back(std::move(change));
  }

  void compare_claims(const std::string& of, const std::vector<Claim>& was, const std::vector<Claim>& is,
                      std::vector<ClaimChange>& out) const {
    for (const auto& [then, now] : common_traits_) {
      add_claim(of, then, now, find_claim(was, then), find_claim(is, now), out);
    }
  }

  // What the good part claims, whoever says it; but what its family or the trait says differently now is told there.
  void compare_part_claims(const Part& was, const Part& is, std::vector<ClaimChange>& out) const {
    const int part_was = was_.part(was.id);
    const int part_is = is_->part(is.id);
    const bool same_family =
        was.family >= 0 && is.family >= 0 &&
        was_.families[static_cast<std::size_t>(was.family)].id == is_->families[static_cast<std::size_t>(is.family)].id;
    for (const auto& [then, now] : common_traits_) {
      const bool own = find_claim(was.claims, then) != nullptr || find_claim(is.claims, now) != nullptr;
      if (!own && same_family) continue;
      add_claim("", then, now, was_.claim(part_was, 0, then), is_->claim(part_is, 0, now), out);
    }
  }

  void compare_conditions(const Part& was, const Part& is, ItemChange& out) const {
    const auto find = [](const Part& part, const std::string& id) -> const Condition* {
      for (const Condition& condition : part.conditions) {
        if (condition.id == id) return &condition;
      }
      return nullptr;
    };
    std::vector<std::string> ids;
    for (const Part* part : {&was, &is}) {
      for (const Condition& condition : part->conditions) {
        if (std::find(ids.begin(), ids.end(), condition.id) == ids.end()) ids.push_back(condition.id);
      }
    }
    for (const std::string& id : ids) {
      const Condition* then = find(was, id);
      const Condition* now = find(is, id);
      if (then == nullptr || now == nullptr) {
        const std::string name = (then != nullptr ? then : now)->name;
        out.fields.push_back({"condition '" + id + "'", then != nullptr ? name : "", now != nullptr ? name : ""});
        continue;
      }
      compare_fields("condition '" + id + "', ", fields_of(was_, *then), fields_of(*is_, *now), out.fields);
      compare_claims("condition '" + id + "'", then->claims, now->claims, out.claims);
    }
    compare_orders(was, is, out);
  }

  static void compare_orders(const Part& was, const Part& is, ItemChange& out) {
    const auto order = [](const Part& part, const Part& other) {
      std::string text;
      for (const Condition& condition : part.conditions) {
        const bool common = std::any_of(other.conditions.begin(), other.conditions.end(),
                                        [&](const Condition& c) { return c.id == condition.id; });
        if (common) text += (text.empty() ? "" : ", ") + condition.id;
      }
      return text;
    };
    if (order(was, is) != order(is, was)) out.fields.push_back({"order of conditions", order(was, is), order(is, was)});
  }

  void add_colour_chances(KindDiff& colours) const {
    ItemChange change{{"all", "all colours"}, {}, {}};
    const Fields was = {{"chance that a tracer is lost", exact(was_.tracer_lost)},
                        {"chance of too dark to tell", exact(was_.dark_chance)}};
    const Fields is = {{"chance that a tracer is lost", exact(is_->tracer_lost)},
                       {"chance of too dark to tell", exact(is_->dark_chance)}};
    compare_fields("", was, is, change.fields);
    if (!change.fields.empty()) colours.changed.push_back(std::move(change));
  }

  [[nodiscard]] bool says_the_same(const Part& was, const Part& is) const {
    if (was.name != is.name) return false;  // spares the rest of the work
    const ItemChange change = change_of(was, is);
    return change.fields.empty() && change.claims.empty();
  }

  void rename_parts() {
    std::set<std::string> fresh;
    for (const Part& part : is_->parts) {
      if (was_.part(part.id) < 0) fresh.insert(part.id);
    }
    for (const Part& part : was_.parts) {
      if (is_->part(part.id) >= 0) continue;
      std::vector<std::string> there;
      for (const std::string& id : part.successors) {
        if (is_->part(id) >= 0) there.push_back(id);
      }
      std::string name;
      if (there.size() == 1 && fresh.contains(there[0])) name = there[0];
      for (auto id = fresh.begin(); there.empty() && name.empty() && id != fresh.end(); ++id) {
        if (says_the_same(part, is_->parts[static_cast<std::size_t>(is_->part(*id))])) name = *id;
      }
      if (!name.empty()) {
        part_names_.emplace(name, part.id);
        fresh.erase(name);
      } else if (!there.empty()) {
        out_.replaced.push_back({part.id, std::move(there)});
      }
    }
    for (Part& part : was_.parts) {
      part.id = now_called(part_names_, part.id);
      for (std::string& id : part.successors) id = now_called(part_names_, id);
    }
  }

  // Ids of the parts of each class; on request only of those that both catalogues hold.
  [[nodiscard]] std::map<std::string, std::set<std::string>> classes(const Knowledge& k, bool common) const {
    std::map<std::string, std::set<std::string>> out;
    for (const Part& part : k.parts) {
      if (part.advice < 0 || (common && (was_.part(part.id) < 0 || is_->part(part.id) < 0))) continue;
      out[k.advice[static_cast<std::size_t>(part.advice)].id].insert(part.id);
    }
    return out;
  }

  static std::string now_called(const Names& names, const std::string& then) {
    for (const auto& [now, old] : names) {
      if (old == then) return now;
    }
    return then;
  }

  void rename_advice() {
    std::map<std::set<std::string>, std::string> fresh;
    for (auto& [id, parts] : classes(*is_, false)) {
      if (was_.advice_record(id) < 0) fresh.emplace(parts, id);
    }
    for (const auto& [id, parts] : classes(was_, false)) {
      if (is_->advice_record(id) >= 0) continue;
      const auto match = fresh.find(parts);
      if (match != fresh.end()) advice_names_.emplace(match->second, id);
    }
    for (Advice& advice : was_.advice) advice.id = now_called(advice_names_, advice.id);
  }

  // Classes made of nothing but two or more others, judged by the parts that are in both catalogues.
  void regroup() {
    const auto was = classes(was_, true);
    const auto is = classes(*is_, true);
    const auto pieces = [](const std::set<std::string>& whole, const auto& others) {
      std::vector<std::string> out;
      std::size_t covered = 0;
      for (const auto& [id, parts] : others) {
        if (!std::includes(whole.begin(), whole.end(), parts.begin(), parts.end())) continue;
        out.push_back(id);
        covered += parts.size();
      }
      return covered == whole.size() && out.size() > 1 ? out : std::vector<std::string>{};
    };
    for (const auto& [id, parts] : is) {
      if (auto from = pieces(parts, was); !from.empty()) out_.merged.push_back({id, std::move(from)});
    }
    for (const auto& [id, parts] : was) {
      if (auto into = pieces(parts, is); !into.empty()) out_.split.push_back({id, std::move(into)});
    }
  }

  Knowledge was_;  // under the names of now, once the renamed ones are known
  const Knowledge* is_;
  std::vector<std::pair<int, int>> common_traits_;  // index then, index now
  Names part_names_;
  Names advice_names_;
  CatalogueDiff out_;
};

}  // namespace

CatalogueDiff catalogue_diff(const Knowledge& was, const Knowledge& is) { return Differ(was, is).compare(); }

}  // namespace loomkey::bench
