#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "cli/asker.h"

namespace loomkey::support {

// A person who says lines that were written down before, and then ends; what was shown is kept.
class ScriptedAsker : public cli::Asker {
 public:
  explicit ScriptedAsker(std::vector<std::string> lines, cli::Line::Kind then = cli::Line::Kind::end)
      : lines_(lines.begin(), lines.end()), then_(then) {}

  cli::Line ask(const std::string& prompt) override {
    screen_ += prompt;
    prompts_.push_back(prompt);
    if (lines_.empty()) return {then_, {}};
    cli::Line line{cli::Line::Kind::text, lines_.front()};
    lines_.pop_front();
    screen_ += "\n";
    return line;
  }
  void say(std::string_view text) override { screen_ += text; }

  [[nodiscard]] const std::string& screen() const { return screen_; }
  [[nodiscard]] bool showed(std::string_view text) const { return screen_.find(text) != std::string::npos; }
  [[nodiscard]] const std::vector<std::string>& prompts() const { return prompts_; }

 private:
  std::deque<std::string> lines_;
  cli::Line::Kind then_;
  std::string screen_;
  std::vector<std::string> prompts_;
};

}  // namespace loomkey::support
