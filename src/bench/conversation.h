#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "bench/finding.h"
#include "evidence/reading.h"
#include "inference/model.h"

namespace loomkey::bench {

// A conversation over one part: asks, takes answers, and can go back. It knows no terminal; whoever talks to the person
// calls it. All state is the case and the order in which its readings came, so it is saved as a readings file and
// resumes from one.
class Conversation {
 public:
  Conversation(std::shared_ptr<const inference::Model>, evidence::Case start);

  // What the readings so far say.
  [[nodiscard]] const Finding& finding() const { return finding_; }
  [[nodiscard]] const evidence::Case& the_case() const { return case_; }
  [[nodiscard]] const inference::Model& model() const { return *model_; }

  // The question that is asked now; none when there is nothing left worth asking.
  [[nodiscard]] const inference::Question* question() const;

  // True when the conversation should end by itself: settled, or nothing left worth asking.
  [[nodiscard]] bool finished() const;

  // Takes an answer to the current question, in the person's words. A wrong one changes nothing.
  Result<void> answer(std::string_view words, evidence::Certainty);

  // Takes any reading ("trait = value"), or replaces an earlier one.
  Result<std::vector<std::string>> observe(std::string_view trait, std::string_view words, evidence::Certainty);

  void cannot_tell();

  // Takes back the latest reading; false if there is none.
  bool back();

  // Takes back one reading by trait; false if it was not read.
  bool forget(int trait);

  void change_bike(evidence::Bike);

 private:
  void recompute();
  void put(evidence::Reading);

  std::shared_ptr<const inference::Model> model_;
  evidence::Case case_;
  Finding finding_;
};

}  // namespace loomkey::bench
