#pragma once

#include "support/small_knowledge.h"

namespace loomkey::support {

// A vocabulary with one trait of each kind that readings come in, spelled like the shipped one.
inline knowledge::Knowledge shed_knowledge() {
  SmallKnowledge small;
  small.tool("meter", 3.0).tool("ruler", 0.5);
  small.colours({"black", "brown", "red", "orange", "yellow", "green", "light-green", "blue", "light-blue", "purple",
                 "grey", "white", "pink"});
  small.familiar("matchbox", {53, 36, 15}, 0.2)
      .familiar("35 mm film canister", {51, 31, 31}, 0.15)
      .familiar("bank card", {86, 54}, 0.12)
      .familiar("aa cell", {50, 14, 14}, 0.12);
  small.symptom("no-charge", "no charge").symptom("bulbs-blow", "bulbs blow").symptom("misfires-hot", "misfires hot");

  small.choice("form",
               {"can: small closed round can, not twice as long as wide", "cylinder: longer closed cylinder",
                "finned-block: closed block with cast cooling fins", "stud: metal base with its own threaded stud",
                "stick: bar, stick or narrow tray", "other: none of these"});
  small.last_trait().name = "overall form";
  small.yesno("fins");
  small.choice("coil_count", {"0: none to be seen", "1: one", "2-4: two to four", "5-6: five or six",
                              "8-9: eight or nine", "12+: twelve or more", "laced: winding laced all round in slots"});
  small.last_trait().name = "coils to be counted";
  small.choice("terminal_count",
               {"0: none", "1: one", "2: two", "3: three", "4: four", "5: five", "6: six", "7+: seven or more"});
  small.last_trait().name = "terminals";
  small.choice("terminal_kind", {"none: no terminals", "blade: flat push-on blades", "screw: screws or small nuts"});
  small.choice("at_rest", {"not-a-switch: it is no switch", "open: open at rest", "closed: closed at rest"});
  small.choice("diode_legs",
               {"none-open: none, over-range both ways", "none-closed: none, the same low reading both ways", "1: one",
                "2: two", "3: three", "4-5: four or five", "6+: six or more"});
  small.last_trait().name = "one-way paths on diode test";
  small.choice("marks_volts", {"none: none to be found", "6: 6 V", "12: 12 V", "25-50: 25 to 63 V of a capacitor",
                               "other: 24 V, mains or another figure"});
  small.last_trait().name = "volts printed";
  small.letters("letters");
  small.lead_colours("lead_colours");
  small.number("size_long", "mm", 3, 600).number("size_mid", "mm", 2, 400).number("size_short", "mm", 0.5, 300);
  small.number("mass", "g", 0.5, 15000);
  small.ohms("ohm_lowest");
  small.number("diode_drop", "V", 0, 3);
  small.last_trait().allows = {true, true, true, true};
  small.ohms("capacitance", 0.001, 100000);
  small.last_trait().unit = "uF";

  small.part("can-unit").has("form", "can").carries("letters", {"AL", "E", "WL"}).carries("lead_colours", {});
  small.part("flasher").has("form", "can").carries("letters", {"49", "49a"});
  small.part("plug-board").has("form", "other").carries("letters", {"30/51", "B+", "+", "-", "b1", "B1"});
  return small.build();
}

}  // namespace loomkey::support
