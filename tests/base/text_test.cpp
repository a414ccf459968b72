#include "base/text.h"

#include <catch2/catch.hpp>

using namespace loomkey;

TEST_CASE("splitting and joining are each other's inverse, empty pieces included") {
  for (const std::string text : {"", ",", "a", "a,b", ",a,,b,"}) CHECK(join(split(text, ','), ",") == text);
  CHECK(split("a,b", ',') == std::vector<std::string>{"a", "b"});
  CHECK(split("", ',').size() == 1);
}

TEST_CASE("trim takes blanks at both ends only") {
  CHECK(trim(" \t a b\r\n") == "a b");
  CHECK(trim(" \n").empty());
}

// The well-formed and ill-formed sequences of table 3-7 of the Unicode Standard (RFC 3629, section 4).
TEST_CASE("well-formed UTF-8 passes, everything else is found at its first byte") {
  for (const std::string good :
       {"", "ohm", "\xC3\xA4", "\xE2\x84\xA6", "\xF0\x9F\x94\x8B", "\xED\x9F\xBF", "\xF4\x8F\xBF\xBF"}) {
    CHECK(first_invalid_utf8(good) == std::string_view::npos);
  }
  for (const std::string bad : {"\x80", "\xC0\xAF", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
                                "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xC3", "\xE2\x84", "\xFF"}) {
    CHECK(first_invalid_utf8("ab" + bad) == 2);
  }
}

TEST_CASE("nothing that steers a terminal is printable") {
  CHECK(printable("a\x1B[31mb") == "a?[31mb");
  CHECK(printable("a\nb") == "a?b");
  CHECK(printable("a\nb", true) == "a\nb");
  CHECK(printable("\xC2\x9B"
                  "1m") == "?1m");  // C1 control sequence introducer
  CHECK(printable("a\xE2\x80\xAE"
                  "b") == "a?b");  // right-to-left override
  CHECK(printable("\xFF\xC3\xA4") == "?\xC3\xA4");
}

TEST_CASE("wrapped lines keep to the width, and every word survives") {
  const std::string text = "one two three four five six seven";
  const std::string wrapped = wrap(text, 11, 2);
  for (const std::string& line : split(wrapped, '\n')) CHECK(display_width(line) <= 11);
  std::string again;
  for (const std::string& line : split(wrapped, '\n')) again += (again.empty() ? "" : " ") + trim(line);
  CHECK(again == text);
  CHECK(wrap("unbreakable", 4) == "unbreakable");
}

TEST_CASE("only one is counted in the singular") {
  CHECK(counted(0, "part", "parts") == "0 parts");
  CHECK(counted(1, "part", "parts") == "1 part");
  CHECK(counted(2, "part", "parts") == "2 parts");
}
