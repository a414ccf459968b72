#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <rapidcheck/catch.h>

#include "evidence/parse_value.h"
#include "evidence/readings_file.h"
#include "evidence/shed_knowledge.h"

using namespace loomkey;
using namespace loomkey::evidence;

namespace {

const knowledge::Knowledge& shed() {
  static const knowledge::Knowledge knowledge = support::shed_knowledge();
  return knowledge;
}

// Text that a person, or somebody who means harm, may put into a string: any code points but those UTF-8 cannot hold.
std::string any_text() {
  const auto pieces =
      *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(std::vector<std::string>{"a",
                                                                                                "Z",
                                                                                                " ",
                                                                                                "\"",
                                                                                                "\\",
                                                                                                "\n",
                                                                                                "\t",
                                                                                                "\r",
                                                                                                "'",
                                                                                                "#",
                                                                                                "=",
                                                                                                "[",
                                                                                                "]",
                                                                                                "{",
                                                                                                "}",
                                                                                                "\\u0041",
                                                                                                "\x01",
                                                                                                "\x7F",
                                                                                                "\xC3\xBC",
                                                                                                "\xE2\x82\xAC",
                                                                                                "\xF0\x9F\x94\xA7",
                                                                                                "\"\"\"",
                                                                                                "find",
                                                                                                "9"}));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  return text.substr(0, text.size() > 180 ? 0 : text.size());
}

double any_number(double low, double high) {
  const double share =
      static_cast<double>(*rc::gen::inRange<std::int64_t>(0, std::int64_t{1} << 53)) / 9007199254740992.0;
  return std::clamp(low * std::pow(high / std::max(low, 1e-3), share), low, high);
}

Value any_value(const knowledge::Trait& trait) {
  Value value;
  const int what = *rc::gen::inRange(0, 10);
  if (what == 0) value.kind = Value::Kind::cannot_tell;
  if (what == 1) value.kind = Value::Kind::not_looked;
  if (what < 2) return value;
  switch (trait.kind) {
    case knowledge::TraitKind::choice:
      value.kind = Value::Kind::state;
      value.state = *rc::gen::inRange(0, static_cast<int>(trait.states.size()));
      break;
    case knowledge::TraitKind::number:
      if (what < 5 && trait.allows[0]) {
        value.kind = Value::Kind::special;
        value.special = static_cast<knowledge::Special>(*rc::gen::inRange(0, 4));
      } else {
        value.kind = Value::Kind::interval;
        const double a = any_number(std::max(trait.low, 1e-6), trait.high);
        const double b = any_number(std::max(trait.low, 1e-6), trait.high);
        value.interval = what < 8 ? Interval{std::min(a, b), std::max(a, b)} : Interval{a, a};
      }
      break;
    case knowledge::TraitKind::set: {
      value.kind = Value::Kind::set;
      const bool letters = trait.items == knowledge::SetItems::letters;
      value.items = *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(
          letters ? std::vector<std::string>{"AL", "E", "WL", "49", "49a", "30/51", "B+", "+", "-", "b1", "B1", "Q7",
                                             "49 or 49a", "B+ or E or WL"}
                  : std::vector<std::string>{"red", "green/yellow", "light-green", "light-green/light-blue", "dark",
                                             "grey/red", "brown or red/white"}));
      if (value.items.size() > 12) value.items.resize(12);
      std::sort(value.items.begin(), value.items.end());
      value.complete = value.items.empty() || *rc::gen::arbitrary<bool>();
      value.added = !value.items.empty() && *rc::gen::arbitrary<bool>();
      break;
    }
  }
  return value;
}

