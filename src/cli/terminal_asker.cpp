#include "cli/terminal_asker.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>

#include <histedit.h>

#include "cli/shell.h"

namespace loomkey::cli {
namespace {

// Longer lines are nobody's answer; the rest is read and dropped, so that it is not taken for the next one.
constexpr std::size_t longest_line = 64 * 1024;

std::string without_line_end(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.pop_back();
  return text;
}

}  // namespace

void StreamAsker::say(std::string_view text) {
  if (shown_) shown_ = write_all(STDOUT_FILENO, text, "standard output");
}

Line StreamAsker::ask(const std::string& prompt) {
  say(prompt);
  if (!shown_) return {Line::Kind::broken, {}};
  while (true) {
    if (const std::size_t end = pending_.find('\n'); end != std::string::npos) {
      Line line{Line::Kind::text, without_line_end(pending_.substr(0, end))};
      pending_.erase(0, end + 1);
      return line;
    }
    if (ended_ && pending_.empty()) return {Line::Kind::end, {}};
    if (ended_) return {Line::Kind::text, without_line_end(std::exchange(pending_, {}))};
    switch (interrupts_.wait_for(STDIN_FILENO)) {
      case Interrupts::Event::interrupted:
        return {Line::Kind::interrupted, {}};
      case Interrupts::Event::suspended:
        interrupts_.suspend();
        continue;
      case Interrupts::Event::resized:
        continue;
      case Interrupts::Event::input:
        break;
    }
    std::array<char, 4096> block{};
    const ssize_t got = ::read(STDIN_FILENO, block.data(), block.size());
    if (got < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (got <= 0) {
      ended_ = true;
    } else if (pending_.size() < longest_line || std::count(block.begin(), block.begin() + got, '\n') > 0) {
      pending_.append(block.data(), static_cast<std::size_t>(got));
    }
  }
}

EditingAsker::EditingAsker() : editor_(el_init("loomkey", stdin, stdout, stderr)) {
  if (editor_ == nullptr) return;
  el_set(editor_, EL_CLIENTDATA, this);
  el_set(editor_, EL_EDITOR, "emacs");
  el_set(editor_, EL_SIGNAL, 0);
  el_set(editor_, EL_GETCFN, &EditingAsker::read_key);
  el_set(editor_, EL_PROMPT, &EditingAsker::prompt_of);
}

EditingAsker::~EditingAsker() {
  if (editor_ != nullptr) el_end(editor_);
}

char* EditingAsker::prompt_of(editline* editor) {
  void* self = nullptr;
  el_get(editor, EL_CLIENTDATA, &self);
  return static_cast<EditingAsker*>(self)->prompt_.data();
}

// 1 for a character, 0 at the end, -1 when interrupted. libedit's own reader goes on reading after a signal.
int EditingAsker::read_key(editline* editor, wchar_t* key) {
  void* self = nullptr;
  el_get(editor, EL_CLIENTDATA, &self);
  const Interrupts& interrupts = static_cast<EditingAsker*>(self)->interrupts();
  std::mbstate_t state{};
  while (true) {
    switch (interrupts.wait_for(STDIN_FILENO)) {
      case Interrupts::Event::interrupted:
        return -1;
      case Interrupts::Event::suspended:
        el_set(editor, EL_PREP_TERM, 0);
        interrupts.suspend();
        el_set(editor, EL_PREP_TERM, 1);
        el_set(editor, EL_REFRESH);
        continue;
      case Interrupts::Event::resized:
        el_resize(editor);
        continue;
      case Interrupts::Event::input:
        break;
    }
    char byte = 0;
    const ssize_t got = ::read(STDIN_FILENO, &byte, 1);
    if (got < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (got <= 0) return 0;
    const std::size_t length = std::mbrtowc(key, &byte, 1, &state);
    if (length == static_cast<std::size_t>(-2)) continue;  // more bytes of this character are to come
    if (length == static_cast<std::size_t>(-1)) *key = L'?';
    return 1;
  }
}

Line EditingAsker::ask(const std::string& prompt) {
  if (editor_ == nullptr) return StreamAsker::ask(prompt);
  if (!shown()) return {Line::Kind::broken, {}};
  prompt_ = prompt;
  int count = 0;
  const char* text = el_gets(editor_, &count);
  if (interrupts().interrupted()) return {Line::Kind::interrupted, {}};
  if (text == nullptr || count <= 0) return {Line::Kind::end, {}};
  return {Line::Kind::text, without_line_end(std::string(text, static_cast<std::size_t>(count)))};
}

}  // namespace loomkey::cli
