#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <cstdio>
#include <fstream>
#include <map>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>
#include <sqlite3.h>

#include "catalogue/catalogue.h"
#include "inference/answer_table.h"
#include "inference/assess.h"
#include "support/synthetic_knowledge.h"

// Prints what the speed claims of the README rest on, as ratios measured in this one run:
//   one shot, from process start, against an empty program that opens the same SQLite file;
//   choosing the next question against a plain SQL form of its largest sum, at the real size and at 10,000 parts.

namespace {

using loomkey::evidence::Case;
using loomkey::inference::AnswerTable;
using loomkey::inference::Belief;
using loomkey::inference::Model;

constexpr std::size_t many_parts = 10000;

struct Setup {
  std::shared_ptr<const loomkey::knowledge::Knowledge> knowledge;
  std::unique_ptr<Model> model;
  Belief belief;

  explicit Setup(std::shared_ptr<const loomkey::knowledge::Knowledge> given) : knowledge(std::move(given)) {
    model = std::make_unique<Model>(knowledge);
    belief = loomkey::inference::believe(*model, {});
  }
};

const Setup& real() {
  static const Setup setup([] {
    auto catalogue = loomkey::catalogue::open_catalogue(LOOMKEY_CATALOGUE);
    if (!catalogue) throw std::runtime_error(catalogue.error().message());
    return catalogue->knowledge();
  }());
  return setup;
}

const Setup& synthetic() {
  static const Setup setup(loomkey::support::synthetic_knowledge(many_parts, 20261125));
  return setup;
}

// belief(h, class, p) and chance(trait, h, answer, chance): everything a question is chosen from, as plain tables.
class SqlForm {
 public:
  explicit SqlForm(const Setup& setup) {
    sqlite3_open(":memory:", &db_);
    run("CREATE TABLE belief(h INTEGER PRIMARY KEY, class INTEGER, p REAL) STRICT");
    run("CREATE TABLE chance(trait INTEGER, h INTEGER, answer INTEGER, chance REAL) STRICT");
    run("BEGIN");
    const auto& hypotheses = setup.model->hypotheses();
    sqlite3_stmt* insert = nullptr;
    sqlite3_prepare_v2(db_, "INSERT INTO belief VALUES(?,?,?)", -1, &insert, nullptr);
    for (std::size_t h = 0; h < hypotheses.size(); ++h) {
      sqlite3_bind_int64(insert, 1, static_cast<sqlite3_int64>(h));
      sqlite3_bind_int(insert, 2, hypotheses[h].advice_class);
      sqlite3_bind_double(insert, 3, setup.belief.hypothesis[h]);
      sqlite3_step(insert);
      sqlite3_reset(insert);
    }
    sqlite3_finalize(insert);
    sqlite3_prepare_v2(db_, "INSERT INTO chance VALUES(?,?,?,?)", -1, &insert, nullptr);
    for (int t = 0; t < setup.model->trait_count(); ++t) {
      const AnswerTable table(*setup.model, t, setup.belief);
      const auto& code = setup.model->trait(t).code;
      for (std::size_t h = 0; h < hypotheses.size(); ++h) {
        for (std::size_t a = 0; a < table.size(); ++a) {
          sqlite3_bind_int(insert, 1, t);
          sqlite3_bind_int64(insert, 2, static_cast<sqlite3_int64>(h));
          sqlite3_bind_int64(insert, 3, static_cast<sqlite3_int64>(a));
          sqlite3_bind_double(insert, 4, table.row(code[h])[a]);
          sqlite3_step(insert);
          sqlite3_reset(insert);
        }
      }
    }
    sqlite3_finalize(insert);
    run("COMMIT");
  }
  SqlForm(const SqlForm&) = delete;
  SqlForm& operator=(const SqlForm&) = delete;
  ~SqlForm() { sqlite3_close(db_); }

  void choose() {
    run("SELECT trait, sum(m * log2(m)) FROM (SELECT trait, class, answer, sum(p * chance) AS m FROM chance "
        "JOIN belief USING (h) GROUP BY trait, class, answer) GROUP BY trait ORDER BY 2 DESC LIMIT 1");
  }

 private:
  void run(const char* sql) {
    char* message = nullptr;
    if (sqlite3_exec(db_, sql, nullptr, nullptr, &message) != SQLITE_OK) throw std::runtime_error(message);
  }

  sqlite3* db_ = nullptr;
};

void next_question(benchmark::State& state, const Setup& setup) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(loomkey::inference::separating_questions(*setup.model, Case{}, setup.belief));
  }
}

void sql_question(benchmark::State& state, const Setup& setup) {
  SqlForm form(setup);
  for (auto _ : state) form.choose();
}

extern "C" char** environ;

void spawn(benchmark::State& state, std::vector<std::string> words) {
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", 1, 0);
  long peak = 0;
  for (auto _ : state) {
    pid_t child = 0;
    if (posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ) != 0) {
      state.SkipWithError("cannot start the program");
      break;
    }
    int status = 0;
    rusage usage{};
    wait4(child, &status, 0, &usage);
    peak = std::max(peak, usage.ru_maxrss);
  }
  state.counters["peak_MiB"] = static_cast<double>(peak) / 1024.0;
  posix_spawn_file_actions_destroy(&actions);
}

double peak_mib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

class Collector : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.run_type == Run::RT_Iteration) time_[run.benchmark_name()] = run.GetAdjustedRealTime();
    }
    ConsoleReporter::ReportRuns(runs);
  }

  void ratio(const char* what, const std::string& slow, const std::string& fast) const {
    const auto a = time_.find(slow);
    const auto b = time_.find(fast);
    if (a == time_.end() || b == time_.end() || b->second <= 0.0) return;
    std::printf("%-66s %10.1f\n", what, a->second / b->second);
  }

 private:
  std::map<std::string, double> time_;
};

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  const std::string readings = LOOMKEY_EXAMPLE;
  benchmark::RegisterBenchmark("start/empty program",
                               [](benchmark::State& s) {
                                 spawn(s, {LOOMKEY_EMPTY, LOOMKEY_CATALOGUE});
                               })
      ->Unit(benchmark::kMillisecond)
      ->UseRealTime();
  benchmark::RegisterBenchmark(
      "start/one shot",
      [&](benchmark::State& s) {
        spawn(s, {LOOMKEY_PROGRAM, "--catalogue", LOOMKEY_CATALOGUE, "identify", "--readings", readings});
      })
      ->Unit(benchmark::kMillisecond)
      ->UseRealTime();
  benchmark::RegisterBenchmark("question/real", [](benchmark::State& s) {
    next_question(s, real());
  })->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("question/real sql", [](benchmark::State& s) {
    sql_question(s, real());
  })->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("question/10000", [](benchmark::State& s) {
    next_question(s, synthetic());
    s.counters["peak_MiB"] = peak_mib();
  })->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("question/10000 sql", [](benchmark::State& s) { sql_question(s, synthetic()); })
      ->Unit(benchmark::kMillisecond)
      ->Iterations(1);
  Collector collector;
  benchmark::RunSpecifiedBenchmarks(&collector);
  std::printf("\nratios of this run\n");
  collector.ratio("one shot from process start : empty program on the same file", "start/one shot/real_time",
                  "start/empty program/real_time");
  collector.ratio("plain SQL : choosing the next question, real catalogue", "question/real sql", "question/real");
  collector.ratio("plain SQL : choosing the next question, 10,000 synthetic parts", "question/10000 sql/iterations:1",
                  "question/10000");
  std::printf("peak memory of this process with 10,000 parts and their SQL form: %.0f MiB\n", peak_mib());
  return 0;
}
