#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "evidence/file_values.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// One value as it stands in a readings file, not yet understood.
struct Found {
  std::string name;   // of a trait or pseudo-trait
  std::string value;  // in words
  Certainty certainty = Certainty::sure;
  std::string observer;
  std::optional<std::string> said;
  toml::source_position name_at = {};
  toml::source_position value_at = {};
};

// Gathers the values of [readings] and [[reading]].
class FoundReadings {
 public:
  // `file` is the name that messages give the file.
  FoundReadings(const knowledge::Knowledge& knowledge, std::string file)
      : knowledge_(&knowledge), file_(std::move(file)) {}

  // `node` is what stands at the key `readings` or `reading`.
  Result<void> take_table(const toml::node& node);
  Result<void> take_blocks(const toml::node& node);

  // In the order of the file.
  [[nodiscard]] std::vector<Found> finish();

 private:
  Result<void> take_block(const toml::table& table, Found found);
  Result<void> take_word(const Entry& entry, Found& found, bool named) const;
  Result<void> take_value(const toml::node& node, Found found);
  [[nodiscard]] tl::unexpected<Error> bad(const toml::source_position& at, std::string what) const;

  const knowledge::Knowledge* knowledge_;
  std::string file_;
  std::vector<Found> found_;
};

}  // namespace loomkey::evidence
