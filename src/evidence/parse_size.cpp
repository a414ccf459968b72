#include <algorithm>
#include <array>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "electrical/number_text.h"
#include "electrical/plain_signs.h"
#include "electrical/quantity.h"
#include "electrical/units.h"
#include "evidence/familiar.h"
#include "evidence/parsed.h"
#include "evidence/size.h"
#include "evidence/size_pieces.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using electrical::Dimension;
using electrical::Measured;
using electrical::Written;
using knowledge::Knowledge;

struct Measure {
  Interval interval;
  MeasureRole role = MeasureRole::none;
};

double middle(const Measure& measure) { return (measure.interval.low + measure.interval.high) / 2.0; }

// What is being built, and what every reading of it has in common.
class SizeReadings {
 public:
  SizeReadings(const Knowledge& knowledge, std::string_view text, bool approximate)
      : knowledge_(knowledge), traits_(size_traits(knowledge)), text_(trim(text)), approximate_(approximate) {}

  std::vector<std::string> notes;

  // `measure` is 0 for the longest.
  [[nodiscard]] Result<void> add(std::size_t measure, Interval interval) {
    const auto& trait = knowledge_.traits[static_cast<std::size_t>(traits_[measure])];
    auto parsed = within_limits(trait, interval, approximate_);
    if (!parsed) return tl::unexpected(parsed.error());
    for (const std::string& note : parsed->notes) notes.push_back(trait.id + ": " + note);
    Reading reading;
    reading.trait = traits_[measure];
    reading.value = std::move(parsed->value);
    reading.text = text_;
    readings_.push_back(std::move(reading));
    return {};
  }

  // Longest first.
  [[nodiscard]] Result<void> add_sorted(std::vector<Measure> measures) {
    std::stable_sort(measures.begin(), measures.end(),
                     [](const Measure& a, const Measure& b) { return middle(a) > middle(b); });
    for (std::size_t i = 0; i < measures.size(); ++i) {
      if (auto added = add(i, measures[i].interval); !added) return added;
    }
    return {};
  }

  [[nodiscard]] Expanded finish() { return {std::move(readings_), std::move(notes)}; }

 private:
  const Knowledge& knowledge_;
  std::array<int, 3> traits_;
  std::string text_;
  bool approximate_;
  std::vector<Reading> readings_;
};

// One unit for every number that has none: the last one written, or the likeliest for them all.
Result<std::vector<Measured>> measure_all(const std::vector<Written>& numbers, std::vector<std::string>& notes) {
  std::string shared;
  bool fraction = false;
  bool decimals = false;
  double largest = 0.0;
  for (const Written& number : numbers) {
    if (!number.unit.empty()) shared = number.unit;
    fraction = fraction || number.fraction;
    decimals = decimals || number.decimals;
    largest = std::max(largest, number.high);
  }
  if (shared.empty()) {
    shared = electrical::usual_unit(Dimension::length, fraction, decimals, largest);
    notes.push_back("size: no unit: taken as " + shared);
  }
  std::vector<Measured> measures;
  for (const Written& number : numbers) {
    if (number.unit.empty() && number.fraction && shared != "inch") {
      return fail(ErrorKind::input, "a fraction is read off an inch rule, but the other unit is " + shared +
                                        ": give each number its unit");
    }
    auto measured = electrical::measure(number, Dimension::length, number.unit.empty() ? shared : number.unit, true);
    if (!measured) return tl::unexpected(measured.error());
    if (!measured->explanation.empty()) notes.push_back("size: " + measured->explanation);
    measures.push_back(std::move(*measured));
  }
  return measures;
}

constexpr std::string_view examples = "expected 60x40x25, 35 dia x 45, 2 1/2 x 1 1/2 inch or 'like a matchbox'";

Result<void> add_single(SizeReadings& out, const Measure& measure) {
  switch (measure.role) {
    case MeasureRole::diameter:
      return out.add(1, measure.interval);
    case MeasureRole::length:
      return out.add(0, measure.interval);
    case MeasureRole::none:
      out.notes.emplace_back("size: one number is taken as the longest measure; write 'dia' behind a diameter");
      return out.add(0, measure.interval);
    case MeasureRole::other:
      break;
  }
  return fail(ErrorKind::input,
              "one width or thickness does not say which of the three measures it is: give all three, "
              "or size_long, size_mid or size_short");
}

Result<void> add_pair(SizeReadings& out, const std::vector<Measure>& measures, std::size_t diameters) {
  if (diameters == 2) return fail(ErrorKind::input, "two diameters: give the larger one and the length");
  const auto& first = measures[0];
  const auto& second = measures[1];
  if (diameters == 1) {
    return out.add_sorted({first, second, first.role == MeasureRole::diameter ? first : second});
  }
  out.notes.emplace_back(
      "size: of two numbers only the larger is used, as the longest measure; a third number or the word "
      "'dia' would make use of the other");
  return out.add(0, middle(first) >= middle(second) ? first.interval : second.interval);
}

