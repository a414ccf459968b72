#include <array>
#include <optional>
#include <sstream>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "evidence/reading.h"
#include "evidence/set_items.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Knowledge;

constexpr std::string_view dark = "dark";

// Other words for the colours: common practice, no source. A shade is no colour of its own unless the catalogue has it.
constexpr auto synonyms = std::to_array<std::pair<std::string_view, std::string_view>>({{"gray", "grey"},
                                                                                        {"slate", "grey"},
                                                                                        {"violet", "purple"},
                                                                                        {"mauve", "purple"},
                                                                                        {"lilac", "purple"},
                                                                                        {"tan", "brown"},
                                                                                        {"dark brown", "brown"},
                                                                                        {"light brown", "brown"},
                                                                                        {"dark blue", "blue"},
                                                                                        {"navy", "blue"},
                                                                                        {"navy blue", "blue"},
                                                                                        {"dark green", "green"},
                                                                                        {"dark red", "red"},
                                                                                        {"dark grey", "grey"},
                                                                                        {"dark gray", "grey"},
                                                                                        {"light grey", "grey"},
                                                                                        {"light gray", "grey"},
                                                                                        {"pale blue", "light-blue"},
                                                                                        {"sky blue", "light-blue"},
                                                                                        {"lt blue", "light-blue"},
                                                                                        {"pale green", "light-green"},
                                                                                        {"lime", "light-green"},
                                                                                        {"lime green", "light-green"},
                                                                                        {"lt green", "light-green"},
                                                                                        {"dirty", dark},
                                                                                        {"too dirty", dark},
                                                                                        {"blackened", dark}});
constexpr auto tracer_words = std::to_array<std::string_view>({"tracer", "trace", "stripe", "line", "striped"});
constexpr auto wire_words = std::to_array<std::string_view>({"lead", "leads", "wire", "wires", "cable"});
constexpr auto number_words = std::to_array<std::string_view>(
    {"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"});

// The colours of one lead and the signs between them.
struct Lead {
  std::vector<std::string> colours;
  std::vector<std::string> joints;  // before each further colour: "/", "-", " " or "with"
  bool tracer_named = false;
};

class LeadReader {
 public:
  LeadReader(const Knowledge& knowledge, std::string piece) : knowledge_(knowledge), piece_(std::move(piece)) { cut(); }

  // The lead, as often as it is listed ("3 yellow").
  Result<std::vector<std::string>> read() {
    int count = take_count();
    Lead lead;
    std::string joint;
    while (at_ < words_.size()) {
      const Word& word = words_[at_];
      if (word.text == "/" || word.text == "-" || word.text == "with") {
        if (lead.colours.empty() || !joint.empty()) return unclear();
        joint = word.text;
        ++at_;
      } else if (is_one_of(tracer_words, word.text) && lead.colours.size() > 1) {
        lead.tracer_named = true;
        ++at_;
      } else if (is_one_of(wire_words, word.text) && !lead.colours.empty()) {
        ++at_;
      } else if ((word.text == "a" || word.text == "an" || word.text == "thin") && joint == "with") {
        ++at_;
      } else if (word.text == "x" && !lead.colours.empty() && count == 1 && at_ + 2 == words_.size() &&
                 as_count(words_[at_ + 1].text) > 0) {
        count = as_count(words_[at_ + 1].text);
        at_ += 2;
      } else {
        auto colour = take_colour();
        if (!colour) return tl::unexpected(colour.error());
        if (!lead.colours.empty()) lead.joints.push_back(joint.empty() ? " " : joint);
        lead.colours.push_back(std::move(*colour));
        joint.clear();
      }
    }
    if (!joint.empty()) return unclear();
    auto name = name_of(lead);
    if (!name) return tl::unexpected(name.error());
    return std::vector<std::string>(static_cast<std::size_t>(count), *name);
  }

 private:
  // A run of letters or of digits, or one of the signs "/" and "-".
  struct Word {
    std::string text;
  };

  void cut() {
    bool blank = true;
    for (const char c : to_lower(piece_)) {
      if (c == ' ' || c == '\t' || c == '_') {
        blank = true;
        continue;
      }
      const bool sign = c == '/' || c == '-';
      const auto is_digit = [](char d) { return d >= '0' && d <= '9'; };
      const bool joins = !sign && !blank && !words_.empty() && words_.back().text != "/" && words_.back().text != "-" &&
                         is_digit(c) == is_digit(words_.back().text.back());
      if (joins) {
        words_.back().text += c;
      } else {
        words_.push_back({std::string(1, c)});
      }
      blank = false;
    }
  }

  static int as_count(const std::string& word) {
    for (std::size_t i = 1; i < number_words.size(); ++i) {
      if (word == number_words[i] || word == std::to_string(i)) return static_cast<int>(i);
    }
    return 0;
  }

  // "3 x yellow", "three yellow"
  int take_count() {
    if (words_.size() < 2) return 1;
    const int count = as_count(words_[0].text);
    if (count == 0) return 1;
    at_ = words_.size() > 2 && words_[1].text == "x" ? 2 : 1;
    return count;
  }

  [[nodiscard]] std::optional<std::string> colour_named(const std::string& name) const {
    for (const auto& [word, colour] : synonyms) {
      if (word == name && (colour == dark || knowledge_.colour(colour) >= 0)) return std::string(colour);
    }
    for (const auto& colour : knowledge_.colours) {
      if (words_of(colour.id) == name) return colour.id;
    }
    return name == dark ? std::optional<std::string>(dark) : std::nullopt;
  }

