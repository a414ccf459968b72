#include "report/text.h"

#include <catch2/catch.hpp>

#include "report/page_checks.h"

using namespace loomkey::report;
using loomkey::support::contains;
using loomkey::support::is_clean;
using loomkey::support::widest_line;

namespace {

Document every_block() {
  Document document;
  document.title = "A title that is rather long, so that it has to be broken on a narrow page";
  document.blocks = {
      Paragraph{"Some words, and " + std::string(90, 'x') + " after them. A share of 93 % stays whole."},
      Heading{"A heading"},
      Bullets{{"one", "two with a good many words behind it, more than fit on one narrow line"}},
      KeyValues{{{"key", "value"}, {"a much longer key than the others have", "and a value that is long as well"}}},
      Table{{{"words"}, {"figure", true}, {"id", false, true}},
            {{"a cell with several words in it that will have to fold", "-12.5", "short-id"},
             {"short", "+3.0", "a-longer-id"},
             {"total", "-9.5", ""}},
            true},
      Note{Note::Kind::caution, "Hot enough to burn, and the sentence goes on for more than a line of a page."},
      Note{Note::Kind::note, "A note."},
  };
  return document;
}

}  // namespace

TEST_CASE("no line is wider than the page") {
  for (const std::size_t width : {24U, 30U, 40U, 60U, 80U, 120U}) {
    CHECK(widest_line(to_text(every_block(), {width, false})) <= width);
  }
}

TEST_CASE("a page narrower than 24 columns is taken as 24") {
  CHECK(to_text(every_block(), {3, false}) == to_text(every_block(), {24, false}));
}

TEST_CASE("escape codes appear only when asked for, and change no word") {
  const std::string plain = to_text(every_block(), {80, false});
  CHECK(is_clean(plain));
  std::string bold = to_text(every_block(), {80, true});
  CHECK(contains(bold, "\x1b[1mA heading\x1b[0m"));
  CHECK(contains(bold, "CAUTION: "));
  for (const std::string code : {"\x1b[1m", "\x1b[1;31m", "\x1b[0m"}) {
    while (contains(bold, code)) bold.erase(bold.find(code), code.size());
  }
  CHECK(bold == plain);
}

TEST_CASE("content cannot send codes to the terminal") {
  Document document;
  const std::string hostile =
      "x\x1b[31m\x07 \xff \xe2\x80\xae y\nz \xc2\x9b"
      "5m";
  document.title = hostile;
  document.blocks = {Paragraph{hostile},
                     Heading{hostile},
                     Bullets{{hostile}},
                     KeyValues{{{hostile, hostile}}},
                     Table{{{hostile}, {hostile, true}}, {{hostile, hostile}}},
                     Note{Note::Kind::caution, hostile}};
  const std::string page = to_text(document);
  CHECK(is_clean(page));
  CHECK(widest_line(page) <= 80);
}

TEST_CASE("words are folded by code points, not by bytes") {
  // Ten letters e with an accent, two bytes each.
  std::string word;
  for (int i = 0; i < 10; ++i) word += "\xc3\xa9";
  const std::vector<std::string> lines = fold(word, 4);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] == "\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9");
  CHECK(loomkey::first_invalid_utf8(lines[2]) == std::string::npos);
}

TEST_CASE("a word that must be cut is cut behind a hyphen if it has one") {
  CHECK(fold("switch-oil-pressure", 12) == std::vector<std::string>{"switch-oil-", "pressure"});
}

TEST_CASE("a per cent sign stays with its figure") {
  CHECK(fold("a share of 93 % stays", 13) == std::vector<std::string>{"a share of", "93 % stays"});
}

TEST_CASE("a blank text gives no line") {
  CHECK(fold("", 10).empty());
  CHECK(fold(" \n\t ", 10).empty());
}

TEST_CASE("figures stand under each other, and a rule stands above their total") {
  Document document;
  document.blocks = {Table{{{"line"}, {"dB", true}}, {{"a", "+1.5"}, {"b", "-10.0"}, {"total", "-8.5"}}, true}};
  CHECK(to_text(document) ==
        "line      dB\n"
        "-----  -----\n"
        "a       +1.5\n"
        "b      -10.0\n"
        "-----  -----\n"
        "total   -8.5\n");
}

TEST_CASE("ids are not broken while words can give way") {
  Document document;
  document.blocks = {Table{{{"name"}, {"id", false, true}}, {{"words that fold and fold again", "capacitor-modern"}}}};
  const std::string page = to_text(document, {30, false});
  CHECK(contains(page, "capacitor-modern"));
  CHECK(widest_line(page) <= 30);
}

TEST_CASE("a table with too many columns for the page becomes a list a row") {
  Table table;
  for (int c = 0; c < 9; ++c) {
    table.columns.push_back({"col" + std::to_string(c)});
    if (table.rows.empty()) table.rows.emplace_back();
    table.rows[0].push_back("some value here");
  }
  Document document;
  document.blocks = {table};
  const std::string page = to_text(document, {24, false});
  CHECK(contains(page, "col8: some value here"));
  CHECK(widest_line(page) <= 24);
}

TEST_CASE("an empty document is an empty page") { CHECK(to_text(Document{}).empty()); }
