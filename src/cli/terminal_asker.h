#pragma once

#include <cwchar>
#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"
#include "cli/asker.h"
#include "cli/interrupts.h"

struct editline;

namespace loomkey::cli {

// Writes to standard output; remembers the first failure, after which every question is answered with `broken`.
class StreamAsker : public Asker {
 public:
  // Reads plain lines from standard input: for pipes, and for terminals that cannot move a cursor.
  Line ask(const std::string& prompt) override;
  void say(std::string_view text) override;

  // Why nothing could be shown; no words if the reader went away.
  [[nodiscard]] const Result<void>& shown() const { return shown_; }
  [[nodiscard]] const Interrupts& interrupts() const { return interrupts_; }

 private:
  Interrupts interrupts_;
  Result<void> shown_;
  std::string pending_;  // read, and not yet asked for
  bool ended_ = false;
};

// The same with line editing. The terminal is as it was whenever `ask` has returned.
class EditingAsker : public StreamAsker {
 public:
  EditingAsker();
  ~EditingAsker() override;
  EditingAsker(const EditingAsker&) = delete;
  EditingAsker& operator=(const EditingAsker&) = delete;

  Line ask(const std::string& prompt) override;

 private:
  static int read_key(editline*, wchar_t*);
  static char* prompt_of(editline*);

  editline* editor_;
  std::string prompt_;
};

}  // namespace loomkey::cli
