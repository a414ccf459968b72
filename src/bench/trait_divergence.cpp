#include "bench/trait_divergence.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace loomkey::bench {

using evidence::Value;
using inference::Model;
using inference::TraitModel;
using knowledge::TraitKind;

namespace {

constexpr double least_rest = 1e-9;

using Row = std::vector<double>;

// One part's profiles of a trait with their shares; code -1 is the background.
struct Mixture {
  std::vector<std::pair<int, double>> shares;

  bool operator<(const Mixture& other) const { return shares < other.shares; }
};

// A row of chances with its logarithms, which are dear and wanted for every pair.
struct Logged {
  Row chance;
  Row log;
};

Logged logged(Row row) {
  Logged out{std::move(row), {}};
  for (const double chance : out.chance) out.log.push_back(std::log10(chance));
  return out;
}

double divergence_db(const Logged& a, const Logged& b) {
  double sum = 0.0;
  for (std::size_t o = 0; o < a.chance.size(); ++o) sum += a.chance[o] * 10.0 * (a.log[o] - b.log[o]);
  return sum;
}

Mixture mixture(const Model& model, int trait, int part) {
  Mixture out;
  double total = 0.0;
  const auto& hypotheses = model.hypotheses();
  for (std::size_t h = 0; h < hypotheses.size(); ++h) {
    if (hypotheses[h].part != part) continue;
    const int code = model.trait(trait).code[h];
    const auto place =
        std::find_if(out.shares.begin(), out.shares.end(), [&](const auto& entry) { return entry.first == code; });
    if (place == out.shares.end()) {
      out.shares.emplace_back(code, hypotheses[h].prior);
    } else {
      place->second += hypotheses[h].prior;
    }
    total += hypotheses[h].prior;
  }
  for (auto& entry : out.shares) entry.second /= total;
  return out;
}

// Answers of a part: its profiles' rows by their shares.
Row part_row(const Mixture& part, const Row& background, const std::vector<const Row*>& rows) {
  Row out(background.size(), 0.0);
  for (std::size_t i = 0; i < part.shares.size(); ++i) {
    const Row& row = part.shares[i].first < 0 ? background : *rows[i];
    for (std::size_t a = 0; a < out.size(); ++a) out[a] += part.shares[i].second * row[a];
  }
  return out;
}

// The answers of a pair of parts about a set.
class SetAnswers {
 public:
  SetAnswers(const Model& model, int trait) : model_(&model), trait_(trait) {}

  std::pair<double, double> divergences(const Mixture& a, const Mixture& b) {
    const TraitModel& trait_model = model_->trait(trait_);
    std::set<std::vector<std::string>> claimed;
    std::vector<int> codes;
    for (const Mixture* part : {&a, &b}) {
      for (const auto& [code, share] : part->shares) {
        if (code < 0 || std::find(codes.begin(), codes.end(), code) != codes.end()) continue;
        codes.push_back(code);
        const auto& sets = trait_model.profiles[static_cast<std::size_t>(code)]->sets;
        for (const auto& alternative : sets) claimed.insert(alternative.items);
      }
    }
    inference::AnswerRows answers;
    std::vector<const knowledge::Claim*> claims;
    for (const int code : codes) claims.push_back(trait_model.profiles[static_cast<std::size_t>(code)]);
    answers.row.resize(codes.size());
    for (const auto& items : claimed) {
      const Row& chances = chances_of(items);
      for (std::size_t k = 0; k < codes.size(); ++k) {
        answers.row[k].push_back(chances[static_cast<std::size_t>(codes[k])]);
      }
      answers.background.push_back(chances.back());
    }
    for (Row& row : answers.row) row.push_back(rest_of(row));
    answers.background.push_back(rest_of(answers.background));
    model_->finish(claims, answers);
    const auto row_of = [&](const Mixture& part) {
      std::vector<const Row*> rows;
      for (const auto& [code, share] : part.shares) {
        const auto place = std::find(codes.begin(), codes.end(), code) - codes.begin();
        rows.push_back(code < 0 ? nullptr : &answers.row[static_cast<std::size_t>(place)]);
      }
      return part_row(part, answers.background, rows);
    };
    const Logged row_a = logged(row_of(a));
    const Logged row_b = logged(row_of(b));
    return {divergence_db(row_a, row_b), divergence_db(row_b, row_a)};
  }

 private:
  static double rest_of(const Row& row) {
    double rest = 1.0;
    for (const double chance : row) rest -= chance;
    return std::max(rest, least_rest);
  }

  // Chance of a set under every profile, the background last. Dear, and wanted for pair after pair.
  const Row& chances_of(const std::vector<std::string>& items) {
    const auto known = chances_.find(items);
    if (known != chances_.end()) return known->second;
    Value value;
    value.kind = Value::Kind::set;
    value.items = items;
    const inference::ValueChance chance(*model_, trait_, value, 0.0);
    Row row;
    for (std::size_t k = 0; k < model_->trait(trait_).profiles.size(); ++k) row.push_back(chance.under(k));
    row.push_back(chance.background());
    return chances_.emplace(items, std::move(row)).first->second;
  }

  const Model* model_;
  int trait_;
  std::map<std::vector<std::string>, Row> chances_;
};

// The distinct mixtures in a fixed order, and which of them each part has.
std::vector<Mixture> distinct(const Model& model, int trait, std::vector<int>& kind) {
  std::map<Mixture, int> known;
  std::vector<Mixture> out;
  for (std::size_t p = 0; p < model.knowledge().parts.size(); ++p) {
    Mixture own = mixture(model, trait, static_cast<int>(p));
    const auto [entry, fresh] = known.emplace(own, static_cast<int>(out.size()));
    if (fresh) out.push_back(std::move(own));
    kind.push_back(entry->second);
  }
  return out;
}

std::vector<Logged> listed_answers(const Model& model, int trait, const std::vector<Mixture>& mixtures) {
  const inference::AnswerRows& answers = model.trait(trait).answers;
  std::vector<Logged> rows;
  for (const Mixture& part : mixtures) {
    std::vector<const Row*> own;
    for (const auto& [code, share] : part.shares) {
      own.push_back(code < 0 ? nullptr : &answers.row[static_cast<std::size_t>(code)]);
    }
    rows.push_back(logged(part_row(part, answers.background, own)));
  }
  return rows;
}

}  // namespace

TraitDivergence::TraitDivergence(const Model& model, int trait) {
  const std::vector<Mixture> mixtures = distinct(model, trait, kind_);
  kinds_ = mixtures.size();
  decibans_.assign(kinds_ * kinds_, 0.0);
  const bool is_set = model.knowledge().traits[static_cast<std::size_t>(trait)].kind == TraitKind::set;
  SetAnswers sets(model, trait);
  std::vector<Logged> rows;
  if (!is_set) rows = listed_answers(model, trait, mixtures);
  for (std::size_t a = 0; a < kinds_; ++a) {
    for (std::size_t b = a + 1; b < kinds_; ++b) {
      const auto [of_a, of_b] = is_set ? sets.divergences(mixtures[a], mixtures[b])
                                       : std::pair{divergence_db(rows[a], rows[b]), divergence_db(rows[b], rows[a])};
      decibans_[a * kinds_ + b] = of_a;
      decibans_[b * kinds_ + a] = of_b;
    }
  }
}

}  // namespace loomkey::bench