  // The longest name that begins here: two words ("light green", "light-green"), else one.
  Result<std::string> take_colour() {
    const std::string& first = words_[at_].text;
    for (const std::size_t step : {std::size_t{1}, std::size_t{2}}) {
      if (at_ + step >= words_.size() || (step == 2 && words_[at_ + 1].text != "-")) continue;
      if (const auto colour = colour_named(first + " " + words_[at_ + step].text)) {
        at_ += step + 1;
        return *colour;
      }
    }
    auto colour = colour_named(first);
    // "yellows"
    if (!colour && first.size() > 3 && first.ends_with('s')) colour = colour_named(first.substr(0, first.size() - 1));
    if (!colour) return unknown(first);
    ++at_;
    return *colour;
  }

  [[nodiscard]] tl::unexpected<Error> unknown(const std::string& word) const {
    std::vector<std::string> ids;
    for (const auto& colour : knowledge_.colours) ids.push_back(colour.id);
    ids.emplace_back(dark);
    if (word.size() <= 2) {
      return fail(ErrorKind::input, quoted(word) +
                                        " is no colour: write the words in full, as in green/yellow, since one "
                                        "letter may stand for several. Choices: " +
                                        join(ids, ", "));
    }
    std::vector<std::string> known = ids;
    for (const auto& entry : synonyms) known.emplace_back(entry.first);
    return fail(ErrorKind::input,
                "unknown colour " + quoted(word) + "." + did_you_mean(word, known) + " Choices: " + join(ids, ", "));
  }

  [[nodiscard]] tl::unexpected<Error> unclear() const {
    return fail(ErrorKind::input, "cannot read the lead " + quoted(piece_) + ": write base/tracer, as in green/yellow");
  }

  [[nodiscard]] Result<std::string> name_of(const Lead& lead) const {
    if (lead.colours.empty() || lead.colours.size() > 2) return unclear();
    const std::string& base = lead.colours[0];
    if (lead.colours.size() == 1) return base;
    const std::string& tracer = lead.colours[1];
    if (lead.joints[0] == " " && !lead.tracer_named) {
      return fail(ErrorKind::input, quoted(piece_) + " may be one lead or two: write " + base + "/" + tracer +
                                        " for one with a tracer, " + base + ", " + tracer + " for two");
    }
    if (base == dark || tracer == dark) {
      return fail(ErrorKind::input, quoted(piece_) + ": a lead too dirty to tell is just 'dark'");
    }
    if (base == tracer) return fail(ErrorKind::input, quoted(piece_) + ": a tracer has another colour than its base");
    return base + "/" + tracer;
  }

  const Knowledge& knowledge_;
  std::string piece_;
  std::vector<Word> words_;
  std::size_t at_ = 0;
};

// Commas, semicolons, "+", "&" and the word "and" stand between leads.
std::vector<std::string> pieces_of(std::string_view list) {
  std::vector<std::string> pieces(1);
  std::string word;
  const auto finish_word = [&] {
    if (to_lower(word) == "and") {
      pieces.emplace_back();
    } else if (!word.empty()) {
      pieces.back() += (pieces.back().empty() ? "" : " ") + word;
    }
    word.clear();
  };
  for (const char c : list) {
    const bool separator = std::string_view(",;+&").find(c) != std::string_view::npos;
    if (separator || c == ' ' || c == '\t' || c == '\r' || c == '\n') {
      finish_word();
      if (separator) pieces.emplace_back();
    } else {
      word += c;
    }
  }
  finish_word();
  return pieces;
}

// "red or orange": what stands between the words "or".
std::vector<std::string> alternatives_in(const std::string& piece) {
  std::vector<std::string> out(1);
  std::istringstream words(piece);
  for (std::string word; words >> word;) {
    const std::string lower = to_lower(word);
    if (lower == "or") {
      out.emplace_back();
    } else if (lower != "either") {
      out.back() += (out.back().empty() ? "" : " ") + word;
    }
  }
  return out;
}

// One lead and what else it could be, as often as it is listed ("2 red or orange").
Result<std::vector<std::string>> read_lead(const Knowledge& knowledge, const std::string& piece) {
  std::size_t count = 1;
  std::vector<std::string> names;
  for (const std::string& words : alternatives_in(piece)) {
    if (words.empty()) return lonely_or();
    auto leads = LeadReader(knowledge, words).read();
    if (!leads) return leads;
    if (names.empty()) count = leads->size();
    if (!names.empty() && leads->size() != 1) {
      return fail(ErrorKind::input, quoted(piece) + ": the number of leads comes first, as in 2 red or orange");
    }
    if (!leads->empty()) names.push_back(leads->front());
  }
  if (names.size() > most_alternatives) return too_many_alternatives();
  return std::vector<std::string>(count, item_of(std::move(names)));
}

}  // namespace

Result<std::vector<std::string>> read_colours(const Knowledge& knowledge, std::string_view list) {
  std::vector<std::string> leads;
  for (const std::string& piece : pieces_of(list)) {
    if (piece.empty()) continue;
    auto found = read_lead(knowledge, piece);
    if (!found) return tl::unexpected(found.error());
    leads.insert(leads.end(), found->begin(), found->end());
  }
  return leads;
}

}  // namespace loomkey::evidence
