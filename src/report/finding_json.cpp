#include "report/finding_json.h"

#include <optional>

#include <nlohmann/json.hpp>

#include "evidence/wording.h"
#include "report/finding_words.h"
#include "report/json_numbers.h"
#include "report/question_text.h"
#include "report/words.h"

namespace loomkey::report {

using evidence::Value;
using inference::Question;
using inference::WeightLine;
using knowledge::Advice;
using knowledge::Part;
using knowledge::Trait;
using knowledge::TraitKind;
using Json = nlohmann::ordered_json;

namespace {

const Trait& trait_at(const Knowledge& knowledge, int trait) {
  return knowledge.traits[static_cast<std::size_t>(trait)];
}
const Part& part_at(const Knowledge& knowledge, int part) { return knowledge.parts[static_cast<std::size_t>(part)]; }

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json part_or_null(const Knowledge& knowledge, int part) {
  return part < 0 ? Json(nullptr) : Json(part_at(knowledge, part).id);
}

template <typename T>
Json value_or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

std::string kind_id(const Trait& trait) {
  if (trait.kind == TraitKind::choice) return "choice";
  return trait.kind == TraitKind::number ? "number" : "set";
}

std::string line_kind_id(WeightLine::Kind kind) {
  if (kind == WeightLine::Kind::context) return "context";
  return kind == WeightLine::Kind::guessed_name ? "guessed_name" : "readings";
}

std::string understood_id(Value::Kind kind) {
  switch (kind) {
    case Value::Kind::state:
      return "state";
    case Value::Kind::interval:
      return "interval";
    case Value::Kind::special:
      return "special";
    case Value::Kind::set:
      return "set";
    case Value::Kind::cannot_tell:
      return "cannot_tell";
    case Value::Kind::not_looked:
      break;
  }
  return "not_looked";
}

Json case_json(const Knowledge& knowledge, const Case& the_case) {
  Json tools = nullptr;
  if (the_case.tools) {
    tools = Json::array();
    for (const int tool : *the_case.tools) tools.push_back(knowledge.tools[static_cast<std::size_t>(tool)].id);
  }
  return {{"title", text_or_null(the_case.title)},
          {"guess", text_or_null(the_case.guessed_name)},
          {"tools", std::move(tools)},
          {"meter_leads_zeroed", the_case.leads_zeroed}};
}

Json bike_json(const Knowledge& knowledge, const evidence::Bike& bike) {
  Json symptoms = Json::array();
  for (const int s : bike.symptoms) symptoms.push_back(knowledge.symptoms[static_cast<std::size_t>(s)].id);
  return {{"decade", value_or_null(bike.decade)},
          {"origin", text_or_null(bike.origin)},
          {"market", text_or_null(bike.market)},
          {"cylinders", value_or_null(bike.cylinders)},
          {"volts", value_or_null(bike.volts)},
          {"earth_as_built", earth_words(bike.earth_as_built)},
          {"earth_found", earth_words(bike.earth_found)},
          {"earth_measured", earth_words(bike.earth_measured)},
          {"symptoms", std::move(symptoms)}};
}

Json readings_json(const Knowledge& knowledge, const Case& the_case) {
  Json out = Json::array();
  for (const auto& reading : the_case.readings) {
    const Trait& trait = trait_at(knowledge, reading.trait);
    out.push_back({{"trait", trait.id},
                   {"value", value_text(trait, reading.value)},
                   {"kind", understood_id(reading.value.kind)},
                   {"sure", evidence::certainty_name(reading.certainty)},
                   {"by", text_or_null(reading.observer)},
                   {"understood", value_words(trait, reading.value)},
                   {"said", text_or_null(reading.text)},
                   {"where", text_or_null(reading.where)}});
  }
  return out;
}

Json trait_ids(const Knowledge& knowledge, const Case& the_case, const std::vector<int>& readings) {
  Json out = Json::array();
  for (const int r : readings) {
    out.push_back(trait_at(knowledge, the_case.readings[static_cast<std::size_t>(r)].trait).id);
  }
  return out;
}

Json lines_json(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  Json out = Json::array();
  for (const auto& reason : finding.reasons) {
    out.push_back({{"kind", line_kind_id(reason.kind)},
                   {"readings", trait_ids(knowledge, the_case, reason.readings)},
                   {"label", line_words(knowledge, the_case, reason.kind, reason.readings)}});
  }
  return out;
}

Json candidate_json(const Knowledge& knowledge, const Candidate& candidate) {
  const Part& part = part_at(knowledge, candidate.part);
  Json conditions = Json::array();
  for (const auto& share : candidate.conditions) {
    const auto& condition = part.conditions[static_cast<std::size_t>(share.condition)];
    Json weights = Json::array();
    for (const double weight : share.line_db) weights.push_back(shown_weight(weight));
    conditions.push_back({{"condition", condition.id},
                          {"name", condition.name},
                          {"probability", shown_probability(share.probability)},
                          {"prior_db", shown_weight(share.prior_db)},
                          {"weights", std::move(weights)},
                          {"total_db", shown_weight(share.total_db)}});
  }
  return {
      {"part", part.id},
      {"name", part.name},
      {"family", part.family < 0 ? Json(nullptr) : Json(knowledge.families[static_cast<std::size_t>(part.family)].id)},
      {"advice", part.advice < 0 ? Json(nullptr) : Json(knowledge.advice[static_cast<std::size_t>(part.advice)].id)},
      {"probability", shown_probability(candidate.probability)},
      {"conditions", std::move(conditions)}};
}

Json condition_json(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  const Candidate* candidate = candidate_of(finding, finding.part);
  if (candidate == nullptr || candidate->conditions.empty()) return nullptr;
  const ConditionWords likeliest = conditions_of(knowledge, *candidate).front();
  const auto& condition = part_at(knowledge, finding.part).conditions[static_cast<std::size_t>(likeliest.condition)];
  return {{"condition", condition.id},
          {"name", condition.name},
          {"probability", shown_probability(likeliest.share)},
          {"sees", text_or_null(condition.sees)},
          {"words", condition_words(knowledge, the_case, *candidate)}};
}

Json partners_json(const Knowledge& knowledge, const Part& part) {
  Json out = Json::array();
  for (const auto& partner : part.works_with) {
    if (partner.part >= 0) {
      const Part& other = part_at(knowledge, partner.part);
      out.push_back({{"part", other.id}, {"family", nullptr}, {"name", other.name}});
    } else if (partner.family >= 0) {
      const auto& family = knowledge.families[static_cast<std::size_t>(partner.family)];
      out.push_back({{"part", nullptr}, {"family", family.id}, {"name", family.name}});
    }
  }
  return out;
}

Json checks_json(const Knowledge& knowledge, const Part& part) {
  Json out = Json::array();
  for (const auto& check : part.checks) {
    out.push_back({{"do", check.how},
                   {"good", check.good},
                   {"bad", check.bad},
                   {"caveat", text_or_null(check.caveat)},
                   {"basis", text_or_null(basis_words(knowledge, check.basis < 0 ? part.basis : check.basis))}});
  }
  return out;
}

Json look_alikes_json(const Knowledge& knowledge, const Part& part) {
  Json out = Json::array();
  for (const auto& look_alike : part.look_alikes) {
    out.push_back({{"part", part_at(knowledge, look_alike.part).id},
                   {"name", part_at(knowledge, look_alike.part).name},
                   {"tell", look_alike.tell},
                   {"trait", look_alike.trait < 0 ? Json(nullptr) : Json(trait_at(knowledge, look_alike.trait).id)}});
  }
  return out;
}

Json substitutes_json(const Knowledge& knowledge, const Finding& finding, const Advice& advice) {
  const bool steps = may_connect(finding);
  Json out = Json::array();
  for (const auto& shown : finding.substitutes) {
    const auto& substitute = advice.substitutes[static_cast<std::size_t>(shown.index)];
    const int basis = substitute.basis < 0 ? advice.basis : substitute.basis;
    out.push_back({{"what", substitute.what},
                   {"when", substitute.when},
                   {"not_when", substitute.not_when},
                   {"connect", steps ? text_or_null(shown.connect) : Json(nullptr)},
                   {"basis", text_or_null(basis_words(knowledge, basis))}});
  }
  return out;
}

Json cautions_json(const Knowledge& knowledge, const Finding& finding) {
  Json out = Json::array();
  for (const int index : finding.cautions) {
    const auto& caution = knowledge.cautions[static_cast<std::size_t>(index)];
    out.push_back({{"id", caution.id}, {"hazard", caution.hazard}, {"text", caution.text}});
  }
  return out;
}

Json reasons_json(const Finding& finding) {
  Json out = Json::array();
  for (std::size_t i = 0; i < finding.reasons.size(); ++i) {
    out.push_back({{"line", i},
                   {"for_leader_db", shown_weight(finding.reasons[i].for_leader_db)},
                   {"for_next_db", shown_weight(finding.reasons[i].for_next_db)}});
  }
  return out;
}

Json misfits_json(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  Json out = Json::array();
  for (const int index : finding.misfits) {
    const auto& reading = the_case.readings[static_cast<std::size_t>(index)];
    out.push_back({{"trait", trait_at(knowledge, reading.trait).id}, {"label", reading_words(knowledge, reading)}});
  }
  return out;
}

Json contradiction_json(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  if (!finding.contradicting) return nullptr;
  const auto& reading = the_case.readings[static_cast<std::size_t>(*finding.contradicting)];
  return {{"trait", trait_at(knowledge, reading.trait).id},
          {"label", reading_words(knowledge, reading)},
          {"without_it", part_or_null(knowledge, finding.without_it.value_or(-1))}};
}

Json deciding_json(const Knowledge& knowledge, const Finding& finding) {
  if (!finding.deciding) return nullptr;
  const auto& check = *finding.deciding;
  const Trait* trait = check.trait < 0 ? nullptr : &trait_at(knowledge, check.trait);
  return {{"part_a", part_or_null(knowledge, check.part_a)},
          {"part_b", part_or_null(knowledge, check.part_b)},
          {"trait", trait == nullptr ? Json(nullptr) : Json(trait->id)},
          {"ask", trait == nullptr ? Json(nullptr) : Json(trait->ask)},
          {"how", trait == nullptr ? Json(nullptr) : Json(trait->how)},
          {"waits_for_earth", must_wait_for_earth(knowledge, finding)},
          {"tell", text_or_null(finding.deciding_tell)},
          {"bits", shown_weight(check.bits)}};
}

Json basis_json(const Knowledge& knowledge, const Finding& finding) {
  Json overrides = Json::array();
  Json verify = Json::array();
  std::string text;
  std::string advice;
  if (finding.part >= 0) {
    const Part& part = part_at(knowledge, finding.part);
    text = basis_words(knowledge, part.basis);
    if (part.advice >= 0) {
      advice = basis_words(knowledge, knowledge.advice[static_cast<std::size_t>(part.advice)].basis);
    }
    verify = part.verify;
    for (const auto& [what, basis] : other_bases(knowledge, part)) {
      overrides.push_back({{"what", what}, {"text", basis}});
    }
  }
  return {{"default", text_or_null(text)},
          {"advice", text_or_null(advice)},
          {"overrides", std::move(overrides)},
          {"verify", std::move(verify)}};
}

// Keys that describe the leading part; null or empty when "not in the catalogue" leads.
void describe_part(Json& verdict, const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  const Part* part = finding.part < 0 ? nullptr : &part_at(knowledge, finding.part);
  const Advice* advice = finding.advice < 0 ? nullptr : &knowledge.advice[static_cast<std::size_t>(finding.advice)];
  const Json none = nullptr;
  verdict["function"] = advice == nullptr ? none : text_or_null(advice->function);
  verdict["condition"] = condition_json(knowledge, the_case, finding);
  verdict["era"] = part == nullptr ? none : Json{{"first", part->first_year}, {"last", part->last_year}};
  verdict["where"] = part == nullptr ? none : text_or_null(part->where);
  verdict["strays"] = part == nullptr ? none : text_or_null(part->strays);
  verdict["works_with"] = part == nullptr ? Json::array() : partners_json(knowledge, *part);
  verdict["needed"] = advice == nullptr ? none : text_or_null(advice->needed);
  verdict["redundant_when"] = part == nullptr ? none : text_or_null(part->redundant_when);
  verdict["checks"] = part == nullptr ? Json::array() : checks_json(knowledge, *part);
  verdict["look_alikes"] = part == nullptr ? Json::array() : look_alikes_json(knowledge, *part);
  verdict["substitutes"] = advice == nullptr ? Json::array() : substitutes_json(knowledge, finding, *advice);
  verdict["no_steps_because"] = finding.substitutes.empty() ? none : text_or_null(why_no_steps(finding));
}

Json verdict_json(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  const bool named = finding.advice >= 0;
  const double probability = named ? finding.class_probability : finding.absent;
  Json verdict = {
      {"status", status_id(finding.status)},
      {"part", part_or_null(knowledge, finding.part)},
      {"name", finding.part < 0 ? Json(nullptr) : Json(part_at(knowledge, finding.part).name)},
      {"advice", named ? Json(knowledge.advice[static_cast<std::size_t>(finding.advice)].id) : Json(nullptr)},
      {"probability", shown_probability(probability)},
      {"confidence_words", sureness(probability)},
      {"loss", shown_weight(finding.loss)},
      {"checks_left", finding.checks_left},
      {"headline", headline(knowledge, finding)},
      {"meaning", meaning(knowledge, the_case, finding)}};
  describe_part(verdict, knowledge, the_case, finding);
  verdict["cautions"] = cautions_json(knowledge, finding);
  verdict["earth_disagrees"] = text_or_null(earth_disagreement(the_case, finding));
  verdict["label_disagrees"] = text_or_null(label_disagreement(the_case, finding));
  verdict["reasons"] = reasons_json(finding);
  verdict["misfits"] = misfits_json(knowledge, the_case, finding);
  verdict["contradiction"] = contradiction_json(knowledge, the_case, finding);
  verdict["deciding_check"] = deciding_json(knowledge, finding);
  verdict["to_record"] = finding.status == inference::Status::not_in_catalogue ? Json(what_to_record()) : Json::array();
  verdict["basis"] = basis_json(knowledge, finding);
  return verdict;
}

Json question_json(const Knowledge& knowledge, const Question& question) {
  const Trait& trait = trait_at(knowledge, question.trait);
  Json choices = Json::array();
  for (const Choice& choice : all_choices_of(knowledge, question)) {
    choices.push_back({{"value", choice.value}, {"name", choice.name}, {"chance", shown_probability(choice.chance)}});
  }
  double other = 0.0;
  for (const auto& answer : question.answers) {
    if (!answer.value.informs()) other += answer.chance;
  }
  const bool check = question.purpose == Question::Purpose::check;
  return {{"trait", trait.id},
          {"purpose", check ? "check" : "separate"},
          {"ask", trait.ask},
          {"how", trait.how},
          {"hazard", text_or_null(trait.hazard)},
          {"kind", kind_id(trait)},
          {"unit", text_or_null(trait.unit)},
          {"write", text_or_null(how_to_write(knowledge, trait))},
          {"gain_bits", shown_weight(question.gain)},
          {"choices", std::move(choices)},
          {"other_chance", shown_probability(other)}};
}

}  // namespace

std::string finding_json(const Knowledge& knowledge, const Case& the_case, const Finding& finding,
                         const std::vector<std::string>& notes) {
  Json candidates = Json::array();
  for (const Candidate& candidate : finding.candidates) candidates.push_back(candidate_json(knowledge, candidate));
  Json questions = Json::array();
  for (const Question& question : finding.questions) questions.push_back(question_json(knowledge, question));
  const Json out = {
      {"schema", "loomkey/finding/1"},
      {"catalogue", knowledge.hash},
      {"status", status_id(finding.status)},
      {"case", case_json(knowledge, the_case)},
      {"bike", bike_json(knowledge, the_case.bike)},
      {"earth_settled", finding.earth_settled},
      {"readings", readings_json(knowledge, the_case)},
      {"notes", notes},
      {"lines", lines_json(knowledge, the_case, finding)},
      {"candidates", std::move(candidates)},
      {"not_in_catalogue", {{"probability", shown_probability(finding.absent)}, {"total_db", finding.absent_db}}},
      {"verdict", verdict_json(knowledge, the_case, finding)},
      {"questions", std::move(questions)}};
  return out.dump(2, ' ', true, Json::error_handler_t::replace) + "\n";
}

}  // namespace loomkey::report
