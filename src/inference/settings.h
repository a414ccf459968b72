#pragma once

#include <array>
#include <span>
#include <string_view>

namespace loomkey::inference {

// Every number of the engine that could be another. The table below names each with its range and meaning; nothing in
// the engine is tuned anywhere else.
struct Settings {
  double prior_absent = 0.05;
  double relative_share = 0.8;
  double relative_change = 0.3;
  double lapse_sure = 0.03;
  double lapse_think_so = 0.25;
  double lapse_guess = 0.60;
  double residual = 0.05;
  double verify_residual = 0.25;
  double verify_widening = 2.5;
  double uniform_share = 0.4;
  double uniform_share_silent = 0.2;
  double context_limit_db = 10.0;
  double guess_limit_db = 6.0;
  double class_threshold = 0.93;
  double loss_limit = 0.04;
  double contradiction_db = 15.0;
  double useful_gain_bits = 0.015;
  double useful_gain_per_effort = 0.002;
  double absent_threshold = 0.90;
  double absent_readings = 10;
  double absent_in_question = 0.3;
  double absent_ruled_out = 5e-3;
  double checks_wanted = 4;
  double check_bits = 0.08;
  double cannot_tell_look = 0.05;
  double cannot_tell_meter = 0.12;
  double set_missing = 0.06;
  double set_extra = 0.05;
  double set_mention = 0.5;
  double price_harmless = 0.02;
  double price_money = 0.10;
  double price_burnt_part = 0.30;
  double price_burnt_loom = 0.60;
  double price_injury = 1.00;
};

struct Tunable {
  std::string_view name;
  double Settings::*value;
  double low;
  double high;
  std::string_view help;
};

// The table of all tunables; defaults are those of Settings.
std::span<const Tunable> tunables();

}  // namespace loomkey::inference
