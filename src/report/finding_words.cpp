#include "report/finding_words.h"

#include <algorithm>

#include "report/words.h"

namespace loomkey::report {

using evidence::Earth;
using inference::Status;
using inference::WeightLine;
using knowledge::Part;

namespace {

constexpr double named_from = 0.5;
// Within its class a part with this share is named itself; below, the class is named and the part after it.
constexpr double alone_in_class = 0.9;

const Part& part_at(const Knowledge& knowledge, int part) { return knowledge.parts[static_cast<std::size_t>(part)]; }

std::string quoted(const std::string& text) { return "'" + text + "'"; }

std::string leading_answer(const Knowledge& knowledge, const Finding& finding) {
  if (finding.advice < 0 || finding.part < 0) {
    std::string out = "'not in the catalogue' leads (" + percent(finding.absent) + ")";
    if (!finding.candidates.empty()) {
      const Candidate& nearest = finding.candidates.front();
      out +=
          "; the nearest part is " + part_at(knowledge, nearest.part).name + " (" + percent(nearest.probability) + ")";
    }
    return out + ".";
  }
  const std::string how_sure = sureness(finding.class_probability) + " (" + percent(finding.class_probability) + "): ";
  const std::string& part = part_at(knowledge, finding.part).name;
  const Candidate* candidate = candidate_of(finding, finding.part);
  const double within = candidate == nullptr || finding.class_probability <= 0.0
                            ? 0.0
                            : candidate->probability / finding.class_probability;
  if (within >= alone_in_class) return how_sure + part + ".";
  const std::string& title = knowledge.advice[static_cast<std::size_t>(finding.advice)].title;
  std::string out = how_sure + title + ".";
  if (candidate != nullptr) {
    out += " Of its kinds " + sureness(within) + " (" + percent(candidate->probability) + ") the " + part +
           "; the advice is the same for all of them.";
  }
  return out;
}

// A dead part is part of the answer: told as soon as a condition other than good is probable.
std::string fault_answer(const Knowledge& knowledge, const Finding& finding) {
  constexpr double told_from = 0.6;
  const Candidate* candidate = candidate_of(finding, finding.part);
  if (candidate == nullptr || candidate->conditions.empty()) return {};
  const ConditionWords likeliest = conditions_of(knowledge, *candidate).front();
  const auto& condition = part_at(knowledge, finding.part).conditions[static_cast<std::size_t>(likeliest.condition)];
  if (condition.kind == knowledge::Condition::Kind::good || likeliest.share < told_from) return {};
  return " Its condition: " + sureness(likeliest.share) + " (" + percent(likeliest.share) + ") " + condition.name + ".";
}

std::string contradiction(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  if (!finding.contradicting) return {};
  const auto& reading = the_case.readings[static_cast<std::size_t>(*finding.contradicting)];
  std::string out =
      "The reading " + quoted(reading_words(knowledge, reading)) + " cannot stand with the others; look at it again.";
  if (finding.without_it && *finding.without_it >= 0) {
    out += " Without it the others point to: " + part_at(knowledge, *finding.without_it).name + ".";
  }
  return out +
         " If it is right after all, the readings may come from two different parts: take every one again on one "
         "and the same part.";
}

}  // namespace

const Candidate* candidate_of(const Finding& finding, int part) {
  const auto found = std::find_if(finding.candidates.begin(), finding.candidates.end(),
                                  [&](const Candidate& c) { return c.part == part; });
  return found == finding.candidates.end() ? nullptr : &*found;
}

bool is_named(const Finding& finding) {
  return finding.advice >= 0 && finding.part >= 0 && finding.class_probability >= named_from &&
         finding.status != Status::contradicted && finding.status != Status::not_in_catalogue;
}

bool may_connect(const Finding& finding) {
  return is_named(finding) && finding.earth_settled &&
         (finding.status == Status::settled || finding.status == Status::likely);
}

std::string_view status_id(Status status) {
  switch (status) {
    case Status::open:
      return "open";
    case Status::likely:
      return "likely";
    case Status::settled:
      return "settled";
    case Status::cannot_tell:
      return "cannot_tell";
    case Status::contradicted:
      return "contradicted";
    case Status::not_in_catalogue:
      break;
  }
  return "not_in_catalogue";
}

std::string headline(const Knowledge& knowledge, const Finding& finding) {
  switch (finding.status) {
    case Status::settled:
    case Status::likely:
      return sentence(leading_answer(knowledge, finding)) + fault_answer(knowledge, finding);
    case Status::open:
      return "Not settled yet. So far " + leading_answer(knowledge, finding);
    case Status::cannot_tell:
      return "Cannot tell yet. So far " + leading_answer(knowledge, finding);
    case Status::contradicted:
      return "No answer: one reading cannot stand with the others.";
    case Status::not_in_catalogue:
      break;
  }
  return sentence(sureness(finding.absent)) + " (" + percent(finding.absent) +
         ") not in the catalogue: no part that it lists fits what was read.";
}

std::string meaning(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  const std::string hands_off = " Until then, connect it to nothing.";
  if (!the_case.has_evidence()) {
    return "Nothing has been read yet: this is only what is brought in most often. Answer the next questions." +
           hands_off;
  }
  switch (finding.status) {
    case Status::settled: {
      const std::string fits = "It fits, and enough was looked at to rule out most things outside the catalogue.";
      const auto price = knowledge.advice[static_cast<std::size_t>(finding.advice)].price;
      if (price == knowledge::Price::harmless) return fits;
      return fits + " Were it wrong all the same, the price of acting on it could be " +
             std::string(price_words(price)) + ": prove it with the meter first.";
    }
    case Status::likely: {
      const std::string count = std::to_string(finding.checks_left) + (finding.checks_left == 1 ? " check" : " checks");
      return "Answer the next questions to make sure it is nothing outside the catalogue (" + count + " left).";
    }
    case Status::open:
      return "More readings are worth their effort: answer the next questions." + hands_off;
    case Status::cannot_tell:
      return "Nothing left to ask would settle it for a fair effort. " + deciding_words(knowledge, finding) + hands_off;
    case Status::contradicted:
      return contradiction(knowledge, the_case, finding) + hands_off;
    case Status::not_in_catalogue:
      break;
  }
  return "Here is what to record, so that somebody can name it later." + hands_off;
}

std::vector<std::string> what_to_record() {
  return {
      "photographs of every face in daylight, each with a ruler in the picture",
      "markings on every face, and under covers that are made to come off: each letter, figure and sign just as it "
      "stands",
      "its three measures and its weight",
      "how many terminals and leads, of what kind, and the colour of each lead where it was kept clean",
      "where it sat, how it was fixed, and where each of its wires led",
      "ohms between all pairs of terminals and leads, and from each to the body, both ways round; the same on diode "
      "test",
      "whether a magnet sticks, and whether anything turns, springs, rattles or sloshes",
      "the bike: decade, market, cylinders, volts, and which battery post goes to the frame",
  };
}

std::string how_to_measure_earth() {
  return "See which battery post goes to the frame, then measure: meter on DC volts, red probe on the live feed (at "
         "fuse or switch), black on bare frame. A positive figure means negative earth, a negative one (minus sign) "
         "positive earth.";
}

std::string why_no_steps(const Finding& finding) {
  if (may_connect(finding)) return {};
  if (!finding.earth_settled) {
    return "No connecting steps are shown until the earth has been measured. " + how_to_measure_earth();
  }
  return "No connecting steps are shown until it is settled what this part is.";
}

std::string earth_disagreement(const Case& the_case, const Finding& finding) {
  if (!finding.earth_disagrees) return {};
  const auto& bike = the_case.bike;
  return "What is said of the earth disagrees (as built " + std::string(earth_words(bike.earth_as_built)) + ", found " +
         std::string(earth_words(bike.earth_found)) + ", measured " + std::string(earth_words(bike.earth_measured)) +
         "): the bike was converted, or somebody erred. " +
         (bike.earth_measured == Earth::unknown ? how_to_measure_earth()
                                                : "Measure once more before connecting anything.");
}

std::string label_disagreement(const Case& the_case, const Finding& finding) {
  if (!finding.label_disagrees) return {};
  const bool positive = the_case.bike.settled_earth() == Earth::positive;
  return std::string("This part is labelled for ") + (positive ? "negative" : "positive") + " earth, and the bike is " +
         (positive ? "positive" : "negative") +
         " earth. Do not connect it: it would be destroyed, and its leads could burn.";
}

bool must_wait_for_earth(const Knowledge& knowledge, const Finding& finding) {
  if (finding.earth_settled || !finding.deciding || finding.deciding->trait < 0) return false;
  return knowledge.traits[static_cast<std::size_t>(finding.deciding->trait)].runs;
}

std::string deciding_words(const Knowledge& knowledge, const Finding& finding) {
  if (!finding.deciding || finding.deciding->part_a < 0 || finding.deciding->part_b < 0) return {};
  const auto& check = *finding.deciding;
  const Part& a = part_at(knowledge, check.part_a);
  const Part& b = part_at(knowledge, check.part_b);
  const std::string pair = quoted(a.name) + " from " + quoted(b.name);
  std::string out;
  if (check.trait >= 0) {
    const auto& trait = knowledge.traits[static_cast<std::size_t>(check.trait)];
    const bool waits = must_wait_for_earth(knowledge, finding);
    out = "To tell " + pair + (waits ? ", check, but only once the earth has been measured: " : ", check: ") +
          trait.ask + " " + stopped(trait.how);
  } else {
    out = "Nothing left to read in the catalogue tells " + pair + ".";
    if (a.advice == b.advice) out += " The advice is the same for both.";
  }
  if (!finding.deciding_tell.empty()) out += " What tells them apart: " + stopped(finding.deciding_tell);
  return out;
}

std::string line_words(const Knowledge& knowledge, const Case& the_case, WeightLine::Kind kind,
                       const std::vector<int>& readings) {
  if (kind == WeightLine::Kind::context) return "what is known of the bike";
  if (kind == WeightLine::Kind::guessed_name) return "somebody called it " + quoted(the_case.guessed_name);
  std::string out;
  for (const int r : readings) {
    if (!out.empty()) out += "; ";
    out += reading_words(knowledge, the_case.readings[static_cast<std::size_t>(r)]);
  }
  return out;
}

std::vector<ConditionWords> conditions_of(const Knowledge& knowledge, const Candidate& candidate) {
  std::vector<ConditionWords> out;
  for (const auto& share : candidate.conditions) {
    const auto& condition = part_at(knowledge, candidate.part).conditions[static_cast<std::size_t>(share.condition)];
    const double within = candidate.probability > 0.0 ? share.probability / candidate.probability : 0.0;
    out.push_back({share.condition, within, condition.name, condition.sees});
  }
  return out;
}

std::string condition_words(const Knowledge& knowledge, const Case& the_case, const Candidate& candidate) {
  constexpr double worth_a_word = 0.05;
  constexpr std::size_t most = 4;
  std::string out;
  std::size_t shown = 0;
  for (const ConditionWords& condition : conditions_of(knowledge, candidate)) {
    if (shown == most || (shown > 0 && condition.share < worth_a_word)) break;
    out += (shown == 0 ? sureness(condition.share) + " " : "; or ") + condition.name + " (" + percent(condition.share);
    if (!condition.sees.empty()) out += "; sign: " + condition.sees;
    out += ')';
    ++shown;
  }
  const bool metered = std::any_of(the_case.readings.begin(), the_case.readings.end(), [&](const auto& reading) {
    return reading.value.informs() &&
           knowledge.traits[static_cast<std::size_t>(reading.trait)].layer == knowledge::Layer::meter;
  });
  out = stopped(out);
  if (!metered) out += " No meter reading stands behind this: it is what such parts mostly are.";
  return out;
}

std::vector<std::string> partner_names(const Knowledge& knowledge, const Part& part) {
  std::vector<std::string> out;
  for (const auto& partner : part.works_with) {
    if (partner.part >= 0) out.push_back(part_at(knowledge, partner.part).name);
    if (partner.family >= 0) {
      out.push_back("any " + knowledge.families[static_cast<std::size_t>(partner.family)].name);
    }
  }
  return out;
}

std::string basis_words(const Knowledge& knowledge, int basis) {
  return basis < 0 ? std::string{} : knowledge.bases[static_cast<std::size_t>(basis)].text;
}

std::vector<std::string> verify_words(const Knowledge& knowledge, const Part& part) {
  std::vector<std::string> out;
  for (const std::string& field : part.verify) {
    const int trait = knowledge.trait(field);
    out.push_back(trait < 0 ? field : knowledge.traits[static_cast<std::size_t>(trait)].name);
  }
  return out;
}

std::vector<std::pair<std::string, std::string>> other_bases(const Knowledge& knowledge, const Part& part) {
  std::vector<std::pair<std::string, std::string>> out;
  const auto consider = [&](const std::string& what, int basis) {
    if (basis >= 0 && basis != part.basis) out.emplace_back(what, basis_words(knowledge, basis));
  };
  for (const auto& claim : part.claims) {
    consider(knowledge.traits[static_cast<std::size_t>(claim.trait)].name, claim.basis);
  }
  for (const auto& condition : part.conditions) {
    for (const auto& claim : condition.claims) {
      consider(knowledge.traits[static_cast<std::size_t>(claim.trait)].name + " when " + condition.name, claim.basis);
    }
  }
  for (std::size_t i = 0; i < part.checks.size(); ++i) {
    consider("check " + std::to_string(i + 1) + " with the meter", part.checks[i].basis);
  }
  return out;
}

}  // namespace loomkey::report
