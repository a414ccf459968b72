#pragma once

#include <string>
#include <utility>

#include <tl/expected.hpp>

namespace loomkey {

// Why something a user can cause did not work. Each kind has one exit code (cli/exit_codes.h).
enum class ErrorKind {
  usage,      // the words of the command line cannot be understood
  input,      // a readings file, a value or another text from the user is wrong
  catalogue,  // the catalogue is missing, foreign, newer, damaged, or its sources are wrong
  storage,    // the system refused to read or write: permissions, disk full, closed pipe
};

// One clear message. `where` is a place to go to: "rectifier.toml:41:7", a path, or a trait; it may be empty.
struct Error {
  ErrorKind kind = ErrorKind::input;
  std::string what;
  std::string where;

  // "where: what", or just "what".
  [[nodiscard]] std::string message() const { return where.empty() ? what : where + ": " + what; }
};

template <typename T>
using Result = tl::expected<T, Error>;

inline tl::unexpected<Error> fail(ErrorKind kind, std::string what, std::string where = {}) {
  return tl::unexpected<Error>(Error{kind, std::move(what), std::move(where)});
}

}  // namespace loomkey
