#include "catalogue/overlay.h"

#include <algorithm>
#include <optional>
#include <set>
#include <system_error>
#include <utility>

#include "base/text.h"
#include "catalogue/advice_parser.h"
#include "catalogue/check_knowledge.h"
#include "catalogue/confusion_parser.h"
#include "catalogue/content_hash.h"
#include "catalogue/overlay_draft.h"
#include "catalogue/part_parser.h"
#include "catalogue/rows.h"
#include "catalogue/source_folder.h"

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;
using knowledge::Knowledge;

// Each pass leaves out what the one before found wrong. So long a chain of parts resting on parts is no accident.
constexpr int most_passes = 12;

constexpr std::array<const char*, 4> overlay_entries = {"parts", "advice", "families", "confusions.toml"};

std::vector<std::string> ids_in(SourceFolder& folder, Draft& draft, const std::string& name, const std::string& key,
                                Registry& registry) {
  auto files = folder.open_any(name);
  collect_items(files, key, Order::by_id, registry, draft);
  return registry.ids();
}

OverlayIds read_ids(const fs::path& path, const std::set<std::pair<std::string, std::string>>& set_aside) {
  Draft draft;
  draft.set_aside = set_aside;
  SourceFolder folder(path, draft);
  return {ids_in(folder, draft, "families", "family", draft.families),
          ids_in(folder, draft, "advice", "advice", draft.advice), ids_in(folder, draft, "parts", "part", draft.parts)};
}

class OverlayReader {
 public:
  OverlayReader(const Knowledge& shipped, const fs::path& folder) : shipped_(&shipped), path_(folder) {
    report_.folder = folder;
  }

  Overlaid read() {
    std::error_code problem;
    const fs::directory_iterator readable(path_, problem);
    if (problem) {
      Knowledge kept = refuse("the overlay folder cannot be opened: " + problem.message());
      return {std::move(kept), report()};
    }
    for (int passes = 0; passes < most_passes; ++passes) {
      if (auto knowledge = pass(passes == 0)) return {std::move(*knowledge), report()};
    }
    Knowledge kept = refuse("too many parts rest on others that are wrong; nothing of this overlay is used");
    return {std::move(kept), report()};
  }

 private:
  // Nothing, as long as something had to be set aside.
  std::optional<Knowledge> pass(bool first) {
    Draft draft = draft_over(*shipped_, read_ids(path_, set_aside_));
    draft.set_aside = set_aside_;
    for (const auto& [kind, id] : set_aside_) {
      for (Registry* registry : {&draft.families, &draft.advice, &draft.parts, &draft.confusions}) {
        if (registry->kind() == kind) registry->withdraw(id);
      }
    }
    SourceFolder folder(path_, draft);
    refuse_strangers(folder, draft);
    parse_families(draft, folder.open_any("families"));
    keep_shipped_families(draft);
    parse_advice(draft, folder.open_any("advice"));
    parse_parts(draft, folder.open_any("parts"));
    if (first) demand_users(draft);
    bool whole = note(draft);
    if (whole) {
      folder.read_if_there("confusions.toml", parse_confusions);
      check_shipped_sets(draft);
      whole = note(draft);
    }
    if (!whole) return std::nullopt;
    return finished(draft);
  }

  static void refuse_strangers(SourceFolder& folder, Draft& draft) {
    const std::vector<std::string> known(overlay_entries.begin(), overlay_entries.end());
    for (const char* name :
         {"traits", "basis.toml", "cautions.toml", "colours.toml", "efforts.toml", "familiar.toml", "symptoms.toml"}) {
      if (!folder.holds(name)) continue;
      draft.log.add({name},
                    "an overlay holds parts, advice, families and confusion sets; new traits and words belong into the "
                    "sources of a whole catalogue");
    }
    folder.refuse_strangers("", known, "file or folder of an overlay");
  }

  // Other parts inherit from a family that ships: replacing it would change them unseen.
  void keep_shipped_families(Draft& draft) const {
    for (ItemRecord& record : draft.records) {
      if (record.index < 0 || shipped_->family(record.id) < 0) continue;
      record.mistakes.push_back(draft.log.size());
      draft.log.add(record.place, "family '" + record.id + "' ships with the catalogue; an overlay only adds families");
      const auto& kept = at(shipped_->families, shipped_->family(record.id));
      at(draft.knowledge.families, record.index) = kept;
      auto& mentions = at(draft.family_mentions, record.index);
      mentions.clear();
      for (const auto& claim : kept.claims) mentions.insert(claim.trait);
    }
  }

  // A part whose advice became that of another member of a shipped set of look-alikes.
  void check_shipped_sets(Draft& draft) const {
    const Knowledge& k = draft.knowledge;
    for (ItemRecord& record : draft.records) {
      if (record.kind != draft.parts.kind() || record.index < 0) continue;
      const int advice = at(k.parts, record.index).advice;
      for (const auto& set : k.confusions) {
        if (!set.holds(record.index)) continue;
        for (const int other : set.parts) {
          if (other == record.index || at(k.parts, other).advice != advice || set.are_twins(record.index, other))
            continue;
          if (is_mistaken(draft, set.id)) continue;
          record.mistakes.push_back(draft.log.size());
          draft.log.add(record.place, "part '" + record.id + "' shares the advice record '" + at(k.advice, advice).id +
                                          "' with '" + at(k.parts, other).id + "', and the confusion set '" + set.id +
                                          "' says that the two must be told apart");
        }
      }
    }
  }

