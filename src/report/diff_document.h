#pragma once

#include <string>

#include "bench/catalogue_diff.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

// What differs between two catalogues, in a rider's words and as data.

namespace loomkey::report {

struct Compared {
  const knowledge::Knowledge& was;
  const knowledge::Knowledge& is;
  const bench::CatalogueDiff& diff;
};

Document diff_document(const Compared&);

std::string diff_json(const Compared&);

}  // namespace loomkey::report
