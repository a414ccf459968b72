#include "catalogue/locate.h"

#include <catch2/catch.hpp>

#include "support/temp_dir.h"

namespace loomkey::catalogue {
namespace {

// A machine on which files may exist at every place that is searched.
struct Machine {
  support::TempDir dir;
  Surroundings surroundings;

  Machine() {
    surroundings.executable = dir / "usr/bin/loomkey";
    surroundings.xdg_data_home = (dir / "data").string();
    surroundings.home = (dir / "home").string();
  }
  std::filesystem::path put(std::string_view name) const {
    support::write_bytes(dir / name, "x");
    return dir / name;
  }
};

TEST_CASE("a catalogue named in the environment wins") {
  Machine machine;
  machine.put("usr/share/loomkey/catalogue.sqlite");
  const auto named = machine.put("mine.sqlite");
  machine.surroundings.loomkey_catalogue = named.string();
  CHECK(locate_catalogue(machine.surroundings).value() == named);
}

TEST_CASE("a catalogue named in the environment that is not there is an error, not a reason to take another") {
  Machine machine;
  machine.put("usr/share/loomkey/catalogue.sqlite");
  machine.surroundings.loomkey_catalogue = "/nonexistent/mine.sqlite";
  const auto found = locate_catalogue(machine.surroundings);
  REQUIRE_FALSE(found.has_value());
  CHECK(found.error().message() ==
        "/nonexistent/mine.sqlite: LOOMKEY_CATALOGUE names this file, and it does not exist");
}

TEST_CASE("installed comes before the user's own, and that before the build tree") {
  Machine machine;
  const auto built = machine.put("usr/bin/catalogue.sqlite");
  CHECK(locate_catalogue(machine.surroundings).value() == built);
  const auto own = machine.put("data/loomkey/catalogue.sqlite");
  CHECK(locate_catalogue(machine.surroundings).value() == own);
  const auto installed = machine.put("usr/share/loomkey/catalogue.sqlite");
  CHECK(locate_catalogue(machine.surroundings).value() == installed);
}

TEST_CASE("the user's data folder has its usual place when no variable names it") {
  Machine machine;
  const auto own = machine.put("home/.local/share/loomkey/catalogue.sqlite");
  CHECK_FALSE(locate_catalogue(machine.surroundings).has_value());
  machine.surroundings.xdg_data_home.reset();
  CHECK(locate_catalogue(machine.surroundings).value() == own);
  machine.surroundings.xdg_data_home = "relative/is/ignored";
  CHECK(locate_catalogue(machine.surroundings).value() == own);
}

TEST_CASE("when nothing is found, every place is listed") {
  Machine machine;
  const auto found = locate_catalogue(machine.surroundings);
  REQUIRE_FALSE(found.has_value());
  CHECK(found.error().kind == ErrorKind::catalogue);
  for (const char* place :
       {"usr/share/loomkey/catalogue.sqlite", "data/loomkey/catalogue.sqlite", "usr/bin/catalogue.sqlite"}) {
    CHECK_THAT(found.error().what, Catch::Contains((machine.dir / place).string()));
  }
  CHECK_THAT(locate_catalogue({}).error().what, Catch::Contains("nowhere"));
}

TEST_CASE("the overlay is the folder in the user's data folder, if there is one") {
  Machine machine;
  CHECK_FALSE(locate_overlay(machine.surroundings).value().has_value());
  machine.put("data/loomkey/overlay/parts/mine.toml");
  CHECK(locate_overlay(machine.surroundings).value() == machine.dir / "data/loomkey/overlay");
  machine.surroundings.xdg_data_home.reset();
  CHECK_FALSE(locate_overlay(machine.surroundings).value().has_value());
  machine.put("home/.local/share/loomkey/overlay/parts/mine.toml");
  CHECK(locate_overlay(machine.surroundings).value() == machine.dir / "home/.local/share/loomkey/overlay");
  CHECK_FALSE(locate_overlay({}).value().has_value());
}

TEST_CASE("an overlay named in the environment wins, and must be there") {
  Machine machine;
  machine.put("data/loomkey/overlay/parts/mine.toml");
  machine.put("club/parts/theirs.toml");
  machine.surroundings.loomkey_overlay = (machine.dir / "club").string();
  CHECK(locate_overlay(machine.surroundings).value() == machine.dir / "club");
  machine.surroundings.loomkey_overlay = "/nonexistent/club";
  const auto found = locate_overlay(machine.surroundings);
  REQUIRE_FALSE(found.has_value());
  CHECK(found.error().message() == "/nonexistent/club: LOOMKEY_OVERLAY names this folder, and it does not exist");
}

}  // namespace
}  // namespace loomkey::catalogue
