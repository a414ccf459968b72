#pragma once

#include <filesystem>
#include <vector>

#include "base/result.h"
#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// What the sources say, and everything that is wrong with them. The knowledge is fit for use only without errors.
struct SourceReport {
  knowledge::Knowledge knowledge;
  std::vector<Error> errors;  // each with where = "parts/rectifier.toml:41:7", in the order of places

  [[nodiscard]] bool ok() const { return errors.empty(); }
};

// Reads the TOML sources of a catalogue from a data directory: efforts, colours, familiar, symptoms, basis, cautions
// (.toml), traits/{look,size,meter,groups}.toml, and every .toml file under families/, parts/ and advice/.
SourceReport read_sources(const std::filesystem::path& data_dir);

}  // namespace loomkey::catalogue
