#include "evidence/toml_text.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "base/text.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

constexpr std::size_t largest_file = 1U << 20U;
// The parser recurses for every part of a dotted name, so a line of a hundred thousand dots would exhaust the stack.
constexpr int most_dots = 64;

toml::source_position position_of(std::string_view text, std::size_t at) {
  toml::source_position place{1, 1};
  for (const char c : text.substr(0, at)) {
    if (c == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
      ++place.column;
    }
  }
  return place;
}

// A line with more dots between words than any name has, or nothing. Runs of dots count once.
std::optional<std::size_t> line_of_many_dots(std::string_view text) {
  int dots = 0;
  char before = ' ';
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (c == '\n') dots = 0;
    if (c == '.' && before != '.' && ++dots > most_dots) return at;
    if (c != ' ' && c != '\t') before = c;
  }
  return std::nullopt;
}

std::string line_at(std::string_view text, std::size_t number) {
  const auto lines = split(text, '\n');
  return number >= 1 && number <= lines.size() ? lines[number - 1] : std::string();
}

// The name on a line: of "[readings]", "[[reading]]" or "form = 1".
std::string name_on(std::string line) {
  line = trim(line);
  if (line.starts_with('[')) {
    line = line.substr(0, line.find(']'));
    std::erase(line, '[');
  } else {
    line = line.substr(0, line.find('='));
  }
  line = trim(line);
  if (line.size() >= 2 && (line.front() == '"' || line.front() == '\'')) line = line.substr(1, line.size() - 2);
  return line;
}

// Where a key that is given again in line `again` stood first: what comes before that line is sound TOML.
std::optional<toml::source_index> first_line_of(std::string_view text, std::size_t again) {
  const auto lines = split(text, '\n');
  if (again < 2 || again > lines.size()) return std::nullopt;
  const std::vector<std::string> earlier(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(again) - 1);
  try {
    const toml::table root = toml::parse(std::string_view(join(earlier, "\n") + "\n"));
    const toml::table* table = &root;
    const std::string key = name_on(lines[again - 1]);
    if (!trim(lines[again - 1]).starts_with('[')) {
      for (std::size_t i = again - 1; i-- > 0;) {
        const std::string header = trim(lines[i]);
        if (!header.starts_with('[')) continue;
        const toml::node* section = root.get(name_on(header));
        if (section == nullptr) continue;  // a line of a list
        if (const auto* array = section->as_array(); array != nullptr && !array->empty())
          section = array->back().as_table();
        if (section != nullptr && section->is_table()) table = section->as_table();
        break;
      }
    }
    const toml::node* first = table->get(key);
    if (first == nullptr || first->source().begin.line == 0) return std::nullopt;
    return first->source().begin.line;
  } catch (const toml::parse_error&) {
    return std::nullopt;
  }
}

Error explain(const toml::parse_error& error, std::string_view text, const std::string& name) {
  const std::string description = printable(error.description());
  const auto line = error.source().begin.line;
  if (description.find("redefine") != std::string::npos) {
    const std::string key = name_on(line_at(text, line));
    const auto first = first_line_of(text, line);
    if (first) {
      const toml::source_position at{line,
                                     static_cast<toml::source_index>(line_at(text, line).find_first_not_of(" \t") + 1)};
      return {ErrorKind::input,
              quoted(key) + " is given twice, in lines " + std::to_string(*first) + " and " + std::to_string(line) +
                  ": keep one of them",
              place_text(name, at)};
    }
  }
  return {ErrorKind::input, "this is not TOML: " + description, place_text(name, error.source().begin)};
}

}  // namespace

std::string place_text(const std::string& name, const toml::source_position& at, bool column) {
  std::string out = printable(name);
  if (at.line > 0) out += ":" + std::to_string(at.line);
  if (at.line > 0 && column) out += ":" + std::to_string(at.column);
  return out;
}

Result<toml::table> parse_toml(std::string_view text, const std::string& name) {
  const auto refuse = [&](std::size_t at, const std::string& what) {
    return fail(ErrorKind::input, what, place_text(name, position_of(text, at)));
  };
  if (text.size() > largest_file) {
    return fail(ErrorKind::input, "the file is larger than 1 MiB: a readings file is a few lines of text",
                printable(name));
  }
  if (const std::size_t at = text.find('\0'); at != std::string_view::npos) {
    return refuse(at, "there is a NUL byte here: this is not a text file");
  }
  if (const std::size_t at = first_invalid_utf8(text); at != std::string_view::npos) {
    return refuse(at, "this byte is not UTF-8 text: save the file as UTF-8");
  }
  if (const auto at = line_of_many_dots(text)) return refuse(*at, "a name with that many dots is not expected here");
  try {
    return toml::parse(text);
  } catch (const toml::parse_error& error) {
    return tl::unexpected(explain(error, text, name));
  }
}

}  // namespace loomkey::evidence
