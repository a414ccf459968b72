#pragma once

#include <optional>
#include <string>

#include "bench/trial.h"
#include "knowledge/knowledge.h"
#include "report/document.h"

// Sections and words of the page that trial_document.h makes.

namespace loomkey::report {

inline constexpr std::size_t most_trial_rows = 12;

std::string share_words(double share);
std::string points(double error);
std::string points(const std::optional<double>& error);
std::string observer_words(const bench::ObserverType&);
// Observers are named once, by letter; their tables have no room for more.
std::string observer_letter(std::size_t index);
std::string class_words(const knowledge::Knowledge&, int advice_class);

// Good parts and faulty parts apart, for each observer.
void add_conditions(Document&, const bench::TrialReport&);
// For each kind of mistakes by bins, then for each observer.
void add_calibrations(Document&, const bench::TrialReport&);
// Classes taken out of the catalogue; nothing if there were none.
void add_absent(Document&, const knowledge::Knowledge&, const bench::MistakesReport&);

}  // namespace loomkey::report
