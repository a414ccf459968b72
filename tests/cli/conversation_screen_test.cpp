#include "cli/conversation_screen.h"

#include <algorithm>
#include <memory>

#include <catch2/catch.hpp>

#include "base/text.h"
#include "cli/scripted_asker.h"
#include "evidence/readings_file.h"
#include "support/small_knowledge.h"

using namespace loomkey;
using cli::ConversationScreen;
using cli::Line;
using End = ConversationScreen::End;
using support::ScriptedAsker;

namespace {

knowledge::Knowledge shed() {
  support::SmallKnowledge knowledge;
  knowledge.choice("form", {"can: small closed can", "box: closed box", "dish: shallow dish"}, 0.02)
      .choice("blades", {"0: none", "2: two", "3: three"}, 0.02)
      .number("size_long", "mm", 3, 600)
      .letters("letters")
      .ohms("ohms");
  const auto part = [&](const std::string& id, const std::string& form, const std::string& blades, double size,
                        std::vector<std::string> letters, double ohms) {
    knowledge.part(id).has("form", form).has("blades", blades).range("size_long", size * 0.9, size * 1.1);
    knowledge.carries("letters", std::move(letters)).range("ohms", ohms * 0.8, ohms * 1.2);
  };
  part("charge-can", "can", "3", 30, {"AL", "E", "WL"}, 40);
  part("flasher", "can", "2", 55, {"B", "L"}, 5);
  part("horn", "dish", "2", 80, {}, 1);
  part("regulator", "box", "3", 90, {"D", "E", "F"}, 0.5);
  return knowledge.build();
}

// One sitting: the lines, and what came of them.
struct Sitting {
  explicit Sitting(std::vector<std::string> lines, Line::Kind then = Line::Kind::end, evidence::Case start = {},
                   bool resumed = false)
      : asker(std::move(lines), then),
        conversation(std::make_shared<const inference::Model>(std::make_shared<const knowledge::Knowledge>(shed())),
                     std::move(start)) {
    ConversationScreen screen(conversation, asker, {}, [this](const evidence::Case& find) -> Result<void> {
      kept.push_back(find);
      return {};
    });
    end = screen.run(resumed);
  }

  [[nodiscard]] const evidence::Reading* reading(std::string_view trait) const {
    for (const auto& r : conversation.the_case().readings) {
      if (conversation.model().knowledge().traits[static_cast<std::size_t>(r.trait)].id == trait) return &r;
    }
    return nullptr;
  }

  ScriptedAsker asker;
  bench::Conversation conversation;
  std::vector<evidence::Case> kept;
  End end = End::finished;
};

evidence::Case with(std::vector<std::pair<std::string, std::string>> readings) {
  std::string text = "schema = 1\n[readings]\n";
  for (const auto& [trait, value] : readings) text += trait + " = \"" + value + "\"\n";
  auto file = evidence::read_readings_file(shed(), text, "start.toml");
  REQUIRE(file);
  return file->find;
}

}  // namespace

TEST_CASE("a conversation greets, asks about the bike once, and then about the part") {
  const Sitting sitting({"", "stop"});
  CHECK(sitting.asker.prompts().front() == "bike> ");
  CHECK(sitting.asker.prompts().size() == 2);
  CHECK(sitting.end == End::stopped);
  CHECK(sitting.conversation.the_case().readings.empty());
  CHECK(sitting.kept.empty());
}

TEST_CASE("what is known of the bike is taken in one line, and asked again when it is wrong") {
  const Sitting sitting({"wheels 3", "volts 12, earth measured positive", "stop"});
  CHECK(sitting.asker.showed("! "));
  CHECK(sitting.conversation.the_case().bike.volts == 12);
  CHECK(sitting.conversation.the_case().bike.earth_measured == evidence::Earth::positive);
  CHECK(sitting.kept.size() == 1);
}

TEST_CASE("answers are taken by key, by id, by name and with their certainty") {
  const Sitting sitting({"", "form = 3", "change form = box?", "stop"});
  REQUIRE(sitting.reading("form") != nullptr);
  CHECK(sitting.reading("form")->value.state == 1);
  CHECK(sitting.reading("form")->certainty == evidence::Certainty::think_so);
  CHECK(sitting.asker.showed("-> form: shallow dish"));
  CHECK(sitting.asker.showed("-> form: closed box (think so)"));
}

TEST_CASE("where answers are figures, a figure is the answer and no running number") {
  const Sitting sitting({"", "blades = 2", "stop"});
  REQUIRE(sitting.reading("blades") != nullptr);
  CHECK(sitting.reading("blades")->value.state == 1);
}

TEST_CASE("a wrong answer changes nothing and repeats the question with one message") {
  const Sitting sitting({"", "bax", "\x1b[31mred", std::string(5000, 'x'), "stop"});
  CHECK(sitting.conversation.the_case().readings.empty());
  CHECK(sitting.kept.empty());
  const auto& prompts = sitting.asker.prompts();
  CHECK(prompts.size() == 5);
  CHECK(std::count(prompts.begin() + 1, prompts.end(), prompts[1]) == 4);
  CHECK(sitting.asker.screen().find('\x1b') == std::string::npos);
}

