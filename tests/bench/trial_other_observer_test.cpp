#include "bench/trial_other_observer.h"

#include <array>
#include <cmath>
#include <map>
#include <memory>
#include <thread>

#include <catch2/catch.hpp>

#include "bench/trial_knowledge.h"
#include "catalogue/sources.h"
#include "support/real_data.h"

using namespace loomkey;
using bench::AlteredBike;
using bench::draw_object;
using bench::OtherEyes;
using bench::OtherObserver;
using bench::OtherPeople;
using bench::same_answer;
using bench::seed_for;
using bench::TraitSampler;
using evidence::Value;

namespace {

const inference::Model& shipped() {
  static const inference::Model model(
      std::make_shared<const knowledge::Knowledge>(catalogue::read_sources(support::real_data()).knowledge));
  return model;
}

const TraitSampler& shipped_sampler() {
  static const TraitSampler sampler(shipped());
  return sampler;
}

// People of the shipped catalogue; made once for each share.
const OtherPeople& shipped_people(double wrong) {
  static std::map<double, OtherPeople> all;
  return all.try_emplace(wrong, shipped(), shipped_sampler(), wrong).first->second;
}

struct Share {
  int given = 0;
  int wrong = 0;
  [[nodiscard]] double share() const { return static_cast<double>(wrong) / given; }
};

// Over every trait of so many objects, none of them in the sample that the people were fitted to.
Share wrong_answers(const OtherPeople& people, int objects, bool meter_traits) {
  Share out;
  const auto& knowledge = people.model().knowledge();
  for (int n = 0; n < objects; ++n) {
    const std::uint64_t seed = seed_for(4711, static_cast<std::uint64_t>(n));
    const OtherObserver person(people, {.cannot_tell = 0.2}, draw_object(knowledge, seed, n, false, -1), seed);
    for (int t = 0; t < people.model().trait_count(); ++t) {
      if (!meter_traits && knowledge.traits[static_cast<std::size_t>(t)].layer == knowledge::Layer::meter) continue;
      const Value value = person.answer(t).value;
      if (!value.informs()) continue;
      ++out.given;
      if (!same_answer(value, person.truth(t))) ++out.wrong;
    }
  }
  return out;
}

Value number(double at) {
  Value value;
  value.kind = Value::Kind::interval;
  value.interval = {at, at};
  return value;
}

Value state(const char* trait, const char* id) {
  const auto& knowledge = shipped().knowledge();
  Value value;
  value.kind = Value::Kind::state;
  value.state = knowledge.state(knowledge.trait(trait), id);
  REQUIRE(value.state >= 0);
  return value;
}

Value items(std::vector<std::string> list) {
  Value value;
  value.kind = Value::Kind::set;
  value.items = std::move(list);
  return value;
}

int trait(const char* id) {
  const int found = shipped().knowledge().trait(id);
  REQUIRE(found >= 0);
  return found;
}

constexpr double everybody = 100.0;  // every habit is on

}  // namespace

TEST_CASE("of the answers that other people give, 0, 10 and 20 in a hundred are wrong, to a point", "[trial]") {
  CHECK(wrong_answers(shipped_people(0.0), 200, true).wrong == 0);
  for (const double wanted : {0.1, 0.2}) {
    const OtherPeople& people = shipped_people(wanted);
    CHECK(wrong_answers(people, 1500, true).share() == Approx(wanted).margin(0.01));
    CHECK(wrong_answers(people, 1500, false).share() == Approx(wanted).margin(0.01));
  }
}

TEST_CASE("other people are silent as often as they are said to be", "[trial]") {
  int silent = 0;
  constexpr int objects = 300;
  const OtherPeople& people = shipped_people(0.0);
  for (std::uint64_t seed = 0; seed < objects; ++seed) {
    const OtherObserver person(people, {.cannot_tell = 0.2}, {0, 0}, seed);
    for (int t = 0; t < shipped().trait_count(); ++t) {
      if (person.answer(t).value.kind == Value::Kind::cannot_tell) ++silent;
    }
  }
  CHECK(silent == Approx(0.2 * objects * shipped().trait_count()).epsilon(0.05));
}

