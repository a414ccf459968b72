#pragma once

#include <vector>

#include "bench/compare.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

// Pages on the catalogue itself, made from the very objects that the engine runs on. None of them knows a bike, so none
// shows connecting steps.

namespace loomkey::report {

// Everything the catalogue says of one part.
Document part_document(const knowledge::Knowledge&, int part);

// Ids and names, by family, in the order given within each.
Document parts_list_document(const knowledge::Knowledge&, const std::vector<int>& parts);

// What tells two or three parts apart, best for its effort first, with what each of them claims.
Document comparison_document(const knowledge::Knowledge&, const std::vector<int>& parts,
                             const std::vector<bench::Separation>& separations);

// The vocabulary: every trait with its kind, effort and number of answers.
Document traits_document(const knowledge::Knowledge&);

// One trait: question, how to look, answers, effort, hazard, and how observers get it wrong.
Document trait_document(const knowledge::Knowledge&, int trait);

}  // namespace loomkey::report
