#include "catalogue/template.h"

#include <algorithm>
#include <set>
#include <vector>

#include <fmt/format.h>

#include "base/text.h"
#include "catalogue/rows.h"
#include "catalogue/source_log.h"

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

constexpr std::string_view introduction =
    R"(# Replace every CHANGE-ME and every [0, 0] by what is true of the part. A line that starts with '# name =' is
# optional: take the '# ' away to use it. Put the text into a file under parts/, then run the check of the catalogue: it
# names what is still missing by file and line.
#
# How often: "always", "usual", "sometimes", "rare", "never", or a number up to 1.
#   one state         trait = "state"
#   several states    trait = { state = "usual", other = "sometimes" }
#   a number          trait = [low, high]      or { range = [low, high], often = "usual", ol = "rare" }
#   a set             trait = "none"           or ["a", "b"]
#   several sets      trait = { sets = [ { of = ["a", "b"], often = "usual" }, { of = [], often = "rare" } ] }
# In a table, verify = true marks a value you are unsure of.
)";

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

std::string span_text(double low, double high, const std::string& unit) {
  return show(low) + " to " + show(high) + ' ' + unit;
}

// "box 76 %, can 24 %", or just "no" when there is nothing else
std::string claim_text(const Trait& trait, const Claim& claim) {
  std::vector<std::string> pieces;
  const auto add = [&](const std::string& what, double share) {
    if (share > 0.0) pieces.push_back(share < 1.0 ? what + ' ' + percent(share) : what);
  };
  for (std::size_t s = 0; s < claim.states.size(); ++s) add(trait.states[s].id, claim.states[s]);
  for (const Range& range : claim.ranges) add(span_text(range.low, range.high, trait.unit), range.share);
  for (std::size_t i = 0; i < special_count; ++i) add(special_ids[i], claim.special[i]);
  for (const Alternative& set : claim.sets) add(set.items.empty() ? "none" : join(set.items, " + "), set.share);
  return join(pieces, ", ");
}

std::string state_list(const Trait& trait) {
  std::vector<std::string> ids;
  for (const State& state : trait.states) ids.push_back(state.id);
  return join(ids, ", ");
}

std::string number_hint(const Trait& trait) {
  const std::string hint = "in " + trait.unit + ", within " + show(trait.low) + " to " + show(trait.high);
  std::vector<std::string> answers;
  for (std::size_t i = 0; i < special_count; ++i) {
    if (trait.allows[i]) answers.push_back(std::string("\"") + special_ids[i] + '"');
  }
  return answers.empty() ? hint : hint + "; or " + join(answers, ", ");
}

std::string hint(const Trait& trait) {
  switch (trait.kind) {
    case TraitKind::choice:
      return state_list(trait);
    case TraitKind::number:
      return number_hint(trait);
    case TraitKind::set:
      return trait.items == SetItems::letters ? "\"none\" or a list of letters" : "\"none\" or a list of colours";
  }
  return {};
}

std::string placeholder(const Trait& trait) {
  switch (trait.kind) {
    case TraitKind::choice:
      return "\"CHANGE-ME\"";
    case TraitKind::number:
      return "[0, 0]";
    case TraitKind::set:
      return "[\"CHANGE-ME\"]";
  }
  return {};
}

bool is_size(const Trait& trait) {
  return trait.id == "size_long" || trait.id == "size_mid" || trait.id == "size_short";
}

const Claim* inherited(const Family& family, int trait) {
  const auto found = std::find_if(family.claims.begin(), family.claims.end(),
                                  [&](const Claim& claim) { return claim.trait == trait; });
  return found == family.claims.end() ? nullptr : &*found;
}

std::string head(const Knowledge& k, int family_index) {
  const Family& family = at(k.families, family_index);
  std::set<std::string> advice;
  for (const Part& part : k.parts) {
    if (part.family == family_index) advice.insert(at(k.advice, part.advice).id);
  }
  std::vector<std::string> bases;
  for (const Basis& basis : k.bases) bases.push_back(basis.id);
  std::string out = "# A new part of the family '" + family.id + "' (" + family.name + ").\n";
  out += introduction;
  out += "\n[[part]]\nid = \"CHANGE-ME\"  # permanent; small letters, digits and hyphens\n";
  out += "family = \"" + family.id + "\"\n";
  out += "name = \"CHANGE-ME\"\n";
  out += "aliases = []  # other names, each in quotes\n";
  out += "# foreign = { de = [\"...\"], fr = [\"...\"] }  # trade terms by language\n";
  out += "# called = [\"...\"]  # what owners wrongly call it\n";
  out += "# An advice record; a new one goes under advice/. In use in this family:\n";
  for (const std::string& id : advice) out += "#   " + id + "\n";
  out += "advice = \"CHANGE-ME\"\n";
  out += "era = [0, 0]  # first and last year in normal use\n";
  out += "# retrofit = true  # a modern part that any older bike may carry\n";
  out += "brought_in = \"sometimes\"  # often, sometimes, seldom, rarely\n";
  out += "origins = [\"CHANGE-ME\"]  # british, continental, japanese, american, soviet\n";
  out += "# markets = [\"usa\"]  # britain, europe, usa, japan, elsewhere; left out: all\n";
  out += "# volts = [6, 12]  # left out: any\n";
  out += "# cylinders = [1, 2]  # left out: any\n";
  out += "where = \"CHANGE-ME\"  # where it usually sits\n";
  out += "strays = \"CHANGE-ME\"  # where else it turns up\n";
  out += "works_with = []  # part ids, or \"family:ID\"\n";
  out += "# redundant_when = \"...\"  # when it is not needed any more\n";
  out += "basis = \"CHANGE-ME\"  # " + join(bases, ", ") + "\n";
  out += "# verify = [\"era\"]  # traits and fields you are unsure of\n";
  return out;
}

