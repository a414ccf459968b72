#pragma once

#include <vector>

#include "inference/belief.h"
#include "inference/model.h"

namespace loomkey::inference {

// P(answer | hypothesis) of one trait's question, for a sure observer: lapse and residual are in, hypotheses that state
// nothing get the background.
class AnswerTable {
 public:
  AnswerTable(const Model&, int trait, const Belief&);

  [[nodiscard]] std::size_t size() const { return background().size(); }
  [[nodiscard]] const std::vector<double>& background() const { return rows().background; }

  // Row of a profile code; -1 gives the background.
  [[nodiscard]] const std::vector<double>& row(int code) const {
    return code < 0 ? rows().background : rows().row[static_cast<std::size_t>(code)];
  }

  [[nodiscard]] const std::vector<evidence::Value>& values() const { return values_; }

 private:
  // The rows of choices and numbers are made with the model; those of a set depend on the belief.
  [[nodiscard]] const AnswerRows& rows() const { return shared_ != nullptr ? *shared_ : own_; }
  void choose_sets(const Model&, int trait, const Belief&);
  void name_answers(const Model&, int trait);

  const AnswerRows* shared_ = nullptr;
  AnswerRows own_;
  std::vector<evidence::Value> values_;
};

}  // namespace loomkey::inference
