#pragma once

#include <filesystem>
#include <memory>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/search_index.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// An opened catalogue. The knowledge is shared and never changes; it may outlive the catalogue. Without a database, a
// search makes an index of its own first.
class Catalogue {
 public:
  Catalogue(std::filesystem::path path, std::shared_ptr<const knowledge::Knowledge> knowledge,
            std::unique_ptr<SQLite::Database> database);
  ~Catalogue();
  Catalogue(Catalogue&&) noexcept;
  Catalogue& operator=(Catalogue&&) noexcept;

  [[nodiscard]] std::shared_ptr<const knowledge::Knowledge> knowledge() const { return knowledge_; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  // The same catalogue with other knowledge: that of the file with an overlay on it.
  [[nodiscard]] Catalogue with(knowledge::Knowledge) &&;

  // Parts whose names, aliases, foreign terms, wrong names or functions hold all of the words (the last one may be
  // the start of a word); if there are none, parts that hold some of them. Best first, ties by part id. Any text is
  // allowed: what is no letter or digit only separates words.
  [[nodiscard]] std::vector<SearchHit> search(std::string_view words, std::size_t limit) const;

 private:
  std::filesystem::path path_;
  std::shared_ptr<const knowledge::Knowledge> knowledge_;
  std::unique_ptr<SQLite::Database> database_;
};

// Opens a catalogue for reading; nothing is written beside it, so it may lie in a read-only folder. One clear error if
// the file is missing, foreign, of another format, cut short, damaged or not readable.
Result<Catalogue> open_catalogue(const std::filesystem::path& path);

}  // namespace loomkey::catalogue
