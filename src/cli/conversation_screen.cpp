#include "cli/conversation_screen.h"

#include <algorithm>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "cli/bike_line.h"
#include "evidence/bike.h"
#include "evidence/wording.h"
#include "report/finding_document.h"
#include "report/finding_words.h"
#include "report/question_text.h"
#include "report/words.h"

namespace loomkey::cli {

using evidence::Certainty;
using evidence::Reading;
using inference::Question;
using inference::Status;
using knowledge::Trait;

namespace {

constexpr std::size_t longest_line = 2000;

bool takes_letters(const Trait& trait) { return trait.kind == knowledge::TraitKind::set; }

}  // namespace

ConversationScreen::ConversationScreen(bench::Conversation& conversation, Asker& asker, report::TextStyle style,
                                       Keep keep)
    : conversation_(conversation), asker_(asker), style_(style), keep_(std::move(keep)) {}

ConversationScreen::End ConversationScreen::run(bool resumed) {
  greet(resumed);
  if (!resumed && evidence::bike_values(knowledge(), conversation_.the_case().bike).empty() && !ask_about_bike()) {
    return end_;
  }
  while (true) {
    const Question* question = conversation_.question();
    const Step step = question == nullptr ? closing_turn() : turn(*question);
    if (step == Step::leave) return end_;
  }
}

void ConversationScreen::greet(bool resumed) {
  if (!resumed) {
    note("Let us find out what this part is. Look at it, then answer by key or in words.");
    note("'help' shows what else can be said; 'cannot tell' is always an answer.");
    return;
  }
  note("Going on where you stopped. So far:");
  show_readings();
  keep();
}

bool ConversationScreen::ask_about_bike() {
  note("");
  note("Is anything known of the bike? As in: decade 1960, volts 12, earth measured positive. Enter skips it.");
  while (true) {
    const Line line = asker_.ask("bike> ");
    if (see_line(line) == Step::leave) return false;
    if (line.text.size() > longest_line) {
      complain("that is too long");
      continue;
    }
    const Spoken spoken = understand(line.text, false);
    if (spoken.intent == Intent::stop) {
      end_ = End::stopped;
      return false;
    }
    if (spoken.intent == Intent::help) {
      show_bike();
      continue;
    }
    evidence::Bike bike = conversation_.the_case().bike;
    if (spoken.intent == Intent::nothing || spoken.intent == Intent::cannot_tell ||
        spoken.intent == Intent::not_looked) {
      return true;
    }
    const auto set = set_bike(knowledge(), bike, line.text);
    if (set) {
      conversation_.change_bike(std::move(bike));
      note("-> bike: " + known_of_bike());
      keep();
      return true;
    }
    complain(set.error().what);
  }
}

ConversationScreen::Step ConversationScreen::see_line(const Line& line) {
  switch (line.kind) {
    case Line::Kind::text:
      return Step::next;
    case Line::Kind::end:
      end_ = End::stopped;
      break;
    case Line::Kind::interrupted:
      end_ = End::interrupted;
      break;
    case Line::Kind::broken:
      end_ = End::broken;
      break;
  }
  // The person's cursor still stands behind the prompt.
  if (line.kind != Line::Kind::broken) asker_.say("\n");
  return Step::leave;
}

ConversationScreen::Step ConversationScreen::turn(const Question& question) {
  // The conversation makes a new list of questions with every answer; this one is used until the turn is over.
  const Question asked = question;
  const Trait& trait = knowledge().traits[static_cast<std::size_t>(asked.trait)];
  show_question(asked);
  while (true) {
    const Line line = asker_.ask(trait.id + "> ");
    if (see_line(line) == Step::leave) return Step::leave;
    Step step = Step::repeat;
    complained_ = false;
    if (line.text.size() > longest_line) {
      complain("that is too long for an answer");
    } else {
      step = act(understand(line.text, !takes_letters(trait)), &asked);
    }
    if (step != Step::repeat) return step;
    if (complained_) note(trait.ask);
  }
}

ConversationScreen::Step ConversationScreen::closing_turn() {
  show_verdict();
  note("");
  note("Nothing is left to ask. Enter ends; 'back', 'change TRAIT' or any 'TRAIT = VALUE' goes on.");
  while (true) {
    const Line line = asker_.ask("end> ");
    if (see_line(line) == Step::leave) {
      // The verdict stands, so an end of the input is as good as Enter.
      if (line.kind == Line::Kind::end) end_ = End::finished;
      return Step::leave;
    }
    const Spoken spoken = understand(line.text.substr(0, longest_line), true);
    if (spoken.intent == Intent::nothing || spoken.intent == Intent::verdict || spoken.intent == Intent::stop) {
      end_ = End::finished;
      return Step::leave;
    }
    const Step step = act(spoken, nullptr);
    if (step != Step::repeat) return step;
  }
}

ConversationScreen::Step ConversationScreen::act(const Spoken& spoken, const Question* asked) {
  const bool needs_question = spoken.intent == Intent::answer || spoken.intent == Intent::cannot_tell ||
                              spoken.intent == Intent::not_looked || spoken.intent == Intent::why;
  if (asked == nullptr && needs_question) {
    complain("no question stands. Enter ends; 'help' shows what can be said.");
    return Step::repeat;
  }
  switch (spoken.intent) {
    case Intent::nothing:
      note("Type an answer, 'cannot tell' or 'help'.");
      return Step::repeat;
    case Intent::answer:
      return take_answer(*asked, spoken.words, spoken.certainty);
    case Intent::cannot_tell:
      return take_answer(*asked, "cannot tell", {});
    case Intent::not_looked:
      return take_answer(*asked, "not looked", {});
    case Intent::assignment:
      return take_assignment(spoken);
    case Intent::why:
      show(question_reasons(knowledge(), conversation_.model(), conversation_.finding(), *asked));
      return Step::repeat;
    case Intent::back:
      return take_back();
    case Intent::change:
      return change(spoken.name);
    case Intent::so_far:
      show(report::candidates_document(knowledge(), conversation_.the_case(), conversation_.finding()));
      return Step::repeat;
    case Intent::bike:
      return take_bike(spoken.words);
    case Intent::verdict:
      show_verdict();
      end_ = End::finished;
      return Step::leave;
    case Intent::stop:
      end_ = End::stopped;
      return Step::leave;
    case Intent::help: {
      const bool letters =
          asked == nullptr || !takes_letters(knowledge().traits[static_cast<std::size_t>(asked->trait)]);
      show(keys_document(letters));
      return Step::repeat;
    }
  }
  return Step::repeat;
}

ConversationScreen::Step ConversationScreen::take_answer(const Question& asked, const std::string& words,
                                                         std::optional<Certainty> certainty) {
  return take_reading(knowledge().traits[static_cast<std::size_t>(asked.trait)].id,
                      chosen_value(knowledge(), asked, words), certainty);
}

ConversationScreen::Step ConversationScreen::take_reading(const std::string& trait, const std::string& words,
                                                          std::optional<Certainty> certainty) {
  const std::vector<Reading> before = conversation_.the_case().readings;
  const auto notes = conversation_.observe(trait, words, certainty.value_or(Certainty::sure));
  if (!notes) {
    complain(notes.error().what);
    return Step::repeat;
  }
  std::vector<int> said;
  for (const Reading& reading : conversation_.the_case().readings) {
    const bool known = std::any_of(before.begin(), before.end(), [&](const Reading& earlier) {
      return earlier.trait == reading.trait && earlier.observer == reading.observer && earlier.value == reading.value &&
             earlier.certainty == reading.certainty;
    });
    if (known) continue;
    note("-> " + report::reading_words(knowledge(), reading));
    said.push_back(reading.trait);
  }
  if (!said.empty()) statements_.push_back(std::move(said));
  for (const std::string& taken : *notes) note("   " + taken);
  keep();
  show_changes();
  return Step::next;
}

ConversationScreen::Step ConversationScreen::take_assignment(const Spoken& spoken) {
  const auto& keys = evidence::bike_keys();
  const bool bike = std::any_of(keys.begin(), keys.end(), [&](const auto& key) { return key.name == spoken.name; });
  if (bike) return take_bike(spoken.name + "=" + spoken.words);
  const int trait = knowledge().trait(spoken.name);
  if (trait < 0) return take_reading(spoken.name, spoken.words, spoken.certainty);
  return take_answer(question_on(knowledge(), trait), spoken.words, spoken.certainty);
}

ConversationScreen::Step ConversationScreen::take_back() {
  const auto& readings = conversation_.the_case().readings;
  if (readings.empty()) {
    complain("there is no answer to take back");
    return Step::repeat;
  }
  // What one line said goes back with one word; of an earlier sitting, the order of the readings is all that is known.
  std::vector<int> traits;
  const auto stands = [&](int trait) {
    return std::any_of(readings.begin(), readings.end(),
                       [&](const Reading& reading) { return reading.trait == trait; });
  };
  while (traits.empty() && !statements_.empty()) {
    traits = std::move(statements_.back());
    statements_.pop_back();
    std::erase_if(traits, [&](int trait) { return !stands(trait); });
  }
  if (traits.empty()) traits = {readings.back().trait};
  for (const Reading& reading : std::vector<Reading>(readings)) {
    if (!evidence::is_one_of(traits, reading.trait)) continue;
    note("Taken back: " + report::reading_words(knowledge(), reading));
  }
  for (const int trait : traits) conversation_.forget(trait);
  keep();
  return Step::next;
}

ConversationScreen::Step ConversationScreen::change(const std::string& name) {
  const auto& readings = conversation_.the_case().readings;
  if (name.empty()) {
    show_readings();
    return Step::repeat;
  }
  std::vector<std::string> ids;
  for (const Reading& reading : readings) {
    ids.push_back(knowledge().traits[static_cast<std::size_t>(reading.trait)].id);
  }
  int trait = knowledge().trait(name);
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (std::to_string(i + 1) == name || knowledge().traits[static_cast<std::size_t>(readings[i].trait)].name == name) {
      trait = readings[i].trait;
    }
  }
  if (trait < 0) {
    const std::string hint = did_you_mean(name, ids);
    complain("nothing was answered under " + evidence::quoted(name) + "." +
             (hint.empty() ? " 'change' alone lists the answers." : hint));
    return Step::repeat;
  }
  const Question question = question_on(knowledge(), trait);
  show_question(question);
  note("Enter leaves it as it was.");
  while (true) {
    const Trait& about = knowledge().traits[static_cast<std::size_t>(trait)];
    const Line line = asker_.ask(about.id + "> ");
    if (see_line(line) == Step::leave) return Step::leave;
    const Spoken spoken = understand(line.text.substr(0, longest_line), !takes_letters(about));
    if (spoken.intent == Intent::nothing || spoken.intent == Intent::back) return Step::next;
    const bool answers =
        spoken.intent == Intent::answer || spoken.intent == Intent::cannot_tell || spoken.intent == Intent::not_looked;
    const Step step = answers ? act(spoken, &question) : Step::next;
    if (!answers) note("Left as it was.");
    if (step != Step::repeat) return step;
  }
}

