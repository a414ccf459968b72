#pragma once

#include <string>

#include "evidence/reading.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// A reading in words: "27 to 36 mm", "green/yellow and white/green, maybe others", "cannot tell". Numbers are rounded
// to four digits.
std::string show_value(const knowledge::Knowledge& knowledge, const Reading& reading);

}  // namespace loomkey::evidence
