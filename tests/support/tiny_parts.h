#pragma once

#include <map>
#include <string>

namespace loomkey::support {

// The two parts of the tiny catalogue, their family and their advice.
inline std::map<std::string, std::string> tiny_parts() {
  std::map<std::string, std::string> files;
  files["families/flasher.toml"] = R"([[family]]
id = "flasher"
name = "flasher units"
does = "makes the indicators blink"
[family.claims]
terminal_count = "2"
lead_colours = "none"
)";
  files["advice/flasher.toml"] = R"([[advice]]
id = "flasher-new"
title = "flasher unit, electronic"
function = "Blinks the indicators."
needed = "Needed for indicators."
price = "money"
cautions = ["hot", "earth-first"]
harmless_if = ["flasher-old"]
basis = "practice"

[[advice.substitute]]
what = "another one"
when = ["12 V"]
connect_positive = "as marked, positive earth"
connect_negative = "as marked, negative earth"

[[advice]]
id = "flasher-old"
title = "flasher unit, thermal"
function = "Blinks the indicators by heat."
needed = "Needed for indicators."
price = "harmless"
cautions = []
basis = "practice"

[[advice.substitute]]
what = "an electronic one"
when = ["12 V", "some load"]
not_when = ["6 V"]
connect = "B to the feed, L to the lamps"
basis = "memory"
)";
  files["parts/flasher.toml"] = R"([[part]]
id = "flasher-thermal"
family = "flasher"
name = "thermal flasher can"
aliases = ["clicking can"]
foreign = { de = ["Blinkgeber"], fr = ["centrale clignotante"] }
called = ["relay"]
advice = "flasher-old"
era = [1955, 1980]
brought_in = "often"
origins = ["british"]
volts = [12]
where = "under the seat"
strays = "headlamp shell"
works_with = ["family:flasher", "flasher-electronic"]
redundant_when = "no indicators are fitted"
basis = "practice"
verify = ["ohm", "era"]
sound = 0.6

[part.looks]
form = { can = "always", box = "rare" }
round = { diameter = [28, 38], length = [35, 50] }
letters = { sets = [ { of = ["L", "B"], often = "always" }, { of = [], often = "rare" } ] }

[part.meter]
ohm = { range = [0.05, 2], often = "usual", zero = "sometimes" }

[[part.fault]]
id = "open"
name = "heater burnt out"
share = "usual"
sees = "the indicators stay dark"
symptoms = ["no-flash"]
meter = { ohm = "ol" }

[[part.fault]]
id = "stuck"
name = "contacts stuck"
share = "sometimes"
sees = "the indicators stay lit"
looks = { state_seen = { burnt = "sometimes", sound = "usual" } }

[[part.check]]
do = "B to L"
good = "below 2 ohm"
bad = "OL"
caveat = "leads read 0.3 ohm"
basis = "memory"

[[part.lookalike]]
part = "flasher-electronic"
tell = "the electronic one is a box"
trait = "form"

[[part]]
id = "flasher-electronic"
family = "flasher"
name = "electronic flasher"
aliases = []
advice = "flasher-new"
era = [1980, 2026]
retrofit = true
brought_in = "seldom"
origins = ["japanese", "continental"]
markets = ["europe"]
cylinders = [1, 2]
where = "under the seat"
strays = "anywhere"
works_with = []
basis = "memory"
note = "comes in many sizes"

[part.looks]
form = "box"
box = { of = [[10, 20], [40, 50], [25, 35]], verify = true, basis = "practice" }
letters = ["B", "L", "E"]
lead_colours = { sets = [ { of = [], often = "usual" }, { of = ["brown/red", "red"], often = "sometimes" } ] }
fins = { no = "always", yes = "never" }

[part.meter]
ohm = { ranges = [ { range = [500, 1000], often = "usual" }, { range = [20000, 90000], often = 0.3 } ], jumps = "rare" }

[[part.fault]]
id = "dead"
name = "dead"
share = "usual"
sees = "nothing blinks"

[[part.check]]
do = "try it"
good = "blinks"
bad = "does not"

[[part.lookalike]]
part = "flasher-thermal"
tell = "the thermal one is a can"
)";
  return files;
}

}  // namespace loomkey::support
