#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace loomkey::catalogue {

// A position in a source file; line and column count from one.
struct Place {
  std::string file;  // relative to the data directory: "parts/rectifier.toml"
  int line = 1;
  int column = 1;

  // "parts/rectifier.toml:41:7"
  [[nodiscard]] std::string text() const;
};

// Gathers everything that is wrong with the sources, so that an editor sees all of it in one go.
class SourceLog {
 public:
  void add(const Place& place, std::string_view what);

  [[nodiscard]] std::size_t size() const { return entries_.size(); }

  // One entry, counted in the order they were added.
  [[nodiscard]] const Place& place(std::size_t index) const { return entries_[index].place; }
  [[nodiscard]] const std::string& what(std::size_t index) const { return entries_[index].what; }

  // In the order of file, line and column.
  [[nodiscard]] std::vector<Error> errors() const;

 private:
  struct Entry {
    Place place;
    std::string what;
  };
  std::vector<Entry> entries_;
};

// "unknown state 'cann'. Did you mean 'can'?", or the first of the known names when none is near.
std::string unknown(std::string_view kind, std::string_view word, const std::vector<std::string>& known);

// A number as a person would write it: "0.05", "10000000".
std::string show(double number);

}  // namespace loomkey::catalogue
