#include "evidence/bike_words.h"

#include <array>
#include <charconv>
#include <utility>
#include <vector>

#include "base/nearest.h"
#include "base/text.h"
#include "electrical/plain_signs.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using Words = std::pair<std::string_view, std::string_view>;  // as written, as kept

constexpr auto origins = std::to_array<Words>({{"british", "british"},
                                               {"continental", "continental"},
                                               {"japanese", "japanese"},
                                               {"american", "american"},
                                               {"soviet", "soviet"},
                                               {"britain", "british"},
                                               {"english", "british"},
                                               {"england", "british"},
                                               {"uk", "british"},
                                               {"european", "continental"},
                                               {"europe", "continental"},
                                               {"german", "continental"},
                                               {"italian", "continental"},
                                               {"japan", "japanese"},
                                               {"usa", "american"},
                                               {"us", "american"},
                                               {"america", "american"},
                                               {"russian", "soviet"},
                                               {"ussr", "soviet"}});
constexpr auto markets = std::to_array<Words>({{"britain", "britain"},
                                               {"europe", "europe"},
                                               {"usa", "usa"},
                                               {"japan", "japan"},
                                               {"elsewhere", "elsewhere"},
                                               {"british", "britain"},
                                               {"uk", "britain"},
                                               {"england", "britain"},
                                               {"european", "europe"},
                                               {"continental", "europe"},
                                               {"us", "usa"},
                                               {"america", "usa"},
                                               {"american", "usa"},
                                               {"japanese", "japan"},
                                               {"other", "elsewhere"}});
constexpr auto decades = std::to_array<std::pair<std::string_view, int>>({{"twenties", 1920},
                                                                          {"thirties", 1930},
                                                                          {"forties", 1940},
                                                                          {"fifties", 1950},
                                                                          {"sixties", 1960},
                                                                          {"seventies", 1970},
                                                                          {"eighties", 1980},
                                                                          {"nineties", 1990},
                                                                          {"noughties", 2000}});
constexpr auto cylinder_words = std::to_array<std::pair<std::string_view, int>>(
    {{"single", 1}, {"one", 1}, {"twin", 2}, {"two", 2}, {"triple", 3}, {"three", 3}, {"four", 4}, {"six", 6}});
constexpr auto positive_words = std::to_array<std::string_view>({"positive", "pos", "plus", "+", "+ve", "+pos"});
constexpr auto negative_words = std::to_array<std::string_view>({"negative", "neg", "minus", "-", "-ve", "-neg"});
constexpr auto earth_words =
    std::to_array<std::string_view>({"earth", "earthed", "ground", "grounded", "to", "the", "frame", "chassis", "is",
                                     "on", "at", "battery", "pole", "terminal", "side", "goes", "a"});

bool is_unknown(const std::string& words) {
  return words.empty() || words == "not known" || words == "none" || answer_without_content(words).has_value();
}

Result<std::string> read_word(std::string_view text, std::span<const Words> table, std::size_t kept) {
  const std::string words = words_of(text);
  if (is_unknown(words)) return std::string();
  for (const auto& [written, meant] : table) {
    if (words == written) return std::string(meant);
  }
  std::vector<std::string> known;
  for (const auto& entry : table.first(kept)) known.emplace_back(entry.first);
  return fail(ErrorKind::input, quoted(text) + " is not known here." + did_you_mean(words, known));
}

std::optional<int> whole_number(std::string_view text) {
  int number = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (problem != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return number;
}

tl::unexpected<Error> not_understood(std::string_view text) {
  return fail(ErrorKind::input, "cannot read " + quoted(text));
}

// Hyphens are blanks between words; before a figure, one is a sign, and nothing here can be negative.
bool is_negative(std::string_view text) {
  const std::string plain = trim(electrical::plain_signs(text));
  return plain.size() > 1 && plain[0] == '-' && plain[1] >= '0' && plain[1] <= '9';
}

}  // namespace

Result<std::optional<int>> read_decade(std::string_view text) {
  if (is_negative(text)) return not_understood(text);
  std::string words = words_of(text);
  if (is_unknown(words)) return std::optional<int>();
  for (const std::string_view shade : {"about", "circa", "ca", "the", "early", "mid", "middle", "late", "the"}) {
    take_prefix(words, shade);
  }
  std::erase(words, '\'');
  for (const auto& [name, year] : decades) {
    if (words == name) return std::optional<int>(year);
  }
  const bool plural = words.size() > 2 && words.back() == 's';
  if (plural) words.pop_back();
  const auto number = whole_number(words);
  if (!number) return not_understood(text);
  constexpr int first = 1900;
  constexpr int last = 2029;
  constexpr int first_short = 20;  // "10s" may be of either century
  if (*number >= first && *number <= last) return std::optional<int>(*number - *number % 10);
  const bool decade = plural && words.size() == 2 && *number >= first_short && *number % 10 == 0;
  if (decade) return std::optional<int>(first + *number);
  return not_understood(text);
}

Result<std::string> read_origin(std::string_view text) { return read_word(text, origins, 5); }
Result<std::string> read_market(std::string_view text) { return read_word(text, markets, 5); }

Result<std::optional<int>> read_cylinders(std::string_view text) {
  if (is_negative(text)) return not_understood(text);
  constexpr int most = 8;
  std::string words = words_of(text);
  if (is_unknown(words)) return std::optional<int>();
  for (const std::string_view noun : {"cylinders", "cylinder", "cyl"}) take_suffix(words, noun);
  for (const auto& [name, count] : cylinder_words) {
    if (words == name) return std::optional<int>(count);
  }
  const auto number = whole_number(words);
  if (!number || *number < 1 || *number > most) return not_understood(text);
  return number;
}

Result<std::optional<int>> read_volts(std::string_view text) {
  if (is_negative(text)) return not_understood(text);
  std::string words = words_of(text);
  if (is_unknown(words)) return std::optional<int>();
  for (const std::string_view unit : {"volts", "volt", "v"}) {
    if (!words.ends_with(unit)) continue;
    words = trim(words.substr(0, words.size() - unit.size()));
    break;
  }
  const auto number = whole_number(words);
  if (!number || (*number != 6 && *number != 12)) return not_understood(text);
  return number;
}

Result<Earth> read_earth(std::string_view text) {
  // A lone "-" is a sign here, not a blank.
  const bool sign = trim(electrical::plain_signs(text)) == "-";
  if (!sign && is_unknown(words_of(text))) return Earth::unknown;
  bool positive = false;
  bool negative = false;
  std::string plain = to_lower(electrical::plain_signs(text));
  for (char& c : plain) {
    if (c == ',' || c == '(' || c == ')' || c == '\t') c = ' ';
  }
  // "positive-earth" is two words, a lone "-" is a sign.
  for (std::size_t i = 1; i + 1 < plain.size(); ++i) {
    if (plain[i] == '-' && plain[i - 1] != ' ' && plain[i + 1] != ' ') plain[i] = ' ';
  }
  for (const std::string& word : split(plain, ' ')) {
    if (word.empty() || is_one_of(earth_words, word)) continue;
    const bool plus = is_one_of(positive_words, word);
    if (!plus && !is_one_of(negative_words, word)) return not_understood(text);
    (plus ? positive : negative) = true;
  }
  if (positive == negative) return not_understood(text);
  return positive ? Earth::positive : Earth::negative;
}

}  // namespace loomkey::evidence
