#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <random>

#include <catch2/catch.hpp>
#include <sqlite3.h>

#include "catalogue/catalogue.h"
#include "catalogue/sources.h"
#include "catalogue/store.h"
#include "support/same_knowledge.h"
#include "support/tiny_sources.h"

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;
using knowledge::Knowledge;

// A written catalogue, as bytes to be spoilt.
const std::string& good_bytes() {
  static const std::string bytes = [] {
    support::TempDir dir;
    support::TinySources sources;
    const auto written = write_catalogue(read_sources(sources.write()).knowledge, dir / "c.sqlite");
    if (!written) throw std::runtime_error(written.error().message());
    return support::read_bytes(dir / "c.sqlite");
  }();
  return bytes;
}

Error refused(std::string_view bytes) {
  support::TempDir dir;
  support::write_bytes(dir / "c.sqlite", bytes);
  const auto opened = open_catalogue(dir / "c.sqlite");
  REQUIRE_FALSE(opened.has_value());
  CHECK(opened.error().where == (dir / "c.sqlite").string());
  CHECK(std::distance(fs::directory_iterator(dir.path()), fs::directory_iterator()) == 1);
  return opened.error();
}

std::string with(std::size_t at, std::string_view bytes) {
  std::string spoilt = good_bytes();
  spoilt.replace(at, bytes.size(), bytes);
  return spoilt;
}

TEST_CASE("a missing catalogue is said to be missing") {
  const auto opened = open_catalogue("/nonexistent/c.sqlite");
  REQUIRE_FALSE(opened.has_value());
  CHECK(opened.error().kind == ErrorKind::catalogue);
  CHECK(opened.error().message() == "/nonexistent/c.sqlite: there is no such catalogue");
}

TEST_CASE("a folder or a device is no catalogue") {
  support::TempDir dir;
  CHECK(open_catalogue(dir.path()).error().what == "is a folder or a device, not a catalogue");
  CHECK(open_catalogue("/dev/zero").error().what == "is a folder or a device, not a catalogue");
}

TEST_CASE("a file that is not SQLite is no catalogue") {
  CHECK(refused("hello").what == "not a loomkey catalogue: it is not an SQLite file");
  CHECK(refused(std::string(100000, '\xff')).what == "not a loomkey catalogue: it is not an SQLite file");
  CHECK(refused("").what == "the file is empty. Build the catalogue again");
  CHECK(refused("SQLite format 3").what == "cut short: 15 bytes. Build or copy it again");
}

TEST_CASE("another program's SQLite file is named as such") {
  CHECK(refused(with(68, {"\x12\x34\x56\x78", 4})).what ==
        "not a loomkey catalogue: another program's SQLite file (application id 0x12345678)");
  CHECK(refused(with(68, {"\0\0\0\0", 4})).kind == ErrorKind::catalogue);
}

TEST_CASE("newer and older formats are told apart") {
  CHECK(refused(with(60, {"\0\0\0\3", 4})).what ==
        "made by a newer loomkey: format 3, and this one reads format 2. Update loomkey");
  CHECK(refused(with(60, {"\0\0\0\1", 4})).what ==
        "made by an older loomkey: format 1, and this one reads format 2. Build it again");
}

TEST_CASE("a file cut short anywhere says so") {
  const std::string& good = good_bytes();
  for (const std::size_t length :
       {std::size_t{99}, std::size_t{100}, std::size_t{4096}, good.size() / 2, good.size() - 4096, good.size() - 1}) {
    CHECK_THAT(refused(std::string_view(good).substr(0, length)).what, Catch::StartsWith("cut short: "));
  }
  CHECK_THAT(refused(good + "x").what, Catch::StartsWith("damaged: it is too long"));
}

TEST_CASE("a catalogue of another content under the same hash is refused") {
  std::string spoilt = good_bytes();
  const std::size_t at = spoilt.find("thermal flasher can");
  REQUIRE(at != std::string::npos);
  spoilt[at] = 'T';
  CHECK(refused(spoilt).what == "damaged: its content does not match its hash. Build or copy it again");
}

