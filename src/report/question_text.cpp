#include "report/question_text.h"

#include <algorithm>
#include <string_view>

#include "base/text.h"
#include "report/text.h"
#include "report/words.h"

namespace loomkey::report {

using evidence::Value;
using inference::Answer;
using inference::Question;
using knowledge::SetItems;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

bool begins_with_digit(const std::string& text) { return !text.empty() && text[0] >= '0' && text[0] <= '9'; }

// A running number beside values that are figures themselves would make "2" mean two things, and beside "no" and "yes"
// it would make "1" mean no, where everybody writes 1 for yes.
bool values_are_keys(const Trait& trait) {
  return std::any_of(trait.states.begin(), trait.states.end(),
                     [](const auto& state) { return begins_with_digit(state.id) || state.id == "yes"; });
}

// What is typed for one of the answers. Marks on a part may be figures too ("15", "1"), so lists of them get a sign.
std::string key_of(const Trait& trait, const std::string& value, std::size_t number) {
  if (trait.kind == TraitKind::number || values_are_keys(trait)) return value;
  const bool letters = trait.kind == TraitKind::set && trait.items == SetItems::letters;
  std::string key = letters ? "#" : "";
  key += std::to_string(number);
  return key;
}

// Edges of the engine's bins are no round figures; a bound that rounding would carry outside the trait stays.
Value rounded(const Trait& trait, Value value) {
  if (value.kind != Value::Kind::interval) return value;
  for (double* end : {&value.interval.low, &value.interval.high}) {
    const double round = std::stod(figure(*end));
    if (round >= trait.low && round <= trait.high) *end = round;
  }
  return value;
}

// `text` beside `lead`; below it where the lead takes more than half of the width.
void hanging(const std::string& lead, std::string_view text, std::size_t width, std::vector<std::string>& lines) {
  std::string indent = lead;
  if (display_width(lead) * 2 > width) {
    const std::vector<std::string> above = fold(lead, width);
    lines.insert(lines.end(), above.begin(), above.end());
    indent = "    ";
  }
  for (const std::string& line : fold(text, width - display_width(indent))) {
    lines.push_back(indent + line);
    indent.assign(display_width(indent), ' ');
  }
}

std::string padded(std::string text, std::size_t width) {
  const std::size_t length = display_width(text);
  if (length < width) text.append(width - length, ' ');
  return text;
}

// Something that has all three measures, to compare a size with.
std::string familiar_thing(const knowledge::Knowledge& knowledge) {
  for (const auto& thing : knowledge.familiar) {
    if (thing.size.size() == 3 && !thing.names.empty()) return thing.names.front();
  }
  return {};
}

// Examples that lie within what the trait can be.
std::string how_to_write_number(const knowledge::Knowledge& knowledge, const Trait& trait) {
  if (trait.unit == "mm") {
    const std::string thing = familiar_thing(knowledge);
    const std::string figures = "Type a size: 45 mm, 4.5 cm, 1 3/4 inch, 40-50 mm, about 45 mm";
    return thing.empty() ? figures + "." : figures + ", or what it is as big as: " + thing + ".";
  }
  if (trait.unit == "g") return "Type a weight: 120 g, 4 oz, 100-150 g, about 120 g.";
  if (trait.unit == "uF") return "Type a reading: 0.2 uF, 220 nF, 2000-4500 uF, about 0.2 uF.";
  if (trait.unit == "ohm") {
    return trait.low <= 1.0 ? "Type a reading: 4.7 ohm, 4.7 kohm, 18-22 ohm, about 20 ohm."
                            : "Type a reading: 4.7 kohm, 4700 ohm, 4-6 kohm, about 5 kohm.";
  }
  if (trait.unit == "V") {
    return trait.high > 15.0 ? "Type a reading: 12.6 V, 12-14.5 V, about 13 V."
                             : "Type a reading: 0.55 V, 550 mV, 0.5-0.6 V, about 0.6 V.";
  }
  return "Type a figure, a range or 'about' a figure" + (trait.unit.empty() ? "." : ", in " + trait.unit + ".");
}

}  // namespace

std::vector<Choice> all_choices_of(const knowledge::Knowledge& knowledge, const Question& question) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(question.trait)];
  std::vector<Choice> out;
  for (const Answer& answer : question.answers) {
    if (!answer.value.informs()) continue;
    const Value value = rounded(trait, answer.value);
    Choice choice;
    choice.value = value_text(trait, value);
    choice.name = value.kind == Value::Kind::set ? set_words(trait, value.items) : value_words(trait, value);
    choice.key = key_of(trait, choice.value, out.size() + 1);
    choice.chance = answer.chance;
    choice.typed = value.kind == Value::Kind::interval;
    out.push_back(std::move(choice));
  }
  return out;
}

std::vector<Choice> choices_of(const knowledge::Knowledge& knowledge, const Question& question) {
  std::vector<Choice> out = all_choices_of(knowledge, question);
  std::erase_if(out, [](const Choice& choice) { return choice.typed; });
  return out;
}

std::string how_to_write(const knowledge::Knowledge& knowledge, const Trait& trait) {
  if (trait.kind == TraitKind::number) return how_to_write_number(knowledge, trait);
  if (trait.kind != TraitKind::set) return {};
  if (trait.items == SetItems::colours) {
    return "Type the colours with commas, a tracer after a stroke: green/yellow, black. Write 'includes' in front if "
           "some are gone, 'dark' for one that cannot be told, 'red or orange' for one that may be either.";
  }
  return "Type them with commas: AL, WL, E. Write 'includes' in front if some are worn off, 'A or 4' for one that may "
         "be "
         "either, 'on a label:' in front if they are not moulded or stamped.";
}

std::string hazard_words(const Trait& trait) {
  return trait.hazard.empty() ? std::string{} : stopped(sentence(trait.hazard));
}

std::vector<std::string> question_lines(const knowledge::Knowledge& knowledge, const Question& question,
                                        std::size_t width) {
  const Trait& trait = knowledge.traits[static_cast<std::size_t>(question.trait)];
  constexpr std::size_t narrowest = 24;
  width = std::max(width, narrowest);
  std::vector<std::string> lines;
  hanging("", trait.ask, width, lines);
  if (!trait.how.empty()) hanging("  ", trait.how, width, lines);
  if (!trait.hazard.empty()) hanging("  CAUTION: ", hazard_words(trait), width, lines);
  const std::vector<Choice> choices = choices_of(knowledge, question);
  std::size_t keys = 2;
  for (const Choice& choice : choices) keys = std::max(keys, display_width(printable(choice.key)));
  for (const Choice& choice : choices) {
    const std::string key = printable(choice.key);
    if (key == choice.name) {
      hanging("  ", key, width, lines);
    } else {
      hanging("  " + padded(key, keys + 2), choice.name, width, lines);
    }
  }
  if (const std::string how = how_to_write(knowledge, trait); !how.empty()) hanging("  ", how, width, lines);
  return lines;
}

}  // namespace loomkey::report
