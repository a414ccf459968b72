#pragma once

#include <array>
#include <string_view>

#include "base/result.h"
#include "inference/assess.h"

namespace loomkey::cli {

// What the program answers to the one that started it. Scripts rely on these numbers: they never change meaning.
enum class ExitCode {
  answered = 0,
  fault = 1,
  usage = 2,
  open = 3,
  contradicted = 4,
  not_in_catalogue = 5,
  bad_input = 6,
  catalogue = 7,
  storage = 8,
  interrupted = 130,
};

struct ExitMeaning {
  ExitCode code;
  std::string_view meaning;
};

// The table of the man page.
inline constexpr std::array<ExitMeaning, 10> exit_meanings = {{
    {ExitCode::answered, "Done. For identify: the part is settled or likely, or --exit-zero was given."},
    {ExitCode::fault, "A fault of the program itself."},
    {ExitCode::usage, "The command line cannot be understood."},
    {ExitCode::open,
     "identify: still open, or it cannot be told from what can be read. catalogue diff: the two differ."},
    {ExitCode::contradicted, "identify: one reading cannot stand with the others."},
    {ExitCode::not_in_catalogue, "identify: no part of the catalogue fits."},
    {ExitCode::bad_input, "A reading, a readings file or a name is wrong."},
    {ExitCode::catalogue, "The catalogue is missing or damaged, or its sources are wrong."},
    {ExitCode::storage, "The system refused to read or write: permissions, a full disk, a closed pipe."},
    {ExitCode::interrupted, "Interrupted by Ctrl-C; the readings of a conversation are saved."},
}};

constexpr ExitCode exit_code(ErrorKind kind) {
  switch (kind) {
    case ErrorKind::usage:
      return ExitCode::usage;
    case ErrorKind::input:
      return ExitCode::bad_input;
    case ErrorKind::catalogue:
      return ExitCode::catalogue;
    case ErrorKind::storage:
      break;
  }
  return ExitCode::storage;
}

constexpr ExitCode exit_code(inference::Status status) {
  switch (status) {
    case inference::Status::likely:
    case inference::Status::settled:
      return ExitCode::answered;
    case inference::Status::contradicted:
      return ExitCode::contradicted;
    case inference::Status::not_in_catalogue:
      return ExitCode::not_in_catalogue;
    case inference::Status::open:
    case inference::Status::cannot_tell:
      break;
  }
  return ExitCode::open;
}

}  // namespace loomkey::cli
