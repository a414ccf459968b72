#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "base/result.h"
#include "cli/terminal.h"
#include "report/document.h"
#include "report/text.h"

namespace loomkey::cli {

// The world around a command: data goes to standard output, messages to standard error.
struct Shell {
  Variables variables;
  Terminal terminal;

  // Writes all of it or says why not. A reader that went away (closed pipe) gives an error without words: there is
  // nobody to tell.
  [[nodiscard]] Result<void> print(std::string_view text) const;
  [[nodiscard]] Result<void> print(const report::Document&) const;

  // One message, folded to the width: "loomkey: ...". A message that cannot be written is lost.
  void tell(std::string_view text) const;

  [[nodiscard]] report::TextStyle style() const { return {.width = terminal.width, .escapes = terminal.escapes}; }
};

// Writes to a file descriptor until all is written.
Result<void> write_all(int descriptor, std::string_view text, std::string_view name);

// Where the running program lies, links resolved; empty if the system does not say.
std::filesystem::path executable_path();

}  // namespace loomkey::cli