TEST_CASE("every change is kept before the next question is asked") {
  const Sitting sitting({"", "form = can", "size_long = 30 mm", "back", "bike volts 6"}, Line::Kind::interrupted);
  CHECK(sitting.end == End::interrupted);
  REQUIRE(sitting.kept.size() == 4);
  CHECK(sitting.kept[0].readings.size() == 1);
  CHECK(sitting.kept[1].readings.size() == 2);
  CHECK(sitting.kept[2].readings.size() == 1);
  CHECK(sitting.kept[3].bike.volts == 6);
}

TEST_CASE("back takes back what the latest line said, and says so when nothing is left") {
  const Sitting sitting({"", "form = can", "form = box", "back", "back", "stop"});
  CHECK(sitting.reading("form") == nullptr);
  CHECK(sitting.asker.showed("Taken back: form: closed box"));
  CHECK(sitting.asker.showed("! there is no answer to take back"));
}

TEST_CASE("change asks the earlier question again, and Enter leaves it") {
  const Sitting changed({"", "form = can", "change form", "2", "stop"});
  CHECK(changed.reading("form")->value.state == 1);
  const Sitting by_number({"", "form = can", "change 1", "dish", "stop"});
  CHECK(by_number.reading("form")->value.state == 2);
  const Sitting left({"", "form = can", "change form", "", "stop"});
  CHECK(left.reading("form")->value.state == 0);
  const Sitting wrong({"", "form = can", "change form", "bax", "box", "stop"});
  CHECK(wrong.reading("form")->value.state == 1);
  const Sitting unknown({"", "form = can", "change frm", "stop"});
  CHECK(unknown.asker.showed("Did you mean 'form'?"));
  const Sitting list({"", "form = can", "change", "stop"});
  CHECK(list.asker.showed("1 form"));
}

TEST_CASE("cannot tell and skip go on without moving anything") {
  const Sitting sitting({"", "cannot tell", "skip", "stop"});
  CHECK(sitting.conversation.the_case().readings.size() == 2);
  CHECK_FALSE(sitting.conversation.the_case().has_evidence());
}

TEST_CASE("why tells what the question promises and what the candidates would show") {
  const Sitting sitting({"", "why", "so far", "help", "stop"});
  CHECK(sitting.asker.showed("It promises "));
  CHECK(sitting.asker.showed("Likeliest answers: "));
  CHECK(sitting.asker.showed("Candidates"));
  CHECK(sitting.asker.showed("take the latest answer back"));
  CHECK(sitting.conversation.the_case().readings.empty());
}

TEST_CASE("single letters are answers while letters are asked for") {
  const Sitting sitting({"", "change letters", "B", "stop"});
  REQUIRE(sitting.reading("letters") != nullptr);
  CHECK(sitting.reading("letters")->value.items == std::vector<std::string>{"B"});
}

TEST_CASE("the verdict can be had at any time") {
  const Sitting sitting({"", "form = dish", "verdict"});
  CHECK(sitting.end == End::finished);
  CHECK(sitting.asker.showed("What is it?"));
}

TEST_CASE("a settled case shows its verdict and can still be taken up again") {
  const evidence::Case known =
      with({{"form", "dish"}, {"blades", "2"}, {"size_long", "80 mm"}, {"letters", "none"}, {"ohms", "1 ohm"}});
  const Sitting ended({""}, Line::Kind::end, known, true);
  CHECK(ended.end == End::finished);
  CHECK(ended.asker.prompts() == std::vector<std::string>{"end> "});
  CHECK(ended.asker.showed("horn"));
  const Sitting by_end({}, Line::Kind::end, known, true);
  CHECK(by_end.end == End::finished);
  const Sitting reopened({"box", "back", "stop"}, Line::Kind::end, known, true);
  CHECK(reopened.asker.showed("! no question stands"));
  CHECK(reopened.reading("ohms") == nullptr);
}

TEST_CASE("a resumed conversation shows what is known and does not ask about the bike") {
  const Sitting sitting({"stop"}, Line::Kind::end, with({{"form", "can"}}), true);
  CHECK(sitting.asker.showed("Going on where you stopped."));
  CHECK(sitting.asker.showed("1 form  form: small closed can"));
  CHECK(sitting.asker.prompts().front() != "bike> ");
}

TEST_CASE("the end of the input stops as the word does") { CHECK(Sitting({""}).end == End::stopped); }

TEST_CASE("a screen that is gone ends the conversation") {
  CHECK(Sitting({""}, Line::Kind::broken).end == End::broken);
}

TEST_CASE("readings that cannot be kept are complained of once, and the conversation goes on") {
  ScriptedAsker asker({"", "form = can", "size_long = 30 mm", "stop"});
  bench::Conversation conversation(
      std::make_shared<const inference::Model>(std::make_shared<const knowledge::Knowledge>(shed())), {});
  ConversationScreen screen(conversation, asker, {},
                            [](const evidence::Case&) { return Result<void>(fail(ErrorKind::storage, "disk full")); });
  CHECK(screen.run(false) == End::stopped);
  CHECK(conversation.the_case().readings.size() == 2);
  CHECK_FALSE(screen.kept());
  const std::string& shown = asker.screen();
  const std::size_t first = shown.find("disk full");
  REQUIRE(first != std::string::npos);
  CHECK(shown.find("disk full", first + 1) == std::string::npos);
}

TEST_CASE("no line of a conversation is wider than the screen") {
  const Sitting sitting({"", "why", "help", "form = can", "change", "bike", "so far", "verdict"});
  for (const std::string& line : split(sitting.asker.screen(), '\n')) CHECK(display_width(line) <= 80);
}