  // The overlay's own set has been told already.
  static bool is_mistaken(const Draft& draft, const std::string& set) {
    return std::any_of(draft.records.begin(), draft.records.end(), [&](const ItemRecord& record) {
      return record.kind == draft.confusions.kind() && record.id == set && !record.mistakes.empty();
    });
  }

  // Remembers what this pass found wrong; false if an item has to be set aside for it.
  bool note(const Draft& draft) {
    bool whole = true;
    std::set<std::size_t> told;
    for (const ItemRecord& record : draft.records) {
      if (record.mistakes.empty()) continue;
      told.insert(record.mistakes.begin(), record.mistakes.end());
      if (record.index >= 0 && set_aside_.insert({record.kind, record.id}).second) whole = false;
      if (is_news(draft, record.mistakes)) leave_out(draft, record);
    }
    for (std::size_t i = 0; i < draft.log.size(); ++i) {
      if (!told.contains(i) && is_news(draft, {i})) left_out_.add(draft.log.place(i), "ignored: " + draft.log.what(i));
    }
    return whole;
  }

  // False if all of them were found by an earlier pass.
  bool is_news(const Draft& draft, const std::vector<std::size_t>& entries) {
    bool any = false;
    for (const std::size_t i : entries) {
      if (!known_.insert({draft.log.place(i).text(), draft.log.what(i)}).second) continue;
      mistakes_.add(draft.log.place(i), draft.log.what(i));
      any = true;
    }
    return any;
  }

  void leave_out(const Draft& draft, const ItemRecord& record) {
    const std::size_t first = record.mistakes.front();
    const std::size_t more = record.mistakes.size() - 1;
    std::string text = record.id.empty() ? "a " + record.kind + " without an id" : record.kind + " '" + record.id + "'";
    text += ships(record) && record.index >= 0 ? " is ignored, and the one that ships is used: " : " is ignored: ";
    text += draft.log.what(first);
    if (more > 0) text += " (and " + std::to_string(more) + (more == 1 ? " mistake" : " mistakes") + " more)";
    left_out_.add(draft.log.place(first), text);
    for (OverlayItems& items : report_.items) {
      if (items.one == record.kind) items.ignored.push_back(record.id.empty() ? "no id" : printable(record.id));
    }
  }

  // As if there were no overlay.
  Knowledge refuse(const std::string& what) {
    refusal_ = what;
    return *shipped_;
  }

  Knowledge finished(Draft& draft) {
    if (const std::string wrong = check_knowledge(draft.knowledge); !wrong.empty()) {
      return refuse("it does not fit the catalogue (" + wrong + "); nothing of this overlay is used");
    }
    for (const ItemRecord& record : draft.records) {
      if (record.index < 0 || !record.mistakes.empty()) continue;
      for (OverlayItems& items : report_.items) {
        if (items.one == record.kind) (ships(record) ? items.replaced : items.added).push_back(record.id);
      }
    }
    for (OverlayItems& items : report_.items) {
      for (auto* ids : {&items.added, &items.replaced, &items.ignored}) std::sort(ids->begin(), ids->end());
    }
    draft.knowledge.hash = content_hash(draft.knowledge);
    return std::move(draft.knowledge);
  }

  OverlayReport report() {
    report_.mistakes = mistakes_.errors();
    report_.left_out = left_out_.errors();
    for (Error& error : report_.left_out) error.where = printable((path_ / error.where).string());
    if (!refusal_.empty()) {
      const Error error{ErrorKind::catalogue, printable(refusal_), printable(path_.string())};
      report_.mistakes.push_back(error);
      report_.left_out.push_back(error);
    }
    return std::move(report_);
  }

  [[nodiscard]] bool ships(const ItemRecord& record) const {
    if (record.kind == "part") return shipped_->part(record.id) >= 0;
    if (record.kind == "advice record") return shipped_->advice_record(record.id) >= 0;
    return std::any_of(shipped_->confusions.begin(), shipped_->confusions.end(),
                       [&](const auto& set) { return set.id == record.id && record.kind == "confusion set"; });
  }

  const Knowledge* shipped_;
  fs::path path_;
  OverlayReport report_;
  SourceLog mistakes_;
  SourceLog left_out_;
  std::string refusal_;
  std::set<std::pair<std::string, std::string>> set_aside_;  // kind, id
  std::set<std::pair<std::string, std::string>> known_;      // where, what
};

}  // namespace

Overlaid apply_overlay(const Knowledge& shipped, const fs::path& folder) {
  return OverlayReader(shipped, folder).read();
}

bool is_overlay(const fs::path& folder) {
  std::error_code ignored;
  if (fs::exists(folder / "traits", ignored)) return false;
  return std::any_of(overlay_entries.begin(), overlay_entries.end(),
                     [&](const char* name) { return fs::exists(folder / name, ignored); });
}

}  // namespace loomkey::catalogue
