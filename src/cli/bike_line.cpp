#include "cli/bike_line.h"

#include <string>
#include <utility>
#include <vector>

#include "base/text.h"
#include "evidence/bike.h"
#include "evidence/wording.h"

namespace loomkey::cli {
namespace {

struct Statement {
  std::string key;
  std::string value;
};

// The known key that a piece begins with, written with blanks or underscores.
std::optional<Statement> begins_with_key(const std::string& piece) {
  std::string words = evidence::words_of(piece);
  for (const auto& key : evidence::bike_keys()) {
    const std::string name = evidence::words_of(key.name);
    if (!words.starts_with(name)) continue;
    const std::size_t after = words.find_first_not_of(" =:", name.size());
    const bool whole_word =
        words.size() == name.size() || std::string_view(" =:").find(words[name.size()]) != std::string::npos;
    if (!whole_word) continue;
    // The value as it was written: its blanks and hyphens may mean something.
    const std::size_t gap = piece.find_first_of("=:");
    if (gap != std::string::npos) return Statement{std::string(key.name), trim(piece.substr(gap + 1))};
    return Statement{std::string(key.name), after == std::string::npos ? "" : words.substr(after)};
  }
  return std::nullopt;
}

// A piece without a key belongs to the one before it: "symptoms boils battery, blows bulbs".
std::vector<Statement> statements_of(std::string_view line) {
  std::vector<Statement> out;
  for (const std::string& raw : split(line, ',')) {
    const std::string piece = trim(raw);
    if (piece.empty()) continue;
    if (auto statement = begins_with_key(piece)) {
      out.push_back(std::move(*statement));
    } else if (!out.empty() && piece.find('=') == std::string::npos) {
      out.back().value += ", " + piece;
    } else {
      const std::size_t gap = piece.find_first_of("= ");
      out.push_back({piece.substr(0, gap), gap == std::string::npos ? "" : trim(piece.substr(gap + 1))});
    }
  }
  return out;
}

}  // namespace

Result<void> set_bike(const knowledge::Knowledge& knowledge, evidence::Bike& bike, std::string_view line) {
  evidence::Bike changed = bike;
  for (const Statement& statement : statements_of(line)) {
    if (auto set = evidence::set_bike_key(knowledge, changed, statement.key, statement.value); !set) return set;
  }
  bike = std::move(changed);
  return {};
}

}  // namespace loomkey::cli
