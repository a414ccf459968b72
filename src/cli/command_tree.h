#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loomkey::cli {

// The option tree as plain values, read from the parser itself: help, man page, completions and "did you mean" are made
// from it, so none of them can drift from what the parser takes.

struct OptionNode {
  std::vector<std::string> names;  // with their dashes, the long one first
  std::string value;               // what it takes: "FILE"; empty for a flag
  bool value_optional = false;
  bool repeatable = false;
  bool required = false;
  std::vector<std::string> choices;  // the values it is limited to, if any
  std::string limits;                // "1 to 20", for a number that has some
  std::string help;

  // Help and version: they end the program, so they need not be offered with every command.
  [[nodiscard]] bool ends_at_once() const;

  // "--readings FILE", "--resume [FILE]"
  [[nodiscard]] std::string usage() const;
};

struct ArgumentNode {
  std::string name;  // "PART"
  bool required = false;
  bool repeatable = false;
  std::vector<std::string> choices;
  std::string help;

  // "PART", "[TRAIT]", "WORDS..."
  [[nodiscard]] std::string usage() const;
};

struct CommandNode {
  std::string name;
  std::string help;
  bool hidden = false;
  bool runs_alone = false;  // works without one of its subcommands
  std::vector<OptionNode> options;
  std::vector<ArgumentNode> arguments;
  std::vector<CommandNode> commands;

  [[nodiscard]] const CommandNode* command(std::string_view wanted) const;
  [[nodiscard]] const OptionNode* option(std::string_view wanted) const;
};

// The commands from the root down along `path`; it ends early at a name that is none.
std::vector<const CommandNode*> walk(const CommandNode& root, const std::vector<std::string>& path);

// "loomkey parts list"
std::string path_text(const std::vector<const CommandNode*>& path);

// "loomkey identify [OPTIONS]", "loomkey compare [OPTIONS] A B [C]"
std::string synopsis(const std::vector<const CommandNode*>& path);

// Help on the command at the end of the path, no line wider than `width`.
std::string help_text(const CommandNode& root, const std::vector<std::string>& path, std::size_t width);

// Why the parser refused these words, in one message with the nearest known name; empty if the tree cannot tell.
std::string explain_refusal(const CommandNode& root, const std::vector<std::string>& words);

}  // namespace loomkey::cli
