#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "bench/trial_chance.h"

// How the people of trial_other_observer.h go wrong. The whole table is from memory: common practice, no source. None
// of it is taken from the engine or from what the catalogue says about observers: that is what it is for. It is never
// to be adjusted to make the engine look better.

namespace loomkey::bench::habits {

// What comes with a person or a bike is on with the chance given here where 10 % of all answers are wrong, and in
// proportion elsewhere: never at 0 %, twice as often at 20 %.
inline constexpr double chances_hold_at = 0.10;

// Carefulness, drawn once per object. The careless make many mistakes together, the careful few; the mean is one.
inline constexpr double careless = 0.30;
inline constexpr double careless_factor = 2.4;
inline constexpr double careful_factor = 0.4;
// The careless hold one other part in mind and answer what that one shows, wherever they answer wrongly at all.
inline constexpr double one_part_in_mind = 0.50;
inline constexpr double mind_a_named_look_alike = 0.60;  // otherwise any of its family

// A bike that was rewired or rebuilt, and what was done to it then.
inline constexpr double rewired = 0.12;
inline constexpr double leads_recoloured = 0.60;
inline constexpr double recoloured_black = 0.60;  // a new lead is black, otherwise red
inline constexpr double recoloured_alike = 0.50;  // two of the new leads look the same
inline constexpr double new_terminals = 0.40;
inline constexpr double new_terminals_bare = 0.50;  // and nothing stands at them
inline constexpr double moved = 0.50;
inline constexpr double moved_new_fixing = 0.50;
inline constexpr double painted = 0.25;
inline constexpr double paint_hides_letters = 0.40;
inline constexpr double lead_gone = 0.20;
inline constexpr double lead_added = 0.20;

// Ruler and scales: a worn or stretched one, or a habit of reading it, puts everything out by the same factor.
inline constexpr double biased_measurer = 0.50;
inline constexpr double bias_spread = 0.06;  // standard deviation of the logarithm
inline constexpr double rounds_to_5_mm = 0.40;
inline constexpr double rounds_to_quarter_inch = 0.30;
inline constexpr double rounds_from_mm = 30.0;  // smaller ones are read to the millimetre or the sixteenth
inline constexpr double scales_step_g = 5.0;
inline constexpr double scales_from_g = 50.0;

// A cheap meter, with its leads never zeroed.
inline constexpr double cheap_meter = 0.50;
inline constexpr double lead_ohms_low = 0.2;
inline constexpr double lead_ohms_high = 0.8;
inline constexpr double highest_ohms = 2e6;        // beyond the last range: OL
inline constexpr double first_range_ohms = 200.0;  // 0.1 ohm steps there, ten times as much on each further range
inline constexpr double no_diode_range = 0.30;
inline constexpr double diode_on_ohms = 0.50;  // uses the ohm range instead and sees nothing conduct; or cannot tell
inline constexpr double poor_contact = 0.08;   // one reading is OL through paint or rust

// Colours in poor light or with a poor eye for them. One person takes one colour for the same other one all along.
inline constexpr double poor_colours = 0.40;
inline constexpr double colour_taken = 0.40;  // a colour of these is taken for another of its row
inline constexpr std::array<std::array<std::string_view, 3>, 3> colours_taken = {
    {{"brown", "red", "orange"}, {"blue", "green", "grey"}, {"white", "yellow", ""}}};
inline constexpr double tracer_lost = 0.30;

// Stubs, rivets and the body counted as terminals, stubs as leads.
inline constexpr double counts_stubs = 0.30;
inline constexpr double stub_there = 0.50;
inline constexpr double second_stub = 0.20;

// Worn letters, taken for another of their row.
inline constexpr double worn_letters = 0.30;
inline constexpr double letter_taken = 0.40;
inline constexpr std::array<std::string_view, 6> letters_taken = {"B8", "EFL", "I1T", "DO", "S5", "A4"};

// Sure, think so, guess: by whoever is right, and by whoever is wrong. Only a weak sign.
inline constexpr std::array<double, 3> called_when_right = {0.68, 0.24, 0.08};
inline constexpr std::array<double, 3> called_when_wrong = {0.50, 0.33, 0.17};

// What a seed is for; apart from the purposes of trial_observer.cpp, which the objects themselves come from.
enum class Purpose : std::uint64_t {
  carefulness = 100,
  mind,
  slip,
  slip_value,
  silence,
  called,
  bike,
  bike_detail,
  measurer,
  meter,
  contact,
  colours,
  stubs,
  letters,
  letter_detail,
};

inline Chance chance_of(std::uint64_t seed, Purpose purpose, int index = 0) {
  return Chance(seed_for(seed_for(seed, static_cast<std::uint64_t>(purpose)), static_cast<std::uint64_t>(index)));
}

}  // namespace loomkey::bench::habits
