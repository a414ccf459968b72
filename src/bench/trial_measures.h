#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "bench/trial_examiner.h"

namespace loomkey::bench {

inline constexpr std::size_t status_count = 6;  // inference::Status
inline constexpr std::size_t calibration_bins = 10;
inline constexpr int verdicts_for_calibration = 100;  // a bin with fewer is shown and not judged
inline constexpr double confident = 0.9;              // "called something with confidence" is above this

// Counts over some conversations; the shares are of `cases` unless they say otherwise, and 0 without any.
struct Tally {
  int cases = 0;
  int right_class = 0;  // the leading class is the right one, declared or not
  int right_part = 0;   // so is the likeliest part
  int declared = 0;     // settled
  int declared_right_class = 0;
  int declared_right_part = 0;
  int confidently_wrong = 0;  // a wrong class above `confident`, declared or not
  double questions = 0.0;     // asked in all, "cannot tell" and the checks included
  double checks = 0.0;
  std::array<int, status_count> ended{};  // by inference::Status
  int contradicted_on_the_way = 0;
  int answers = 0;  // readings that say something
  int wrong_answers = 0;

  void add(const Outcome&);
  [[nodiscard]] double share(int count) const;
  [[nodiscard]] double share_declared(int count) const;
  [[nodiscard]] double mean_questions() const;
  [[nodiscard]] double mean_checks() const;
  // Of the answers given, those that are not what the catalogue's claims made of the object, misreadings included.
  [[nodiscard]] double share_wrong() const;
};

// One verdict as the calibration sees it.
struct Verdict {
  double confidence = 0.0;
  bool right = false;
};

struct CalibrationBin {
  int count = 0;
  double mean_confidence = 0.0;
  double share_right = 0.0;

  // |mean stated confidence - share right|; nothing for an empty bin.
  [[nodiscard]] double error() const;
  [[nodiscard]] bool counts() const { return count >= verdicts_for_calibration; }
};

// Bins of ten points by stated confidence: [0, 10), ... [90, 100].
struct Calibration {
  std::array<CalibrationBin, calibration_bins> bins;
  int verdicts = 0;
  double overall_error = 0.0;           // over all verdicts as one bin
  std::optional<double> mean_error;     // over the bins that count, weighted by their verdicts
  std::optional<double> largest_error;  // of the bins that count
};

Calibration calibrate(const std::vector<Verdict>&);

// Verdicts that name a class; conversations that end with "not in the catalogue" ahead state none.
std::vector<Verdict> verdicts(const std::vector<Outcome>&);

// How one class fared.
struct ClassTally {
  int advice_class = -1;
  Tally tally;
};

// Worst share of right classes first; equal ones by more cases, then by class.
std::vector<ClassTally> by_class(const std::vector<Outcome>&);

struct Confusion {
  int true_class = -1;
  int called_class = -1;  // -1: "not in the catalogue" led
  int count = 0;
  int declared = 0;

  bool operator==(const Confusion&) const = default;
};

// Every wrong leading class, the most frequent pair first.
std::vector<Confusion> confusions(const std::vector<Outcome>&);

struct AskedTrait {
  int trait = -1;
  int count = 0;

  bool operator==(const AskedTrait&) const = default;
};

// How often each trait was asked, most often first.
std::vector<AskedTrait> asked_traits(const std::vector<Outcome>&);

}  // namespace loomkey::bench
