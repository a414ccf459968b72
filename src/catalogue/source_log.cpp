#include "catalogue/source_log.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/text.h"

namespace loomkey::catalogue {

std::string Place::text() const { return file + ':' + std::to_string(line) + ':' + std::to_string(column); }

void SourceLog::add(const Place& place, std::string_view what) {
  // The text may quote the file, and the file may hold escape codes.
  entries_.push_back({place, printable(what)});
}

std::vector<Error> SourceLog::errors() const {
  std::vector<const Entry*> sorted;
  sorted.reserve(entries_.size());
  for (const Entry& entry : entries_) sorted.push_back(&entry);
  std::stable_sort(sorted.begin(), sorted.end(), [](const Entry* a, const Entry* b) {
    return std::tie(a->place.file, a->place.line, a->place.column) <
           std::tie(b->place.file, b->place.line, b->place.column);
  });
  std::vector<Error> errors;
  errors.reserve(sorted.size());
  for (const Entry* entry : sorted) {
    errors.push_back(Error{ErrorKind::catalogue, entry->what, printable(entry->place.text())});
  }
  return errors;
}

std::string show(double number) {
  if (number == std::floor(number) && std::abs(number) < 1e15) return fmt::format("{:.0f}", number);
  return fmt::format("{:.6g}", number);
}

std::string unknown(std::string_view kind, std::string_view word, const std::vector<std::string>& known) {
  constexpr std::size_t most_listed = 12;
  constexpr std::size_t longest_quote = 60;
  std::string text = "unknown " + std::string(kind) + " '" + std::string(word.substr(0, longest_quote)) + "'.";
  const std::string hint = did_you_mean(word, known);
  if (!hint.empty()) return text + hint;
  if (known.empty()) return text + " None is known.";
  const auto end = known.begin() + static_cast<std::ptrdiff_t>(std::min(most_listed, known.size()));
  const std::vector<std::string> first(known.begin(), end);
  return text + " Known: " + join(first, ", ") + (known.size() > most_listed ? ", ..." : "");
}

}  // namespace loomkey::catalogue