TEST_CASE("flipped bits are found, or change nothing") {
  support::TempDir dir;
  const fs::path path = dir / "c.sqlite";
  support::write_bytes(path, good_bytes());
  const auto good = open_catalogue(path);
  REQUIRE(good.has_value());
  const unsigned seed = 20240501;
  std::mt19937 random(seed);
  std::uniform_int_distribution<std::size_t> byte(0, good_bytes().size() - 1);
  int found = 0;
  for (int round = 0; round < 600; ++round) {
    std::string spoilt = good_bytes();
    // The first half of the rounds goes for the schema and the first pages, which hold the most.
    std::size_t at = round % 2 == 0 ? byte(random) % 16384 : byte(random);
    // Most of a small catalogue is empty space, where a flip is no damage.
    while (spoilt[at] == 0) at = (at + 1) % spoilt.size();
    spoilt[at] = static_cast<char>(static_cast<unsigned char>(spoilt[at]) ^ (1U << (random() % 8U)));
    support::write_bytes(path, spoilt);
    const auto opened = open_catalogue(path);
    INFO("seed " << seed << ", round " << round << ", byte " << at);
    if (opened) {
      REQUIRE(support::differences(*good->knowledge(), *opened->knowledge()) == std::vector<std::string>{});
      REQUIRE(opened->search("flasher", 9).size() == good->search("flasher", 9).size());
    } else {
      ++found;
      REQUIRE_FALSE(opened.error().what.empty());
      REQUIRE(opened.error().kind == ErrorKind::catalogue);
    }
  }
  CHECK(found > 300);
}

TEST_CASE("pages swapped, cleared or filled with noise are found") {
  std::mt19937 random(7);
  constexpr std::size_t page = 4096;
  const std::size_t pages = good_bytes().size() / page;
  support::TempDir dir;
  const fs::path path = dir / "c.sqlite";
  support::write_bytes(path, good_bytes());
  const auto good = open_catalogue(path);
  REQUIRE(good.has_value());
  for (int round = 0; round < 150; ++round) {
    std::string spoilt = good_bytes();
    const std::size_t a = random() % pages;
    const std::size_t b = random() % pages;
    if (round % 3 == 0) std::swap_ranges(&spoilt[a * page], &spoilt[a * page] + page, &spoilt[b * page]);
    if (round % 3 == 1) std::fill_n(&spoilt[a * page + 100], page - 100, '\0');
    if (round % 3 == 2) std::generate_n(&spoilt[a * page + 100], 200, [&] { return static_cast<char>(random()); });
    support::write_bytes(path, spoilt);
    const auto opened = open_catalogue(path);
    if (opened) {
      REQUIRE(support::differences(*good->knowledge(), *opened->knowledge()) == std::vector<std::string>{});
    }
  }
}

// Rebuilds the hash after a change made with SQL, as an attacker would: only the judging of rows is left then.
Result<Catalogue> open_forged(const support::TempDir& dir, const std::string& sql) {
  const fs::path path = dir / "forged.sqlite";
  support::write_bytes(path, good_bytes());
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(path.c_str(), &database) == SQLITE_OK);
  char* why = nullptr;
  const std::string all = "PRAGMA ignore_check_constraints = ON; PRAGMA writable_schema = ON; " + sql;
  const int outcome = sqlite3_exec(database, all.c_str(), nullptr, nullptr, &why);
  INFO((why == nullptr ? "" : why));
  REQUIRE(outcome == SQLITE_OK);
  sqlite3_close(database);
  return open_catalogue(path);
}

