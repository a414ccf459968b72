#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "support/temp_dir.h"
#include "support/tiny_parts.h"

namespace loomkey::support {

// A part of the tiny catalogue under another id and advice, as an overlay would write it.
inline std::string part_text(const std::string& id, const std::string& advice, const std::string& extra = "") {
  return "[[part]]\nid = \"" + id + "\"\nname = \"part " + id +
         "\"\nfamily = \"flasher\"\naliases = [\"gadget\"]\nadvice = \"" + advice +
         "\"\nera = [1970, 1990]\nbrought_in = \"seldom\"\norigins = [\"british\"]\nwhere = \"in the club's "
         "tin\"\nstrays = \"nowhere\"\n"
         "works_with = []\nbasis = \"memory\"\nfault = []\ncheck = []\nlookalike = []\n" +
         extra +
         "[part.looks]\nform = \"stick\"\nbox = [[10, 20], [40, 50], [25, 35]]\nletters = \"none\"\n[part.meter]\n\n";
}

inline std::string advice_text(const std::string& id) {
  return "[[advice]]\nid = \"" + id +
         "\"\ntitle = \"gadget\"\nfunction = \"Gleams.\"\nneeded = \"Never.\"\nprice = \"harmless\"\ncautions = []\n"
         "basis = \"memory\"\nsubstitute = []\n\n";
}

// An overlay folder that a test fills.
class OverlayFolder {
 public:
  OverlayFolder() { std::filesystem::create_directories(path()); }
  [[nodiscard]] std::filesystem::path path() const { return dir_ / "overlay"; }
  void put(const std::string& name, std::string_view text) const { write_bytes(path() / name, text); }

 private:
  TempDir dir_;
};

}  // namespace loomkey::support
