#pragma once

#include <array>
#include <filesystem>
#include <string>
#include <vector>

#include "base/result.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// What an overlay does with items of one kind, by their ids, sorted.
struct OverlayItems {
  std::string one;                    // "part"
  std::string many;                   // "parts"
  std::vector<std::string> added;     // new ids
  std::vector<std::string> replaced;  // ids that ship
  std::vector<std::string> ignored;   // wrong, or resting on something that is
};

// What an overlay changes, and everything that is wrong with it.
struct OverlayReport {
  std::filesystem::path folder;
  std::array<OverlayItems, 4> items = {{{"part", "parts", {}, {}, {}},
                                        {"advice record", "advice records", {}, {}, {}},
                                        {"family", "families", {}, {}, {}},
                                        {"confusion set", "confusion sets", {}, {}, {}}}};
  std::vector<Error> mistakes;  // each with where = "parts/mine.toml:41:7", in the order of places
  std::vector<Error> left_out;  // one for each thing ignored, its first mistake with the whole path

  [[nodiscard]] const OverlayItems& parts() const { return items[0]; }
  [[nodiscard]] bool ok() const { return mistakes.empty(); }
};

struct Overlaid {
  knowledge::Knowledge knowledge;  // with a hash of its own, made from the whole content
  OverlayReport report;
};

// The shipped knowledge with the parts, advice records, families and confusion sets of an overlay folder, which is laid
// out as the sources are: parts/*.toml, advice/*.toml, families/*.toml, confusions.toml. An id that ships is replaced
// (families are only added), a new one added. What is wrong is left out, together with what rests on it; all that
// stands on its own stays, so the knowledge is always fit for use, at worst as it ships.
Overlaid apply_overlay(const knowledge::Knowledge& shipped, const std::filesystem::path& folder);

// Whether a folder is laid out as an overlay and not as the sources of a whole catalogue: it has no traits, and at
// least one of the entries that an overlay may hold.
bool is_overlay(const std::filesystem::path& folder);

}  // namespace loomkey::catalogue
