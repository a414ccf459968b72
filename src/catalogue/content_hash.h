#pragma once

#include <string>
#include <string_view>

#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// SHA-256, 64 hexadecimal digits. Throws std::runtime_error if the library refuses to compute it.
std::string sha256(std::string_view bytes);

// SHA-256 over every field of the knowledge except `hash`, in a fixed order: texts and lists with their length before
// them, numbers as 8 bytes, least first. Equal knowledge has equal hashes on every machine.
std::string content_hash(const knowledge::Knowledge& knowledge);

}  // namespace loomkey::catalogue
