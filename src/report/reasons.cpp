#include "report/reasons.h"

#include "report/finding_document.h"
#include "report/finding_words.h"
#include "report/sum.h"
#include "report/words.h"

namespace loomkey::report {

using bench::ConditionShare;
using inference::Status;

namespace {

constexpr const char* prior_label = "how often it is brought in, in this condition";
constexpr const char* total_label = "total";

// Figures of one condition, from prior to the last line.
std::vector<double> column_of(const ConditionShare& share) {
  std::vector<double> out{share.prior_db};
  out.insert(out.end(), share.line_db.begin(), share.line_db.end());
  return out;
}

std::string name_of(const Knowledge& knowledge, const Candidate& candidate) {
  const auto& part = knowledge.parts[static_cast<std::size_t>(candidate.part)];
  const auto condition = static_cast<std::size_t>(candidate.conditions.front().condition);
  return part.name + " (" + part.conditions[condition].name + ")";
}

// Leader and next candidate as the finding's reasons mean them; fewer when it does not carry them.
std::vector<const Candidate*> leader_and_next(const Finding& finding) {
  std::vector<const Candidate*> out;
  const bool named = finding.advice >= 0 && finding.part >= 0;
  if (named) {
    if (const Candidate* leader = candidate_of(finding, finding.part)) out.push_back(leader);
  } else if (!finding.candidates.empty()) {
    out.push_back(&finding.candidates.front());
  }
  if (out.empty()) return out;
  for (const Candidate& candidate : finding.candidates) {
    if (candidate.part != out.front()->part) {
      out.push_back(&candidate);
      break;
    }
  }
  return out;
}

std::vector<std::string> labels_of(const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  std::vector<std::string> out{prior_label};
  for (const auto& reason : finding.reasons) {
    out.push_back(line_words(knowledge, the_case, reason.kind, reason.readings));
  }
  out.emplace_back(total_label);
  return out;
}

Table sum_table(const std::vector<std::string>& labels, const std::vector<const Candidate*>& candidates) {
  Table table;
  table.columns.push_back({"decibans"});
  table.ends_in_total = true;
  for (const std::string& label : labels) table.rows.push_back({label});
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    table.columns.push_back({std::string(1, static_cast<char>('A' + c)), true});
    const std::vector<std::string> figures = column_that_adds_up(column_of(candidates[c]->conditions.front()));
    for (std::size_t i = 0; i < table.rows.size(); ++i) table.rows[i].push_back(i < figures.size() ? figures[i] : "");
  }
  return table;
}

KeyValues legend(const Knowledge& knowledge, const std::vector<const Candidate*>& candidates) {
  KeyValues list;
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    list.rows.emplace_back(std::string(1, static_cast<char>('A' + c)), name_of(knowledge, *candidates[c]));
  }
  return list;
}

std::string how_to_read(const Finding& finding, const std::vector<const Candidate*>& candidates) {
  std::string out = "Ten decibans make it ten times likelier. 'Not in the catalogue' stands at ";
  out += decibans(finding.absent_db) + ", the most of it for relatives of what is listed.";
  const double total = candidates[0]->conditions.front().total_db;
  out += " A stands at " + odds_words(total - finding.absent_db) + " against it";
  if (candidates.size() > 1) {
    out += ", and at " + odds_words(total - candidates[1]->conditions.front().total_db) + " against B";
  }
  return out + ".";
}

void add_misfits(Document& document, const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  if (finding.misfits.empty() || finding.status == Status::contradicted) return;
  Bullets misfits;
  for (const int index : finding.misfits) {
    misfits.items.push_back(reading_words(knowledge, the_case.readings[static_cast<std::size_t>(index)]) +
                            ": does not fit and was outweighed.");
  }
  document.blocks.push_back(std::move(misfits));
}

std::vector<std::string> silent_readings(const Knowledge& knowledge, const Case& the_case) {
  std::vector<std::string> out;
  for (const auto& reading : the_case.readings) {
    if (reading.value.informs()) continue;
    out.push_back(knowledge.traits[static_cast<std::size_t>(reading.trait)].name);
  }
  return out;
}

}  // namespace

void add_reasons(Document& document, const Knowledge& knowledge, const Case& the_case, const Finding& finding) {
  const std::vector<const Candidate*> candidates = leader_and_next(finding);
  if (!candidates.empty() && !finding.reasons.empty()) {
    document.blocks.push_back(Heading{"Reasons for and against"});
    document.blocks.push_back(legend(knowledge, candidates));
    document.blocks.push_back(sum_table(labels_of(knowledge, the_case, finding), candidates));
    document.blocks.push_back(Paragraph{how_to_read(finding, candidates)});
  }
  add_misfits(document, knowledge, the_case, finding);
  const std::vector<std::string> silent = silent_readings(knowledge, the_case);
  if (!silent.empty()) {
    document.blocks.push_back(
        Paragraph{"Could not be told, or not looked at, and moves nothing: " + listed(silent) + "."});
  }
}

Document why_document(const Knowledge& knowledge, const Case& the_case, const Finding& finding, int part) {
  const auto& wanted = knowledge.parts[static_cast<std::size_t>(part)];
  Document document;
  document.title = "Why " + wanted.name + "?";
  const Candidate* candidate = candidate_of(finding, part);
  if (candidate == nullptr || candidate->conditions.empty()) {
    document.blocks.push_back(Paragraph{"It is not among the candidates that were kept."});
    return document;
  }
  document.blocks.push_back(Paragraph{headline(knowledge, finding)});
  document.blocks.push_back(Paragraph{"This part stands at " + percent(candidate->probability) +
                                      ", 'not in the catalogue' at " + percent(finding.absent) + "."});
  std::vector<const Candidate*> compared{candidate};
  for (const Candidate* other : leader_and_next(finding)) {
    if (other->part != part && compared.size() < 2) compared.push_back(other);
  }
  document.blocks.push_back(legend(knowledge, compared));
  document.blocks.push_back(sum_table(labels_of(knowledge, the_case, finding), compared));
  document.blocks.push_back(Paragraph{how_to_read(finding, compared)});

  document.blocks.push_back(Heading{"Its conditions"});
  Table table;
  table.columns = {{"condition"}, {"prior", true}, {"readings", true}, {"total", true}, {"chance", true}};
  for (const ConditionShare& share : candidate->conditions) {
    const std::vector<std::string> figures = column_that_adds_up({share.prior_db, share.total_db - share.prior_db});
    table.rows.push_back({wanted.conditions[static_cast<std::size_t>(share.condition)].name, figures[0], figures[1],
                          figures[2], percent(share.probability)});
  }
  document.blocks.push_back(std::move(table));
  document.blocks.push_back(Paragraph{
      "The chance of the part is the sum over its conditions; each is that of 'not in the catalogue' times ten to the "
      "power of a tenth of its total less " +
      decibans(finding.absent_db) + "."});
  if (part == finding.part) add_misfits(document, knowledge, the_case, finding);
  return document;
}

}  // namespace loomkey::report
