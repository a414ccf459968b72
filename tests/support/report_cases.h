#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "bench/finding.h"
#include "evidence/reading.h"
#include "inference/model.h"
#include "support/small_knowledge.h"

// A catalogue of four invented parts with every kind of text that a page may show, and cases on it.

namespace loomkey::support {

inline knowledge::Knowledge report_knowledge() {
  using knowledge::Special;
  SmallKnowledge small;
  small.colours({"red", "green", "light-green", "yellow", "black"})
      .tool("meter", 3.0)
      .familiar("matchbox", {53, 36, 15}, 0.2)
      .symptom("no-flash", "no flash")
      .choice("form", {"can: small closed round can", "box: closed box, flat sides", "stud: base with its own stud"},
              0.02);
  small.last_trait().ask = "What shape is it?";
  small.last_trait().how = "Leave leads out of it.";
  small.choice("blades", {"0: none", "1: one", "2: two", "3+: three or more"}, 0.02)
      .letters("letters")
      .lead_colours("lead_colours")
      .number("size_long", "mm", 3, 600)
      .ohms("ohm_lowest")
      .effort(3.0, "meter");
  small.last_trait().name = "lowest resistance";
  small.last_trait().hazard = "every wire off first";

  small.part("capacitor").has("form", "can").has("blades", "2").carries("letters", {}).carries("lead_colours", {});
  small.range("size_long", 60, 90).reads("ohm_lowest", Special::over_range);
  small.part("flasher").has("form", {{"can", 0.9}, {"box", 0.1}}).has("blades", "2").carries("letters", {"B", "L"});
  small.carries("lead_colours", {"green/yellow", "light-green"}).range("size_long", 45, 60).range("ohm_lowest", 4, 35);
  small.fault("burnt-out", 0.3).reads("ohm_lowest", Special::over_range);
  small.damaged(0.1);
  small.part("warning-can").has("form", "can").has("blades", "3+").carries("letters", {"AL", "E", "WL"});
  small.carries("lead_colours", {}).range("size_long", 35, 50).range("ohm_lowest", 18, 40);
  small.part("zener").has("form", "stud").has("blades", "1").carries("letters", {}).carries("lead_colours", {});
  small.range("size_long", 22, 42).range("ohm_lowest", 100, 3e6);

  knowledge::Knowledge knowledge = small.build();
  knowledge.hash = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
  knowledge.bases.push_back({"standard", knowledge::Basis::Kind::standard, "a published colour code"});
  knowledge.cautions = {
      {"earth-first", 1, "reversed polarity", "Find out which battery post goes to the frame."},
      {"hot", 2, "burns", "Hot enough in use to burn skin."},
      {"stored-charge", 5, "shock", "It keeps its charge."},
  };
  knowledge::Part& flasher = knowledge.parts[static_cast<std::size_t>(knowledge.part("flasher"))];
  flasher.name = "thermal flasher can";
  flasher.first_year = 1958;
  flasher.last_year = 1985;
  flasher.where = "in the headlamp shell";
  flasher.strays = "anywhere";
  flasher.works_with = {{knowledge.part("capacitor"), -1}, {-1, 0}};
  flasher.redundant_when = "the indicators are off";
  flasher.aliases = {"blinker can"};
  flasher.foreign = {{"de", "Blinkgeber"}};
  flasher.called = {"relay"};
  flasher.verify = {"ohm_lowest", "era"};
  flasher.claims[3].basis = 1;
  flasher.conditions[1].sees = "neither side lights";
  flasher.conditions[1].symptoms = {0};
  flasher.look_alikes = {{knowledge.part("warning-can"), "the other can has three blades", knowledge.trait("blades")}};
  flasher.checks = {{"blade to blade", "4 to 35 ohm", "OL", "wires off", 1}};
  knowledge::Advice& advice = knowledge.advice[static_cast<std::size_t>(flasher.advice)];
  advice.title = "thermal flasher";
  advice.function = "Makes the indicators flash.";
  advice.needed = "Only for indicators.";
  advice.price = knowledge::Price::burnt_part;
  advice.cautions = {0, 1, 2};
  advice.substitutes = {{"electronic flasher",
                         {"12 V"},
                         {"LED lamps"},
                         "",
                         "plus to the frame: red to earth",
                         "minus to the frame: black to earth",
                         -1},
                        {"another can", {}, {}, "feed to B, lamps to L", "", "", 1}};
  return knowledge;
}

inline evidence::Reading state_reading(const knowledge::Knowledge& knowledge, const std::string& trait,
                                       const std::string& state) {
  evidence::Reading reading;
  reading.trait = knowledge.trait(trait);
  reading.value.kind = evidence::Value::Kind::state;
  reading.value.state = knowledge.state(reading.trait, state);
  reading.text = state;
  return reading;
}

inline evidence::Reading set_reading(const knowledge::Knowledge& knowledge, const std::string& trait,
                                     std::vector<std::string> items) {
  evidence::Reading reading;
  reading.trait = knowledge.trait(trait);
  reading.value.kind = evidence::Value::Kind::set;
  reading.value.items = std::move(items);
  return reading;
}

inline evidence::Reading number_reading(const knowledge::Knowledge& knowledge, const std::string& trait, double low,
                                        double high) {
  evidence::Reading reading;
  reading.trait = knowledge.trait(trait);
  reading.value.kind = evidence::Value::Kind::interval;
  reading.value.interval = {low, high};
  return reading;
}

// Everything about a flasher was read, and nobody measured the earth.
inline evidence::Case flasher_case(const knowledge::Knowledge& knowledge) {
  evidence::Case find;
  find.guessed_name = "relay";
  find.bike.decade = 1960;
  find.readings = {state_reading(knowledge, "form", "can"),
                   state_reading(knowledge, "blades", "2"),
                   set_reading(knowledge, "letters", {"B", "L"}),
                   set_reading(knowledge, "lead_colours", {"green/yellow", "light-green"}),
                   number_reading(knowledge, "size_long", 50, 50),
                   number_reading(knowledge, "ohm_lowest", 12, 14)};
  find.readings[0].certainty = evidence::Certainty::think_so;
  return find;
}

// One find with all that belongs to it.
struct ReportCase {
  std::shared_ptr<const knowledge::Knowledge> knowledge;
  evidence::Case find;
  bench::Finding finding;
};

inline ReportCase report_case(knowledge::Knowledge knowledge, evidence::Case find, const bench::Amount& amount = {}) {
  const auto shared = std::make_shared<const knowledge::Knowledge>(std::move(knowledge));
  return {shared, find, bench::identify(inference::Model(shared), find, amount)};
}

inline ReportCase flasher_finding(evidence::Earth measured = evidence::Earth::unknown) {
  knowledge::Knowledge knowledge = report_knowledge();
  evidence::Case find = flasher_case(knowledge);
  find.bike.earth_measured = measured;
  return report_case(std::move(knowledge), std::move(find));
}

inline ReportCase open_finding() {
  knowledge::Knowledge knowledge = report_knowledge();
  evidence::Case find;
  find.title = "The can";
  find.readings = {state_reading(knowledge, "form", "can")};
  return report_case(std::move(knowledge), std::move(find));
}

inline ReportCase with_status(ReportCase given, inference::Status status) {
  given.finding.status = status;
  if (status == inference::Status::contradicted) {
    given.finding.contradicting = 1;
    given.finding.without_it = given.knowledge->part("warning-can");
  }
  if (status == inference::Status::not_in_catalogue) {
    given.finding.part = given.finding.advice = -1;
    given.finding.absent = 0.72;
    given.finding.cautions.clear();
    given.finding.substitutes.clear();
  }
  return given;
}

// One of every status, with and without a measured earth.
inline std::vector<ReportCase> cases_of_every_kind() {
  using inference::Status;
  std::vector<ReportCase> out{open_finding(), report_case(report_knowledge(), {})};
  for (const evidence::Earth earth : {evidence::Earth::unknown, evidence::Earth::positive, evidence::Earth::negative}) {
    for (const Status status : {Status::open, Status::likely, Status::settled, Status::cannot_tell,
                                Status::contradicted, Status::not_in_catalogue}) {
      out.push_back(with_status(flasher_finding(earth), status));
    }
  }
  return out;
}

// Puts terminal codes, broken UTF-8, direction overrides and an endless word into every text.
inline std::string spoilt(const std::string& text) {
  return text + "\x1b[31m\x07\n\t\xff\xc0 \xe2\x80\xae \xc2\x9b" + "5m \xc3\xa9" + std::string(150, 'w');
}

inline ReportCase spoilt_case() {
  knowledge::Knowledge knowledge = report_knowledge();
  evidence::Case find = flasher_case(knowledge);
  find.title = spoilt("title");
  find.guessed_name = spoilt("relay");
  find.bike.origin = spoilt("british");
  for (auto& reading : find.readings) reading.observer = reading.text = reading.where = spoilt("x");
  find.readings[2].value.items = {spoilt("B"), "L"};
  for (auto& trait : knowledge.traits) {
    for (std::string* text : {&trait.name, &trait.ask, &trait.how, &trait.hazard}) *text = spoilt(*text);
    for (auto& state : trait.states) state.name = spoilt(state.name);
  }
  for (auto& part : knowledge.parts) {
    for (std::string* text : {&part.name, &part.where, &part.strays, &part.redundant_when, &part.note})
      *text = spoilt(*text);
    for (auto& condition : part.conditions) condition.name = condition.sees = spoilt(condition.name);
    for (auto& look_alike : part.look_alikes) look_alike.tell = spoilt(look_alike.tell);
    for (auto& check : part.checks) check.how = check.good = check.bad = check.caveat = spoilt(check.how);
  }
  for (auto& advice : knowledge.advice) {
    for (std::string* text : {&advice.title, &advice.function, &advice.needed}) *text = spoilt(*text);
    for (auto& substitute : advice.substitutes) substitute.what = substitute.connect_positive = spoilt(substitute.what);
  }
  for (auto& caution : knowledge.cautions) caution.text = caution.hazard = spoilt(caution.text);
  for (auto& basis : knowledge.bases) basis.text = spoilt(basis.text);
  return report_case(std::move(knowledge), std::move(find));
}

}  // namespace loomkey::support
