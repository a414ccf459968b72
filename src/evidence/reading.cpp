#include "evidence/reading.h"

#include <algorithm>
#include <utility>

#include "base/text.h"

namespace loomkey::evidence {
namespace {

// No mark and no colour has a blank in it.
constexpr std::string_view between_alternatives = " or ";

}  // namespace

std::vector<std::string> alternatives_of(std::string_view item) {
  std::vector<std::string> alternatives;
  for (;;) {
    const std::size_t end = item.find(between_alternatives);
    alternatives.emplace_back(item.substr(0, end));
    if (end == std::string_view::npos) return alternatives;
    item.remove_prefix(end + between_alternatives.size());
  }
}

std::string item_of(std::vector<std::string> alternatives) {
  std::sort(alternatives.begin(), alternatives.end());
  alternatives.erase(std::unique(alternatives.begin(), alternatives.end()), alternatives.end());
  return join(alternatives, between_alternatives);
}

bool Case::has_evidence() const {
  return std::any_of(readings.begin(), readings.end(), [](const Reading& reading) { return reading.value.informs(); });
}

void add_reading(Case& find, Reading reading) {
  const auto earlier = std::find_if(find.readings.begin(), find.readings.end(), [&](const Reading& other) {
    return other.trait == reading.trait && other.observer == reading.observer;
  });
  if (earlier == find.readings.end()) {
    find.readings.push_back(std::move(reading));
  } else {
    *earlier = std::move(reading);
  }
}

}  // namespace loomkey::evidence
