#pragma once

#include <map>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "catalogue/sources.h"
#include "support/tiny_sources.h"

namespace loomkey::catalogue {

// One change that makes a good file wrong, and what must be said about it.
struct Mistake {
  const char* file;
  const char* from;
  const char* to;
  const char* at;    // the error points to the first place of this text in the changed file
  const char* says;  // and its message holds this
};

inline constexpr const char* parts = "parts/flasher.toml";
inline constexpr const char* advice = "advice/flasher.toml";
inline constexpr const char* family = "families/flasher.toml";
inline constexpr const char* look = "traits/look.toml";
inline constexpr const char* meter = "traits/meter.toml";
inline constexpr const char* size = "traits/size.toml";

inline std::string place_of(const std::string& file, const std::string& text, const std::string& what) {
  const std::size_t at = text.find(what);
  if (at == std::string::npos) return "nowhere";
  int line = 1;
  int column = 1;
  for (std::size_t i = 0; i < at; ++i) {
    column = text[i] == '\n' ? 1 : column + 1;
    if (text[i] == '\n') ++line;
  }
  return file + ":" + std::to_string(line) + ":" + std::to_string(column);
}

// Each mistake alone, in the tiny sources with `more` files, gives one error and no other.
inline void check_mistakes(const std::vector<Mistake>& mistakes, const std::map<std::string, std::string>& more = {}) {
  for (const Mistake& mistake : mistakes) {
    support::TinySources sources;
    for (const auto& [name, text] : more) sources.file(name) = text;
    sources.replace(mistake.file, mistake.from, mistake.to);
    const std::string where = place_of(mistake.file, sources.file(mistake.file), mistake.at);
    const SourceReport report = read_sources(sources.write());
    INFO("changed to: " << mistake.to);
    std::string all;
    for (const Error& error : report.errors) all += error.message() + "\n";
    INFO(all);
    CHECK(report.errors.size() == 1);
    if (report.errors.empty()) continue;
    CHECK(report.errors[0].kind == ErrorKind::catalogue);
    CHECK(report.errors[0].where == where);
    CHECK_THAT(report.errors[0].what, Catch::Contains(mistake.says));
  }
}

}  // namespace loomkey::catalogue