Case any_case() {
  Case find;
  find.title = any_text();
  find.guessed_name = any_text();
  find.leads_zeroed = *rc::gen::arbitrary<bool>();
  if (*rc::gen::arbitrary<bool>())
    find.tools = *rc::gen::elementOf(std::vector<std::vector<int>>{{}, {0}, {1}, {0, 1}, {1, 0}});
  if (*rc::gen::arbitrary<bool>()) find.bike.decade = 1900 + 10 * *rc::gen::inRange(0, 13);
  find.bike.origin =
      *rc::gen::elementOf(std::vector<std::string>{"", "british", "continental", "japanese", "american", "soviet"});
  find.bike.market =
      *rc::gen::elementOf(std::vector<std::string>{"", "britain", "europe", "usa", "japan", "elsewhere"});
  if (*rc::gen::arbitrary<bool>()) find.bike.cylinders = *rc::gen::inRange(1, 9);
  if (*rc::gen::arbitrary<bool>()) find.bike.volts = *rc::gen::element(6, 12);
  find.bike.earth_as_built = static_cast<Earth>(*rc::gen::inRange(0, 3));
  find.bike.earth_found = static_cast<Earth>(*rc::gen::inRange(0, 3));
  find.bike.earth_measured = static_cast<Earth>(*rc::gen::inRange(0, 3));
  find.bike.symptoms = *rc::gen::elementOf(std::vector<std::vector<int>>{{}, {0}, {1, 2}, {0, 1, 2}});
  const int traits = static_cast<int>(shed().traits.size());
  for (const std::string& observer : {std::string(), std::string("Ann \"the ear\""), std::string("B\xC3\xB6rje")}) {
    std::vector<int> order(static_cast<std::size_t>(traits));
    for (int i = 0; i < traits; ++i) order[static_cast<std::size_t>(i)] = i;
    std::shuffle(order.begin(), order.end(), std::mt19937(static_cast<unsigned>(*rc::gen::inRange(0, 1 << 30))));
    order.resize(static_cast<std::size_t>(*rc::gen::inRange(0, traits + 1)));
    for (const int trait : order) {
      Reading reading;
      reading.trait = trait;
      reading.value = any_value(shed().traits[static_cast<std::size_t>(trait)]);
      reading.certainty = static_cast<Certainty>(*rc::gen::inRange(0, 3));
      reading.observer = observer;
      reading.text = "said: " + any_text();
      find.readings.push_back(std::move(reading));
    }
  }
  return find;
}

bool same(const Reading& a, const Reading& b) {
  return a.trait == b.trait && a.value == b.value && a.certainty == b.certainty && a.observer == b.observer &&
         a.text == b.text;
}

bool same(const Bike& a, const Bike& b) {
  return a.decade == b.decade && a.origin == b.origin && a.market == b.market && a.cylinders == b.cylinders &&
         a.volts == b.volts && a.earth_as_built == b.earth_as_built && a.earth_found == b.earth_found &&
         a.earth_measured == b.earth_measured && a.symptoms == b.symptoms;
}

// Exactly one outcome: a case, or one error that can be printed.
void read_anything(const std::string& text) {
  const auto file = read_readings_file(shed(), text, "x.toml");
  if (file) {
    for (const Reading& reading : file->find.readings) {
      REQUIRE(reading.trait >= 0);
      REQUIRE(reading.trait < static_cast<int>(shed().traits.size()));
    }
    return;
  }
  REQUIRE_FALSE(file.error().what.empty());
  REQUIRE(file.error().what.size() < 4000);
  REQUIRE(file.error().where.starts_with("x.toml"));
  for (const char c : file.error().message()) REQUIRE((static_cast<unsigned char>(c) >= 0x20U && c != '\x7F'));
}

}  // namespace

TEST_CASE("a case that is written reads back the same") {
  rc::prop("write, then read", [] {
    const Case find = any_case();
    const std::string note = any_text();
    const std::string text = write_readings_file(shed(), find, note);
    const auto again = read_readings_file(shed(), text, "again.toml");
    if (!again) RC_FAIL(again.error().message() + "\n" + text);
    RC_ASSERT(again->note == note);
    RC_ASSERT(again->find.title == find.title);
    RC_ASSERT(again->find.guessed_name == find.guessed_name);
    RC_ASSERT(again->find.tools == find.tools);
    RC_ASSERT(again->find.leads_zeroed == find.leads_zeroed);
    RC_ASSERT(same(again->find.bike, find.bike));
    RC_ASSERT(again->find.readings.size() == find.readings.size());
    for (std::size_t i = 0; i < find.readings.size(); ++i) RC_ASSERT(same(again->find.readings[i], find.readings[i]));
    RC_ASSERT(write_readings_file(shed(), again->find, again->note) == text);
  });
}

TEST_CASE("the words of the observer are written wherever they say the same, and kept beside the value elsewhere") {
  Case find;
  for (const auto& [name, value] : std::vector<std::pair<std::string, std::string>>{
           {"size", "35 dia x 45"}, {"ohm_lowest", "4k7"}, {"form", "a can"}, {"letters", "AL and WL"}}) {
    const auto expanded = parse_assignment(shed(), name, value);
    REQUIRE(expanded);
    for (const Reading& reading : expanded->readings) add_reading(find, reading);
  }
  CHECK(write_readings_file(shed(), find) ==
        "schema = 1\n\n[readings]\n"
        "size_long = { value = \"45 mm\", said = \"35 dia x 45\" }\n"
        "size_mid = { value = \"35 mm\", said = \"35 dia x 45\" }\n"
        "size_short = { value = \"35 mm\", said = \"35 dia x 45\" }\n"
        "ohm_lowest = \"4k7\"\n"
        "form = \"a can\"\n"
        "letters = \"AL and WL\"\n");
}

