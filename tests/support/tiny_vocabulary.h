#pragma once

#include <map>
#include <string>

namespace loomkey::support {

// The vocabulary of the tiny catalogue: six looks, three sizes, two meter traits.
inline std::map<std::string, std::string> tiny_vocabulary() {
  std::map<std::string, std::string> files;
  files["basis.toml"] = R"([[basis]]
id = "practice"
kind = "practice"
text = "common practice"

[[basis]]
id = "memory"
kind = "memory"
text = "from memory"
)";
  files["efforts.toml"] = R"([[effort]]
id = "look"
name = "look"
cost = 1.0

[[effort]]
id = "meter"
name = "one meter reading"
cost = 3.0
tool = "meter"

[[effort]]
id = "run"
name = "run the engine"
cost = 10.0
tool = "meter"

[[tool]]
id = "meter"
name = "a multimeter"
fetch = 3.0
)";
  files["colours.toml"] = R"(tracer_lost = 0.12
dark_chance = 0.04

[[colour]]
id = "brown"
becomes = { purple = 0.04, red = 0.04 }

[[colour]]
id = "purple"
becomes = { brown = 0.08 }

[[colour]]
id = "red"
becomes = { brown = 0.05 }
)";
  files["familiar.toml"] = R"([[thing]]
id = "matchbox"
names = ["matchbox", "box of matches"]
size = [53, 36, 15]
spread = 0.2

[[thing]]
id = "stamp"
names = ["postage stamp"]
size = [28, 24]
spread = 0.2
)";
  files["symptoms.toml"] = R"([[symptom]]
id = "no-charge"
name = "no charge"

[[symptom]]
id = "no-flash"
name = "no flash"
)";
  files["cautions.toml"] = R"([[caution]]
id = "earth-first"
order = 1
hazard = "reversed polarity"
text = "Find out which post goes to the frame."

[[caution]]
id = "hot"
order = 2
hazard = "burns"
text = "Let it cool."
)";
  files["traits/groups.toml"] = R"([[group]]
id = "shape"
name = "shape"
switch = 0.02
overlap = 0.35

[[group]]
id = "bulk"
name = "size"
switch = 0.03
overlap = 0.55
)";
  files["traits/look.toml"] = R"([[trait]]
id = "form"
kind = "choice"
name = "overall form"
ask = "What shape is it?"
how = "Choose the nearest."
effort = "look"
group = "shape"
states = [
  { id = "can", name = "round can" },
  { id = "box", name = "box" },
  { id = "stick", name = "stick" },
]
confusions = [
  { from = "can", to = "box", p = 0.08, both = true },
  { from = "stick", to = "box", p = 0.1 },
]

[[trait]]
id = "terminal_count"
kind = "choice"
name = "terminals"
ask = "How many terminals?"
how = "Count stubs too."
effort = "look"
counting = true
states = [
  { id = "0", name = "none" },
  { id = "1", name = "one" },
  { id = "2", name = "two" },
  { id = "3+", name = "more" },
]

[[trait]]
id = "letters"
kind = "set"
items = "letters"
name = "letters"
ask = "Which letters?"
how = "Moulded marks count."
effort = "look"
none = "no letters"

[[trait]]
id = "lead_colours"
kind = "set"
items = "colours"
name = "colours of its leads"
ask = "What colours?"
how = "Wipe them."
effort = "look"
none = "no leads"

[[trait]]
id = "fins"
kind = "yesno"
name = "cooling fins"
ask = "Has it fins?"
how = "Look."
effort = "look"
unless_stated = "no"

[[trait]]
id = "state_seen"
kind = "choice"
name = "damage"
ask = "What damage shows?"
how = "The worst."
effort = "look"
unless_stated = { sound = "usual", burnt = "rare" }
states = [
  { id = "sound", name = "sound" },
  { id = "burnt", name = "burnt" },
  { id = "cracked", name = "cracked" },
]
)";
  files["traits/size.toml"] = R"([[trait]]
id = "size_long"
kind = "number"
name = "longest measure"
ask = "How long?"
how = "Ruler."
effort = "look"
group = "bulk"
unit = "mm"
scale = "log"
range = [3, 600]
soft = 0.1
error = { relative = 0.04, absolute = 1.0 }

[[trait]]
id = "size_mid"
kind = "number"
name = "middle measure"
ask = "How wide?"
how = "Ruler."
effort = "look"
group = "bulk"
unit = "mm"
scale = "log"
range = [2, 400]
soft = 0.1
error = { relative = 0.04, absolute = 1.0 }

[[trait]]
id = "size_short"
kind = "number"
name = "shortest measure"
ask = "How thick?"
how = "Ruler."
effort = "look"
group = "bulk"
unit = "mm"
scale = "log"
range = [0.5, 300]
soft = 0.12
error = { relative = 0.05, absolute = 1.0 }
)";
  files["traits/meter.toml"] = R"([[trait]]
id = "ohm"
kind = "number"
name = "resistance"
ask = "What resistance?"
how = "Wires off."
effort = "meter"
unit = "ohm"
scale = "log"
range = [0.05, 10000000]
soft = 0.25
error = { relative = 0.05, absolute = 0.1 }
extras = ["ol", "zero", "jumps"]
low_ohm = true
unless_stated = "na"
needs_letters = ["B", "L"]

[[trait]]
id = "run_ac"
kind = "choice"
name = "AC with the engine turning"
ask = "What AC?"
how = "Hands off."
effort = "run"
hazard = "runs: moving parts"
states = [ { id = "none", name = "none" }, { id = "some", name = "some" } ]
)";
  return files;
}

}  // namespace loomkey::support
