#include "catalogue/store.h"

#include <sys/resource.h>
#include <sys/stat.h>

#include <csignal>
#include <filesystem>

#include <catch2/catch.hpp>
#include <sqlite3.h>

#include "catalogue/catalogue.h"
#include "catalogue/content_hash.h"
#include "catalogue/sources.h"
#include "support/real_data.h"
#include "support/same_knowledge.h"
#include "support/tiny_sources.h"

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;
using knowledge::Knowledge;

Knowledge tiny() {
  support::TinySources sources;
  return read_sources(sources.write()).knowledge;
}

TEST_CASE("knowledge comes back from the file as it went in") {
  support::TempDir dir;
  const Knowledge before = tiny();
  REQUIRE(write_catalogue(before, dir / "catalogue.sqlite").has_value());
  const auto opened = open_catalogue(dir / "catalogue.sqlite");
  REQUIRE(opened.has_value());
  CHECK(support::differences(before, *opened->knowledge()) == std::vector<std::string>{});
  CHECK(opened->knowledge()->hash == content_hash(before));
  CHECK(opened->path() == dir / "catalogue.sqlite");
}

TEST_CASE("the shipped sources are without fault and come back as they went in") {
  support::TempDir dir;
  const SourceReport report = read_sources(support::real_data());
  for (const Error& error : report.errors) UNSCOPED_INFO(error.message());
  REQUIRE(report.errors.empty());
  REQUIRE(write_catalogue(report.knowledge, dir / "catalogue.sqlite").has_value());
  const auto opened = open_catalogue(dir / "catalogue.sqlite");
  REQUIRE(opened.has_value());
  CHECK(support::differences(report.knowledge, *opened->knowledge()) == std::vector<std::string>{});
}

TEST_CASE("the comparison sees a change anywhere") {
  const Knowledge a = tiny();
  Knowledge b = a;
  b.parts[1].conditions[2].claims[0].states[1] += 0.001;
  b.traits[0].seen[1][0] = 0.5;
  b.advice[1].substitutes[0].when.pop_back();
  CHECK(support::differences(a, b) ==
        std::vector<std::string>{"traits[0].seen", "advice[1].substitutes[0].when", "parts[1].conditions[2].claims"});
}

TEST_CASE("the same knowledge gives the same bytes") {
  support::TempDir dir;
  REQUIRE(write_catalogue(tiny(), dir / "a.sqlite").has_value());
  REQUIRE(write_catalogue(tiny(), dir / "b.sqlite").has_value());
  CHECK(support::read_bytes(dir / "a.sqlite") == support::read_bytes(dir / "b.sqlite"));
}

TEST_CASE("any change of content changes the hash") {
  const Knowledge a = tiny();
  const std::string hash = content_hash(a);
  CHECK(hash.size() == 64);
  Knowledge b = a;
  b.hash = "ignored";
  CHECK(content_hash(b) == hash);
  b.parts[0].claims[0].states[0] += 1e-15;
  CHECK(content_hash(b) != hash);
  Knowledge c = a;
  std::swap(c.advice[0].cautions[0], c.advice[0].cautions[1]);
  CHECK(content_hash(c) != hash);
  Knowledge d = a;
  d.parts[0].aliases.push_back("x");
  CHECK(content_hash(d) != hash);
  Knowledge e = a;
  e.parts[0].where += e.parts[0].strays.substr(0, 1);
  e.parts[0].strays.erase(0, 1);
  CHECK(content_hash(e) != hash);
}

TEST_CASE("SHA-256 agrees with the published test value") {
  // FIPS 180-2, appendix B.1: the one-block message "abc".
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST_CASE("SQLite's own check finds nothing to say about a written file") {
  support::TempDir dir;
  REQUIRE(write_catalogue(tiny(), dir / "c.sqlite").has_value());
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open_v2((dir / "c.sqlite").c_str(), &database, SQLITE_OPEN_READONLY, nullptr) == SQLITE_OK);
  std::vector<std::string> answers;
  const auto note = [](void* to, int count, char** values, char**) {
    if (count > 0) static_cast<std::vector<std::string>*>(to)->emplace_back(values[0]);
    return 0;
  };
  CHECK(sqlite3_exec(database, "PRAGMA integrity_check; PRAGMA foreign_key_check; PRAGMA freelist_count", note,
                     &answers, nullptr) == SQLITE_OK);
  sqlite3_close(database);
  CHECK(answers == std::vector<std::string>{"ok", "0"});
}