TEST_CASE("a reading without words comes back with the words that were written") {
  Case find;
  Reading reading;
  reading.trait = shed().trait("form");
  reading.value.kind = Value::Kind::state;
  reading.value.state = 1;
  find.readings.push_back(reading);
  const auto again = read_readings_file(shed(), write_readings_file(shed(), find), "x.toml");
  REQUIRE(again);
  CHECK(again->find.readings.at(0).value == reading.value);
  CHECK(again->find.readings.at(0).text == "cylinder");
}

TEST_CASE("an empty case is written and read") {
  const auto again = read_readings_file(shed(), write_readings_file(shed(), Case()), "x.toml");
  REQUIRE(again);
  CHECK(again->find.readings.empty());
}

TEST_CASE("random bytes never crash the reader") {
  std::mt19937 random(11);
  for (int round = 0; round < 3000; ++round) {
    std::string text(random() % 200, '\0');
    const bool printable_only = round % 2 == 0;
    for (char& c : text) c = static_cast<char>(printable_only ? 32 + random() % 95 : random() % 256);
    read_anything(text);
  }
}

TEST_CASE("mutated files never crash the reader") {
  const std::string sound = R"(schema = 1
title = "x"
tools = ["ruler"]
[bike]
decade = "1960s"
symptoms = ["no-charge"]
[readings]
form = { value = "can", sure = "guess" }
letters = ["AL", "WL"]
lead_colours = "green/yellow, 2 red"
size = "35 dia x 45"
ohm_lowest = 11.5
[[reading]]
trait = "form"
value = "stud"
by = "Ann"
)";
  read_anything(sound);
  const std::vector<std::string> pieces = {
      "=", "[",     "]",    "[[reading]]", "\"",  "'",      "\n", "{",          "}", ",",   ".",   "form", "size",
      "-", "1e400", "\xFF", "\xE2\x82",    "inf", "\"\"\"", "#",  "1979-05-27", "x", "dia", "and", "about"};
  std::mt19937 random(12);
  for (int round = 0; round < 20000; ++round) {
    std::string text = sound;
    const auto changes = 1 + random() % 4;
    for (unsigned i = 0; i < changes && !text.empty(); ++i) {
      const std::size_t at = random() % text.size();
      switch (random() % 4) {
        case 0:
          text.erase(at, 1 + random() % 12);
          break;
        case 1:
          text.insert(at, pieces[random() % pieces.size()]);
          break;
        case 2:
          text[at] = static_cast<char>(random() % 256);
          break;
        default:
          text.insert(at, text.substr(random() % text.size(), random() % 60));
          break;
      }
    }
    read_anything(text);
  }
}

TEST_CASE("every cut of a file is a case or one error") {
  const Case find = [] {
    Case made;
    for (const auto& [name, value] : std::vector<std::pair<std::string, std::string>>{
             {"size", "about 60 x 40 x 25"}, {"lead_colours", "includes green with yellow tracer"}, {"form", "can"}}) {
      const auto expanded = parse_assignment(shed(), name, value);
      REQUIRE(expanded);
      for (const Reading& reading : expanded->readings) add_reading(made, reading);
    }
    return made;
  }();
  const std::string text = write_readings_file(shed(), find);
  for (std::size_t size = 0; size < text.size(); ++size) read_anything(text.substr(0, size));
}

TEST_CASE("random words never crash the value parsers") {
  const std::vector<std::string> pieces = {
      "35",       "x",     "dia",   "mm",    "in",      "1/2", "-",        "/",
      "red",      "green", "light", "with",  "tracer",  "and", "includes", "maybe others",
      "AL",       "WL",    "+",     "none",  "can",     "a",   "the",      "like",
      "matchbox", "?",     "about", "7",     "or more", ",",   "\"",       "\xC2\xBD",
      "\xFF",     "OL",    "long",  "three", "[",       "]",   "only",     "."};
  std::mt19937 random(13);
  for (int round = 0; round < 30000; ++round) {
    std::string text;
    const auto count = random() % 8;
    for (unsigned i = 0; i < count; ++i) {
      text += pieces[random() % pieces.size()];
      if (random() % 3 != 0) text += ' ';
    }
    const std::string& trait = shed().traits[random() % shed().traits.size()].id;
    const auto expanded = parse_assignment(shed(), random() % 4 == 0 ? "size" : trait, text);
    INFO(trait << " '" << text << "'");
    if (!expanded) {
      CHECK_FALSE(expanded.error().what.empty());
      continue;
    }
    for (const Reading& reading : expanded->readings) {
      if (reading.value.kind == Value::Kind::interval) {
        const auto& read = shed().traits[static_cast<std::size_t>(reading.trait)];
        CHECK(reading.value.interval.low <= reading.value.interval.high);
        CHECK(reading.value.interval.low >= read.low);
        CHECK(reading.value.interval.high <= read.high);
      }
      CHECK(reading.value.items.size() <= 12);
      CHECK(std::is_sorted(reading.value.items.begin(), reading.value.items.end()));
    }
  }
}
