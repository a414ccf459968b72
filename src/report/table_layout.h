#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "report/document.h"

namespace loomkey::report {

// The lines of a table, none wider than `width`. Text columns give way and fold their cells, columns of figures and of
// ids keep theirs; where even that does not fit, every row becomes a small list of its own.
std::vector<std::string> table_lines(const Table& table, std::size_t width);

}  // namespace loomkey::report
