#pragma once

#include "bench/finding.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

// The sections of a page that speak of one part. Each adds a heading and its blocks, or nothing.

namespace loomkey::report {

// Cautions on what goes wrong at the moment of connecting or touching: polarity, heat, short circuit. The rest follows
// with the checks. Both keep the finding's order.
void add_urgent_cautions(Document&, const knowledge::Knowledge&, const bench::Finding&);
void add_later_cautions(Document&, const knowledge::Knowledge&, const bench::Finding&);

void add_what_it_is(Document&, const knowledge::Knowledge&, const evidence::Case&, const bench::Finding&);
void add_checks(Document&, const knowledge::Knowledge&, const bench::Finding&);
void add_meter_checks(Document&, const knowledge::Part&);
void add_look_alikes(Document&, const knowledge::Knowledge&, const knowledge::Part&);
void add_substitutes(Document&, const knowledge::Knowledge&, const bench::Finding&);
void add_basis(Document&, const knowledge::Knowledge&, const bench::Finding&, bool named);

// What the basis section says of one part.
KeyValues basis_rows(const knowledge::Knowledge&, const knowledge::Part&);

}  // namespace loomkey::report
