#include "catalogue/sources.h"

#include <algorithm>
#include <deque>
#include <string>
#include <system_error>
#include <utility>

#include "catalogue/advice_parser.h"
#include "catalogue/confusion_parser.h"
#include "catalogue/draft.h"
#include "catalogue/part_parser.h"
#include "catalogue/trait_parser.h"
#include "catalogue/vocabulary_parser.h"

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;

const std::vector<std::string>& known_entries() {
  static const std::vector<std::string> names = {"basis.toml",   "cautions.toml", "colours.toml",  "confusions.toml",
                                                 "efforts.toml", "familiar.toml", "symptoms.toml", "traits",
                                                 "families",     "parts",         "advice"};
  return names;
}

const std::vector<std::string>& trait_files() {
  static const std::vector<std::string> names = {"groups.toml", "look.toml", "size.toml", "meter.toml"};
  return names;
}

bool hidden(const std::string& name) { return name.starts_with('.') || name.ends_with('~'); }

// Opens files and keeps them alive while their tables are read.
class SourceFolder {
 public:
  SourceFolder(const fs::path& data_dir, Draft& draft) : data_dir_(data_dir), draft_(&draft) {}

  std::vector<TableReader> open(const std::string& name) {
    auto file = read_source_file(data_dir_, name, draft_->log);
    if (!file) return {};
    files_.push_back(std::move(*file));
    return {TableReader(files_.back().root, name, name, draft_->log)};
  }

  // Reads one file with `parse`; if it cannot be opened, the names it should define are let pass.
  template <typename Parse>
  void read(const std::string& name, Parse parse, std::initializer_list<Registry*> defines) {
    auto opened = open(name);
    if (opened.empty()) {
      for (Registry* registry : defines) registry->mark_incomplete();
    } else {
      parse(*draft_, std::move(opened.front()));
    }
  }

  // Only an entry that is there is read; a small catalogue may do without it.
  template <typename Parse>
  void read_if_there(const std::string& name, Parse parse) {
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(data_dir_ / name, ignored))) read(name, parse, {});
  }

  // Every .toml file of a folder, sorted by name.
  std::vector<TableReader> open_all(const std::string& folder, Registry& defines) {
    std::vector<std::string> names;
    for (const std::string& name : list(folder)) {
      if (name.ends_with(".toml")) names.push_back(folder + "/" + name);
    }
    if (names.empty()) {
      draft_->log.add({folder}, "expected a folder with .toml files here");
      defines.mark_incomplete();
    }
    std::vector<TableReader> readers;
    for (const std::string& name : names) {
      auto opened = open(name);
      if (opened.empty()) defines.mark_incomplete();
      std::move(opened.begin(), opened.end(), std::back_inserter(readers));
    }
    return readers;
  }

  // A misspelt file or folder would otherwise be passed over without a word.
  void refuse_strangers(const std::string& folder, const std::vector<std::string>& known, const std::string& kind) {
    for (const std::string& name : list(folder)) {
      if (std::find(known.begin(), known.end(), name) != known.end()) continue;
      std::error_code ignored;
      const std::string path = folder.empty() ? name : folder + "/" + name;
      if (!name.ends_with(".toml") && !fs::is_directory(data_dir_ / path, ignored)) continue;
      draft_->log.add({path}, unknown(kind, name, known));
    }
  }

 private:
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const {
    std::vector<std::string> names;
    std::error_code problem;
    fs::directory_iterator entry(folder.empty() ? data_dir_ : data_dir_ / folder, problem);
    for (; !problem && entry != fs::directory_iterator(); entry.increment(problem)) {
      std::string name = entry->path().filename().string();
      if (!hidden(name)) names.push_back(std::move(name));
    }
    std::sort(names.begin(), names.end());
    return names;
  }

  fs::path data_dir_;
  Draft* draft_;
  std::deque<SourceFile> files_;
};

void read_traits(SourceFolder& folder, Draft& draft) {
  std::vector<TraitFile> files;
  for (const std::string& name : trait_files()) {
    if (name == "groups.toml") continue;
    auto opened = folder.open("traits/" + name);
    if (opened.empty()) draft.traits.mark_incomplete();
    const auto layer = name == "meter.toml" ? knowledge::Layer::meter : knowledge::Layer::look;
    for (TableReader& reader : opened) files.push_back({std::move(reader), layer});
  }
  parse_traits(draft, files);
}

// An advice record that no part names is never given; most likely the part's `advice` was misspelt.
void demand_users(Draft& draft, const std::vector<Place>& places) {
  std::vector<bool> used(draft.knowledge.advice.size(), false);
  for (const auto& part : draft.knowledge.parts) {
    if (part.advice >= 0) used[static_cast<std::size_t>(part.advice)] = true;
  }
  for (const int meant : draft.meant_advice) {
    if (meant >= 0) used[static_cast<std::size_t>(meant)] = true;
  }
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (!used[i]) draft.log.add(places[i], "advice '" + draft.knowledge.advice[i].id + "' is used by no part");
  }
}

void read_all(SourceFolder& folder, Draft& draft) {
  folder.refuse_strangers("", known_entries(), "file or folder");
  folder.refuse_strangers("traits", trait_files(), "file");
  folder.read("basis.toml", parse_bases, {&draft.bases});
  folder.read("efforts.toml", parse_efforts, {&draft.efforts, &draft.tools});
  folder.read("traits/groups.toml", parse_groups, {&draft.groups});
  folder.read("colours.toml", parse_colours, {&draft.colours});
  folder.read("familiar.toml", parse_familiar, {});
  folder.read("symptoms.toml", parse_symptoms, {&draft.symptoms});
  folder.read("cautions.toml", parse_cautions, {&draft.cautions});
  read_traits(folder, draft);
  parse_families(draft, folder.open_all("families", draft.families));
  const auto places = parse_advice(draft, folder.open_all("advice", draft.advice));
  auto parts = folder.open_all("parts", draft.parts);
  const std::size_t read = parts.size();
  parse_parts(draft, std::move(parts));
  if (read > 0 && draft.parts.complete()) demand_users(draft, places);
  folder.read_if_there("confusions.toml", parse_confusions);
}

}  // namespace

SourceReport read_sources(const fs::path& data_dir) {
  std::error_code ignored;
  if (!fs::is_directory(data_dir, ignored)) {
    return {{}, {Error{ErrorKind::catalogue, "there is no such data directory", data_dir.string()}}};
  }
  Draft draft;
  SourceFolder folder(data_dir, draft);
  read_all(folder, draft);
  return {std::move(draft.knowledge), draft.log.errors()};
}

}  // namespace loomkey::catalogue
