#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "bench/compare.h"
#include "bench/finding.h"
#include "inference/model.h"

namespace loomkey::bench {

// An open catalogue with the engine over it: the one thing a front end holds.
class Workbench {
 public:
  static Result<Workbench> open(const std::filesystem::path& catalogue);

  // Over a catalogue made in memory; search then finds nothing.
  static Workbench over(std::shared_ptr<const knowledge::Knowledge>);

  [[nodiscard]] const knowledge::Knowledge& knowledge() const { return model_->knowledge(); }
  [[nodiscard]] const inference::Model& model() const { return *model_; }
  [[nodiscard]] std::shared_ptr<const inference::Model> shared_model() const { return model_; }

  // Part by id, by exact name or alias (letter case ignored); else an error with the nearest known id.
  [[nodiscard]] Result<int> part(std::string_view words) const;

  // Parts whose names, aliases or functions match the words, best first.
  [[nodiscard]] Result<std::vector<int>> search(std::string_view words, std::size_t limit) const;

 private:
  std::shared_ptr<const inference::Model> model_;
  std::filesystem::path path_;
};

}  // namespace loomkey::bench
