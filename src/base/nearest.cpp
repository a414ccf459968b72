#include "base/nearest.h"

#include <algorithm>

#include "base/text.h"

namespace loomkey {

int edit_distance(std::string_view a_raw, std::string_view b_raw) {
  const std::string a = to_lower(a_raw);
  const std::string b = to_lower(b_raw);
  const std::size_t columns = b.size() + 1;
  std::vector<int> before_last(columns);
  std::vector<int> last(columns);
  std::vector<int> current(columns);
  for (std::size_t j = 0; j < columns; ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    current[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < columns; ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : 1;
      current[j] = std::min({last[j] + 1, current[j - 1] + 1, last[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        current[j] = std::min(current[j], before_last[j - 2] + 1);
      }
    }
    std::swap(before_last, last);
    std::swap(last, current);
  }
  return last[b.size()];
}

std::optional<std::string> nearest(std::string_view word, std::span<const std::string> known) {
  // Comparing an absurdly long word would be slow and no slip of the finger anyway.
  constexpr std::size_t longest_word = 64;
  if (word.empty() || word.size() > longest_word) return std::nullopt;
  const std::string* best = nullptr;
  int best_distance = std::max(2, static_cast<int>(word.size()) / 3) + 1;
  for (const std::string& name : known) {
    if (name.empty() || name.size() > longest_word) continue;
    const int distance = edit_distance(word, name);
    if (distance < best_distance) {
      best_distance = distance;
      best = &name;
    }
  }
  // A two-letter word is two edits from every other one: demand that most letters survive.
  if (best == nullptr || best_distance * 2 > static_cast<int>(std::max(word.size(), best->size()))) return std::nullopt;
  return *best;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> known) {
  const auto name = nearest(word, known);
  return name ? " Did you mean '" + *name + "'?" : std::string();
}

}  // namespace loomkey
