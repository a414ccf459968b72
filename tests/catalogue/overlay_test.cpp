#include "catalogue/overlay.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "catalogue/check_knowledge.h"
#include "catalogue/content_hash.h"
#include "catalogue/mistakes.h"
#include "catalogue/sources.h"
#include "support/overlay_folder.h"
#include "support/real_data.h"
#include "support/tiny_sources.h"

namespace loomkey::catalogue {
namespace {

using knowledge::Knowledge;
using support::advice_text;
using support::OverlayFolder;
using support::part_text;
using Ids = std::vector<std::string>;

Knowledge tiny(const std::string& confusions = "") {
  support::TinySources sources;
  if (!confusions.empty()) sources.file("confusions.toml") = confusions;
  SourceReport report = read_sources(sources.write());
  for (const Error& error : report.errors) UNSCOPED_INFO(error.message());
  REQUIRE(report.ok());
  report.knowledge.hash = content_hash(report.knowledge);
  return report.knowledge;
}

std::string all(const std::vector<Error>& errors) {
  std::string out;
  for (const Error& error : errors) out += error.message() + "\n";
  return out;
}

// Whatever an overlay holds, the result is fit for use and keeps its promises.
Overlaid apply(const Knowledge& shipped, const OverlayFolder& folder) {
  Overlaid overlaid = apply_overlay(shipped, folder.path());
  INFO(all(overlaid.report.mistakes));
  CHECK(check_knowledge(overlaid.knowledge).empty());
  CHECK(overlaid.knowledge.hash == content_hash(overlaid.knowledge));
  CHECK(std::is_sorted(overlaid.knowledge.parts.begin(), overlaid.knowledge.parts.end(),
                       [](const auto& a, const auto& b) { return a.id < b.id; }));
  CHECK(overlaid.report.mistakes.empty() == overlaid.report.left_out.empty());
  return overlaid;
}

const knowledge::Part& part(const Knowledge& k, const std::string& id) {
  return k.parts.at(static_cast<std::size_t>(k.part(id)));
}

std::string advice_of(const Knowledge& k, const std::string& id) {
  return k.advice.at(static_cast<std::size_t>(part(k, id).advice)).id;
}

const char* const one_set = R"([[confusion]]
id = "cans"
name = "cans and boxes"
members = ["flasher-thermal", "flasher-electronic"]
traits = ["form"]
tell = "look"
)";

}  // namespace

TEST_CASE("a new part is added and everything that ships still points where it did", "[overlay]") {
  const Knowledge shipped = tiny(one_set);
  const OverlayFolder folder;
  // Sorted before, between and behind the ids that ship.
  folder.put("advice/mine.toml", advice_text("a-first") + advice_text("flasher-z"));
  folder.put("parts/mine.toml",
             part_text("a-part", "a-first") + part_text("flasher-m", "flasher-z") + part_text("z-part", "flasher-old"));
  const Overlaid overlaid = apply(shipped, folder);
  const Knowledge& k = overlaid.knowledge;
  CHECK(all(overlaid.report.mistakes) == "");
  CHECK(overlaid.report.parts().added == Ids{"a-part", "flasher-m", "z-part"});
  CHECK(overlaid.report.parts().replaced.empty());
  CHECK(overlaid.report.items[1].added == Ids{"a-first", "flasher-z"});
  REQUIRE(k.parts.size() == 5);
  CHECK(advice_of(k, "flasher-thermal") == "flasher-old");
  CHECK(advice_of(k, "flasher-electronic") == "flasher-new");
  CHECK(advice_of(k, "a-part") == "a-first");
  CHECK(k.parts.at(static_cast<std::size_t>(part(k, "flasher-thermal").look_alikes.at(0).part)).id ==
        "flasher-electronic");
  CHECK(k.parts.at(static_cast<std::size_t>(part(k, "flasher-thermal").works_with.at(1).part)).id ==
        "flasher-electronic");
  const auto& fresh = k.advice.at(static_cast<std::size_t>(k.advice_record("flasher-new")));
  CHECK(k.advice.at(static_cast<std::size_t>(fresh.harmless_if.at(0))).id == "flasher-old");
  REQUIRE(k.confusions.size() == 1);
  CHECK(k.confusions[0].holds(k.part("flasher-thermal")));
  CHECK(k.confusions[0].holds(k.part("flasher-electronic")));
}

