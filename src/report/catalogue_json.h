#pragma once

#include <string>
#include <vector>

#include "bench/compare.h"
#include "knowledge/knowledge.h"

// The pages of catalogue_document.h as JSON, for scripts; schema/README-json.md lists their keys. Same conventions as
// finding_json.h: two spaces deep, pure ASCII, invalid UTF-8 replaced, no connecting steps.

namespace loomkey::report {

std::string part_json(const knowledge::Knowledge&, int part);                        // loomkey/part/1
std::string parts_json(const knowledge::Knowledge&, const std::vector<int>& parts);  // loomkey/parts/1
std::string comparison_json(const knowledge::Knowledge&, const std::vector<int>& parts,
                            const std::vector<bench::Separation>& separations);        // loomkey/comparison/1
std::string traits_json(const knowledge::Knowledge&, const std::vector<int>& traits);  // loomkey/traits/1

}  // namespace loomkey::report
