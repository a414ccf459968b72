#include "report/text.h"

#include <algorithm>
#include <variant>

#include "base/text.h"
#include "report/table_layout.h"

namespace loomkey::report {
namespace {

constexpr std::size_t narrowest = 24;
constexpr std::string_view bold = "\x1b[1m";
constexpr std::string_view alarm = "\x1b[1;31m";
constexpr std::string_view plain = "\x1b[0m";

bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }

// Words, cleaned. A per cent sign stays with its figure.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::size_t at = 0;
  while (at < text.size()) {
    while (at < text.size() && is_blank(text[at])) ++at;
    std::size_t end = at;
    while (end < text.size() && !is_blank(text[end])) ++end;
    if (end == at) break;
    std::string word = printable(text.substr(at, end - at));
    if (!words.empty() && word.front() == '%') {
      words.back() += ' ' + word;
    } else {
      words.push_back(std::move(word));
    }
    at = end;
  }
  return words;
}

// Bytes of the first `points` code points.
std::size_t bytes_of(std::string_view text, std::size_t points) {
  std::size_t at = 0;
  while (at < text.size() && points > 0) {
    ++at;
    while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U) ++at;
    --points;
  }
  return at;
}

class Page {
 public:
  explicit Page(const TextStyle& style) : width_(std::max(style.width, narrowest)), escapes_(style.escapes) {}

  void title(const std::string& text) {
    const std::vector<std::string> lines = fold(text, width_);
    std::size_t longest = 0;
    for (const std::string& line : lines) {
      longest = std::max(longest, display_width(line));
      put("", painted(line, bold));
    }
    if (!lines.empty()) put("", std::string(longest, '='));
  }

  void show(const Block& block) {
    const bool caution_follows_caution = is_note(block) && last_was_note_;
    if (!text_.empty() && !after_heading_ && !caution_follows_caution) text_ += '\n';
    after_heading_ = false;
    last_was_note_ = is_note(block);
    std::visit([this](const auto& b) { add(b); }, block);
  }

  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  static bool is_note(const Block& block) { return std::holds_alternative<Note>(block); }

  [[nodiscard]] std::string painted(const std::string& text, std::string_view code) const {
    return escapes_ ? std::string(code) + text + std::string(plain) : text;
  }

  void put(const std::string& indent, const std::string& line) { text_ += indent + line + '\n'; }

  void hang(const std::string& first, std::string_view code, const std::string& text) {
    const std::size_t indent = display_width(first);
    std::string lead = painted(first, code);
    for (const std::string& line : fold(text, width_ - std::min(indent, width_ / 2))) {
      put(lead, line);
      lead.assign(indent, ' ');
    }
  }

  void add(const Heading& heading) {
    for (const std::string& line : fold(heading.text, width_)) put("", painted(line, bold));
    indent_ = "  ";
    after_heading_ = true;
  }

  void add(const Paragraph& paragraph) {
    for (const std::string& line : fold(paragraph.text, width_ - indent_.size())) put(indent_, line);
  }

  void add(const Bullets& bullets) {
    for (const std::string& item : bullets.items) hang(indent_ + "- ", {}, item);
  }

  void add(const KeyValues& list) {
    const std::size_t room = width_ - indent_.size();
    std::size_t longest = 0;
    for (const auto& [key, value] : list.rows) longest = std::max(longest, display_width(printable(key)));
    const std::size_t keys = std::min(longest, room * 2 / 5);
    for (const auto& [key, value] : list.rows) {
      const std::vector<std::string> left = fold(key, keys);
      const std::vector<std::string> right = fold(value, room - keys - 2);
      for (std::size_t i = 0; i < std::max(left.size(), right.size()); ++i) {
        std::string line = i < left.size() ? left[i] : "";
        if (i < right.size()) line += std::string(keys + 2 - display_width(line), ' ') + right[i];
        put(indent_, line);
      }
    }
  }

  void add(const Table& table) {
    for (const std::string& line : table_lines(table, width_ - indent_.size())) put(indent_, line);
  }

  void add(const Note& note) {
    if (note.kind == Note::Kind::caution) {
      hang(indent_ + "CAUTION: ", escapes_ ? alarm : std::string_view{}, note.text);
    } else {
      hang(indent_ + "Note: ", escapes_ ? bold : std::string_view{}, note.text);
    }
  }

  std::size_t width_;
  bool escapes_;
  std::string indent_;
  std::string text_;
  bool after_heading_ = false;
  bool last_was_note_ = false;
};

}  // namespace

std::vector<std::string> fold(std::string_view text, std::size_t width) {
  width = std::max<std::size_t>(width, 1);
  std::vector<std::string> lines;
  std::size_t column = 0;
  for (std::string word : words_of(text)) {
    std::size_t length = display_width(word);
    if (!lines.empty() && column + 1 + length <= width) {
      lines.back() += ' ' + word;
      column += 1 + length;
      continue;
    }
    while (length > width) {
      std::size_t cut = bytes_of(word, width);
      // After a hyphen, if there is one.
      const std::size_t hyphen = word.rfind('-', cut - 1);
      if (hyphen != std::string::npos && hyphen > 0) cut = hyphen + 1;
      lines.push_back(word.substr(0, cut));
      word.erase(0, cut);
      length = display_width(word);
    }
    if (word.empty()) continue;
    lines.push_back(word);
    column = length;
  }
  return lines;
}

std::string to_text(const Document& document, const TextStyle& style) {
  Page page(style);
  page.title(document.title);
  for (const Block& block : document.blocks) page.show(block);
  return page.take();
}

}  // namespace loomkey::report
