#include "evidence/bike.h"

#include <algorithm>
#include <array>

#include "base/nearest.h"
#include "base/text.h"
#include "electrical/plain_signs.h"
#include "evidence/bike_words.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Knowledge;

// One row of the table: what the key means, how it is read and how it is written.
struct Row {
  BikeKey key;
  Result<void> (*set)(const Knowledge&, Bike&, std::string_view value);
  std::string (*get)(const Knowledge&, const Bike&);
};

Result<void> set_symptoms(const Knowledge& knowledge, Bike& bike, std::string_view value) {
  std::vector<std::string> known;
  for (const auto& symptom : knowledge.symptoms) known.push_back(symptom.id);
  std::vector<int> found;
  std::string list(value);
  std::replace(list.begin(), list.end(), ';', ',');
  const std::string all = words_of(list);
  if (all == "none" || answer_without_content(all)) list.clear();
  for (const std::string& piece : split(list, ',')) {
    const std::string words = words_of(piece);
    if (words.empty()) continue;
    const auto at = std::find_if(knowledge.symptoms.begin(), knowledge.symptoms.end(), [&](const auto& symptom) {
      return words == words_of(symptom.id) || words == words_of(symptom.name);
    });
    if (at == knowledge.symptoms.end()) {
      return fail(ErrorKind::input, "unknown symptom " + quoted(piece) + "." + did_you_mean(trim(piece), known) +
                                        " Known symptoms: " + join(known, ", "));
    }
    const int index = static_cast<int>(at - knowledge.symptoms.begin());
    if (!is_one_of(found, index)) found.push_back(index);
  }
  std::sort(found.begin(), found.end());
  bike.symptoms = std::move(found);
  return {};
}

std::string get_symptoms(const Knowledge& knowledge, const Bike& bike) {
  std::vector<std::string> ids;
  for (const int symptom : bike.symptoms) ids.push_back(knowledge.symptoms[static_cast<std::size_t>(symptom)].id);
  return join(ids, ", ");
}

template <Earth Bike::*member>
Result<void> set_earth(const Knowledge&, Bike& bike, std::string_view value) {
  auto earth = read_earth(value);
  if (!earth) return tl::unexpected(earth.error());
  bike.*member = *earth;
  return {};
}

template <Earth Bike::*member>
std::string get_earth(const Knowledge&, const Bike& bike) {
  return bike.*member == Earth::unknown ? "" : bike.*member == Earth::positive ? "positive" : "negative";
}

constexpr std::string_view earth_values = "positive, negative or unknown";

constexpr auto rows = std::to_array<Row>({
    {{"decade", "when the bike was built", "1900s to 2020s: 1960s, 60s, 1967, late sixties"},
     [](const Knowledge&, Bike& bike, std::string_view value) {
       return read_decade(value).map([&](auto v) { bike.decade = v; });
     },
     [](const Knowledge&, const Bike& bike) {
       return bike.decade ? std::to_string(*bike.decade) + "s" : std::string();
     }},
    {{"origin", "where the bike was made", "british, continental, japanese, american or soviet"},
     [](const Knowledge&, Bike& bike, std::string_view value) {
       return read_origin(value).map([&](auto v) { bike.origin = v; });
     },
     [](const Knowledge&, const Bike& bike) { return bike.origin; }},
    {{"market", "the market the bike was sold in", "britain, europe, usa, japan or elsewhere"},
     [](const Knowledge&, Bike& bike, std::string_view value) {
       return read_market(value).map([&](auto v) { bike.market = v; });
     },
     [](const Knowledge&, const Bike& bike) { return bike.market; }},
    {{"cylinders", "number of cylinders", "1 to 8, or single, twin, triple, four"},
     [](const Knowledge&, Bike& bike, std::string_view value) {
       return read_cylinders(value).map([&](auto v) { bike.cylinders = v; });
     },
     [](const Knowledge&, const Bike& bike) {
       return bike.cylinders ? std::to_string(*bike.cylinders) : std::string();
     }},
    {{"volts", "system volts of the bike", "6 or 12"},
     [](const Knowledge&, Bike& bike, std::string_view value) {
       return read_volts(value).map([&](auto v) { bike.volts = v; });
     },
     [](const Knowledge&, const Bike& bike) { return bike.volts ? std::to_string(*bike.volts) : std::string(); }},
    {{"earth_as_built", "which battery pole went to the frame when the bike was new", earth_values},
     set_earth<&Bike::earth_as_built>,
     get_earth<&Bike::earth_as_built>},
    {{"earth_found", "which battery pole goes to the frame as the bike was found", earth_values},
     set_earth<&Bike::earth_found>,
     get_earth<&Bike::earth_found>},
    {{"earth_measured", "which battery pole goes to the frame by a meter; advice relies on this one only",
      earth_values},
     set_earth<&Bike::earth_measured>,
     get_earth<&Bike::earth_measured>},
    {{"symptoms", "what the rider noticed", "a list of symptoms: no-charge, bulbs-blow"}, set_symptoms, get_symptoms},
});

}  // namespace

const std::vector<BikeKey>& bike_keys() {
  static const std::vector<BikeKey> keys = [] {
    std::vector<BikeKey> out;
    for (const Row& row : rows) out.push_back(row.key);
    return out;
  }();
  return keys;
}

Result<void> set_bike_key(const Knowledge& knowledge, Bike& bike, std::string_view key, std::string_view value) {
  constexpr std::size_t longest_value = 1000;
  std::string name = to_lower(trim(key));
  std::replace(name.begin(), name.end(), '-', '_');
  std::replace(name.begin(), name.end(), ' ', '_');
  for (const Row& row : rows) {
    if (row.key.name != name) continue;
    if (value.size() > longest_value) return fail(ErrorKind::input, "the value of '" + name + "' is far too long");
    auto set = row.set(knowledge, bike, value);
    if (!set) {
      return fail(set.error().kind, name + ": " + set.error().what +
                                        (set.error().what.find("Known") == std::string::npos
                                             ? ". Expected " + std::string(row.key.allowed)
                                             : std::string()));
    }
    return {};
  }
  std::vector<std::string> known;
  for (const Row& row : rows) known.emplace_back(row.key.name);
  return fail(ErrorKind::input, "unknown bike key " + quoted(key) + "." + did_you_mean(name, known) +
                                    " Known keys: " + join(known, ", "));
}

std::vector<std::pair<std::string, std::string>> bike_values(const Knowledge& knowledge, const Bike& bike) {
  std::vector<std::pair<std::string, std::string>> values;
  for (const Row& row : rows) {
    std::string value = row.get(knowledge, bike);
    if (!value.empty()) values.emplace_back(row.key.name, std::move(value));
  }
  return values;
}

}  // namespace loomkey::evidence