TEST_CASE("a part whose id ships takes its place", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  folder.put("parts/mine.toml", part_text("flasher-thermal", "flasher-old"));
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.report.parts().replaced == Ids{"flasher-thermal"});
  CHECK(overlaid.report.parts().added.empty());
  CHECK(overlaid.knowledge.parts.size() == 2);
  CHECK(part(overlaid.knowledge, "flasher-thermal").name == "part flasher-thermal");
  CHECK(part(overlaid.knowledge, "flasher-electronic").look_alikes.at(0).part ==
        overlaid.knowledge.part("flasher-thermal"));
}

TEST_CASE("an advice record, a family and a confusion set may come from an overlay", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  folder.put("advice/mine.toml", advice_text("flasher-old"));
  folder.put("families/mine.toml",
             "[[family]]\nid = \"gadget\"\nname = \"gadgets\"\ndoes = \"gleams\"\n[family.claims]\n"
             "terminal_count = \"0\"\nlead_colours = \"none\"\n");
  std::string mine = part_text("gadget-1", "flasher-old");
  mine.replace(mine.find("family = \"flasher\""), 18, "family = \"gadget\"");
  folder.put("parts/mine.toml", mine);
  folder.put("confusions.toml",
             "[[confusion]]\nid = \"all\"\nname = \"all\"\nmembers = [\"gadget-1\", \"flasher-electronic\"]\n"
             "traits = [\"form\"]\ntell = \"look\"\n");
  const Overlaid overlaid = apply(shipped, folder);
  const Knowledge& k = overlaid.knowledge;
  CHECK(all(overlaid.report.mistakes) == "");
  CHECK(overlaid.report.items[1].replaced == Ids{"flasher-old"});
  CHECK(overlaid.report.items[2].added == Ids{"gadget"});
  CHECK(overlaid.report.items[3].added == Ids{"all"});
  CHECK(k.advice.at(static_cast<std::size_t>(part(k, "flasher-thermal").advice)).title == "gadget");
  REQUIRE(k.part("gadget-1") >= 0);
  CHECK(k.claim(k.part("gadget-1"), 0, k.trait("terminal_count"))->states.at(0) == 1.0);
}

TEST_CASE("the hash names what is used: the same overlay the same, another one another", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder one;
  one.put("parts/mine.toml", part_text("mine", "flasher-old"));
  const OverlayFolder same;
  same.put("parts/other-name.toml", "# a comment\n" + part_text("mine", "flasher-old"));
  const OverlayFolder other;
  other.put("parts/mine.toml", part_text("mine", "flasher-new"));
  const OverlayFolder none;
  const std::string hash = apply(shipped, one).knowledge.hash;
  CHECK(hash != shipped.hash);
  CHECK(hash == apply(shipped, same).knowledge.hash);
  CHECK(hash != apply(shipped, other).knowledge.hash);
  CHECK(apply(shipped, none).knowledge.hash == shipped.hash);
}

TEST_CASE("a broken part is left out by file and line, the rest of the overlay is used", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  std::string broken = part_text("broken", "flasher-old");
  broken.replace(broken.find("\"stick\""), 7, "\"stikc\"");
  const std::string text = part_text("good", "flasher-old") + broken;
  const std::string place = place_of("parts/mine.toml", text, "\"stikc\"");
  folder.put("parts/mine.toml", text);
  folder.put("parts/other.toml", "[[part]\n");
  folder.put("parts/third.toml", part_text("third", "flasher-new"));
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.report.parts().added == Ids{"good", "third"});
  CHECK(overlaid.report.parts().ignored == Ids{"broken"});
  REQUIRE(overlaid.report.left_out.size() == 2);
  const Error& first = overlaid.report.left_out[0];
  CHECK(first.where == (folder.path() / place).string());
  CHECK_THAT(first.what,
             Catch::StartsWith("part 'broken' is ignored: trait 'form': unknown state 'stikc'. Did you mean 'stick'?"));
  CHECK_THAT(overlaid.report.left_out[1].message(), Catch::Contains("parts/other.toml:1"));
  CHECK(overlaid.report.mistakes.at(0).where == place);
}

