#include "bench/trial_separable.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <string_view>

namespace loomkey::bench {

using evidence::Value;
using inference::Model;
using inference::TraitModel;
using knowledge::Trait;
using knowledge::TraitKind;

namespace {

constexpr std::array<std::string_view, 3> by_looks = {"look", "ruler", "magnet"};
constexpr double least_rest = 1e-9;

using Row = std::vector<double>;

// One part's profiles of a trait with their shares; code -1 is the background.
struct Mixture {
  std::vector<std::pair<int, double>> shares;
};

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

double divergence_db(const Row& a, const Row& b) {
  double sum = 0.0;
  for (std::size_t o = 0; o < a.size(); ++o) sum += a[o] * 10.0 * std::log10(a[o] / b[o]);
  return sum;
}

// Sets have too many answers to list. For a pair of parts the answers are the sets that either of them claims, and one
// more for all others.
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
    const Row row_a = row_of(a);
    const Row row_b = row_of(b);
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

}  // namespace

std::vector<LooksApart> looks_apart(const Model& model) {
  const auto& knowledge = model.knowledge();
  const std::size_t parts = knowledge.parts.size();
  std::vector<Row> decibans(parts, Row(parts, 0.0));
  for (int t = 0; t < model.trait_count(); ++t) {
    const Trait& trait = knowledge.traits[static_cast<std::size_t>(t)];
    const std::string& effort = knowledge.efforts[static_cast<std::size_t>(trait.effort)].id;
    if (std::find(by_looks.begin(), by_looks.end(), effort) == by_looks.end()) continue;
    std::vector<Mixture> mixtures;
    for (std::size_t p = 0; p < parts; ++p) mixtures.push_back(mixture(model, t, static_cast<int>(p)));
    if (trait.kind == TraitKind::set) {
      SetAnswers answers(model, t);
      for (std::size_t a = 0; a < parts; ++a) {
        for (std::size_t b = a + 1; b < parts; ++b) {
          const auto [of_a, of_b] = answers.divergences(mixtures[a], mixtures[b]);
          decibans[a][b] += of_a;
          decibans[b][a] += of_b;
        }
      }
      continue;
    }
    const inference::AnswerRows& answers = model.trait(t).answers;
    std::vector<Row> rows;
    for (const Mixture& part : mixtures) {
      std::vector<const Row*> own;
      for (const auto& [code, share] : part.shares) {
        own.push_back(code < 0 ? nullptr : &answers.row[static_cast<std::size_t>(code)]);
      }
      rows.push_back(part_row(part, answers.background, own));
    }
    for (std::size_t a = 0; a < parts; ++a) {
      for (std::size_t b = 0; b < parts; ++b) decibans[a][b] += divergence_db(rows[a], rows[b]);
    }
  }
  std::vector<LooksApart> out;
  for (std::size_t a = 0; a < parts; ++a) {
    LooksApart apart{static_cast<int>(a), -1, 0.0};
    for (std::size_t b = 0; b < parts; ++b) {
      if (knowledge.parts[a].advice == knowledge.parts[b].advice) continue;
      if (apart.nearest >= 0 && decibans[a][b] >= apart.decibans) continue;
      apart.nearest = static_cast<int>(b);
      apart.decibans = decibans[a][b];
    }
    out.push_back(apart);
  }
  return out;
}

}  // namespace loomkey::bench
