#pragma once

#include <string>
#include <vector>

#include "knowledge/knowledge.h"

namespace loomkey::support {

// Every field in which two bodies of knowledge differ, as paths: "parts[3].claims[0].sets". The hash is left out.
std::vector<std::string> differences(const knowledge::Knowledge& a, const knowledge::Knowledge& b);

}  // namespace loomkey::support
