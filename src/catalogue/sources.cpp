#include "catalogue/sources.h"

#include <string>
#include <system_error>
#include <utility>

#include "catalogue/advice_parser.h"
#include "catalogue/confusion_parser.h"
#include "catalogue/draft.h"
#include "catalogue/part_parser.h"
#include "catalogue/source_folder.h"
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
  parse_advice(draft, folder.open_all("advice", draft.advice));
  auto parts = folder.open_all("parts", draft.parts);
  const std::size_t read = parts.size();
  parse_parts(draft, std::move(parts));
  if (read > 0 && draft.parts.complete()) demand_users(draft);
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
