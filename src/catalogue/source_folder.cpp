#include "catalogue/source_folder.h"

#include <algorithm>
#include <iterator>
#include <system_error>

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;

bool hidden(const std::string& name) { return name.starts_with('.') || name.ends_with('~'); }

}  // namespace

std::vector<TableReader> SourceFolder::open(const std::string& name) {
  auto file = read_source_file(folder_, name, draft_->log);
  if (!file) return {};
  files_.push_back(std::move(*file));
  return {TableReader(files_.back().root, name, name, draft_->log)};
}

bool SourceFolder::holds(const std::string& name) const {
  std::error_code ignored;
  return fs::exists(fs::symlink_status(folder_ / name, ignored));
}

std::vector<TableReader> SourceFolder::open_all(const std::string& folder, Registry& defines) {
  const std::vector<std::string> names = sources_in(folder);
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

std::vector<TableReader> SourceFolder::open_any(const std::string& folder) {
  if (!holds(folder)) return {};
  std::error_code problem;
  const fs::directory_iterator readable(folder_ / folder, problem);
  if (problem) {
    draft_->log.add({folder}, "this folder cannot be opened: " + problem.message());
    return {};
  }
  std::vector<TableReader> readers;
  for (const std::string& name : sources_in(folder)) {
    auto opened = open(name);
    std::move(opened.begin(), opened.end(), std::back_inserter(readers));
  }
  return readers;
}

void SourceFolder::refuse_strangers(const std::string& folder, const std::vector<std::string>& known,
                                    const std::string& kind) {
  for (const std::string& name : list(folder)) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    std::error_code ignored;
    const std::string path = folder.empty() ? name : folder + "/" + name;
    if (!name.ends_with(".toml") && !fs::is_directory(folder_ / path, ignored)) continue;
    draft_->log.add({path}, unknown(kind, name, known));
  }
}

std::vector<std::string> SourceFolder::list(const std::string& folder) const {
  std::vector<std::string> names;
  std::error_code problem;
  fs::directory_iterator entry(folder.empty() ? folder_ : folder_ / folder, problem);
  for (; !problem && entry != fs::directory_iterator(); entry.increment(problem)) {
    std::string name = entry->path().filename().string();
    if (!hidden(name)) names.push_back(std::move(name));
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> SourceFolder::sources_in(const std::string& folder) const {
  std::vector<std::string> names;
  for (const std::string& name : list(folder)) {
    if (name.ends_with(".toml")) names.push_back(folder + "/" + name);
  }
  return names;
}

}  // namespace loomkey::catalogue
