#include "cli/case_sources.h"

#include <algorithm>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "cli/text_input.h"
#include "evidence/bike.h"
#include "evidence/parse_value.h"
#include "evidence/wording.h"

namespace loomkey::cli {

using evidence::Bike;
using evidence::Case;
using evidence::Certainty;
using evidence::Reading;
using evidence::ReadingsFile;
using knowledge::Knowledge;

namespace {

struct Pair {
  std::string key;
  std::string value;
};

Result<Pair> split_pair(const std::string& option, const std::string& text, const std::string& form) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || trim(text.substr(0, equals)).empty()) {
    return fail(ErrorKind::input, "expected " + form + ", found " + evidence::quoted(text), option);
  }
  return Pair{trim(text.substr(0, equals)), trim(text.substr(equals + 1))};
}

std::string place_of(const Reading& reading) { return reading.where.empty() ? "elsewhere" : reading.where; }

const Reading* reading_of(const Case& find, const Reading& like) {
  const auto found = std::find_if(find.readings.begin(), find.readings.end(), [&](const Reading& r) {
    return r.trait == like.trait && r.observer == like.observer;
  });
  return found == find.readings.end() ? nullptr : &*found;
}

Result<void> merge_text(std::string& into, const std::string& other, const std::string& what, const std::string& file) {
  if (!into.empty() && !other.empty() && into != other) {
    return fail(ErrorKind::input, "gives another " + what + " than the file before it", file);
  }
  if (into.empty()) into = other;
  return {};
}

Result<void> merge_bike(const Knowledge& knowledge, Bike& into, const Bike& other, const std::string& file) {
  const auto known = evidence::bike_values(knowledge, into);
  for (const auto& [key, value] : evidence::bike_values(knowledge, other)) {
    const std::string& name = key;
    const auto earlier = std::find_if(known.begin(), known.end(), [&](const auto& pair) { return pair.first == name; });
    if (earlier != known.end() && earlier->second != value) {
      return fail(ErrorKind::input,
                  "says '" + key + "' of the bike is '" + value + "', the file before it '" + earlier->second + "'",
                  file);
    }
    if (auto set = evidence::set_bike_key(knowledge, into, key, value); !set) return set;
  }
  return {};
}

// Several files on one find are one case: by different observers, or on different traits.
Result<void> merge(const Knowledge& knowledge, ReadingsFile& into, ReadingsFile other, const std::string& file) {
  Case& find = into.find;
  if (auto merged = merge_text(find.guessed_name, other.find.guessed_name, "guess", file); !merged) return merged;
  if (find.title.empty()) find.title = other.find.title;
  if (into.note.empty()) into.note = other.note;
  if (auto merged = merge_bike(knowledge, find.bike, other.find.bike, file); !merged) return merged;
  if (other.find.tools) {
    if (!find.tools) find.tools.emplace();
    for (const int tool : *other.find.tools) {
      if (std::find(find.tools->begin(), find.tools->end(), tool) == find.tools->end()) find.tools->push_back(tool);
    }
  }
  find.leads_zeroed = find.leads_zeroed || other.find.leads_zeroed;
  for (Reading& reading : other.find.readings) {
    if (const Reading* earlier = reading_of(find, reading)) {
      const std::string& id = knowledge.traits[static_cast<std::size_t>(reading.trait)].id;
      return fail(ErrorKind::input,
                  "'" + id + "' has a value by the same observer in " + place_of(*earlier) +
                      " already; keep one of them, or say by whom each is",
                  place_of(reading));
    }
    find.readings.push_back(std::move(reading));
  }
  into.notes.insert(into.notes.end(), other.notes.begin(), other.notes.end());
  return {};
}

Result<void> read_files(const Knowledge& knowledge, const std::vector<std::string>& files, ReadingsFile& out) {
  if (std::count(files.begin(), files.end(), "-") > 1) {
    return fail(ErrorKind::usage, "--readings - reads standard input, which can be read only once");
  }
  for (const std::string& file : files) {
    auto text = read_text(file);
    if (!text) return tl::unexpected(text.error());
    auto read = evidence::read_readings_file(knowledge, *text, source_name(file));
    if (!read) return tl::unexpected(read.error());
    if (auto merged = merge(knowledge, out, std::move(*read), source_name(file)); !merged) return merged;
  }
  return {};
}

Result<std::vector<int>> read_tools(const Knowledge& knowledge, const std::string& list) {
  std::vector<int> tools;
  if (to_lower(trim(list)) == "none") return tools;
  std::vector<std::string> known;
  for (const auto& tool : knowledge.tools) known.push_back(tool.id);
  for (const std::string& piece : split(list, ',')) {
    const std::string word = to_lower(trim(piece));
    const int tool = knowledge.tool(word);
    if (tool < 0) {
      return fail(ErrorKind::input,
                  "unknown tool " + evidence::quoted(piece) + "." + did_you_mean(word, known) +
                      " Known tools: " + join(known, ", ") + "; or 'none'.",
                  "--tools");
    }
    if (std::find(tools.begin(), tools.end(), tool) == tools.end()) tools.push_back(tool);
  }
  return tools;
}

