#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include <toml++/toml.h>

#include "catalogue/source_log.h"

namespace loomkey::catalogue {

// A value of a source file. It borrows the node from the file that was read.
struct SourceNode {
  const toml::node* node = nullptr;
  std::string file;

  [[nodiscard]] Place place() const;
  [[nodiscard]] SourceNode of(const toml::node& inner) const { return {&inner, file}; }
};

Place place_of(const std::string& file, const toml::source_region& region);

// "a string", "a whole number", "a table", ...
std::string describe(const toml::node& node);

struct SourceFile {
  std::string name;  // relative to the data directory
  toml::table root;
};

// Reads and parses one file; nothing, with the reason in `log`, if it is missing, unreadable, empty, not UTF-8, far too
// large or not TOML.
std::optional<SourceFile> read_source_file(const std::filesystem::path& data_dir, const std::string& name,
                                           SourceLog& log);

}  // namespace loomkey::catalogue
