#include "inference/settings.h"

#include <set>
#include <string>

#include <catch2/catch.hpp>

using loomkey::inference::Settings;
using loomkey::inference::tunables;

TEST_CASE("every tunable has a name of its own, a help text and a default within its range") {
  const Settings defaults;
  std::set<std::string> names;
  for (const auto& tunable : tunables()) {
    CAPTURE(std::string(tunable.name));
    CHECK(names.insert(std::string(tunable.name)).second);
    CHECK_FALSE(tunable.help.empty());
    CHECK(tunable.low < tunable.high);
    CHECK(defaults.*tunable.value >= tunable.low);
    CHECK(defaults.*tunable.value <= tunable.high);
  }
}

TEST_CASE("the table names every number of the settings, each once") {
  Settings settings;
  std::set<const double*> places;
  for (const auto& tunable : tunables()) places.insert(&(settings.*tunable.value));
  CHECK(places.size() == tunables().size());
  CHECK(sizeof(Settings) == tunables().size() * sizeof(double));
}

TEST_CASE("prices and lapses rise with what they stand for") {
  const Settings settings;
  CHECK(settings.lapse_sure < settings.lapse_think_so);
  CHECK(settings.lapse_think_so < settings.lapse_guess);
  CHECK(settings.residual < settings.verify_residual);
  CHECK(settings.price_harmless < settings.price_money);
  CHECK(settings.price_money < settings.price_burnt_part);
  CHECK(settings.price_burnt_part < settings.price_burnt_loom);
  CHECK(settings.price_burnt_loom < settings.price_injury);
}
