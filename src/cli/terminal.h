#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>

namespace loomkey::cli {

// The environment as it was when the program started.
using Variables = std::map<std::string, std::string>;

// The value of a variable that is set and not empty.
std::optional<std::string> variable(const Variables&, const std::string& name);

// What the system says of standard input and output.
struct Streams {
  bool input_is_terminal = false;
  bool output_is_terminal = false;
  bool messages_are_terminal = false;
  std::size_t columns = 0;  // of the terminal behind the output; 0 if unknown
};

Streams look_at_streams();

// What may be shown, and how.
struct Terminal {
  std::size_t width = 80;     // columns to fill: never more than 80
  bool escapes = false;       // bold and colour are allowed
  bool can_ask = false;       // there is a person at both ends
  bool line_editing = false;  // arrow keys work
  bool progress = false;      // a running count may be shown with the messages
};

// COLUMNS, where it is a sensible number, stands above what the terminal says. NO_COLOR, TERM=dumb and a missing TERM
// switch terminal codes off, and the last two line editing too, as it moves the cursor.
Terminal judge_terminal(const Streams&, const Variables&);

}  // namespace loomkey::cli
