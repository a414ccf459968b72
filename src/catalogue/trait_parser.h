#pragma once

#include <vector>

#include "catalogue/draft.h"

namespace loomkey::catalogue {

// A file of traits and the layer its traits belong to.
struct TraitFile {
  TableReader reader;
  knowledge::Layer layer = knowledge::Layer::look;
};

// Reads every [[trait]]; the order of files and of traits in them is the order of questions. Groups, efforts and
// colours must have been read before.
void parse_traits(Draft& draft, const std::vector<TraitFile>& files);

}  // namespace loomkey::catalogue
