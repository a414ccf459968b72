#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "base/result.h"
#include "cli/terminal.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::cli {

// Whether a file may be written over: there is none, it is empty, or it holds readings.
Result<void> may_save(const knowledge::Knowledge&, const std::string& file, bool force);

// Writes the readings so that a break leaves either the old file or the whole new one.
Result<void> save_case(const knowledge::Knowledge&, const evidence::Case&, const std::string& note,
                       const std::filesystem::path& file);

// Keeps the readings of a conversation after every answer: in the state folder, and in a file of the person's choice.
class CaseKeeper {
 public:
  // `fresh`: a new conversation, not one that goes on with the last; the last one is then set aside as the previous
  // one.
  CaseKeeper(const knowledge::Knowledge&, const Variables&, std::string file, std::string note, bool fresh);

  Result<void> keep(const evidence::Case&);

  // Where the person finds the readings again; empty if they could not be kept anywhere.
  [[nodiscard]] std::string where() const;

  // How to go on with them.
  [[nodiscard]] std::string how_to_resume() const;

 private:
  Result<void> keep_in_state(const evidence::Case&);

  const knowledge::Knowledge& knowledge_;
  std::optional<std::filesystem::path> folder_;
  std::string file_;
  std::string note_;
  bool fresh_;
  bool kept_in_state_ = false;
  bool kept_in_file_ = false;
};

}  // namespace loomkey::cli
