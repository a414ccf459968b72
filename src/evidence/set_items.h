#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "knowledge/knowledge.h"

namespace loomkey::evidence {

// An item that could be one of more than these says too little to be worth a reading.
constexpr std::size_t most_alternatives = 4;
tl::unexpected<Error> too_many_alternatives();
tl::unexpected<Error> lonely_or();

// Both lists may hold an item that could not be told for sure: "A or 4", "red or orange".

// The marks of a list such as "AL, WL and E" or "AL WL E", spelled as the catalogue spells them (letter case is
// forgiven). A mark that no part carries is kept if it is written in capitals or figures, with a note: such a part may
// be brought in. Fails on anything else.
Result<std::vector<std::string>> read_letters(const knowledge::Knowledge& knowledge, std::string_view list,
                                              std::vector<std::string>& notes);

// The leads of a list such as "red, green with yellow tracer and 2 x brown", each as base or base/tracer in the colours
// of the catalogue; "dark" is a lead too dirty to tell. Fails on an unknown colour, on abbreviations, and on "red
// black", which may be one lead or two.
Result<std::vector<std::string>> read_colours(const knowledge::Knowledge& knowledge, std::string_view list);

}  // namespace loomkey::evidence
