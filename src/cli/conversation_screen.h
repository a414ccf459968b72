#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "bench/conversation.h"
#include "cli/asker.h"
#include "cli/spoken.h"
#include "report/document.h"
#include "report/text.h"

namespace loomkey::cli {

// The bench conversation on a screen: shows questions, understands lines, and keeps the case after every change. It
// decides nothing about parts; that is the conversation's.
class ConversationScreen {
 public:
  // Keeps a case somewhere safe.
  using Keep = std::function<Result<void>(const evidence::Case&)>;

  enum class End { finished, stopped, interrupted, broken };

  ConversationScreen(bench::Conversation&, Asker&, report::TextStyle, Keep);

  // Talks until the verdict stands, or the person ends it. `resumed`: the case was begun before. The case is kept
  // whenever this returns, if `kept`.
  End run(bool resumed);

  // Whether the case as it is now was kept.
  [[nodiscard]] bool kept() const { return kept_; }

 private:
  enum class Step { repeat, next, leave };

  [[nodiscard]] const knowledge::Knowledge& knowledge() const { return conversation_.model().knowledge(); }

  void greet(bool resumed);
  bool ask_about_bike();
  Step turn(const inference::Question&);
  Step closing_turn();
  Step act(const Spoken&, const inference::Question* asked);

  Step take_answer(const inference::Question&, const std::string& words, std::optional<evidence::Certainty>);
  Step take_reading(const std::string& trait, const std::string& words, std::optional<evidence::Certainty>);
  Step take_assignment(const Spoken&);
  Step take_back();
  Step change(const std::string& trait);
  Step take_bike(const std::string& words);
  [[nodiscard]] std::string known_of_bike() const;
  Step see_line(const Line&);

  void show(const report::Document&);
  void show_question(const inference::Question&);
  void show_readings();
  void show_changes();
  void show_bike();
  void show_verdict();
  void complain(const std::string&);
  void note(std::string_view);
  void keep();

  bench::Conversation& conversation_;
  Asker& asker_;
  report::TextStyle style_;
  Keep keep_;
  End end_ = End::finished;
  bool kept_ = false;
  bool complained_ = false;                   // of the line at hand
  std::vector<std::vector<int>> statements_;  // the traits that each line of this sitting told
  bool complained_of_keeping_ = false;
  bool keys_named_ = false;
  inference::Status announced_ = inference::Status::open;
};

// The question that asks for one trait, whatever the belief: used to change an earlier answer.
inference::Question question_on(const knowledge::Knowledge&, int trait);

// What a typed line stands for among the offered choices: the value of the choice with that key, else the line itself.
std::string chosen_value(const knowledge::Knowledge&, const inference::Question&, const std::string& words);

// Why a question is asked: what it promises, and what the leading candidates would show.
report::Document question_reasons(const knowledge::Knowledge&, const inference::Model&, const bench::Finding&,
                                  const inference::Question&);

// The keys of the conversation.
report::Document keys_document(bool letters);

}  // namespace loomkey::cli