ConversationScreen::Step ConversationScreen::take_bike(const std::string& words) {
  if (words.empty()) {
    show_bike();
    return Step::repeat;
  }
  evidence::Bike bike = conversation_.the_case().bike;
  if (auto set = set_bike(knowledge(), bike, words); !set) {
    complain(set.error().what);
    return Step::repeat;
  }
  conversation_.change_bike(std::move(bike));
  note("-> bike: " + known_of_bike());
  keep();
  show_changes();
  return Step::next;
}

std::string ConversationScreen::known_of_bike() const {
  std::vector<std::string> known;
  for (const auto& [key, value] : evidence::bike_values(knowledge(), conversation_.the_case().bike)) {
    known.push_back(key + " " + value);
  }
  return known.empty() ? "nothing is known" : join(known, "; ");
}

void ConversationScreen::show_bike() {
  report::KeyValues keys;
  for (const auto& key : evidence::bike_keys()) {
    keys.rows.emplace_back(std::string(key.name), std::string(key.meaning) + ": " + std::string(key.allowed));
  }
  report::Document page;
  page.blocks.emplace_back(std::move(keys));
  page.blocks.emplace_back(report::Paragraph{"Known so far: " + known_of_bike() + "."});
  show(page);
}

void ConversationScreen::show(const report::Document& page) { asker_.say("\n" + report::to_text(page, style_)); }

