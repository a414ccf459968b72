#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "knowledge/part.h"
#include "knowledge/trait.h"

namespace loomkey::knowledge {

// All that the catalogue claims, as constant values. Everything refers to everything else by index; parts, traits and
// advice keep the order of their ids, so a run repeats exactly.
struct Knowledge {
  std::string hash;  // SHA-256 of the content, hexadecimal; empty for a catalogue made in memory

  std::vector<Effort> efforts;
  std::vector<Tool> tools;
  std::vector<Group> groups;
  std::vector<Trait> traits;
  std::vector<Colour> colours;
  double tracer_lost = 0.12;
  double dark_chance = 0.04;
  std::vector<FamiliarThing> familiar;
  std::vector<Symptom> symptoms;
  std::vector<Basis> bases;
  std::vector<Caution> cautions;
  std::vector<Advice> advice;
  std::vector<Family> families;
  std::vector<Part> parts;
  std::vector<ConfusionSet> confusions;

  // Index by id, or -1.
  [[nodiscard]] int trait(std::string_view id) const;
  [[nodiscard]] int part(std::string_view id) const;
  [[nodiscard]] int family(std::string_view id) const;
  [[nodiscard]] int advice_record(std::string_view id) const;
  [[nodiscard]] int tool(std::string_view id) const;
  [[nodiscard]] int symptom(std::string_view id) const;
  [[nodiscard]] int colour(std::string_view id) const;
  [[nodiscard]] int state(int trait, std::string_view id) const;

  // What a part in a condition claims about a trait: its condition's claim, else its own, its family's, the trait's
  // default; nullptr if unstated. An otherwise damaged part claims nothing about meter readings.
  [[nodiscard]] const Claim* claim(int part, int condition, int trait) const;
};

}  // namespace loomkey::knowledge