TEST_CASE("a broken part that would replace another leaves the one that ships", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  folder.put("parts/mine.toml", part_text("flasher-thermal", "flasher-old", "era = 1970\n"));  // a key given twice
  folder.put("parts/more.toml", part_text("flasher-electronic", "flasher-nwe"));
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.knowledge.hash == shipped.hash);
  CHECK_THAT(all(overlaid.report.left_out), Catch::Contains("the one that ships is used: unknown advice record"));
}

TEST_CASE("what rests on something broken is left out with it, however long the chain", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  std::string chain = part_text("link-0", "flasher-odl");
  for (int i = 1; i < 6; ++i) {
    std::string link = part_text("link-" + std::to_string(i), "flasher-old");
    link.replace(link.find("works_with = []"), 15, "works_with = [\"link-" + std::to_string(i - 1) + "\"]");
    chain += link;
  }
  folder.put("parts/mine.toml", chain + part_text("free", "flasher-old"));
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.report.parts().added == Ids{"free"});
  CHECK(overlaid.report.parts().ignored.size() == 6);
  CHECK(overlaid.report.mistakes.size() == 6);
  CHECK_THAT(all(overlaid.report.mistakes), Catch::Contains("part 'link-0' is ignored for its own mistakes"));
}

TEST_CASE("a chain that is far too long gives up the overlay and not the catalogue", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  std::string chain = part_text("l0", "flasher-odl");
  for (int i = 1; i < 40; ++i) {
    std::string link = part_text("l" + std::to_string(i), "flasher-old");
    link.replace(link.find("works_with = []"), 15, "works_with = [\"l" + std::to_string(i - 1) + "\"]");
    chain += link;
  }
  folder.put("parts/mine.toml", chain);
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.knowledge.hash == shipped.hash);
  CHECK(overlaid.report.parts().added.empty());
  CHECK_THAT(all(overlaid.report.left_out), Catch::Contains("nothing of this overlay is used"));
}

TEST_CASE("advice that no part uses, twice used ids and malformed ids are mistakes", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  folder.put("advice/mine.toml", advice_text("idle"));
  folder.put("parts/mine.toml", part_text("twice", "flasher-old") + part_text("twice", "flasher-new") +
                                    part_text("Not An Id", "flasher-old"));
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.report.parts().added == Ids{"twice"});
  CHECK(advice_of(overlaid.knowledge, "twice") == "flasher-old");
  CHECK(overlaid.report.items[1].ignored == Ids{"idle"});
  CHECK(overlaid.report.mistakes.size() == 3);
  CHECK(overlaid.knowledge.advice_record("idle") == -1);
}

TEST_CASE("new traits and words are refused, and so is a family that ships", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  support::TinySources sources;
  folder.put("traits/look.toml", sources.file("traits/look.toml"));
  folder.put("basis.toml", sources.file("basis.toml"));
  folder.put("partz/mine.toml", "");
  folder.put("families/mine.toml", sources.file("families/flasher.toml"));
  folder.put("parts/mine.toml", part_text("mine", "flasher-old"));
  const Overlaid overlaid = apply(shipped, folder);
  const std::string said = all(overlaid.report.mistakes);
  CHECK_THAT(said, Catch::Contains("traits:1:1: an overlay holds parts"));
  CHECK_THAT(said, Catch::Contains("basis.toml:1:1: an overlay holds parts"));
  CHECK_THAT(said, Catch::Contains("partz:1:1: unknown file or folder of an overlay 'partz'. Did you mean 'parts'?"));
  CHECK_THAT(said, Catch::Contains("family 'flasher' ships with the catalogue; an overlay only adds families"));
  CHECK(overlaid.report.parts().added == Ids{"mine"});
}

