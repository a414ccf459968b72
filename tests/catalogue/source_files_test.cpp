#include <filesystem>

#include <catch2/catch.hpp>

#include "catalogue/sources.h"
#include "support/tiny_sources.h"

namespace loomkey::catalogue {
namespace {

std::vector<std::string> messages(const SourceReport& report) {
  std::vector<std::string> out;
  for (const Error& error : report.errors) out.push_back(error.message());
  return out;
}

TEST_CASE("all that is wrong is said in one go, in the order of files and lines") {
  support::TinySources sources;
  sources.replace("parts/flasher.toml", "name = \"thermal flasher can\"\n", "");
  sources.replace("parts/flasher.toml", "\"no-flash\"", "\"no-flush\"");
  sources.replace("advice/flasher.toml", "price = \"money\"", "price = \"cheap\"");
  sources.replace("traits/meter.toml", "unit = \"ohm\"", "units = \"ohm\"");
  sources.file("colours.toml") += "]]";
  const auto found = messages(read_sources(sources.write()));
  REQUIRE(found.size() == 6);
  CHECK_THAT(found[0], Catch::StartsWith("advice/flasher.toml:6:9: unknown price 'cheap'."));
  CHECK_THAT(found[1], Catch::StartsWith("colours.toml:15:") && Catch::Contains("not TOML: "));
  CHECK_THAT(found[2], Catch::StartsWith("parts/flasher.toml:1:1: part 'flasher-thermal': 'name' is missing"));
  CHECK_THAT(found[3], Catch::StartsWith("parts/flasher.toml:33:13: unknown symptom 'no-flush'"));
  CHECK_THAT(found[4], Catch::StartsWith("traits/meter.toml:1:1: trait 'ohm': 'unit' is missing"));
  CHECK_THAT(found[5],
             Catch::StartsWith("traits/meter.toml:8:1: trait 'ohm': unknown key 'units'. Did you mean 'unit'?"));
}

TEST_CASE("a file that cannot be read is reported alone, not by every name it should have defined") {
  for (const char* name : {"colours.toml", "basis.toml", "efforts.toml", "symptoms.toml", "cautions.toml",
                           "traits/groups.toml", "traits/size.toml", "families/flasher.toml", "advice/flasher.toml"}) {
    support::TinySources sources;
    sources.file(name) = "[[";
    const auto found = messages(read_sources(sources.write()));
    INFO(name << ": " << (found.empty() ? "" : found.back()));
    REQUIRE(found.size() == 1);
    CHECK_THAT(found[0], Catch::StartsWith(std::string(name) + ":1:") && Catch::Contains("not TOML: "));
  }
}

TEST_CASE("an empty file is refused, and so is one with comments only") {
  for (const char* text : {"", "\n\n", "# nothing here\n"}) {
    support::TinySources sources;
    sources.file("symptoms.toml") = text;
    const auto found = messages(read_sources(sources.write()));
    REQUIRE(found.size() == 1);
    CHECK(found[0] == "symptoms.toml:1:1: the file is empty");
  }
}

TEST_CASE("bytes that are not UTF-8 are refused with their place") {
  support::TinySources sources;
  sources.replace("parts/flasher.toml", "\"clicking can\"", "\"caf\xC3\xA9 \xE9\"");
  const auto found = messages(read_sources(sources.write()));
  REQUIRE(found.size() == 1);
  CHECK(found[0] == "parts/flasher.toml:5:18: this byte is not UTF-8 text; save the file as UTF-8");
}

TEST_CASE("UTF-8 letters are welcome and columns count letters") {
  support::TinySources sources;
  sources.replace("parts/flasher.toml", "[\"clicking can\"]", "[\"caf\xC3\xA9\", 3]");
  const auto found = messages(read_sources(sources.write()));
  REQUIRE(found.size() == 1);
  CHECK_THAT(found[0], Catch::StartsWith("parts/flasher.toml:5:20: "));
}

TEST_CASE("binary and hostile files give one error each and no crash") {
  const std::string deep(2000, '[');
  for (const std::string& text : {std::string("\0\1\2\3", 4), std::string(5000, '\x7f'), "a = " + deep,
                                  std::string("\xEF\xBB\xBF"), std::string("a = \"\\ud800\""), std::string("a"),
                                  std::string("[part]\n[[part]]"), std::string("a.b = 1\na.b.c = 2")}) {
    support::TinySources sources;
    sources.file("symptoms.toml") = text;
    const auto found = messages(read_sources(sources.write()));
    REQUIRE(found.size() == 1);
    CHECK_THAT(found[0], Catch::StartsWith("symptoms.toml:"));
  }
}

TEST_CASE("a missing file or folder is named") {
  for (const char* name : {"colours.toml", "basis.toml", "familiar.toml", "traits/look.toml", "traits/groups.toml"}) {
    support::TinySources sources;
    sources.remove(name);
    const auto found = messages(read_sources(sources.write()));
    INFO(name);
    REQUIRE(found.size() >= 1);
    CHECK(std::count(found.begin(), found.end(), std::string(name) + ":1:1: the file is missing") == 1);
  }
  support::TinySources sources;
  sources.remove("parts/flasher.toml");
  const auto found = messages(read_sources(sources.write()));
  REQUIRE(found.size() == 1);
  CHECK(found[0] == "parts:1:1: expected a folder with .toml files here");
}

TEST_CASE("a data directory that is not there is one error") {
  const auto report = read_sources("/nonexistent/data");
  REQUIRE(report.errors.size() == 1);
  CHECK(report.errors[0].message() == "/nonexistent/data: there is no such data directory");
}

TEST_CASE("a misspelt file or folder is not passed over") {
  support::TinySources sources;
  sources.file("colors.toml") = "x = 1";
  sources.file("part/extra.toml") = "x = 1";
  sources.file("traits/sizes.toml") = "x = 1";
  sources.file("README.md") = "read me";
  sources.file("parts/.hidden.toml") = "nonsense";
  sources.file("parts/notes.txt") = "nonsense";
  const auto found = messages(read_sources(sources.write()));
  REQUIRE(found.size() == 3);
  CHECK(found[0] == "colors.toml:1:1: unknown file or folder 'colors.toml'. Did you mean 'colours.toml'?");
  CHECK(found[1] == "part:1:1: unknown file or folder 'part'. Did you mean 'parts'?");
  CHECK(found[2] == "traits/sizes.toml:1:1: unknown file 'sizes.toml'. Did you mean 'size.toml'?");
}

TEST_CASE("a folder in place of a file is refused") {
  support::TinySources sources;
  const auto data = sources.write();
  std::filesystem::remove(data / "symptoms.toml");
  std::filesystem::create_directory(data / "symptoms.toml");
  const auto found = messages(read_sources(data));
  REQUIRE(found.size() == 1);
  CHECK_THAT(found[0], Catch::StartsWith("symptoms.toml:1:1: expected a file of TOML text here"));
}

TEST_CASE("the order in which files are written does not matter") {
  support::TinySources one;
  support::TinySources two;
  std::string& text = two.file("parts/flasher.toml");
  const std::size_t second = text.rfind("[[part]]");
  two.file("parts/a.toml") = text.substr(second);
  text.erase(second);
  const auto a = read_sources(one.write());
  const auto b = read_sources(two.write());
  REQUIRE(a.ok());
  REQUIRE(b.ok());
  CHECK(a.knowledge.parts[0].id == b.knowledge.parts[0].id);
  CHECK(a.knowledge.parts[1].claims == b.knowledge.parts[1].claims);
}

}  // namespace
}  // namespace loomkey::catalogue
