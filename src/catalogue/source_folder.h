#pragma once

#include <deque>
#include <filesystem>
#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "catalogue/draft.h"
#include "catalogue/source_file.h"

namespace loomkey::catalogue {

// Opens the files of a folder of sources and keeps them alive while their tables are read.
class SourceFolder {
 public:
  SourceFolder(std::filesystem::path folder, Draft& draft) : folder_(std::move(folder)), draft_(&draft) {}

  // One file, or nothing, with the reason logged.
  std::vector<TableReader> open(const std::string& name);

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
    if (holds(name)) read(name, parse, {});
  }

  [[nodiscard]] bool holds(const std::string& name) const;

  // Every .toml file of a folder that must be there, sorted by name.
  std::vector<TableReader> open_all(const std::string& folder, Registry& defines);

  // The same for a folder that may be missing; what cannot be opened lets no name pass.
  std::vector<TableReader> open_any(const std::string& folder);

  // A misspelt file or folder would otherwise be passed over without a word.
  void refuse_strangers(const std::string& folder, const std::vector<std::string>& known, const std::string& kind);

  // Names in a folder, "" being the whole one, sorted; hidden files and those an editor left behind are not among them.
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const;

 private:
  [[nodiscard]] std::vector<std::string> sources_in(const std::string& folder) const;

  std::filesystem::path folder_;
  Draft* draft_;
  std::deque<SourceFile> files_;
};

}  // namespace loomkey::catalogue
