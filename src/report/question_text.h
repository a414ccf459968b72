#pragma once

#include <string>
#include <vector>

#include "inference/question.h"
#include "knowledge/knowledge.h"

namespace loomkey::report {

// One answer a person may pick: what to type, what a readings file takes, and what it means.
struct Choice {
  std::string key;    // a running number ("#1" beside marks, which may be figures); the value itself where the values
                      // are figures ("0", "6+") or "no" and "yes", so that a typed figure can only mean what it says
  std::string value;  // accepted word for word as the value of the trait
  std::string name;
  double chance = 0.0;  // by the readings so far
  bool typed = false;   // a range of figures: nobody picks it, a figure is typed
};

// The answers that a person picks from, in the order of the trait. A number offers only its special answers ("ol"), a
// set the likeliest sets; figures and other sets are typed.
std::vector<Choice> choices_of(const knowledge::Knowledge&, const inference::Question&);

// All answers that the question distinguishes, for a script: a number's are ranges as well, their ends rounded to four
// digits. "Another set" is none of them.
std::vector<Choice> all_choices_of(const knowledge::Knowledge&, const inference::Question&);

// How figures and sets may be written; empty for a choice.
std::string how_to_write(const knowledge::Knowledge&, const knowledge::Trait&);

// The caution that goes with taking the reading, as a sentence; empty if there is none.
std::string hazard_words(const knowledge::Trait&);

// A question as lines for a terminal, none wider than `width`: the question, how to look, the hazard, the choices with
// their keys, and how to write what is not in the list.
std::vector<std::string> question_lines(const knowledge::Knowledge&, const inference::Question&, std::size_t width);

}  // namespace loomkey::report