Result<Expanded> compare_with(const Knowledge& knowledge, std::size_t thing, std::string_view text) {
  SizeReadings out(knowledge, text, true);
  const auto& known = knowledge.familiar[thing];
  out.notes.push_back("size: " + familiar_note(known));
  for (std::size_t i = 0; i < std::min<std::size_t>(known.size.size(), size_trait_ids.size()); ++i) {
    const Interval interval = {known.size[i] * (1.0 - known.spread), known.size[i] * (1.0 + known.spread)};
    if (auto added = out.add(i, interval); !added) return tl::unexpected(added.error());
  }
  return out.finish();
}

Expanded without_content(const Knowledge& knowledge, Value::Kind kind, std::string_view text) {
  Expanded expanded;
  for (const int trait : size_traits(knowledge)) {
    Reading reading;
    reading.trait = trait;
    reading.value.kind = kind;
    reading.text = trim(text);
    expanded.readings.push_back(std::move(reading));
  }
  return expanded;
}

tl::unexpected<Error> no_number(const Knowledge& knowledge, std::string_view text) {
  const auto names = familiar_names(knowledge);
  std::string words = words_of(text);
  const std::size_t last = words.find_last_of(' ');
  std::string near = did_you_mean(words, names);
  if (near.empty() && last != std::string::npos) near = did_you_mean(words.substr(last + 1), names);
  return fail(ErrorKind::input, quoted(text) + " is no size: " + std::string(examples) + "." + near);
}

}  // namespace

std::array<int, 3> size_traits(const Knowledge& knowledge) {
  std::array<int, 3> traits{};
  for (std::size_t i = 0; i < traits.size(); ++i) traits[i] = knowledge.trait(size_trait_ids[i]);
  return traits;
}

std::optional<std::size_t> size_measure_of(const Knowledge& knowledge, int trait) {
  const auto traits = size_traits(knowledge);
  const auto found = std::find(traits.begin(), traits.end(), trait);
  return found == traits.end() || trait < 0 ? std::nullopt
                                            : std::optional(static_cast<std::size_t>(found - traits.begin()));
}

Result<Expanded> parse_size(const Knowledge& knowledge, std::string_view text) {
  constexpr std::size_t longest_size = 200;
  if (text.size() > longest_size) return fail(ErrorKind::input, "a size is not that long: " + std::string(examples));
  if (const auto kind = answer_without_content(words_of(text))) return without_content(knowledge, *kind, text);
  if (const auto thing = familiar_size(knowledge, text)) return compare_with(knowledge, *thing, text);

  const auto pieces = size_pieces(electrical::plain_signs(text));
  const bool any_digit = text.find_first_of("0123456789") != std::string_view::npos;
  if (pieces.empty() ||
      (!any_digit && pieces.size() == 1 && !electrical::read_written(pieces[0].number, Dimension::length))) {
    return no_number(knowledge, text);
  }
  if (pieces.size() > size_trait_ids.size()) {
    return fail(ErrorKind::input, quoted(text) + " has more than three measures: " + std::string(examples));
  }
  std::vector<Written> numbers;
  for (const SizePiece& piece : pieces) {
    auto number = electrical::read_written(piece.number, Dimension::length);
    if (!number) return tl::unexpected(number.error());
    // "about 60 x 40 x 25" is about all three.
    if (!numbers.empty() && numbers[0].approximate) number->approximate = true;
    numbers.push_back(std::move(*number));
  }
  std::vector<std::string> notes;
  const auto measured = measure_all(numbers, notes);
  if (!measured) return tl::unexpected(measured.error());

  std::vector<Measure> measures;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    measures.push_back({{(*measured)[i].low, (*measured)[i].high}, pieces[i].role});
  }
  const auto diameters = static_cast<std::size_t>(std::count_if(
      measures.begin(), measures.end(), [](const Measure& measure) { return measure.role == MeasureRole::diameter; }));
  SizeReadings out(knowledge, text,
                   std::any_of(numbers.begin(), numbers.end(), [](const Written& n) { return n.approximate; }));
  out.notes = std::move(notes);
  if (measures.size() == 3 && diameters > 0) {
    return fail(ErrorKind::input,
                "a diameter goes with one length only: write 35 dia x 45, or three numbers without 'dia'");
  }
  const auto added = measures.size() == 3   ? out.add_sorted(measures)
                     : measures.size() == 2 ? add_pair(out, measures, diameters)
                                            : add_single(out, measures[0]);
  if (!added) return tl::unexpected(added.error());
  return out.finish();
}

}  // namespace loomkey::evidence
