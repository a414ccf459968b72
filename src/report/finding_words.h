#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "bench/finding.h"
#include "evidence/reading.h"
#include "knowledge/knowledge.h"

// What a finding amounts to, in sentences: shared by the pages and the JSON, so that both say the same.

namespace loomkey::report {

using bench::Candidate;
using bench::Finding;
using evidence::Case;
using knowledge::Knowledge;

// The candidate of a part; nullptr if the finding carries none.
const Candidate* candidate_of(const Finding&, int part);

// True when the leading class has at least half of the belief and no reading is contradicted: then its part is
// described.
bool is_named(const Finding&);

// True when connecting steps may be shown at all: the earth was measured, and the part is settled or likely.
bool may_connect(const Finding&);

// "settled", "likely", "open", "cannot_tell", "contradicted", "not_in_catalogue".
std::string_view status_id(inference::Status);

// The answer in one line, with how sure it is in words and in numbers.
std::string headline(const Knowledge&, const Finding&);

// What that means for the reader: what to do next, and what not to do.
std::string meaning(const Knowledge&, const Case&, const Finding&);

// What to write down of a part that nobody can name yet.
std::vector<std::string> what_to_record();

// How to find out which post of the battery is earthed; ends the wait for connecting steps.
std::string how_to_measure_earth();

// Why no connecting steps are shown for a substitute; empty when they are.
std::string why_no_steps(const Finding&);

// What disagrees about the earth; empty if nothing does.
std::string earth_disagreement(const Case&, const Finding&);

// That the part's own label names the other earth than the bike's; empty if it does not.
std::string label_disagreement(const Case&, const Finding&);

// The one check between the first two candidates: what separates them, and how to look. Empty without a pair.
std::string deciding_words(const Knowledge&, const Finding&);

// True when that check needs power or a running engine, and the earth has not been measured yet.
bool must_wait_for_earth(const Knowledge&, const Finding&);

// One line of the sum, in words.
std::string line_words(const Knowledge&, const Case&, inference::WeightLine::Kind, const std::vector<int>& readings);

// One condition of a part with its share of that part's probability, likeliest first.
struct ConditionWords {
  int condition = -1;
  double share = 0.0;
  std::string name;
  std::string sees;
};

std::vector<ConditionWords> conditions_of(const Knowledge&, const Candidate&);

// The same in one sentence; says so when no meter reading stands behind it.
std::string condition_words(const Knowledge&, const Case&, const Candidate&);

// Names of what a part works with.
std::vector<std::string> partner_names(const Knowledge&, const knowledge::Part&);

// The text of a basis; empty for -1.
std::string basis_words(const Knowledge&, int basis);

// The part's unsure values: trait names, or the catalogue's names of other fields.
std::vector<std::string> verify_words(const Knowledge&, const knowledge::Part&);

// Claims and checks of a part that rest on something else than the part's default basis: what, basis text.
std::vector<std::pair<std::string, std::string>> other_bases(const Knowledge&, const knowledge::Part&);

}  // namespace loomkey::report
