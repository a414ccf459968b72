#pragma once

#include <map>
#include <string>
#include <vector>

#include "inference/settings.h"
#include "knowledge/knowledge.h"

// How a judge sees one number and one set of letters or colours.
namespace loomkey::oracle {

// Mass in [low, high] of a claimed range: flat, with a linear shoulder on either side, integrated piece by piece.
double range_mass(const knowledge::Trait&, const knowledge::Range&, bool verify, const inference::Settings&, double low,
                  double high);

// The same for the value that a meter shows (a low resistance may be shown as plain zero, and a contact as a number).
double shown_number(const knowledge::Trait&, const knowledge::Claim&, const inference::Settings&, double low,
                    double high);
double shown_special(const knowledge::Trait&, const knowledge::Claim&, const inference::Settings&, knowledge::Special);

double uniform_number(const knowledge::Trait&, double low, double high);
double uniform_special(const knowledge::Trait&, knowledge::Special);

// Letters or lead colours.
struct Items {
  const knowledge::Knowledge* knowledge = nullptr;
  knowledge::SetItems kind = knowledge::SetItems::letters;
  std::map<std::string, double> frequency;  // how often the catalogue claims each, unnormalised

  [[nodiscard]] double stray(const std::string& item) const;
  [[nodiscard]] double reported(const std::string& item, const std::string& seen) const;
};

// Sum over every way to say which expected item each seen one was, by plain enumeration.
double set_chance(const Items&, const inference::Settings&, const std::vector<std::string>& expected,
                  const std::vector<std::string>& seen, bool complete);
double uniform_set(const Items&, const std::vector<std::string>& seen);

}  // namespace loomkey::oracle