std::string looks(const Knowledge& k, const Family& family) {
  std::string own;
  std::string from_family;
  std::string defaults;
  bool sizes = false;
  for (std::size_t t = 0; t < k.traits.size(); ++t) {
    const Trait& trait = k.traits[t];
    if (trait.layer != Layer::look) continue;
    if (const Claim* claim = inherited(family, static_cast<int>(t))) {
      from_family += "# " + trait.id + ": inherited, " + claim_text(trait, *claim) + "\n";
    } else if (trait.unless_stated) {
      defaults += "# " + trait.id + " = " + placeholder(trait) + "  # " + trait.name +
                  "; left out: " + claim_text(trait, *trait.unless_stated) + "; choose from: " + hint(trait) + "\n";
    } else if (is_size(trait)) {
      if (!sizes) {
        own +=
            "\n# Its size in mm, without leads and brackets. For a box, in any order:\n"
            "#   box = [[0, 0], [0, 0], [0, 0]]\n"
            "round = { diameter = [0, 0], length = [0, 0] }\n";
      }
      sizes = true;
    } else {
      own += "\n# " + trait.name + ": " + trait.ask + "\n";
      for (const State& state : trait.states) own += "#   " + state.id + ": " + state.name + "\n";
      own += trait.id + " = " + placeholder(trait);
      own += trait.kind == TraitKind::choice ? "\n" : "  # " + hint(trait) + "\n";
    }
  }
  std::string out = "\n[part.looks]\n";
  if (!from_family.empty()) {
    out += "# The family says the following; state it again only where this part differs.\n" + from_family;
  }
  out += own;
  if (!defaults.empty()) {
    out += "\n# State these only where the part differs from what is taken for granted.\n" + defaults;
  }
  return out;
}

std::string meter(const Knowledge& k, const Family& family) {
  std::string out = "\n[part.meter]\n# Readings of a good part. Leave out what a meter cannot tell.\n";
  for (std::size_t t = 0; t < k.traits.size(); ++t) {
    const Trait& trait = k.traits[t];
    if (trait.layer != Layer::meter) continue;
    if (const Claim* claim = inherited(family, static_cast<int>(t))) {
      out += "# " + trait.id + ": inherited, " + claim_text(trait, *claim) + "\n";
      continue;
    }
    out += "# " + trait.id + " = " + placeholder(trait) + "  # " + trait.name + "; " + hint(trait) + "\n";
  }
  return out;
}

constexpr std::string_view tail = R"(
# One table for each usual fault, with only what differs from the good part. Write fault = [] above [part.looks] if
# nothing in it can fail.
[[part.fault]]
id = "CHANGE-ME"
name = "CHANGE-ME"
share = "usual"  # how common among the faults: usual, sometimes, rare
sees = "CHANGE-ME"  # what the rider notices
# symptoms = ["..."]
# looks = { state_seen = "burnt" }
meter = {}

[[part.check]]
do = "CHANGE-ME"  # which probe where, wires off
good = "CHANGE-ME"
bad = "CHANGE-ME"
# caveat = "..."  # where a cheap meter misleads

# One table for each part it is mistaken for.
[[part.lookalike]]
part = "CHANGE-ME"  # the id of the other part
tell = "CHANGE-ME"  # the one observation that separates them
# trait = "..."  # the trait that carries it
)";

}  // namespace

Result<std::string> part_template(const Knowledge& k, std::string_view family) {
  const int index = k.family(family);
  if (index < 0) {
    std::vector<std::string> ids;
    for (const Family& known : k.families) ids.push_back(known.id);
    return fail(ErrorKind::usage, unknown("family", printable(family), ids));
  }
  const Family& found = at(k.families, index);
  return head(k, index) + looks(k, found) + meter(k, found) + std::string(tail);
}

}  // namespace loomkey::catalogue
