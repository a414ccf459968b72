#include "inference/settings.h"

namespace loomkey::inference {
namespace {

constexpr std::array<Tunable, 34> table = {{
    {"prior_absent", &Settings::prior_absent, 0.0, 0.5,
     "chance, before any reading, that the part is not in the catalogue"},
    {"relative_share", &Settings::relative_share, 0.0, 1.0,
     "of the parts that are not listed, how many resemble a listed one"},
    {"relative_change", &Settings::relative_change, 0.0, 1.0, "in how many of its traits such a relative differs"},
    {"lapse_sure", &Settings::lapse_sure, 0.0, 0.5,
     "chance of a plain mistake in a reading called sure: what people make who err once in ten answers"},
    {"lapse_think_so", &Settings::lapse_think_so, 0.0, 0.5, "the same for 'think so'"},
    {"lapse_guess", &Settings::lapse_guess, 0.0, 0.9, "the same for 'guess'"},
    {"residual", &Settings::residual, 0.0, 0.5, "share of every claim that is left to the background"},
    {"verify_residual", &Settings::verify_residual, 0.0, 0.9, "the same for a claim marked 'verify'"},
    {"verify_widening", &Settings::verify_widening, 1.0, 10.0, "how much wider the shoulders of a 'verify' range are"},
    {"uniform_share", &Settings::uniform_share, 0.0, 1.0, "share of the background that is uniform"},
    {"uniform_share_silent", &Settings::uniform_share_silent, 0.0, 1.0,
     "the same for a trait that silent parts claim too"},
    {"context_limit_db", &Settings::context_limit_db, 0.0, 20.0,
     "span that all bike context together may move, decibans"},
    {"guess_limit_db", &Settings::guess_limit_db, 0.0, 10.0, "most that a guessed name is worth, decibans"},
    {"class_threshold", &Settings::class_threshold, 0.5, 0.999, "probability an advice class must reach"},
    {"loss_limit", &Settings::loss_limit, 0.0, 1.0, "expected price of acting on the advice must stay below this"},
    {"contradiction_db", &Settings::contradiction_db, 0.0, 60.0,
     "a reading is named as contradicting if without it a class is safe and its odds rise by this much"},
    {"useful_gain_bits", &Settings::useful_gain_bits, 0.0, 1.0, "a question must promise this many bits"},
    {"useful_gain_per_effort", &Settings::useful_gain_per_effort, 0.0, 1.0, "and this many bits per unit of effort"},
    {"absent_threshold", &Settings::absent_threshold, 0.5, 0.999,
     "probability at which 'not in the catalogue' is concluded"},
    {"absent_readings", &Settings::absent_readings, 0, 40, "and the fewest readings it takes"},
    {"absent_in_question", &Settings::absent_in_question, 0.0, 0.99,
     "the most that 'not in the catalogue' counts for when a question is chosen"},
    {"absent_ruled_out", &Settings::absent_ruled_out, 0.0, 0.1,
     "probability of 'not in the catalogue' at which it needs no further check"},
    {"checks_wanted", &Settings::checks_wanted, 0, 10,
     "readings beyond the deciding ones that rule out an absent part"},
    {"check_bits", &Settings::check_bits, 0.0, 1.0, "bits by which such a reading must separate the leader from it"},
    {"cannot_tell_look", &Settings::cannot_tell_look, 0.0, 0.9, "chance that a look ends in 'cannot tell'"},
    {"cannot_tell_meter", &Settings::cannot_tell_meter, 0.0, 0.9, "chance that a meter reading does"},
    {"set_missing", &Settings::set_missing, 0.0, 0.9, "chance that one letter or lead of a set is gone"},
    {"set_extra", &Settings::set_extra, 0.0, 2.0, "mean number of added letters or leads"},
    {"set_mention", &Settings::set_mention, 0.0, 1.0, "chance that an item is mentioned in a partial set"},
    {"price_harmless", &Settings::price_harmless, 0.0, 1.0, "price of a harmless mistake"},
    {"price_money", &Settings::price_money, 0.0, 1.0, "price of a mistake that costs money"},
    {"price_burnt_part", &Settings::price_burnt_part, 0.0, 1.0, "price of a burnt part"},
    {"price_burnt_loom", &Settings::price_burnt_loom, 0.0, 1.0, "price of a burnt loom"},
    {"price_injury", &Settings::price_injury, 0.0, 1.0, "price of an injury"},
}};

}  // namespace

std::span<const Tunable> tunables() { return table; }

}  // namespace loomkey::inference
