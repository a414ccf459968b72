#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "bench/compare.h"
#include "bench/finding.h"
#include "catalogue/catalogue.h"
#include "catalogue/overlay.h"
#include "inference/model.h"

namespace loomkey::bench {

// An open catalogue with the engine over it: the one thing a front end holds.
class Workbench {
 public:
  // With an overlay, its parts are added and replaced; what is wrong with it is no error, see overlay().
  static Result<Workbench> open(const std::filesystem::path& catalogue,
                                const std::optional<std::filesystem::path>& overlay = std::nullopt);

  // Over a catalogue made in memory; search then finds nothing.
  static Workbench over(std::shared_ptr<const knowledge::Knowledge>);

  [[nodiscard]] const knowledge::Knowledge& knowledge() const { return model_->knowledge(); }
  [[nodiscard]] const inference::Model& model() const { return *model_; }
  [[nodiscard]] std::shared_ptr<const inference::Model> shared_model() const { return model_; }

  // What the overlay did; nothing without one.
  [[nodiscard]] const std::optional<catalogue::OverlayReport>& overlay() const { return overlay_; }

  // Hash of the catalogue's own content, without the overlay; empty for one made in memory.
  [[nodiscard]] const std::string& shipped_hash() const { return shipped_hash_; }

  // Part by id, by exact name or alias (letter case ignored); else an error with the nearest known id.
  [[nodiscard]] Result<int> part(std::string_view words) const;

  // Parts whose names, aliases or functions match the words, best first.
  [[nodiscard]] std::vector<int> search(std::string_view words, std::size_t limit) const;

 private:
  std::shared_ptr<const inference::Model> model_;
  std::shared_ptr<const catalogue::Catalogue> catalogue_;
  std::optional<catalogue::OverlayReport> overlay_;
  std::string shipped_hash_;
};

}  // namespace loomkey::bench
