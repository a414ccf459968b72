#pragma once

#include <array>
#include <string>
#include <vector>

namespace loomkey::knowledge {

// Answers that stand beside the numbers of a number trait.
enum class Special { over_range, zero, jumps, does_not_apply };
inline constexpr std::size_t special_count = 4;
inline constexpr std::array<const char*, special_count> special_ids = {"ol", "zero", "jumps", "na"};
inline constexpr std::array<const char*, special_count> special_names = {"over-range (OL)", "zero", "jumps about",
                                                                         "does not apply"};

// A typical range with soft edges, and its share of the claim.
struct Range {
  double low = 0.0;
  double high = 0.0;
  double share = 1.0;

  bool operator==(const Range&) const = default;
};

// One possible complete set of letters or lead colours, and its share of the claim.
struct Alternative {
  std::vector<std::string> items;  // sorted
  double share = 1.0;

  bool operator==(const Alternative&) const = default;
};

// What a part (or one of its faults) claims about one trait. Shares are normalised: over a choice they sum to one; over
// a number, ranges and special answers together; over a set, the alternatives. A trait without a claim is unstated and
// says nothing; "does not apply" is a claim of its own.
struct Claim {
  int trait = -1;
  std::vector<double> states;                   // choice: share of each state
  std::vector<Range> ranges;                    // number
  std::array<double, special_count> special{};  // number
  std::vector<Alternative> sets;                // set
  bool verify = false;                          // unsure: widened and mixed with the background
  int basis = -1;                               // index into Knowledge::bases; -1 takes the part's default

  bool operator==(const Claim&) const = default;
};

}  // namespace loomkey::knowledge
