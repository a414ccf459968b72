#include "cli/command_line.h"

#include <catch2/catch.hpp>

using namespace loomkey;
using cli::Command;
using cli::parse_command_line;

namespace {

std::string refusal(const std::vector<std::string>& words) {
  const auto line = parse_command_line(words);
  REQUIRE_FALSE(line);
  CHECK(line.error().kind == ErrorKind::usage);
  return line.error().message();
}

}  // namespace

TEST_CASE("identify takes readings from files, options and the bike") {
  const auto line =
      parse_command_line({"identify", "--readings", "a.toml", "--readings", "-", "--reading", "form=can (guess)",
                          "--bike", "volts=12", "--guess", "regulator", "--tools", "ruler, meter", "--sure", "think-so",
                          "--meter-leads-zeroed", "--json", "--questions", "7"});
  REQUIRE(line);
  CHECK(line->command == Command::identify);
  CHECK(line->json);
  const cli::CaseSources& sources = line->identify.sources;
  CHECK(sources.files == std::vector<std::string>{"a.toml", "-"});
  CHECK(sources.readings == std::vector<std::string>{"form=can (guess)"});
  CHECK(sources.bike == std::vector<std::string>{"volts=12"});
  CHECK(sources.guessed_name == "regulator");
  CHECK(sources.tools == "ruler, meter");
  CHECK(sources.certainty == "think-so");
  CHECK(sources.leads_zeroed);
  CHECK(line->identify.questions == 7);
}

TEST_CASE("resume works with and without a file") {
  const auto last = parse_command_line({"identify", "--resume", "--json"});
  REQUIRE(last);
  CHECK(last->identify.resume);
  CHECK(last->identify.resume_file.empty());
  CHECK(last->json);
  const auto named = parse_command_line({"identify", "--resume", "find.toml"});
  REQUIRE(named);
  CHECK(named->identify.resume_file == "find.toml");
  CHECK_FALSE(parse_command_line({"identify"})->identify.resume);
}

TEST_CASE("the catalogue may be named before and behind the command") {
  CHECK(parse_command_line({"--catalogue", "x.sqlite", "parts"})->catalogue == "x.sqlite");
  CHECK(parse_command_line({"parts", "show", "p", "--catalogue", "x.sqlite"})->catalogue == "x.sqlite");
}

TEST_CASE("an overlay may be named or switched off anywhere, not both") {
  CHECK(parse_command_line({"parts", "show", "p", "--overlay", "club"})->overlay == "club");
  CHECK(parse_command_line({"--no-overlay", "parts"})->without_overlay);
  CHECK(parse_command_line({"catalogue", "trial", "--no-overlay"})->without_overlay);
  CHECK_THAT(refusal({"parts", "--overlay", "club", "--no-overlay"}), Catch::Contains("--no-overlay"));
  CHECK_THAT(refusal({"parts", "--overlya", "club"}), Catch::Contains("'--overlay'"));
}

TEST_CASE("parts alone lists them") {
  CHECK(parse_command_line({"parts"})->command == Command::parts_list);
  CHECK(parse_command_line({"parts", "list"})->command == Command::parts_list);
  CHECK(parse_command_line({"parts", "search", "plate", "selenium"})->command == Command::parts_search);
  CHECK(parse_command_line({"parts", "show", "p"})->command == Command::parts_show);
}

TEST_CASE("compare takes two or three parts in their order") {
  CHECK(parse_command_line({"compare", "a", "b"})->words == std::vector<std::string>{"a", "b"});
  CHECK(parse_command_line({"compare", "a", "b", "c"})->words == std::vector<std::string>{"a", "b", "c"});
  CHECK(refusal({"compare", "a"}) == "'loomkey compare' needs B. It is used as: loomkey compare [OPTIONS] A B [C]");
  CHECK(refusal({"compare", "a", "b", "c", "d"}).find("no further word, but 'd'") != std::string::npos);
}

