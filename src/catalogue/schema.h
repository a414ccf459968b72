#pragma once

#include <cstdint>
#include <string_view>

namespace loomkey::catalogue {

// Both stand in schema/catalogue.sql too; a catalogue built by it is opened by these.
inline constexpr std::uint32_t application_id = 0x4C4B4559;  // "LKEY"
inline constexpr std::uint32_t format_version = 2;

// The text of schema/catalogue.sql, built into the program so that an installed one needs no schema file.
std::string_view schema_sql();

}  // namespace loomkey::catalogue