// One --reading after its words have been taken apart.
struct Said {
  evidence::Assignment assignment;
  Certainty certainty = Certainty::sure;
  std::string option;  // what messages call it
};

Result<std::vector<Said>> split_readings(const CaseSources& sources) {
  const Certainty usual = evidence::certainty_of(sources.certainty).value_or(Certainty::sure);
  std::vector<Said> out;
  for (const std::string& text : sources.readings) {
    auto pair = split_pair("--reading", text, "TRAIT=VALUE");
    if (!pair) return tl::unexpected(pair.error());
    const Sureness sureness = split_bracketed_certainty(pair->value);
    out.push_back(
        {{pair->key, sureness.words}, sureness.certainty.value_or(usual), "--reading " + evidence::quoted(text)});
  }
  // A diameter and a length are taken together, and together they are as sure as the less sure of them.
  const auto named = [&](std::string_view name) {
    return std::find_if(out.begin(), out.end(), [&](const Said& s) { return to_lower(s.assignment.name) == name; });
  };
  const auto diameter = named("diameter");
  const auto length = named("length");
  if (diameter != out.end() && length != out.end()) {
    diameter->certainty = length->certainty = std::max(diameter->certainty, length->certainty);
  }
  return out;
}

// Each alone first, so that a mistake is reported with the option that made it.
Result<void> check_each(const Knowledge& knowledge, const std::vector<Said>& all) {
  for (const Said& said : all) {
    const auto alone = evidence::parse_assignment(knowledge, said.assignment.name, said.assignment.value);
    if (!alone) return fail(alone.error().kind, alone.error().what, said.option);
  }
  return {};
}

Result<void> read_options(const Knowledge& knowledge, const CaseSources& sources, ReadingsFile& out) {
  const auto all = split_readings(sources);
  if (!all) return tl::unexpected(all.error());
  if (auto checked = check_each(knowledge, *all); !checked) return checked;
  std::vector<Reading> fresh;
  for (const Certainty certainty : {Certainty::sure, Certainty::think_so, Certainty::guess}) {
    std::vector<evidence::Assignment> group;
    for (const Said& said : *all) {
      if (said.certainty == certainty) group.push_back(said.assignment);
    }
    auto expanded = evidence::parse_assignments(knowledge, group);
    if (!expanded) return fail(expanded.error().kind, expanded.error().what, "--reading");
    for (Reading& reading : expanded->readings) {
      reading.certainty = certainty;
      reading.where = "--reading";
      fresh.push_back(std::move(reading));
    }
    out.notes.insert(out.notes.end(), expanded->notes.begin(), expanded->notes.end());
  }
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    const std::string& id = knowledge.traits[static_cast<std::size_t>(fresh[i].trait)].id;
    for (std::size_t j = 0; j < i; ++j) {
      if (fresh[j].trait != fresh[i].trait) continue;
      return fail(ErrorKind::input, "two values for '" + id + "'; keep one of them", "--reading");
    }
    if (const Reading* earlier = reading_of(out.find, fresh[i])) {
      out.notes.push_back("--reading replaces the value of '" + id + "' in " + place_of(*earlier));
    }
  }
  for (Reading& reading : fresh) evidence::add_reading(out.find, std::move(reading));
  return {};
}

Result<void> read_bike(const Knowledge& knowledge, const CaseSources& sources, Bike& bike) {
  for (const std::string& text : sources.bike) {
    auto pair = split_pair("--bike", text, "KEY=VALUE");
    if (!pair) return tl::unexpected(pair.error());
    if (auto set = evidence::set_bike_key(knowledge, bike, pair->key, pair->value); !set) {
      return fail(set.error().kind, set.error().what, "--bike " + evidence::quoted(text));
    }
  }
  return {};
}

}  // namespace

Sureness split_bracketed_certainty(std::string_view text) {
  const std::string whole = trim(text);
  const std::size_t open = whole.rfind('(');
  if (open == std::string::npos || open == 0 || whole.back() != ')') return {whole, std::nullopt};
  const auto certainty = evidence::certainty_of(std::string_view(whole).substr(open + 1, whole.size() - open - 2));
  if (!certainty) return {whole, std::nullopt};
  return {trim(whole.substr(0, open)), certainty};
}

Result<ReadingsFile> gather_case(const Knowledge& knowledge, const CaseSources& sources) {
  ReadingsFile out;
  if (auto read = read_files(knowledge, sources.files, out); !read) return tl::unexpected(read.error());
  if (auto read = read_options(knowledge, sources, out); !read) return tl::unexpected(read.error());
  if (auto read = read_bike(knowledge, sources, out.find.bike); !read) return tl::unexpected(read.error());
  if (!sources.guessed_name.empty()) out.find.guessed_name = sources.guessed_name;
  out.find.leads_zeroed = out.find.leads_zeroed || sources.leads_zeroed;
  if (sources.tools) {
    auto tools = read_tools(knowledge, *sources.tools);
    if (!tools) return tl::unexpected(tools.error());
    out.find.tools = std::move(*tools);
  }
  return out;
}

}  // namespace loomkey::cli
