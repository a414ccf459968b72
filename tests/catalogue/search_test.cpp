#include <random>

#include <catch2/catch.hpp>

#include "catalogue/catalogue.h"
#include "catalogue/overlay.h"
#include "catalogue/search_index.h"
#include "catalogue/sources.h"
#include "catalogue/store.h"
#include "support/overlay_folder.h"
#include "support/tiny_sources.h"

namespace loomkey::catalogue {
namespace {

// Holds its file as long as it lives.
struct Opened {
  support::TempDir dir;
  Catalogue catalogue = [this] {
    support::TinySources sources;
    const auto written = write_catalogue(read_sources(sources.write()).knowledge, dir / "c.sqlite");
    if (!written) throw std::runtime_error(written.error().message());
    auto opened = open_catalogue(dir / "c.sqlite");
    if (!opened) throw std::runtime_error(opened.error().message());
    return std::move(*opened);
  }();

  std::vector<std::string> ids(std::string_view words, std::size_t limit = 10) const {
    std::vector<std::string> out;
    for (const SearchHit& hit : catalogue.search(words, limit)) {
      out.push_back(catalogue.knowledge()->parts[static_cast<std::size_t>(hit.part)].id);
    }
    return out;
  }
};

using Ids = std::vector<std::string>;

TEST_CASE("a search finds names, aliases, foreign terms, wrong names and functions") {
  const Opened opened;
  CHECK(opened.ids("electronic flasher") == Ids{"flasher-electronic"});
  CHECK(opened.ids("clicking") == Ids{"flasher-thermal"});
  CHECK(opened.ids("blinkgeber") == Ids{"flasher-thermal"});
  CHECK(opened.ids("relay") == Ids{"flasher-thermal"});
  CHECK(opened.ids("by heat") == Ids{"flasher-thermal"});
  CHECK(opened.ids("flasher-electronic") == Ids{"flasher-electronic"});
}

TEST_CASE("case, endings and a half-typed last word do not matter") {
  const Opened opened;
  CHECK(opened.ids("CLICK") == Ids{"flasher-thermal"});
  CHECK(opened.ids("relays") == Ids{"flasher-thermal"});
  CHECK(opened.ids("thermal fla") == Ids{"flasher-thermal"});
  CHECK(opened.ids("flashing indicator").size() == 2);
}

TEST_CASE("a name counts for more than a description") {
  const Opened opened;
  const auto hits = opened.catalogue.search("thermal", 5);
  REQUIRE(hits.size() >= 1);
  CHECK(hits[0].part == 1);
  for (std::size_t i = 1; i < hits.size(); ++i) CHECK(hits[i - 1].score >= hits[i].score);
}

TEST_CASE("words that no part holds together find parts that hold some") {
  const Opened opened;
  CHECK(opened.ids("clicking thing from grandfather") == Ids{"flasher-thermal"});
  CHECK(opened.ids("xylophone").empty());
}

TEST_CASE("parts of an overlay are found like those that ship") {
  Opened opened;
  const support::OverlayFolder folder;
  folder.put("parts/mine.toml", support::part_text("a-gleamer", "flasher-old"));
  Overlaid overlaid = apply_overlay(*opened.catalogue.knowledge(), folder.path());
  REQUIRE(overlaid.report.ok());
  opened.catalogue = std::move(opened.catalogue).with(std::move(overlaid.knowledge));
  CHECK(opened.ids("gadget") == Ids{"a-gleamer"});
  CHECK(opened.ids("blinkgeber") == Ids{"flasher-thermal"});
  CHECK(opened.ids("electronic flasher") == Ids{"flasher-electronic"});
  CHECK(opened.ids("NEAR(").empty());
}

TEST_CASE("the limit is kept") {
  const Opened opened;
  CHECK(opened.ids("flasher", 1).size() == 1);
  CHECK(opened.ids("flasher", 0).empty());
  CHECK(opened.ids("flasher", static_cast<std::size_t>(-1)).size() == 2);
}

TEST_CASE("no text is a syntax error") {
  const Opened opened;
  for (const char* text : {"",
                           " ",
                           "\"",
                           "\"\"",
                           "'",
                           "*",
                           "^",
                           "NEAR(",
                           "NOT",
                           "AND",
                           "OR OR",
                           "names:",
                           "names: flasher",
                           "a AND",
                           "{a b}: c",
                           "- flasher",
                           "+",
                           "((((",
                           "--",
                           ";",
                           "%",
                           "\\",
                           "\x1b[31m",
                           "\xff\xfe",
                           "\xc3",
                           "flasher\" OR \"1",
                           "'; DROP TABLE part; --",
                           "\xE2\x80\xAE"}) {
    INFO(text);
    CHECK_NOTHROW(opened.ids(text));
  }
  CHECK(opened.ids("\" flasher )) AND") == opened.ids("flasher and"));
  CHECK(opened.ids(std::string("flas\0her", 8)).size() <= 2);
  CHECK_NOTHROW(opened.ids(std::string(1000000, 'a')));
  CHECK_NOTHROW(opened.ids(std::string(1000000, '"')));
  std::string many;
  for (int i = 0; i < 10000; ++i) many += "word" + std::to_string(i) + ' ';
  CHECK_NOTHROW(opened.ids(many));
}

TEST_CASE("random bytes are searched without complaint") {
  const Opened opened;
  std::mt19937 random(11);
  for (int round = 0; round < 300; ++round) {
    std::string text;
    for (unsigned i = 0; i < random() % 40U; ++i) text += static_cast<char>(random());
    CHECK_NOTHROW(opened.ids(text));
  }
}

TEST_CASE("a text is cut into words as the index cuts it") {
  CHECK(search_words("AL, WL and E+") == std::vector<std::string>{"AL", "WL", "and", "E"});
  CHECK(search_words("  ").empty());
  CHECK(search_words("t\xC3\xA9moin") == std::vector<std::string>{"t\xC3\xA9moin"});
}

}  // namespace
}  // namespace loomkey::catalogue
