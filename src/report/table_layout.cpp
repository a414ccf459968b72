#include "report/table_layout.h"

#include <algorithm>
#include <numeric>

#include "base/text.h"
#include "report/text.h"

namespace loomkey::report {
namespace {

constexpr std::size_t gap = 2;
constexpr std::size_t narrowest_column = 9;

const std::string& cell_of(const std::vector<std::string>& row, std::size_t column) {
  static const std::string empty;
  return column < row.size() ? row[column] : empty;
}

std::size_t natural_width(const Table& table, std::size_t column) {
  std::size_t widest = 1;
  const auto consider = [&](const std::string& text) {
    const std::vector<std::string> line = fold(text, text.size() + 1);
    if (!line.empty()) widest = std::max(widest, display_width(line.front()));
  };
  consider(table.columns[column].title);
  for (const auto& row : table.rows) consider(cell_of(row, column));
  return widest;
}

std::size_t widest_cell(const Table& table, std::size_t column) {
  std::size_t widest = 1;
  for (const auto& row : table.rows) widest = std::max(widest, display_width(printable(cell_of(row, column))));
  return widest;
}

std::size_t least_width(const Table& table, std::size_t column, std::size_t natural) {
  const bool keeps = table.columns[column].right || table.columns[column].whole;
  return std::min(natural, keeps ? widest_cell(table, column) : narrowest_column);
}

// Column widths that fit, or none.
std::vector<std::size_t> widths_of(const Table& table, std::size_t width) {
  const std::size_t count = table.columns.size();
  std::vector<std::size_t> widths;
  std::vector<std::size_t> least;
  for (std::size_t c = 0; c < count; ++c) {
    widths.push_back(natural_width(table, c));
    least.push_back(least_width(table, c, widths[c]));
  }
  const std::size_t gaps = gap * (count - 1);
  if (std::accumulate(least.begin(), least.end(), gaps) > width) return {};
  while (std::accumulate(widths.begin(), widths.end(), gaps) > width) {
    std::size_t widest = count;
    for (std::size_t c = 0; c < count; ++c) {
      if (widths[c] > least[c] && (widest == count || widths[c] > widths[widest])) widest = c;
    }
    --widths[widest];
  }
  return widths;
}

void add_row(std::vector<std::string>& lines, const Table& table, const std::vector<std::size_t>& widths,
             const std::vector<std::string>& cells) {
  std::vector<std::vector<std::string>> folded;
  std::size_t height = 1;
  for (std::size_t c = 0; c < widths.size(); ++c) {
    folded.push_back(fold(cell_of(cells, c), widths[c]));
    height = std::max(height, folded.back().size());
  }
  for (std::size_t i = 0; i < height; ++i) {
    std::string line;
    std::size_t start = 0;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      if (i < folded[c].size()) {
        const std::size_t length = display_width(folded[c][i]);
        const std::size_t column = start + (table.columns[c].right ? widths[c] - length : 0);
        line += std::string(column - display_width(line), ' ') + folded[c][i];
      }
      start += widths[c] + gap;
    }
    lines.push_back(std::move(line));
  }
}

void add_rule(std::vector<std::string>& lines, const std::vector<std::size_t>& widths) {
  std::string line;
  for (const std::size_t width : widths) line += std::string(line.empty() ? 0 : gap, ' ') + std::string(width, '-');
  lines.push_back(std::move(line));
}

std::vector<std::string> as_lists(const Table& table, std::size_t width) {
  std::vector<std::string> lines;
  for (const auto& row : table.rows) {
    if (!lines.empty()) lines.emplace_back();
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      const std::string& title = table.columns[c].title;
      const auto folded = fold(title.empty() ? cell_of(row, c) : title + ": " + cell_of(row, c), width);
      lines.insert(lines.end(), folded.begin(), folded.end());
    }
  }
  return lines;
}

}  // namespace

std::vector<std::string> table_lines(const Table& table, std::size_t width) {
  if (table.columns.empty()) return {};
  const std::vector<std::size_t> widths = widths_of(table, width);
  if (widths.empty()) return as_lists(table, width);
  std::vector<std::string> lines;
  std::vector<std::string> titles;
  for (const Column& column : table.columns) titles.push_back(column.title);
  if (std::any_of(titles.begin(), titles.end(), [](const std::string& t) { return !t.empty(); })) {
    add_row(lines, table, widths, titles);
    add_rule(lines, widths);
  }
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    if (table.ends_in_total && r + 1 == table.rows.size()) add_rule(lines, widths);
    add_row(lines, table, widths, table.rows[r]);
  }
  return lines;
}

}  // namespace loomkey::report