TEST_CASE("a part may not take the advice of one it must be told apart from", "[overlay]") {
  const Knowledge shipped = tiny(one_set);
  const OverlayFolder folder;
  folder.put("parts/mine.toml", part_text("flasher-thermal", "flasher-new"));
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.knowledge.hash == shipped.hash);
  CHECK_THAT(all(overlaid.report.mistakes), Catch::Contains("the confusion set 'cans' says"));
}

TEST_CASE("a confusion set of the overlay that names a broken part goes with it", "[overlay]") {
  const Knowledge shipped = tiny();
  const OverlayFolder folder;
  folder.put("parts/mine.toml", part_text("mine", "no-such-advice"));
  folder.put("confusions.toml",
             "[[confusion]]\nid = \"all\"\nname = \"all\"\nmembers = [\"mine\", \"flasher-electronic\"]\n"
             "traits = [\"form\"]\ntell = \"look\"\n");
  const Overlaid overlaid = apply(shipped, folder);
  CHECK(overlaid.knowledge.hash == shipped.hash);
  CHECK(overlaid.report.items[3].ignored == Ids{"all"});
}

TEST_CASE("hostile overlays never spoil the catalogue", "[overlay]") {
  const Knowledge shipped = tiny();
  const std::string good = part_text("mine", "flasher-old");
  // Every prefix of a good file, and every byte of it replaced now and then.
  for (std::size_t cut = 0; cut <= good.size(); cut += 7) {
    const OverlayFolder folder;
    folder.put("parts/mine.toml", good.substr(0, cut));
    std::string spoilt = good;
    if (cut < spoilt.size()) spoilt[cut] = cut % 2 == 0 ? '\x1b' : '"';
    folder.put("parts/spoilt.toml", spoilt);
    const Overlaid overlaid = apply(shipped, folder);
    CHECK(overlaid.knowledge.parts.size() >= 2);
    for (const Error& error : overlaid.report.left_out) CHECK(error.message().find('\x1b') == std::string::npos);
  }
  CHECK_FALSE(apply_overlay(shipped, "/nonexistent/overlay").report.ok());
  CHECK(apply_overlay(shipped, "/nonexistent/overlay").knowledge.hash == shipped.hash);
  const OverlayFolder folder;
  std::filesystem::create_directories(folder.path() / "confusions.toml");
  std::filesystem::create_directories(folder.path() / "parts/folder.toml");
  folder.put("advice", "no folder");
  CHECK(apply(shipped, folder).report.left_out.size() == 3);
}

TEST_CASE("an overlay is told from whole sources by its lack of traits", "[overlay]") {
  support::TinySources sources;
  CHECK_FALSE(is_overlay(sources.write()));
  CHECK_FALSE(is_overlay(support::real_data()));
  const OverlayFolder folder;
  CHECK_FALSE(is_overlay(folder.path()));
  folder.put("parts/mine.toml", "");
  CHECK(is_overlay(folder.path()));
  CHECK_FALSE(is_overlay("/nonexistent"));
}

TEST_CASE("the shipped parts laid over themselves change nothing", "[overlay]") {
  SourceReport report = read_sources(support::real_data());
  REQUIRE(report.ok());
  report.knowledge.hash = content_hash(report.knowledge);
  const OverlayFolder folder;
  for (const char* name : {"parts", "advice"}) {
    std::filesystem::copy(support::real_data() / name, folder.path() / name);
  }
  std::filesystem::copy(support::real_data() / "confusions.toml", folder.path());
  const Overlaid overlaid = apply(report.knowledge, folder);
  CHECK(all(overlaid.report.mistakes) == "");
  CHECK(overlaid.report.parts().replaced.size() == report.knowledge.parts.size());
  CHECK(overlaid.knowledge.hash == report.knowledge.hash);
}

}  // namespace loomkey::catalogue
