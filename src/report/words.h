#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evidence/reading.h"
#include "knowledge/knowledge.h"

// Values in a rider's words. Everything the pages say about a number, a colour or a reading is worded here, once.

namespace loomkey::report {

// "93 %". Nothing is certain: ">99 %" is the most, "<1 %" the least that is ever shown.
std::string percent(double probability);

// From 0.98 "very likely", from 0.90 "likely", from 0.60 "probably", below "perhaps".
std::string sureness(double probability);

// First letter as a capital (ASCII).
std::string sentence(std::string text);

// Ends in a full stop unless it already ends a sentence.
std::string stopped(std::string text);

// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& items, std::string_view last_link = "and");

// A figure without exponent, to four significant digits: "4700", "0.55".
std::string figure(double value);

// A quantity in the unit a rider would use: 4700 ohm is "4.7 kohm", 1500 g "1.5 kg".
std::string quantity(double value, const std::string& unit);
std::string quantity(double low, double high, const std::string& unit);

// A lead colour: "green/yellow" is "green with a yellow tracer", "dark" is "too dark to tell".
std::string colour_words(const std::string& colour);

// A set of letters or lead colours: "AL, E and WL", or the trait's wording of the empty set.
std::string set_words(const knowledge::Trait&, const std::vector<std::string>& items);

// What was read: "small closed round can", "45 to 55 mm", "over-range (OL)", "green and black, no others".
std::string value_words(const knowledge::Trait&, const evidence::Value&);

// The same value as a readings file takes it, to the last bit: "can", "45-55 mm", "ol", "AL, E, WL".
std::string value_text(const knowledge::Trait&, const evidence::Value&);

// "overall form: small closed round can (think so)".
std::string reading_words(const knowledge::Knowledge&, const evidence::Reading&);

std::string_view earth_words(evidence::Earth);  // "unknown", "positive", "negative"

// What acting on wrong advice costs: "a burnt loom".
std::string_view price_words(knowledge::Price);

// How often a claim holds: from 0.85 "nearly always", 0.5 "mostly", 0.15 "sometimes", below "rarely".
std::string_view frequency_words(double share);

// What a part claims about a trait: "mostly small closed round can; sometimes dish / cylinder".
std::string claim_words(const knowledge::Trait&, const knowledge::Claim&);

// The same with figures: "small closed round can 76 %, dish 24 %".
std::string claim_figures(const knowledge::Trait&, const knowledge::Claim&);

// "1964 to 1982"; an era that is still open ends in "today".
std::string era_words(const knowledge::Part&);

// The first few letters of the catalogue's hash, enough to tell two apart.
std::string short_hash(const knowledge::Knowledge&);

}  // namespace loomkey::report
