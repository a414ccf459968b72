#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "cli/command_tree.h"

namespace loomkey::cli {

enum class Command {
  help,
  version,
  identify,
  why,
  parts_list,
  parts_search,
  parts_show,
  compare,
  traits,
  settings,
  catalogue_build,
  catalogue_check,
  catalogue_template,
  catalogue_trial,
  catalogue_info,
  catalogue_diff,
  catalogue_separability,
  generate_man,
  generate_completion,
  generate_words,
};

// Where the readings of one find come from.
struct CaseSources {
  std::vector<std::string> files;     // "-" is standard input
  std::vector<std::string> readings;  // "form = can (think so)"
  std::vector<std::string> bike;      // "volts=12"
  std::string guessed_name;
  std::optional<std::string> tools;  // "ruler, meter"
  bool leads_zeroed = false;
  std::string certainty;  // of the readings above that name none; empty: sure

  // Whether the person has already said what they see.
  [[nodiscard]] bool any_readings() const { return !files.empty() || !readings.empty(); }
};

struct IdentifyOptions {
  CaseSources sources;
  std::string save;
  bool resume = false;
  std::string resume_file;  // empty: the last conversation
  bool conversation = false;
  bool one_shot = false;
  bool force = false;
  bool exit_zero = false;
  std::size_t questions = 3;
  std::size_t candidates = 5;
};

struct TrialWords {
  int cases = 300;
  std::uint64_t seed = 1;
  std::vector<int> wrong;  // per cent of wrong answers, one trial each; empty: the standard observers
  int cannot_tell = 20;    // per cent
  bool without_meter = false;
  bool every_part = false;
  int absent_classes = 30;
  std::string mistakes = "both";  // own, other or both
  std::string verdicts;           // file; "-" is standard output; empty: the trial itself
};

struct SeparabilityWords {
  int below = 5;      // decibans
  int together = 20;  // decibans
  std::string csv;    // file; empty: none; "-": standard output
  std::string svg;
};

// What the person asked for, as plain values. Only the fields of `command` mean anything.
struct CommandLine {
  Command command = Command::help;
  std::vector<std::string> help_on;  // the command that help is wanted on: {"parts", "list"}
  std::string catalogue;             // empty: the default one
  std::string overlay;               // empty: the default one
  bool without_overlay = false;
  bool json = false;

  IdentifyOptions identify;
  CaseSources why;
  std::vector<std::string> words;  // parts, a trait, words to search for, a shell
  std::string family;
  std::string from;
  std::string to;
  TrialWords trial;
  SeparabilityWords separability;
};

// Every error is of kind `usage`.
Result<CommandLine> parse_command_line(const std::vector<std::string>& words);

// The tree that parse_command_line obeys.
CommandNode command_tree();

}  // namespace loomkey::cli