TEST_CASE("other people give the same answers in whatever order and thread they are asked", "[trial]") {
  const OtherPeople& people = shipped_people(0.2);
  const OtherPeople again(shipped(), shipped_sampler(), 0.2);
  const auto answers = [&](const OtherPeople& crowd, bool backwards) {
    std::map<int, evidence::Reading> out;
    const OtherObserver person(crowd, {.cannot_tell = 0.1, .doubts = true}, {7, 1}, 99);
    const int count = shipped().trait_count();
    for (int i = 0; i < count; ++i) {
      const int t = backwards ? count - 1 - i : i;
      out[t] = person.answer(t);
    }
    return out;
  };
  const auto forwards = answers(people, false);
  auto elsewhere = forwards;
  std::thread([&] { elsewhere = answers(again, true); }).join();
  for (const auto& [t, reading] : forwards) {
    CHECK(reading.value == elsewhere[t].value);
    CHECK(reading.certainty == elsewhere[t].certainty);
  }
  const OtherObserver another(people, {}, {7, 1}, 100);
  int differ = 0;
  for (const auto& [t, reading] : forwards) differ += another.answer(t).value == reading.value ? 0 : 1;
  CHECK(differ > 0);
}

TEST_CASE("both kinds of people hold the same object", "[trial]") {
  for (std::uint64_t seed = 0; seed < 50; ++seed) {
    const bench::TrialObject object = draw_object(shipped().knowledge(), seed, 0, false, -1);
    const bench::Observer own(shipped(), shipped_sampler(), {}, object, seed);
    const OtherObserver other(shipped_people(0.2), {}, object, seed);
    for (int t = 0; t < shipped().trait_count(); ++t) CHECK(own.truth(t) == other.truth(t));
  }
}

TEST_CASE("wrong answers of other people come together, more than chance would have it", "[trial]") {
  const OtherPeople& people = shipped_people(0.1);
  double sum = 0.0;
  double squares = 0.0;
  constexpr int objects = 600;
  for (int n = 0; n < objects; ++n) {
    const std::uint64_t seed = seed_for(31, static_cast<std::uint64_t>(n));
    const OtherObserver person(people, {}, draw_object(shipped().knowledge(), seed, n, false, -1), seed);
    int wrong = 0;
    for (int t = 0; t < shipped().trait_count(); ++t)
      wrong += same_answer(person.answer(t).value, person.truth(t)) ? 0 : 1;
    sum += wrong;
    squares += static_cast<double>(wrong) * wrong;
  }
  const double mean = sum / objects;
  // Independent mistakes would make the variance of a binomial count, at most the mean.
  CHECK(squares / objects - mean * mean > 2.0 * mean);
}

TEST_CASE("with one part in mind every slip says what that part shows", "[trial]") {
  const auto model = support::clean_model();
  const TraitSampler sampler(model);
  const OtherPeople people(model, sampler, 0.2);
  int minded = 0;
  constexpr int objects = 2000;
  for (std::uint64_t seed = 0; seed < objects; ++seed) {
    const OtherObserver person(people, {}, {2, 0}, seed);
    if (person.in_mind() < 0) continue;
    ++minded;
    CHECK(person.in_mind() != 2);
    // The choices of that catalogue show one state each.
    for (int t = 0; t < 9; ++t) {
      const auto& states = model.knowledge().claim(person.in_mind(), 0, t)->states;
      CHECK(states[static_cast<std::size_t>(person.in_a_slip(t).state)] == 1.0);
    }
  }
  CHECK(minded == Approx(objects * bench::habits::careless * bench::habits::one_part_in_mind).epsilon(0.15));
}

