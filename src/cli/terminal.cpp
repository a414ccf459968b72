#include "cli/terminal.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>

namespace loomkey::cli {
namespace {

constexpr std::size_t widest = 80;
constexpr std::size_t narrowest = 24;
constexpr std::size_t most_digits = 5;

// 0 for anything but a plain number.
std::size_t columns_of(const std::string& text) {
  if (text.empty() || text.size() > most_digits) return 0;
  std::size_t number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return 0;
    number = number * 10 + static_cast<std::size_t>(c - '0');
  }
  return number;
}

}  // namespace

std::optional<std::string> variable(const Variables& variables, const std::string& name) {
  const auto found = variables.find(name);
  if (found == variables.end() || found->second.empty()) return std::nullopt;
  return found->second;
}

Streams look_at_streams() {
  Streams streams;
  streams.input_is_terminal = ::isatty(STDIN_FILENO) == 1;
  streams.output_is_terminal = ::isatty(STDOUT_FILENO) == 1;
  streams.messages_are_terminal = ::isatty(STDERR_FILENO) == 1;
  winsize size{};
  if (streams.output_is_terminal && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) streams.columns = size.ws_col;
  return streams;
}

Terminal judge_terminal(const Streams& streams, const Variables& variables) {
  Terminal terminal;
  std::size_t columns = columns_of(variable(variables, "COLUMNS").value_or(""));
  if (columns == 0) columns = streams.columns;
  if (columns > 0) terminal.width = std::clamp(columns, narrowest, widest);
  const std::string kind = variable(variables, "TERM").value_or("dumb");
  const bool capable = streams.output_is_terminal && kind != "dumb";
  terminal.escapes = capable && !variable(variables, "NO_COLOR");
  terminal.can_ask = streams.input_is_terminal && streams.output_is_terminal;
  terminal.line_editing = terminal.can_ask && capable;
  terminal.progress = streams.messages_are_terminal;
  return terminal;
}

}  // namespace loomkey::cli
