#include "catalogue/mistakes.h"

namespace loomkey::catalogue {
namespace {

// The place of the first of the two, as it must stand in the message.
std::string first_place(const Mistake& mistake, const char* first) {
  support::TinySources sources;
  sources.replace(mistake.file, mistake.from, mistake.to);
  return place_of(mistake.file, sources.file(mistake.file), first);
}

struct Twice {
  Mistake mistake;
  const char* first;
};

TEST_CASE("what is given twice names both places") {
  const std::vector<Twice> all = {
      {{"symptoms.toml", "[[symptom]]\nid = \"no-flash\"",
        "[[symptom]]\nid = \"no-flash\"\nname = \"x\"\n[[symptom]]\nid  = \"no-flash\"", "\"no-flash\"\nname = \"no",
        "symptom id 'no-flash' is given twice; first at "},
       "\"no-flash\"\nname = \"x"},
      {{parts, "id = \"stuck\"", "id = \"open\"", "\"open\"\nname = \"contacts", "fault 'open' is given twice"},
       "\"open\"\nname = \"heater"},
      {{parts, "[\"clicking can\"]", "[\"can\", \"can\"]", "\"can\"]", "aliases 'can' is given twice"},
       "\"can\", \"can\"]"},
      {{parts, "{ of = [], often = \"rare\" }", "{ of = [\"B\", \"L\"], often = \"rare\" }", "[\"B\", \"L\"], often",
        "the same set is given twice"},
       "[\"L\", \"B\"]"},
      {{parts, "form = \"box\"\nbox", "form = \"box\"\nsize_mid = [10, 20]\nbox", "box = { of",
        "trait 'size_mid' is claimed twice"},
       "size_mid"},
      {{parts, "tell = \"the thermal one is a can\"\n",
        "tell = \"x\"\n[[part.lookalike]]\npart = \"flasher-thermal\"\ntell = \"y\"\n",
        "\"flasher-thermal\"\ntell = \"y", "look-alike 'flasher-thermal' is given twice"},
       "\"flasher-thermal\"\ntell = \"x"},
      {{look, "{ id = \"1\", name", "{ id = \"0\", name", "\"0\", name = \"one\"", "state '0' is given twice"},
       "\"0\", name = \"none\""},
      {{look, "{ from = \"stick\", to = \"box\", p = 0.1 }", "{ from = \"box\", to = \"can\", p = 0.1 }",
        "{ from = \"box\"", "'box' taken for 'can' is given twice"},
       "{ from = \"can\""},
      {{"familiar.toml", "[\"postage stamp\"]", "[\"matchbox\"]", "\"matchbox\"]", "name 'matchbox' is given twice"},
       "\"matchbox\", \"box"},
      {{"cautions.toml", "[[caution]]\nid = \"hot\"",
        "[[caution]]\nid = \"hot\"\norder = 3\nhazard = \"x\"\ntext = \"x\"\n[[caution]]\nid  = \"hot\"",
        "\"hot\"\norder = 2", "caution id 'hot' is given twice"},
       "\"hot\"\norder = 3"},
  };
  for (const Twice& twice : all) {
    check_mistakes({twice.mistake});
    const std::string first = "first at " + first_place(twice.mistake, twice.first);
    Mistake with_first = twice.mistake;
    with_first.says = first.c_str();
    check_mistakes({with_first});
  }
}

TEST_CASE("an id used in two files names the other file") {
  support::TinySources sources;
  sources.file("parts/second.toml") = sources.file("parts/flasher.toml");
  const SourceReport report = read_sources(sources.write());
  REQUIRE(report.errors.size() == 2);
  CHECK(report.errors[0].message() ==
        "parts/second.toml:2:6: part id 'flasher-thermal' is given twice; first at parts/flasher.toml:2:6");
  CHECK_THAT(report.errors[1].what, Catch::Contains("'flasher-electronic'"));
}

TEST_CASE("a key given twice is an error of TOML with its place") {
  check_mistakes({{parts, "name = \"thermal flasher can\"", "name = \"x\"\nname = \"y\"", "\"y\"", "not TOML: "}});
}

TEST_CASE("advice that no part names is refused") {
  support::TinySources sources;
  sources.replace(parts, "advice = \"flasher-old\"", "advice = \"flasher-new\"");
  const SourceReport report = read_sources(sources.write());
  REQUIRE(report.errors.size() == 1);
  CHECK(report.errors[0].where == place_of(advice, sources.file(advice), "[[advice]]\nid = \"flasher-old\""));
  CHECK(report.errors[0].what == "advice 'flasher-old' is used by no part");
}

TEST_CASE("a look that the family said must be stated when the family is silent") {
  support::TinySources sources;
  sources.replace(family, "lead_colours = \"none\"\n", "");
  const SourceReport report = read_sources(sources.write());
  REQUIRE(report.errors.size() == 1);
  CHECK(report.errors[0].where == place_of(parts, sources.file(parts), "[part.looks]"));
  CHECK_THAT(report.errors[0].what, Catch::Contains("part 'flasher-thermal': look 'lead_colours'"));
}

TEST_CASE("observers who mistake a state most of the time are refused") {
  support::TinySources sources;
  sources.replace(look, "{ from = \"stick\", to = \"box\", p = 0.1 }", "{ from = \"box\", to = \"stick\", p = 0.55 }");
  const SourceReport report = read_sources(sources.write());
  REQUIRE(report.errors.size() == 1);
  CHECK(report.errors[0].where == "traits/look.toml:1:1");
  CHECK(report.errors[0].what == "trait 'form': state 'box' is mistaken in 0.63 of all cases; keep the sum below 0.6");
}

TEST_CASE("a mistake in a trait is reported once and not again for every claim on it") {
  support::TinySources sources;
  sources.replace(look, "id = \"can\", name", "id = \"cam\", name");
  const SourceReport report = read_sources(sources.write());
  // The confusion that names 'can' breaks the trait; the parts that claim 'can' are not blamed.
  REQUIRE(report.errors.size() == 1);
  CHECK_THAT(report.errors[0].what, Catch::Contains("unknown state 'can'. Did you mean 'cam'?"));
}

TEST_CASE("ids are made of small letters, digits, hyphens and underscores") {
  check_mistakes({
      {"symptoms.toml", "\"no-charge\"", "\"No charge\"", "\"No charge\"", "an id is made of small letters"},
      {"symptoms.toml", "\"no-charge\"", "\"-no-charge\"", "\"-no-charge\"", "an id is made of small letters"},
      {"colours.toml", "[[colour]]\nid = \"brown\"",
       "[[colour]]\nid = \"dark\"\nbecomes = {}\n[[colour]]\nid = \"brown\"", "[[colour]]", "'dark' is the answer"},
      {look, "{ id = \"1\", name", "{ id = \"one two\", name", "\"one two\"", "a state id is made of"},
      {look, "{ id = \"1\", name", "{ id = \"verify\", name", "\"verify\"", "a state id is made of"},
  });
}

TEST_CASE("marks to verify must concern something that is claimed") {
  check_mistakes({
      {parts, "verify = [\"ohm\"", "verify = [\"run_ac\"", "\"run_ac\"", "of which this part claims nothing"},
  });
}

}  // namespace
}  // namespace loomkey::catalogue
