#pragma once

#include <map>
#include <optional>
#include <set>
#include <vector>

#include "catalogue/draft.h"

namespace loomkey::catalogue {

// "always", "usual", "sometimes", "rare", "never", or a number above 0 and not above 1.
std::optional<double> parse_frequency(const SourceNode& node, SourceLog& log);

// What a source says about one trait; the shares come out normalised. Nothing if it is wrong, with the reasons logged.
std::optional<knowledge::Claim> parse_claim(Draft& draft, int trait, const SourceNode& node);

// The claims of one owner (part, family or fault), and where each was made.
class ClaimList {
 public:
  // Reads a table of claims, `round` and `box` included. With a layer, a trait of the other one is a mistake.
  void read(Draft& draft, TableReader& table, std::optional<knowledge::Layer> layer);

  // Whether the source speaks of the trait, be it wrongly.
  [[nodiscard]] bool mentions(int trait) const { return places_.contains(trait) || meant_.contains(trait); }
  [[nodiscard]] std::set<int> mentioned() const;
  knowledge::Claim* find(int trait);
  void push(knowledge::Claim claim) { claims_.push_back(std::move(claim)); }

  // Sorted by trait.
  [[nodiscard]] std::vector<knowledge::Claim> take();

 private:
  bool mention(Draft& draft, int trait, const Place& place);
  void guess_meant(const Draft& draft, const std::string& misspelt);
  void read_size(Draft& draft, const KeyedNode& entry, std::optional<knowledge::Layer> layer);

  std::vector<knowledge::Claim> claims_;
  std::map<int, Place> places_;
  std::set<int> meant_;  // traits that a misspelt name was likely meant for
};

// The three sorted measures of a body.
struct SizeRanges {
  Span longest;
  Span middle;
  Span shortest;
};

// A round body shows its diameter twice, so the diameter is always the middle one of the three measures.
SizeRanges sizes_of_round(Span diameter, Span length);

// Order statistics: the longest lies between the greatest low and the greatest high, and so on, whatever order the
// three were written in.
SizeRanges sizes_of_box(Span a, Span b, Span c);

}  // namespace loomkey::catalogue