TEST_CASE("being sure is a weak sign of being right", "[trial]") {
  const OtherPeople& people = shipped_people(0.1);
  std::array<int, 3> given{};
  std::array<int, 3> wrong{};
  for (int n = 0; n < 600; ++n) {
    const std::uint64_t seed = seed_for(53, static_cast<std::uint64_t>(n));
    const OtherObserver person(people, {.doubts = true}, draw_object(shipped().knowledge(), seed, n, false, -1), seed);
    for (int t = 0; t < shipped().trait_count(); ++t) {
      const auto reading = person.answer(t);
      if (!reading.value.informs()) continue;
      ++given[static_cast<std::size_t>(reading.certainty)];
      if (!same_answer(reading.value, person.truth(t))) ++wrong[static_cast<std::size_t>(reading.certainty)];
    }
  }
  const auto share = [&](std::size_t i) { return static_cast<double>(wrong[i]) / given[i]; };
  // By Bayes from the table: 0.1 x 0.50 / (0.1 x 0.50 + 0.9 x 0.68) and so on.
  CHECK(share(0) == Approx(0.076).margin(0.015));
  CHECK(share(1) == Approx(0.133).margin(0.03));
  CHECK(share(2) == Approx(0.191).margin(0.04));
}

TEST_CASE("a bent ruler is out by the same factor everywhere, about 6 % from person to person", "[trial]") {
  const int size = trait("size_long");
  double squares = 0.0;
  int plain = 0;
  for (std::uint64_t seed = 0; seed < 3000; ++seed) {
    const OtherEyes eyes(shipped().knowledge(), seed, everybody);
    const double one = eyes.seen(size, number(137.3)).interval.low;
    const double two = eyes.seen(size, number(251.9)).interval.low;
    const bool whole = std::abs(std::remainder(one, 5.0)) < 1e-9 && std::abs(std::remainder(two, 5.0)) < 1e-9;
    const bool quarters = std::abs(std::remainder(one, 6.35)) < 1e-9 && std::abs(std::remainder(two, 6.35)) < 1e-9;
    if (whole || quarters) continue;
    ++plain;
    CHECK(one / 137.3 == Approx(two / 251.9));
    squares += std::log(one / 137.3) * std::log(one / 137.3);
  }
  CHECK(plain == Approx(0.3 * 3000).epsilon(0.12));
  CHECK(std::sqrt(squares / plain) == Approx(0.06).epsilon(0.12));
}

TEST_CASE("a cheap meter adds its leads, shows OL beyond its ranges and may have no diode range", "[trial]") {
  const int lowest = trait("ohm_lowest");
  int open = 0;
  int no_diodes = 0;
  constexpr int meters = 2000;
  for (std::uint64_t seed = 0; seed < meters; ++seed) {
    const OtherEyes eyes(shipped().knowledge(), seed, everybody);
    const Value coil = eyes.seen(lowest, number(4.0));
    if (coil.kind == Value::Kind::special) {
      CHECK(coil.special == knowledge::Special::over_range);
      ++open;
    } else {
      CHECK(coil.interval.low >= 4.2 - 0.051);
      CHECK(coil.interval.low <= 4.8 + 0.051);
      CHECK(std::abs(std::remainder(coil.interval.low, 0.1)) < 1e-9);
    }
    CHECK(eyes.seen(lowest, number(3e6)).kind == Value::Kind::special);
    if (!(eyes.seen(trait("diode_legs"), state("diode_legs", "2")) == state("diode_legs", "2"))) ++no_diodes;
  }
  CHECK(open == Approx(meters * bench::habits::poor_contact).epsilon(0.25));
  CHECK(no_diodes == Approx(meters * bench::habits::no_diode_range).epsilon(0.15));
}

