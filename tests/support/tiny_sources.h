#pragma once

#include <filesystem>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>

#include "support/temp_dir.h"
#include "support/tiny_parts.h"
#include "support/tiny_vocabulary.h"

namespace loomkey::support {

// A minimal data directory, valid as it stands: two parts of one family. A test changes one file, writes the folder
// and reads it. Everything in it is invented.
class TinySources {
 public:
  TinySources() : files_(tiny_vocabulary()) { files_.merge(tiny_parts()); }

  // The text of a file, to be changed; the name is relative to the data directory.
  std::string& file(const std::string& name) { return files_[name]; }
  void remove(const std::string& name) { files_.erase(name); }

  // Replaces the first occurrence of `from`, which must be there.
  void replace(const std::string& name, std::string_view from, std::string_view to) {
    std::string& text = files_.at(name);
    const std::size_t at = text.find(from);
    if (at == std::string::npos) throw std::runtime_error("no '" + std::string(from) + "' in " + name);
    text.replace(at, from.size(), to);
  }

  // Writes everything into a new folder, which lives as long as this object.
  std::filesystem::path write() {
    std::filesystem::remove_all(dir_ / "data");
    for (const auto& [name, text] : files_) write_bytes(dir_ / "data" / name, text);
    return dir_ / "data";
  }

 private:
  TempDir dir_;
  std::map<std::string, std::string> files_;
};

}  // namespace loomkey::support
