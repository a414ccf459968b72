#pragma once

#include <string>
#include <vector>

#include "catalogue/draft.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// Ids that an overlay brings; some of them may ship already.
struct OverlayIds {
  std::vector<std::string> families;
  std::vector<std::string> advice;
  std::vector<std::string> parts;
};

// A draft that holds everything that ships, so that the sources of an overlay can be read into it: all words are known,
// and families, advice and parts are sorted by id with an empty place for each new one.
Draft draft_over(const knowledge::Knowledge& shipped, const OverlayIds& ids);

}  // namespace loomkey::catalogue