TEST_CASE("colours and letters are taken for others of their row, and for nothing else", "[trial]") {
  const int colours = trait("lead_colours");
  const int letters = trait("letters");
  std::map<std::string, int> seen;
  for (std::uint64_t seed = 0; seed < 500; ++seed) {
    const OtherEyes eyes(shipped().knowledge(), seed, everybody);
    for (const char* lead : {"red", "white/brown", "black"}) {
      const auto read = eyes.seen(colours, items({lead})).items;
      REQUIRE(read.size() == 1);
      ++seen[read[0]];
    }
    for (const char* mark : {"B", "D", "C"}) {
      const auto read = eyes.seen(letters, items({mark})).items;
      REQUIRE(read.size() == 1);
      ++seen[read[0]];
    }
  }
  CHECK(seen["black"] == 500);
  CHECK(seen["C"] == 500);
  CHECK(seen["B"] + seen["8"] == 500);
  CHECK(seen["D"] + seen["O"] == 500);
  CHECK(seen["8"] > 0);
  CHECK(seen["O"] > 0);
  CHECK(seen["brown"] > 0);   // the red one
  CHECK(seen["white"] > 0);   // its tracer lost
  CHECK(seen["yellow"] > 0);  // and taken for yellow
  for (const auto& [word, count] : seen) {
    const std::string base = word.substr(0, word.find('/'));
    CHECK((word == "black" || word.size() == 1 || base == "red" || base == "brown" || base == "orange" ||
           base == "white" || base == "yellow"));
  }
}

TEST_CASE("stubs only ever add terminals, and never beyond the last state", "[trial]") {
  const int count = trait("terminal_count");
  int more = 0;
  for (std::uint64_t seed = 0; seed < 500; ++seed) {
    const OtherEyes eyes(shipped().knowledge(), seed, everybody);
    const int two = eyes.seen(count, state("terminal_count", "2")).state;
    CHECK(two >= 2);
    CHECK(two <= 4);
    if (two > 2) ++more;
    CHECK(eyes.seen(count, state("terminal_count", "7+")) == state("terminal_count", "7+"));
  }
  CHECK(more == Approx(500 * bench::habits::stub_there).epsilon(0.15));
}

TEST_CASE("a rewired bike has plain leads, and a part without leads stays without", "[trial]") {
  const int colours = trait("lead_colours");
  int plain = 0;
  int gone = 0;
  int added = 0;
  int moved = 0;
  constexpr int bikes = 2000;
  for (std::uint64_t seed = 0; seed < bikes; ++seed) {
    const AlteredBike bike(shipped().knowledge(), true, seed, everybody);
    const auto leads = bike.after(colours, items({"green/yellow", "white"})).items;
    bool all_plain = !leads.empty();
    for (const auto& lead : leads) all_plain = all_plain && (lead == "black" || lead == "red");
    if (all_plain) ++plain;
    const int count = bike.after(trait("lead_count"), state("lead_count", "2")).state;
    if (count == 1) ++gone;
    if (count == 3) ++added;
    if (!(bike.after(trait("place"), state("place", "rear")) == state("place", "rear"))) ++moved;
    CHECK(bike.after(trait("terminal_kind"), state("terminal_kind", "none")) == state("terminal_kind", "none"));
    CHECK(bike.after(trait("lead_style"), state("lead_style", "none")) == state("lead_style", "none"));
    const AlteredBike bare(shipped().knowledge(), false, seed, everybody);
    CHECK(bare.after(trait("leads_alike"), state("leads_alike", "0")) == state("leads_alike", "0"));
    const AlteredBike kept(shipped().knowledge(), true, seed, 0.0);
    CHECK(kept.after(colours, items({"white"})) == items({"white"}));
  }
  CHECK(plain == Approx(bikes * bench::habits::leads_recoloured).epsilon(0.1));
  CHECK(gone == Approx(bikes * bench::habits::lead_gone).epsilon(0.15));
  CHECK(added == Approx(bikes * (1.0 - bench::habits::lead_gone) * bench::habits::lead_added).epsilon(0.15));
  CHECK(moved == Approx(bikes * bench::habits::moved).epsilon(0.1));
}

TEST_CASE("a catalogue with one part, and people who are nearly always wrong, are no trouble", "[trial]") {
  const auto knowledge = support::clean_knowledge();
  knowledge->parts.resize(1);
  const inference::Model model(knowledge);
  const TraitSampler sampler(model);
  const OtherPeople people(model, sampler, 0.9);
  const OtherObserver person(people, {.wrong = 0.9}, {0, 0}, 1);
  for (int t = 0; t < model.trait_count(); ++t) CHECK(person.answer(t).trait == t);
}
