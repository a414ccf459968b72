#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "report/words.h"

namespace loomkey::report {

using knowledge::Claim;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

// A share below this is not worth a reader's time.
constexpr double negligible_share = 0.02;

struct Possibility {
  double share;
  std::string words;
};

std::vector<Possibility> possibilities(const Trait& trait, const Claim& claim) {
  std::vector<Possibility> out;
  for (std::size_t s = 0; s < claim.states.size() && s < trait.states.size(); ++s) {
    out.push_back({claim.states[s], trait.states[s].name});
  }
  for (const auto& range : claim.ranges) out.push_back({range.share, quantity(range.low, range.high, trait.unit)});
  for (std::size_t s = 0; s < knowledge::special_count; ++s) {
    out.push_back({claim.special[s], knowledge::special_names[s]});
  }
  for (const auto& alternative : claim.sets) out.push_back({alternative.share, set_words(trait, alternative.items)});
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
  return out;
}

}  // namespace

std::string_view frequency_words(double share) {
  if (share >= 0.85) return "nearly always";
  if (share >= 0.5) return "mostly";
  return share >= 0.15 ? "sometimes" : "rarely";
}

std::string claim_words(const Trait& trait, const Claim& claim) {
  std::vector<Possibility> all = possibilities(trait, claim);
  std::erase_if(all, [](const Possibility& p) { return p.share < negligible_share; });
  std::string out;
  std::string_view frequency;
  for (const Possibility& possibility : all) {
    const std::string_view now = frequency_words(possibility.share);
    if (now == frequency) {
      out += " / " + possibility.words;
      continue;
    }
    frequency = now;
    if (!out.empty()) out += "; ";
    if (all.size() > 1) out += std::string(now) + " ";
    out += possibility.words;
  }
  if (claim.verify) out += " (to be verified)";
  return out;
}

std::string claim_figures(const Trait& trait, const Claim& claim) {
  std::vector<std::string> out;
  for (const Possibility& possibility : possibilities(trait, claim)) {
    if (possibility.share > 0.0)
      out.push_back(fmt::format("{} {:.3g} %", possibility.words, possibility.share * 100.0));
  }
  return join(out, ", ") + (claim.verify ? " (to be verified)" : "");
}

}  // namespace loomkey::report
