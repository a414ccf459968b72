#pragma once

namespace loomkey::cli {

// While one lives, Ctrl-C, a hang-up and a request to stop only set a flag, so that the conversation can save and put
// the terminal back. Only one at a time.
class Interrupts {
 public:
  Interrupts();
  ~Interrupts();
  Interrupts(const Interrupts&) = delete;
  Interrupts& operator=(const Interrupts&) = delete;

  enum class Event { input, interrupted, suspended, resized };

  [[nodiscard]] bool interrupted() const;

  // Waits until the descriptor can be read (or has ended), or a signal came. No signal is lost in between.
  [[nodiscard]] Event wait_for(int descriptor) const;

  // Stops the program as Ctrl-Z does, and returns when it is continued.
  void suspend() const;
};

}  // namespace loomkey::cli
