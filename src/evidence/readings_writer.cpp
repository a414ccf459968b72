#include <fmt/format.h>

#include "base/text.h"
#include "electrical/number_text.h"
#include "evidence/bike.h"
#include "evidence/parse_value.h"
#include "evidence/readings_file.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Knowledge;
using knowledge::Trait;

// A TOML basic string. What is not UTF-8 cannot stand in a TOML file and becomes '?'.
std::string toml_string(std::string_view raw) {
  const std::string text = first_invalid_utf8(raw) == std::string_view::npos ? std::string(raw) : printable(raw);
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20U || byte == 0x7FU) {
      out += fmt::format("\\u{:04X}", byte);
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string toml_key(std::string_view key) {
  constexpr std::string_view bare = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-";
  const bool plain = !key.empty() && key.find_first_not_of(bare) == std::string_view::npos;
  return plain ? std::string(key) : toml_string(key);
}

std::string toml_list(const std::vector<std::string>& items) {
  std::vector<std::string> quoted_items;
  for (const std::string& item : items) quoted_items.push_back(toml_string(item));
  return "[" + join(quoted_items, ", ") + "]";
}

// The value as parse_value reads it back to the last bit.
std::string exact_words(const Trait& trait, const Value& value) {
  switch (value.kind) {
    case Value::Kind::state:
      return trait.states[static_cast<std::size_t>(value.state)].id;
    case Value::Kind::interval: {
      const std::string low = electrical::exact_number(value.interval.low);
      const std::string high = electrical::exact_number(value.interval.high);
      return (low == high ? low : low + " to " + high) + " " + trait.unit;
    }
    case Value::Kind::special:
      return knowledge::special_ids[static_cast<std::size_t>(value.special)];
    case Value::Kind::set:
      if (value.items.empty()) return "none";
      return std::string(value.added ? "on a label: " : "") + (value.complete ? "" : "includes ") +
             join(value.items, ", ");
    case Value::Kind::cannot_tell:
      return "cannot tell";
    case Value::Kind::not_looked:
      return "not looked";
  }
  return {};
}

// What the observer wrote, if that alone says it; else exact words, with what the observer wrote beside them.
struct Words {
  std::string value;
  std::string said;
};

Words words_for(const Knowledge& knowledge, const Reading& reading) {
  const std::string exact = exact_words(knowledge.traits[static_cast<std::size_t>(reading.trait)], reading.value);
  if (reading.text.empty()) return {exact, ""};
  const auto again = parse_value(knowledge, reading.trait, reading.text);
  if (again && *again == reading.value && trim(reading.text) == reading.text) return {reading.text, ""};
  return {exact, reading.text == exact ? "" : reading.text};
}

std::string own_reading(const Knowledge& knowledge, const Reading& reading) {
  const std::string key = toml_key(knowledge.traits[static_cast<std::size_t>(reading.trait)].id);
  const Words words = words_for(knowledge, reading);
  if (reading.certainty == Certainty::sure && words.said.empty()) return key + " = " + toml_string(words.value) + "\n";
  std::string out = key + " = { value = " + toml_string(words.value);
  if (reading.certainty != Certainty::sure) out += ", sure = " + toml_string(certainty_name(reading.certainty));
  if (!words.said.empty()) out += ", said = " + toml_string(words.said);
  return out + " }\n";
}

std::string block(const Knowledge& knowledge, const Reading& reading) {
  const Words words = words_for(knowledge, reading);
  std::string out = "\n[[reading]]\n";
  out += "trait = " + toml_string(knowledge.traits[static_cast<std::size_t>(reading.trait)].id) + "\n";
  out += "value = " + toml_string(words.value) + "\n";
  if (reading.certainty != Certainty::sure) out += "sure = " + toml_string(certainty_name(reading.certainty)) + "\n";
  out += "by = " + toml_string(reading.observer) + "\n";
  if (!words.said.empty()) out += "said = " + toml_string(words.said) + "\n";
  return out;
}

std::string bike_section(const Knowledge& knowledge, const Bike& bike) {
  std::string out;
  for (const auto& [key, value] : bike_values(knowledge, bike)) {
    const bool number = key == "cylinders" || key == "volts";
    if (key == "symptoms") {
      std::vector<std::string> ids;
      for (const int symptom : bike.symptoms) ids.push_back(knowledge.symptoms[static_cast<std::size_t>(symptom)].id);
      out += key + " = " + toml_list(ids) + "\n";
    } else {
      out += key + " = " + (number ? value : toml_string(value)) + "\n";
    }
  }
  return out.empty() ? out : "\n[bike]\n" + out;
}

}  // namespace

std::string write_readings_file(const Knowledge& knowledge, const Case& find, std::string_view note) {
  std::string out = "schema = 1\n";
  if (!find.title.empty()) out += "title = " + toml_string(find.title) + "\n";
  if (!note.empty()) out += "note = " + toml_string(note) + "\n";
  if (!find.guessed_name.empty()) out += "guess = " + toml_string(find.guessed_name) + "\n";
  if (find.tools) {
    std::vector<std::string> ids;
    for (const int tool : *find.tools) ids.push_back(knowledge.tools[static_cast<std::size_t>(tool)].id);
    out += "tools = " + toml_list(ids) + "\n";
  }
  if (find.leads_zeroed) out += "meter_leads_zeroed = true\n";
  out += bike_section(knowledge, find.bike);
  std::string own;
  std::string others;
  for (const Reading& reading : find.readings) {
    if (reading.observer.empty()) {
      own += own_reading(knowledge, reading);
    } else {
      others += block(knowledge, reading);
    }
  }
  if (!own.empty()) out += "\n[readings]\n" + own;
  return out + others;
}

}  // namespace loomkey::evidence