TEST_CASE("knowledge that could not be read back is not written") {
  support::TempDir dir;
  const auto refused = [&](auto spoil) {
    Knowledge k = tiny();
    spoil(k);
    const auto written = write_catalogue(k, dir / "c.sqlite");
    REQUIRE_FALSE(written.has_value());
    CHECK(written.error().kind == ErrorKind::catalogue);
    CHECK_FALSE(fs::exists(dir / "c.sqlite"));
    CHECK(fs::is_empty(dir.path()));
  };
  refused([](Knowledge& k) { k.parts[0].family = 7; });
  refused([](Knowledge& k) { k.parts[0].claims[0].trait = 99; });
  refused([](Knowledge& k) { k.parts[0].claims[0].states.pop_back(); });
  refused([](Knowledge& k) { k.parts[0].conditions.clear(); });
  refused([](Knowledge& k) { k.parts[1].id = k.parts[0].id; });
  refused([](Knowledge& k) { k.parts[0].name = "bell \a"; });
  refused([](Knowledge& k) { k.parts[0].conditions[0].share = 0.9; });
  refused([](Knowledge& k) { k.traits[0].seen.clear(); });
  refused([](Knowledge& k) { k.parts[1].look_alikes[0].part = 1; });
  refused([](Knowledge& k) { k.parts[0].claims.push_back(k.parts[0].claims[0]); });
}

TEST_CASE("an old catalogue is replaced as a whole, or left alone") {
  support::TempDir dir;
  const fs::path out = dir / "c.sqlite";
  support::write_bytes(out, "old");
  Knowledge bad = tiny();
  bad.parts[0].advice = 99;
  REQUIRE_FALSE(write_catalogue(bad, out).has_value());
  CHECK(support::read_bytes(out) == "old");
  REQUIRE(write_catalogue(tiny(), out).has_value());
  CHECK(open_catalogue(out).has_value());
  CHECK(std::distance(fs::directory_iterator(dir.path()), fs::directory_iterator()) == 1);
}

TEST_CASE("a catalogue is readable for everybody the umask allows") {
  support::TempDir dir;
  const mode_t before = ::umask(022);
  REQUIRE(write_catalogue(tiny(), dir / "c.sqlite").has_value());
  ::umask(before);
  struct stat status {};
  REQUIRE(::stat((dir / "c.sqlite").c_str(), &status) == 0);
  CHECK((status.st_mode & 0777U) == 0644U);
}

TEST_CASE("a link is followed, and the link stays") {
  support::TempDir dir;
  fs::create_directory(dir / "real");
  fs::create_symlink(dir / "real" / "c.sqlite", dir / "link.sqlite");
  REQUIRE(write_catalogue(tiny(), dir / "link.sqlite").has_value());
  CHECK(fs::is_symlink(dir / "link.sqlite"));
  CHECK(open_catalogue(dir / "real" / "c.sqlite").has_value());
}

TEST_CASE("places that cannot be written to give one error") {
  support::TempDir dir;
  fs::create_directory(dir / "folder");
  const auto refused = [](const fs::path& out) {
    const auto written = write_catalogue(tiny(), out);
    REQUIRE_FALSE(written.has_value());
    CHECK(written.error().kind == ErrorKind::storage);
    return written.error().what;
  };
  CHECK(refused(dir / "folder") == "is a folder or a device and will not be replaced");
  CHECK(refused("/dev/null") == "is a folder or a device and will not be replaced");
  CHECK(refused(dir / "nowhere/c.sqlite") == "there is no folder to put it in");
  CHECK(refused("") == "expected the name of a file to write");
  CHECK(fs::is_character_file("/dev/null"));
}

TEST_CASE("a write that the system cuts off leaves nothing behind") {
  support::TempDir dir;
  const Knowledge k = tiny();
  struct rlimit old {};
  ::getrlimit(RLIMIT_FSIZE, &old);
  const auto previous = ::signal(SIGXFSZ, SIG_IGN);
  struct rlimit small = old;
  small.rlim_cur = 20000;
  ::setrlimit(RLIMIT_FSIZE, &small);
  const auto written = write_catalogue(k, dir / "c.sqlite");
  ::setrlimit(RLIMIT_FSIZE, &old);
  ::signal(SIGXFSZ, previous);
  REQUIRE_FALSE(written.has_value());
  CHECK(written.error().kind == ErrorKind::storage);
  CHECK(fs::is_empty(dir.path()));
}

}  // namespace
}  // namespace loomkey::catalogue
