#include "catalogue/mistakes.h"

namespace loomkey::catalogue {
namespace {

TEST_CASE("a bad frequency is refused") {
  check_mistakes({
      {parts, "can = \"always\"", "can = \"allways\"", "\"allways\"",
       "unknown frequency 'allways'. Did you mean 'always'?"},
      {parts, "often = 0.3", "often = 0", "0 } ]", "above 0 and not above 1, found 0"},
      {parts, "often = 0.3", "often = 1.5", "1.5", "found 1.5"},
      {parts, "often = 0.3", "often = -0.5", "-0.5", "found -0.5"},
      {parts, "often = 0.3", "often = nan", "nan", "no values here"},
      {parts, "often = 0.3", "often = inf", "inf", "no values here"},
      {parts, "often = 0.3", "often = true", "true } ]", "expected a text in quotes, found true or false"},
      {parts, "share = \"usual\"", "share = \"mostly\"", "\"mostly\"", "unknown frequency 'mostly'"},
      {parts, "often = \"always\" }", "often = \"allways\" }", "\"allways\"", "unknown frequency"},
  });
}

TEST_CASE("a range is refused when inverted, out of bounds or no range") {
  check_mistakes({
      {parts, "range = [0.05, 2]", "range = [2, 0.05]", "[2, 0.05]", "the range is inverted: 2 is more than 0.05"},
      {parts, "range = [0.05, 2]", "range = [0.01, 2]", "[0.01, 2]",
       "the range 0.01 to 2 lies outside 0.05 to 10000000 ohm"},
      {parts, "range = [0.05, 2]", "range = [0.05, 2, 3]", "[0.05, 2, 3]", "found a list of 3"},
      {parts, "range = [0.05, 2]", "range = 2", "2, often", "expected a range [low, high], found a whole number"},
      {parts, "range = [0.05, 2]", "range = [\"a\", 2]", "\"a\"", "expected a number, found a text"},
      {parts, "range = [0.05, 2]", "range = [0.05, inf]", "inf", "no values here"},
      {parts, "diameter = [28, 38]", "diameter = [38, 28]", "[38, 28]", "inverted"},
      {parts, "length = [35, 50]", "length = [35, 5000]", "{ diameter",
       "'round' makes size_long 35 to 5000, outside 3 to 600 mm"},
      {parts, "[[10, 20], [40, 50], [25, 35]]", "[[10, 20], [40, 50]]", "[[10, 20], [40, 50]]",
       "'box' takes three ranges"},
      {parts, "[[10, 20], [40, 50], [25, 35]]", "[[10, 20], [40, 50], [35, 25]]", "[35, 25]", "inverted"},
      {parts, "[20000, 90000]", "[500, 1000]", "[500, 1000], often = 0.3", "the same range is given twice"},
      {parts, "era = [1955, 1980]", "era = [1980, 1955]", "[1980, 1955]", "inverted"},
      {parts, "era = [1955, 1980]", "era = [55, 80]", "[55, 80]", "two years between 1880 and 2100"},
      {parts, "era = [1955, 1980]", "era = [1955.5, 1980]", "[1955.5, 1980]", "two years"},
      {size, "range = [3, 600]", "range = [600, 3]", "[600, 3]", "inverted"},
      {parts, "volts = [12]", "volts = [1200]", "1200", "must lie between 1 and 48"},
      {parts, "sound = 0.6", "sound = 0.95", "0.95", "it must lie above 0 and below 0.92"},
      {look, "p = 0.1 }", "p = 0.7 }", "0.7", "'p' is 0.7; it must lie between 0 and 0.6"},
      {"colours.toml", "brown = 0.08", "brown = 0.7", "0.7", "a chance must lie above 0 and below 0.6"},
      {"cautions.toml", "order = 1", "order = 0", "0\nhazard", "must lie between 1 and 99"},
      {"familiar.toml", "[53, 36, 15]", "[36, 53, 15]", "[36, 53, 15]", "sorted, longest first"},
      {"familiar.toml", "[53, 36, 15]", "[53]", "[53]", "two or three measures"},
      {"traits/groups.toml", "switch = 0.02", "switch = 2", "2\noverlap", "must lie between 0 and 0.99"},
      {"efforts.toml", "cost = 3.0", "cost = -3.0", "-3.0", "must lie between 0.01 and 1000"},
  });
}

TEST_CASE("a value of the wrong kind says what was expected and what was found") {
  check_mistakes({
      {parts, "name = \"thermal flasher can\"", "name = 7", "7\naliases",
       "expected a text in quotes, found a whole number"},
      {parts, "name = \"thermal flasher can\"", "name = \" \"", "\" \"", "the text is blank"},
      {parts, "name = \"thermal flasher can\"", "name = \"a\\u001b[31m\"", "\"a\\u001b", "control character"},
      {parts, "name = \"thermal flasher can\"", "name = \"a\\nb\"", "\"a\\nb", "line break"},
      {parts, "aliases = [\"clicking can\"]", "aliases = \"clicking can\"", "\"clicking can\"",
       "expected a list of texts, found a text"},
      {parts, "aliases = [\"clicking can\"]", "aliases = [\"clicking can\", 3]", "3]", "expected a text in quotes"},
      {parts, "retrofit = true", "retrofit = \"yes\"", "\"yes\"", "expected true or false, found a text"},
      {parts, "volts = [12]", "volts = [12.5]", "12.5", "expected a whole number, found a number"},
      {parts, "fr = [\"centrale", "french = [\"centrale", "french", "a language is two small letters"},
      {parts, "ohm = { range", "ohm = true # { range", "true #",
       "expected a range [low, high], an answer in quotes or a table"},
      {parts, "letters = [\"B\", \"L\", \"E\"]", "letters = \"nil\"", "\"nil\"", "unknown set 'nil'"},
      {parts, "letters = [\"B\", \"L\", \"E\"]", "letters = [\"B\", \"L, E\"]", "\"L, E\"",
       "a mark is up to 12 characters"},
      {parts, "letters = [\"B\", \"L\", \"E\"]", "letters = [\"1\",\"2\",\"3\",\"4\",\"5\",\"6\",\"7\",\"8\"]",
       "[\"1\",", "at most 7 items make a set, found 8"},
      {parts, "form = \"box\"", "form = 3", "3\n", "expected a state of trait 'form' in quotes"},
      {parts, "form = \"box\"", "form = { verify = true }", "{ verify", "the claim names no state"},
      {parts, "meter = { ohm = \"ol\" }", "meter = { ohm = {} }", "{} }", "neither a range nor an answer"},
      {parts, "meter = { ohm = \"ol\" }", "meter = { ohm = { ol = \"usual\", often = \"rare\" } }", "\"rare\" } }",
       "'often' belongs to a 'range'"},
      {parts, "meter = { ohm = \"ol\" }", "meter = \"ol\"", "\"ol\"", "expected a table, found a text"},
      {parts, "id = \"open\"", "id = \"good\"", "\"good\"", "a condition every part has"},
  });
}

TEST_CASE("a trait on the wrong layer is refused") {
  check_mistakes({
      {parts, "looks = { state_seen", "meter = { state_seen", "state_seen = { burnt",
       "is a look and belongs under 'looks'"},
      {parts, "meter = { ohm = \"ol\" }", "looks = { ohm = \"ol\" }", "ohm = \"ol\"",
       "read with a meter and belongs under 'meter'"},
      {parts, "meter = { ohm = \"ol\" }", "meter = { round = { diameter = [1, 2], length = [1, 2] } }",
       "round = { diameter = [1,", "'round' is a look"},
  });
}

TEST_CASE("a part is not its own look-alike, successor or shadow") {
  check_mistakes({
      {parts, "part = \"flasher-electronic\"", "part = \"flasher-thermal\"", "\"flasher-thermal\"\ntell",
       "it is named as its own look-alike"},
      {parts, "sound = 0.6", "sound = 0.6\nsuccessors = [\"flasher-thermal\"]", "\"flasher-thermal\"]",
       "it cannot succeed itself"},
      {advice, "harmless_if = [\"flasher-old\"]", "harmless_if = [\"flasher-new\"]", "\"flasher-new\"]",
       "goes without saying"},
  });
}

}  // namespace
}  // namespace loomkey::catalogue