TEST_CASE("rows that cannot be true are refused when they are read") {
  support::TempDir dir;
  for (const char* sql : {
           "UPDATE part SET family = 99 WHERE idx = 0",
           "UPDATE part SET idx = 7 WHERE idx = 1",
           "UPDATE claim SET trait = -1 WHERE idx = 0",
           "UPDATE claim_state SET state = 9 WHERE claim = (SELECT min(claim) FROM claim_state) AND state = 0",
           "UPDATE part SET first_year = 1000000000000",
           "UPDATE trait SET kind = 9 WHERE idx = 0",
           "UPDATE trait SET effort = 44 WHERE idx = 0",
           "UPDATE trait SET low = 9e999 WHERE idx = 6",
           "UPDATE part_condition SET kind = 1 WHERE idx = 0",
           "UPDATE part SET name = 'x' || char(27) || '[31m'",
           "UPDATE part SET name = CAST(x'ff41' AS TEXT)",
           "DELETE FROM trait_state WHERE trait = 0 AND seq = 1",
           "DELETE FROM setting",
           "DELETE FROM meta",
           "DELETE FROM part_condition",
           "DELETE FROM effort",
           "DROP TABLE claim_set_item",
           "ALTER TABLE part RENAME COLUMN strays TO wanders",
           "UPDATE meta SET value = printf('%064d', 0)",
           "INSERT INTO part_search (part_search) VALUES ('delete-all')",
       }) {
    INFO(sql);
    const auto opened = open_forged(dir, sql);
    REQUIRE_FALSE(opened.has_value());
    CHECK_THAT(opened.error().what, Catch::StartsWith("damaged: "));
  }
}

TEST_CASE("views and triggers in a file from outside are never run") {
  support::TempDir dir;
  const auto opened =
      open_forged(dir, "ALTER TABLE part RENAME TO part_real; CREATE VIEW part AS SELECT * FROM part_real");
  REQUIRE_FALSE(opened.has_value());
}

TEST_CASE("a read-only catalogue in a read-only folder works and nothing is made beside it") {
  support::TempDir dir;
  fs::create_directory(dir / "folder");
  const fs::path path = dir / "folder/odd name?#%41&.sqlite";
  support::write_bytes(path, good_bytes());
  fs::permissions(path, fs::perms::owner_read);
  fs::permissions(dir / "folder", fs::perms::owner_read | fs::perms::owner_exec);
  const auto opened = open_catalogue(path);
  CHECK(opened.has_value());
  if (opened) CHECK(opened->search("flasher", 5).size() == 2);
  CHECK(std::distance(fs::directory_iterator(dir / "folder"), fs::directory_iterator()) == 1);
  fs::permissions(dir / "folder", fs::perms::owner_all);
}

TEST_CASE("a catalogue that may not be read says so") {
  support::TempDir dir;
  const fs::path path = dir / "c.sqlite";
  support::write_bytes(path, good_bytes());
  fs::permissions(path, fs::perms::none);
  fs::permissions(dir.path(), fs::perms::all);
  // Root may read everything, so a child process gives its rights up first.
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    if (::geteuid() == 0 && ::setuid(65534) != 0) ::_exit(2);
    const auto opened = open_catalogue(path);
    const bool right = !opened && opened.error().kind == ErrorKind::storage &&
                       opened.error().what == "cannot be read: Permission denied";
    ::_exit(right ? 0 : 1);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  CHECK(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
}

TEST_CASE("knowledge outlives its catalogue, and an open catalogue outlives its file") {
  support::TempDir dir;
  const fs::path path = dir / "c.sqlite";
  support::write_bytes(path, good_bytes());
  std::shared_ptr<const Knowledge> knowledge;
  {
    auto opened = open_catalogue(path);
    REQUIRE(opened.has_value());
    fs::remove(path);
    const Catalogue moved = std::move(*opened);
    CHECK(moved.search("thermal", 5).size() == 1);
    knowledge = moved.knowledge();
  }
  CHECK(knowledge->parts.size() == 2);
}

}  // namespace
}  // namespace loomkey::catalogue
