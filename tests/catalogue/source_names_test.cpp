#include "catalogue/mistakes.h"

namespace loomkey::catalogue {
namespace {

TEST_CASE("an unknown id names its place and the nearest known one") {
  check_mistakes({
      {parts, "family = \"flasher\"", "family = \"flahser\"", "\"flahser\"",
       "unknown family 'flahser'. Did you mean 'flasher'?"},
      {parts, "advice = \"flasher-old\"", "advice = \"flasher-odl\"", "\"flasher-odl\"", "Did you mean 'flasher-old'?"},
      {parts, "\"flasher-electronic\"]", "\"flasher-electric\"]", "\"flasher-electric\"",
       "unknown part 'flasher-electric'. Did you mean 'flasher-electronic'?"},
      {parts, "family:flasher", "family:flash", "\"family:flash\"", "unknown family 'flash'"},
      {parts, "part = \"flasher-electronic\"", "part = \"flasher-elctronic\"", "\"flasher-elctronic\"", "unknown part"},
      {parts, "trait = \"form\"", "trait = \"from\"", "\"from\"", "unknown trait 'from'. Did you mean 'form'?"},
      {parts, "basis = \"practice\"\nverify", "basis = \"practise\"\nverify", "\"practise\"",
       "unknown basis 'practise'. Did you mean 'practice'?"},
      {parts, "[\"no-flash\"]", "[\"no-flsah\"]", "\"no-flsah\"",
       "unknown symptom 'no-flsah'. Did you mean 'no-flash'?"},
      {parts, "form = { can", "form = { cann", "cann", "unknown state 'cann'. Did you mean 'can'?"},
      {parts, "form = \"box\"", "form = \"bxo\"", "\"bxo\"", "unknown state 'bxo'"},
      {parts, "round = {", "rond = {", "rond", "unknown trait 'rond'. Did you mean 'round'?"},
      {parts, "[\"brown/red\", \"red\"]", "[\"brwon/red\", \"red\"]", "\"brwon/red\"",
       "unknown colour 'brwon'. Did you mean 'brown'?"},
      {parts, "[\"brown/red\", \"red\"]", "[\"brown/red/red\", \"red\"]", "\"brown/red/red\"",
       "unknown colour 'red/red'"},
      {parts, "brought_in = \"often\"", "brought_in = \"oftn\"", "\"oftn\"", "Did you mean 'often'?"},
      {parts, "origins = [\"british\"]", "origins = [\"britsh\"]", "\"britsh\"", "Did you mean 'british'?"},
      {parts, "markets = [\"europe\"]", "markets = [\"moon\"]", "\"moon\"",
       "Known: britain, europe, usa, japan, elsewhere"},
      {parts, "verify = [\"ohm\", \"era\"]", "verify = [\"ohm\", \"eras\"]", "\"eras\"", "Did you mean 'era'?"},
      {parts, "meter = { ohm = \"ol\" }", "meter = { ohm = \"oll\" }", "\"oll\"",
       "unknown answer 'oll'. Did you mean 'ol'?"},
      {advice, "cautions = [\"hot\"", "cautions = [\"hoot\"", "\"hoot\"",
       "unknown caution 'hoot'. Did you mean 'hot'?"},
      {advice, "harmless_if = [\"flasher-old\"]", "harmless_if = [\"flasher-older\"]", "\"flasher-older\"",
       "unknown advice record"},
      {advice, "price = \"money\"", "price = \"moneys\"", "\"moneys\"",
       "unknown price 'moneys'. Did you mean 'money'?"},
      {advice, "basis = \"memory\"", "basis = \"memroy\"", "\"memroy\"", "Did you mean 'memory'?"},
      {look, "effort = \"look\"", "effort = \"lok\"", "\"lok\"", "unknown effort 'lok'. Did you mean 'look'?"},
      {look, "group = \"shape\"", "group = \"shap\"", "\"shap\"", "unknown group 'shap'. Did you mean 'shape'?"},
      {look, "from = \"stick\"", "from = \"sitck\"", "\"sitck\"", "unknown state 'sitck'. Did you mean 'stick'?"},
      {look, "unless_stated = \"no\"", "unless_stated = \"non\"", "\"non\"", "unknown state 'non'"},
      {"efforts.toml", "tool = \"meter\"", "tool = \"metre\"", "\"metre\"",
       "unknown tool 'metre'. Did you mean 'meter'?"},
      {"colours.toml", "{ purple = 0.04, red", "{ purpel = 0.04, red", "purpel",
       "unknown colour 'purpel'. Did you mean 'purple'?"},
  });
}

TEST_CASE("an unknown key names its place and the nearest known one") {
  check_mistakes({
      {parts, "strays = \"headlamp", "strayss = \"x\"\nstrays = \"headlamp", "strayss",
       "part 'flasher-thermal': unknown key 'strayss'. Did you mean 'strays'?"},
      {parts, "caveat =", "caveats =", "caveats", "unknown key 'caveats'. Did you mean 'caveat'?"},
      {parts, "tell = \"the electronic", "weight = 3\ntell = \"the electronic", "weight", "unknown key 'weight'"},
      {parts, "sees = \"the indicators stay dark\"", "sees = \"dark\"\nfix = \"none\"", "fix", "unknown key 'fix'"},
      {parts, "zero = \"sometimes\" }", "zero = \"sometimes\", zeros = \"rare\" }", "zeros",
       "unknown key 'zeros'. Did you mean 'zero'?"},
      {parts, "{ of = [], often = \"rare\" }", "{ of = [], often = \"rare\", off = 1 }", "off = 1",
       "unknown key 'off'"},
      {parts, "length = [35, 50] }", "length = [35, 50], high = 3 }", "high = 3", "unknown key 'high'"},
      {parts, "[[part]]\nid = \"flasher-e", "[parts]\n[[part]]\nid = \"flasher-e", "parts]",
       "unknown key 'parts'. Did you mean 'part'?"},
      {advice, "not_when", "notwhen", "notwhen", "unknown key 'notwhen'. Did you mean 'not_when'?"},
      {family, "does =", "doing = \"x\"\ndoes =", "doing", "unknown key 'doing'"},
      {look, "counting = true", "counting = true\nunit = \"mm\"", "unit", "unknown key 'unit'"},
      {"symptoms.toml", "name = \"no charge\"", "name = \"no charge\"\ntext = \"x\"", "text", "unknown key 'text'"},
      {"basis.toml", "[[basis]]", "title = \"x\"\n[[basis]]", "title", "unknown key 'title'"},
  });
}

TEST_CASE("a missing field is named where its table starts") {
  check_mistakes({
      {parts, "strays = \"headlamp shell\"\n", "", "[[part]]", "part 'flasher-thermal': 'strays' is missing"},
      {parts, "basis = \"practice\"\nverify", "verify", "[[part]]", "'basis' is missing"},
      {parts, "share = \"usual\"\nsees = \"the", "sees = \"the", "[[part.fault]]", "fault 'open': 'share' is missing"},
      {parts, "good = \"below 2 ohm\"\n", "", "[[part.check]]", "'good' is missing"},
      {parts, "tell = \"the electronic one is a box\"\n", "", "[[part.lookalike]]", "'tell' is missing"},
      {parts, "diameter = [28, 38], ", "", "{ length", "'diameter' is missing"},
      {parts, ", often = 0.3", "", "{ range = [20000", "'often' is missing"},
      {advice, "needed = \"Needed for indicators.\"\n", "", "[[advice]]", "'needed' is missing"},
      {advice, "what = \"another one\"\n", "", "[[advice.substitute]]", "'what' is missing"},
      {family, "name = \"flasher units\"\n", "", "[[family]]", "'name' is missing"},
      {look, "none = \"no letters\"\n", "", "[[trait]]\nid = \"letters\"", "'none' is missing"},
      {size, "unit = \"mm\"\n", "", "[[trait]]", "'unit' is missing"},
      {"colours.toml", "dark_chance = 0.04\n", "", "tracer_lost", "'dark_chance' is missing"},
      {"cautions.toml", "order = 1\n", "", "[[caution]]", "'order' is missing"},
  });
}

TEST_CASE("a look that is neither stated nor inherited nor taken for granted is missing") {
  check_mistakes({
      {parts, "form = { can = \"always\", box = \"rare\" }\n", "", "[part.looks]",
       "look 'form' (overall form) is not stated"},
  });
}

}  // namespace
}  // namespace loomkey::catalogue
