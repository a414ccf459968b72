#include "cli/text_input.h"

#include <catch2/catch.hpp>

#include "support/temp_dir.h"

using namespace loomkey;
using cli::read_text;

namespace {

Error refusal(const std::filesystem::path& path) {
  const auto text = read_text(path.string());
  REQUIRE_FALSE(text);
  return text.error();
}

}  // namespace

TEST_CASE("a text file is read as it is") {
  const support::TempDir folder;
  support::write_bytes(folder / "a.toml", "title = \"Gr\xc3\xbc\xc3\x9f\"\n");
  CHECK(*read_text((folder / "a.toml").string()) == "title = \"Gr\xc3\xbc\xc3\x9f\"\n");
}

TEST_CASE("files that cannot hold readings are refused as bad input") {
  const support::TempDir folder;
  support::write_bytes(folder / "empty.toml", "");
  support::write_bytes(folder / "blank.toml", " \n\t\n");
  support::write_bytes(folder / "binary.toml", std::string_view("a = 1\n\0b", 8));
  support::write_bytes(folder / "latin1.toml", "a = 1\nb = \"gr\xfc\xdf\"\n");
  support::write_bytes(folder / "huge.toml", std::string(cli::largest_text + 1, '#'));
  for (const char* name : {"empty.toml", "blank.toml", "binary.toml", "latin1.toml", "huge.toml", "missing.toml"}) {
    INFO(name);
    CHECK(refusal(folder / name).kind == ErrorKind::input);
  }
  CHECK(refusal(folder.path()).what == "is a folder, not a file");
  CHECK(refusal(folder / "latin1.toml").where == (folder / "latin1.toml").string() + ":2");
}

TEST_CASE("the largest file that is allowed is read") {
  const support::TempDir folder;
  support::write_bytes(folder / "large.toml", std::string(cli::largest_text, '#'));
  CHECK(read_text((folder / "large.toml").string())->size() == cli::largest_text);
}

TEST_CASE("an endless file is refused, not read") { CHECK(refusal("/dev/zero").kind == ErrorKind::input); }

TEST_CASE("a hostile file name cannot reach the terminal as a code") {
  CHECK(refusal("no\x1b[31msuch").message().find('\x1b') == std::string::npos);
}
