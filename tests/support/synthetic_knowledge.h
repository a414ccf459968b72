#pragma once

#include <cstdint>
#include <memory>

#include "knowledge/knowledge.h"

namespace loomkey::support {

// An invented catalogue of any size, for measuring: 40 choices of 2 to 12 states and 12 sizes, claims that cluster as
// real parts do, two conditions a part, four parts an advice record. The same seed gives the same catalogue.
std::shared_ptr<const knowledge::Knowledge> synthetic_knowledge(std::size_t parts, std::uint64_t seed);

}  // namespace loomkey::support
