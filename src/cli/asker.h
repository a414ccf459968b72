#pragma once

#include <string>
#include <string_view>

namespace loomkey::cli {

// One line of a person, or why there is none.
struct Line {
  enum class Kind {
    text,
    end,          // Ctrl-D, or the end of the input
    interrupted,  // Ctrl-C, or the system asks the program to stop
    broken,       // nothing can be shown any more
  };

  Kind kind = Kind::end;
  std::string text;
};

// Whoever talks to the person: a terminal with line editing, a plain stream, or a script of a test.
class Asker {
 public:
  virtual ~Asker() = default;

  virtual Line ask(const std::string& prompt) = 0;
  virtual void say(std::string_view text) = 0;
};

}  // namespace loomkey::cli
