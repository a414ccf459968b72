#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "bench/trial_knowledge.h"
#include "report/diff_document.h"
#include "report/page_checks.h"
#include "report/text.h"

using namespace loomkey;
using knowledge::Knowledge;
using support::contains;

namespace {

// The hand-made catalogue with names to read, and as it might be a year later.
struct Pair {
  std::shared_ptr<Knowledge> was = support::clean_knowledge();
  std::shared_ptr<Knowledge> is = support::clean_knowledge();

  Pair() {
    for (Knowledge* k : {was.get(), is.get()}) {
      k->traits[0].name = "overall form";
      k->hash = k == was.get() ? std::string(64, 'a') : std::string(64, 'b');
    }
  }
  [[nodiscard]] std::string page() const {
    const auto diff = bench::catalogue_diff(*was, *is);
    return report::to_text(report::diff_document({*was, *is, diff}));
  }
  [[nodiscard]] nlohmann::json data() const {
    const auto diff = bench::catalogue_diff(*was, *is);
    return nlohmann::json::parse(report::diff_json({*was, *is, diff}));
  }
};

}  // namespace

TEST_CASE("two that are identical are called so") {
  Pair pair;
  pair.is->hash = pair.was->hash;
  CHECK(contains(pair.page(), "Nothing: the two are identical."));
  CHECK(pair.data()["identical"] == true);
}

TEST_CASE("only the place of a claim differs: the page says that nothing else does") {
  const Pair pair;
  CHECK(contains(support::unfolded(pair.page()), "They claim the same of every part"));
  CHECK(pair.data()["identical"] == false);
}

TEST_CASE("a changed claim reads as what was and what is now") {
  const Pair pair;
  pair.is->parts[1].claims[0] = support::choice_claim(0, 8, 6);
  pair.is->parts[2].claims.erase(pair.is->parts[2].claims.begin());
  pair.is->parts[3].note = "mind the thread";
  const std::string words = support::unfolded(pair.page());
  CHECK(contains(words, "parts 3 changed"));
  CHECK(contains(words, "part-1 - overall form: was 1; now 6"));
  CHECK(contains(words, "part-2 - overall form: was 2; now nothing"));
  CHECK(contains(words, "part-3 - note: was nothing; now mind the thread"));
}

TEST_CASE("shares that read the same in words are told in figures") {
  const Pair pair;
  pair.was->parts[1].claims[0].states = {0.9, 0.1, 0, 0, 0, 0, 0, 0};
  pair.is->parts[1].claims[0].states = {0.88, 0.12, 0, 0, 0, 0, 0, 0};
  CHECK(contains(support::unfolded(pair.page()), "overall form: was 0 90 %, 1 10 %; now 0 88 %, 1 12 %"));
  pair.is->parts[1].claims[0].states = {0.90001, 0.09999, 0, 0, 0, 0, 0, 0};
  CHECK(contains(support::unfolded(pair.page()), "was 0 0.9, 1 0.1; now 0 0.90001, 1 0.09999"));
}

TEST_CASE("additions, renamed parts and split classes are counted and listed") {
  const Pair pair;
  pair.is->parts[4].id = "renamed";
  pair.is->parts[5].advice = 6;
  pair.is->parts.push_back(pair.is->parts[0]);
  pair.is->parts.back().id = "fresh";
  pair.is->parts.back().name = "brand new";
  const std::string words = support::unfolded(pair.page());
  CHECK(contains(words, "parts 1 added, 1 renamed, 1 changed"));
  CHECK(contains(words, "fresh (brand new)"));
  CHECK(contains(words, "part-4 is now renamed"));
  CHECK(contains(words, "the advice classes advice-5 and advice-6 are one now: advice-6"));
  const auto data = pair.data();
  CHECK(data["schema"] == "loomkey/diff/1");
  CHECK(data["kinds"][0]["kind"] == "part");
  CHECK(data["kinds"][0]["added"][0]["id"] == "fresh");
  CHECK(data["kinds"][0]["renamed"][0]["was"] == "part-4");
  CHECK(data["merged"][0]["of"].size() == 2);
}

TEST_CASE("as data a claim that was or is not stated is null") {
  const Pair pair;
  pair.is->parts[2].claims.erase(pair.is->parts[2].claims.begin());
  const auto claim = pair.data()["kinds"][0]["changed"][0]["claims"][0];
  CHECK(claim["trait"] == "look-0");
  CHECK(claim["was"] == "2");
  CHECK(claim["is"].is_null());
}

TEST_CASE("hostile and endless texts stay within the page") {
  const Pair pair;
  pair.is->parts[1].note = "\x1b[31m\xE2\x80\xAE" + std::string(500, 'n') + "\n- forged: was a; now b";
  pair.is->parts[1].name = "\x1b]0;title\x07";
  const std::string page = pair.page();
  CHECK(support::widest_line(page) <= 80);
  CHECK(support::is_clean(page));
  CHECK_FALSE(contains(page, "\n- forged"));
}
