#include "evidence/reading.h"

#include <algorithm>
#include <utility>

namespace loomkey::evidence {

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
