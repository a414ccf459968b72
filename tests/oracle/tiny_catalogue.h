#pragma once

#include <memory>
#include <string>
#include <vector>

#include "evidence/reading.h"
#include "knowledge/knowledge.h"

// Catalogues put together in a few lines, so that a test shows its case and not the plumbing.
namespace loomkey::oracle {

class TinyCatalogue {
 public:
  // Starts with three efforts: "look" (1, no tool), "ruler" (1.5, fetch 0.5), "meter" (3, fetch 3).
  TinyCatalogue();

  // A choice with states "s0", "s1", ... that nobody mistakes for one another.
  int choice(const std::string& id, int states, const std::string& effort = "look");
  int number(const std::string& id, double low, double high, const std::string& effort = "ruler");
  int set(const std::string& id, knowledge::SetItems = knowledge::SetItems::letters);
  int group(const std::string& id, double switched, double overlap);

  int advice(const std::string& id, knowledge::Price = knowledge::Price::money);
  // A part with a class of its own, or of the class given; it is always good until a fault is added.
  int part(const std::string& id, double brought_in = 1.0, int advice = -1);
  // The last condition of the part; the good one keeps the rest of the share.
  int fault(int part, const std::string& id, double share);

  // Claims of the good part, or of one of its faults.
  void claim(int part, int trait, std::vector<double> shares, int condition = 0);
  void claim_state(int part, int trait, int state, int condition = 0);
  void claim_range(int part, int trait, double low, double high, int condition = 0);
  void claim_set(int part, int trait, std::vector<std::string> items, int condition = 0);
  void claim(int part, knowledge::Claim, int condition = 0);

  knowledge::Trait& trait(int index) { return knowledge.traits[static_cast<std::size_t>(index)]; }
  [[nodiscard]] std::shared_ptr<const knowledge::Knowledge> done() const;

  knowledge::Knowledge knowledge;
};

// "part-" and 3 give "part-3".
std::string numbered(const std::string& prefix, int number);

evidence::Reading saw_state(int trait, int state, evidence::Certainty = evidence::Certainty::sure);
evidence::Reading saw_number(int trait, double low, double high, evidence::Certainty = evidence::Certainty::sure);
evidence::Reading saw_special(int trait, knowledge::Special, evidence::Certainty = evidence::Certainty::sure);
evidence::Reading saw_set(int trait, std::vector<std::string> items, bool complete = true,
                          evidence::Certainty = evidence::Certainty::sure);
evidence::Reading cannot_tell(int trait);
evidence::Reading not_looked(int trait);

// Six parts with every kind of trait, groups, faults, a "verify" claim and an unstated trait: the catalogue on which
// sequences of readings are replayed (tests/replays). Its ids are permanent.
std::shared_ptr<const knowledge::Knowledge> replay_catalogue();

}  // namespace loomkey::oracle
