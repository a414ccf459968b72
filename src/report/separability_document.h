#pragma once

#include <string>

#include "bench/separability.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

// Pairs of parts that nothing separates, in four forms that say the same.

namespace loomkey::report {

Document separability_document(const knowledge::Knowledge&, const bench::Separability&);

std::string separability_json(const knowledge::Knowledge&, const bench::Separability&);

// One row a pair under a row of column names; commas between, quotes as in RFC 4180.
std::string separability_csv(const knowledge::Knowledge&, const bench::Separability&);

// A picture for a page: families on both axes, in each cell the pair of parts that is hardest to tell apart. The
// darker, the harder, so that it reads in grey print too; the cells below the trial's limit carry their decibans. It
// brings its own paper, needs nothing from outside, and every cell says in words what it shows.
std::string separability_svg(const knowledge::Knowledge&, const bench::Separability&);

}  // namespace loomkey::report
