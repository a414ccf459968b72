#include "electrical/dimension.h"

#include <array>
#include <cstddef>

namespace loomkey::electrical {
namespace {

struct Entry {
  std::string_view name;
  std::string_view unit;
};
constexpr std::array<Entry, 5> entries = {
    {{"length", "mm"}, {"mass", "g"}, {"resistance", "ohm"}, {"capacitance", "uF"}, {"voltage", "V"}}};

}  // namespace

std::string_view dimension_name(Dimension dimension) { return entries[static_cast<std::size_t>(dimension)].name; }

std::string_view base_unit(Dimension dimension) { return entries[static_cast<std::size_t>(dimension)].unit; }

std::optional<Dimension> dimension_of(std::string_view base_unit_name) {
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (entries[i].unit == base_unit_name) return static_cast<Dimension>(i);
  }
  return std::nullopt;
}

}  // namespace loomkey::electrical