void ConversationScreen::show_question(const Question& question) {
  std::string text = "\n";
  for (const std::string& line : report::question_lines(knowledge(), question, style_.width)) text += line + '\n';
  asker_.say(text);
  if (std::exchange(keys_named_, true)) return;
  note("  (Or: cannot tell, skip, why, back, change, so far, bike, verdict, stop, help.)");
}

void ConversationScreen::show_readings() {
  report::KeyValues list;
  for (const Reading& reading : conversation_.the_case().readings) {
    const std::string& id = knowledge().traits[static_cast<std::size_t>(reading.trait)].id;
    list.rows.emplace_back(std::to_string(list.rows.size() + 1) + " " + id,
                           report::reading_words(knowledge(), reading));
  }
  report::Document page;
  if (list.rows.empty()) {
    page.blocks.emplace_back(report::Paragraph{"Nothing was answered yet."});
  } else {
    page.blocks.emplace_back(std::move(list));
    page.blocks.emplace_back(report::Paragraph{"'change' with the number or the name answers one anew."});
  }
  show(page);
}

// Says once when the picture has become clear, or has broken.
void ConversationScreen::show_changes() {
  const Status status = conversation_.finding().status;
  if (status == announced_) return;
  announced_ = status;
  const bool asks_on = conversation_.question() != nullptr;
  if (!asks_on || status == Status::open || status == Status::cannot_tell) return;
  note("");
  note(report::headline(knowledge(), conversation_.finding()));
  if (status == Status::likely) note("A few checks follow, in case it is a part that nobody thought of.");
}

void ConversationScreen::show_verdict() {
  show(report::finding_document(knowledge(), conversation_.the_case(), conversation_.finding()));
}

void ConversationScreen::complain(const std::string& what) {
  complained_ = true;
  note("! " + printable(what));
}

void ConversationScreen::note(std::string_view text) {
  std::string out;
  std::string indent(text.substr(0, std::min(text.size(), text.find_first_not_of(' '))));
  for (const std::string& line : report::fold(text, style_.width - indent.size())) out += indent + line + '\n';
  asker_.say(out.empty() ? "\n" : out);
}

void ConversationScreen::keep() {
  const auto done = keep_(conversation_.the_case());
  kept_ = done.has_value();
  if (kept_ || std::exchange(complained_of_keeping_, true)) return;
  complain("the readings cannot be kept, so a break would lose them: " + done.error().message());
}

}  // namespace loomkey::cli