TEST_CASE("help knows which command it was asked on") {
  CHECK(parse_command_line({"--help"})->help_on.empty());
  CHECK(parse_command_line({"parts", "list", "-h"})->help_on == std::vector<std::string>{"parts", "list"});
  CHECK(parse_command_line({"--version"})->command == Command::version);
}

TEST_CASE("a misspelt command is answered with the nearest one") {
  CHECK(refusal({"identfy"}) == "'loomkey' has no command 'identfy'. Did you mean 'identify'?");
  CHECK(refusal({"parts", "serch", "x"}) == "'loomkey parts' has no command 'serch'. Did you mean 'search'?");
  CHECK(refusal({"serch"}) == "'loomkey' has no command 'serch'. Did you mean 'loomkey parts search'?");
  CHECK(refusal({"zzzzzzzz"}).find("It is one of: identify, parts") != std::string::npos);
}

TEST_CASE("a misspelt option is answered with the nearest one") {
  CHECK(refusal({"identify", "--redings", "x"}) ==
        "'loomkey identify' has no option '--redings'. Did you mean '--readings'?");
  CHECK(refusal({"parts", "list", "--familly", "x"}).find("Did you mean '--family'?") != std::string::npos);
  CHECK(refusal({"parts", "list", "--katalogue", "x"}).find("Did you mean '--catalogue'?") != std::string::npos);
  CHECK(refusal({"-x"}) == "'loomkey' has no option '-x'. See 'loomkey --help'.");
}

TEST_CASE("wrong and missing values are told with what is expected") {
  CHECK(refusal({"identify", "--readings"}) == "--readings needs a value: --readings FILE.");
  CHECK(refusal({"identify", "--sure", "gess"}) == "--sure does not take 'gess'. Did you mean 'guess'?");
  CHECK(refusal({"identify", "--questions", "99"}) == "--questions takes a number from 0 to 50, not '99'.");
  CHECK(refusal({"identify", "--questions", "many"}) == "--questions takes a number from 0 to 50, not 'many'.");
  CHECK(refusal({"catalogue", "trial", "--seed", "x"}) == "--seed takes a number, not 'x'.");
  CHECK(refusal({"catalogue", "trial", "--mistakes", "othr"}) ==
        "--mistakes does not take 'othr'. Did you mean 'other'?");
  CHECK(refusal({"identify", "--json=yes"}) == "--json takes no value.");
  CHECK(refusal({"catalogue", "build", "--from", "x"}) == "'loomkey catalogue build' needs --to FILE.");
  CHECK(refusal({"parts", "show"}).find("needs PART") != std::string::npos);
  CHECK(refusal({"generate", "completion", "bsh"}) == "SHELL does not take 'bsh'. Did you mean 'bash'?");
}

TEST_CASE("without a command all of them are named") {
  const std::string message = refusal({});
  CHECK(message.find("say what 'loomkey' is to do: identify, parts") == 0);
  CHECK(message.find("generate") == std::string::npos);
  CHECK(refusal({"catalogue"}).find("build, check, template, trial, separability, diff, info") != std::string::npos);
}

TEST_CASE("what is printed back of a wrong word cannot reach the terminal as a code") {
  CHECK(refusal({"identify", "--f\x1b[31moo"}).find('\x1b') == std::string::npos);
  CHECK(refusal({"\x1b[2J"}).find('\x1b') == std::string::npos);
}

TEST_CASE("an option takes one value and swallows nothing behind it") {
  const std::string message = refusal({"identify", "--readings", "a.toml", "b.toml"});
  CHECK(message.find("no further word, but 'b.toml'") != std::string::npos);
}

TEST_CASE("help fits the width") {
  const cli::CommandNode tree = cli::command_tree();
  for (const std::vector<std::string>& path :
       {std::vector<std::string>{}, {"identify"}, {"parts"}, {"compare"}, {"catalogue", "trial"}}) {
    for (const std::size_t width : {24U, 40U, 80U}) {
      const std::string text = cli::help_text(tree, path, width);
      std::size_t start = 0;
      while (start < text.size()) {
        const std::size_t end = text.find('\n', start);
        CHECK(end - start <= width);
        start = end + 1;
      }
    }
  }
}
