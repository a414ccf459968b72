#pragma once

#include <string>
#include <vector>

#include "outside/interview.h"
#include "outside/rows.h"

// UCI Zoo and Soybean as Debian's r-cran-mlbench carries them, exported by datasets.R.
namespace loomkey::outside {

// Rows of "zoo" or "soybean" from the folder that with_datasets.sh names.
Rows dataset(const std::string& name);

// States by value, in order of text; an empty field is -1 (not recorded).
struct Coded {
  std::vector<std::string> features;   // in the order of the data
  std::vector<std::string> classes;    // names of the label column, in order of text
  std::vector<std::vector<int>> rows;  // [row][feature]
  std::vector<int> labels;             // [row]
  std::vector<int> state_counts;       // [feature]
};

Coded code(const Rows&, const std::string& label, const std::vector<std::string>& left_out = {});

// Rows with equal features are one thing: no question tells them apart. Per row, the number of its group.
std::vector<int> groups_of_equal_rows(const Coded&);

}  // namespace loomkey::outside
