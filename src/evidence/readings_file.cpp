#include "evidence/readings_file.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "evidence/bike.h"
#include "evidence/file_values.h"
#include "evidence/found_readings.h"
#include "evidence/parse_value.h"
#include "evidence/toml_text.h"
#include "evidence/wording.h"

namespace loomkey::evidence {
namespace {

using knowledge::Knowledge;

constexpr std::size_t longest_text = 200;
constexpr std::size_t longest_note = 100000;

class FileReader {
 public:
  FileReader(const Knowledge& knowledge, const std::string& name)
      : knowledge_(&knowledge), name_(name), found_(knowledge, name) {}

  Result<ReadingsFile> read(const toml::table& root) {
    if (root.empty()) return fail(ErrorKind::input, "the file holds no readings", printable(name_));
    for (const Entry& entry : entries_of(root)) {
      if (auto taken = take_key(entry); !taken) return tl::unexpected(taken.error());
    }
    if (auto understood = understand(); !understood) return tl::unexpected(understood.error());
    if (auto added = add_all(); !added) return tl::unexpected(added.error());
    return std::move(file_);
  }

 private:
  // A reading that was understood, and where its name stands.
  struct Taken {
    Reading reading;
    std::string name;
    toml::source_position at;
  };

  [[nodiscard]] tl::unexpected<Error> bad(const toml::source_position& at, std::string what) const {
    return fail(ErrorKind::input, std::move(what), place_text(name_, at));
  }
  [[nodiscard]] tl::unexpected<Error> expected(const Entry& entry, std::string_view what) const {
    return bad(entry.node->source().begin,
               "expected " + std::string(what) + " for '" + entry.key + "', found " + kind_of(*entry.node));
  }

  Result<void> take_key(const Entry& entry) {
    if (entry.key == "schema") return check_schema(entry);
    if (entry.key == "title") return take_text(entry, file_.find.title, longest_text);
    if (entry.key == "guess") return take_text(entry, file_.find.guessed_name, longest_text);
    if (entry.key == "note") return take_text(entry, file_.note, longest_note);
    if (entry.key == "tools") return take_tools(entry);
    if (entry.key == "meter_leads_zeroed") return take_flag(entry, file_.find.leads_zeroed);
    if (entry.key == "bike") return take_bike(entry);
    if (entry.key == "readings") return found_.take_table(*entry.node);
    if (entry.key == "reading") return found_.take_blocks(*entry.node);
    return unknown_key(entry);
  }

  [[nodiscard]] tl::unexpected<Error> unknown_key(const Entry& entry) const {
    const std::vector<std::string> known = {"schema", "title",    "note",   "guess", "tools", "meter_leads_zeroed",
                                            "bike",   "readings", "reading"};
    const auto named_so = [&](const auto& item) { return item.name == entry.key; };
    if (std::any_of(bike_keys().begin(), bike_keys().end(), named_so)) {
      return bad(entry.at, quoted(entry.key) + " belongs under [bike]");
    }
    const auto pseudo = pseudo_traits();
    if (knowledge_->trait(entry.key) >= 0 || std::any_of(pseudo.begin(), pseudo.end(), named_so)) {
      return bad(entry.at, quoted(entry.key) + " belongs under [readings]");
    }
    return bad(entry.at, "unknown key " + quoted(entry.key) + "." + did_you_mean(entry.key, known) +
                             " Known keys: " + join(known, ", "));
  }

  [[nodiscard]] Result<void> check_schema(const Entry& entry) const {
    const auto* number = entry.node->as_integer();
    if (number == nullptr) return expected(entry, "1");
    if (number->get() == 1) return {};
    return bad(entry.node->source().begin,
               "this program reads schema 1 of readings files, not " + std::to_string(number->get()));
  }

  Result<void> take_text(const Entry& entry, std::string& into, std::size_t longest) const {
    const auto* text = entry.node->as_string();
    if (text == nullptr) return expected(entry, "a text");
    if (text->get().size() > longest) {
      return bad(entry.node->source().begin,
                 "'" + entry.key + "' is longer than " + std::to_string(longest) + " bytes");
    }
    into = text->get();
    return {};
  }

  Result<void> take_flag(const Entry& entry, bool& into) const {
    const auto* flag = entry.node->as_boolean();
    if (flag == nullptr) return expected(entry, "true or false");
    into = flag->get();
    return {};
  }

  Result<void> take_tools(const Entry& entry) {
    const auto* list = entry.node->as_array();
    if (list == nullptr) return expected(entry, "a list of tools");
    std::vector<std::string> known;
    for (const auto& tool : knowledge_->tools) known.push_back(tool.id);
    std::vector<int> tools;
    for (const toml::node& node : *list) {
      const auto text = scalar_text(node);
      const int tool = text ? knowledge_->tool(to_lower(trim(*text))) : -1;
      if (tool < 0) {
        const std::string wrong = text ? "unknown tool " + quoted(*text) + "." + did_you_mean(*text, known)
                                       : "a tool cannot be " + kind_of(node) + ".";
        return bad(node.source().begin, wrong + " Known tools: " + join(known, ", "));
      }
      if (!is_one_of(tools, tool)) tools.push_back(tool);
    }
    file_.find.tools = std::move(tools);
    return {};
  }

  Result<void> take_bike(const Entry& entry) {
    const auto* table = entry.node->as_table();
    if (table == nullptr) return expected(entry, "a table [bike]");
    for (const Entry& key : entries_of(*table)) {
      auto text = scalar_text(*key.node);
      if (!text && key.key == "symptoms") text = list_text(*key.node);
      if (!text) return expected(key, key.key == "symptoms" ? "a list of texts" : "a single value");
      if (auto set = set_bike_key(*knowledge_, file_.find.bike, key.key, *text); !set)
        return bad(key.at, set.error().what);
    }
    return {};
  }

  Result<void> understand() {
    for (const Found& found : found_.finish()) {
      auto expanded = parse_assignment(*knowledge_, found.name, found.value);
      if (!expanded) {
        const bool name = !is_assignable(*knowledge_, found.name);
        return bad(name ? found.name_at : found.value_at, expanded.error().what);
      }
      const std::string where = place_text(name_, found.name_at, false);
      for (const std::string& note : expanded->notes) file_.notes.push_back(where + ": " + note);
      for (Reading& reading : expanded->readings) {
        reading.certainty = found.certainty;
        reading.observer = found.observer;
        reading.where = where;
        if (found.said) reading.text = *found.said;
        taken_.push_back({std::move(reading), to_lower(trim(found.name)), found.name_at});
      }
    }
    return pair_round_sizes();
  }

  // A diameter and a length by the same observer are one statement.
  Result<void> pair_round_sizes() {
    for (std::size_t i = 0; i < taken_.size(); ++i) {
      if (taken_[i].name != "diameter") continue;
      const auto length = std::find_if(taken_.begin(), taken_.end(), [&](const Taken& other) {
        return other.name == "length" && other.reading.observer == taken_[i].reading.observer;
      });
      if (length == taken_.end()) continue;
      const auto both = round_size(*knowledge_, taken_[i].reading, length->reading);
      if (!both) return bad(taken_[i].at, both.error().what);
      const auto at = taken_[i].at;
      const Certainty certainty = std::max(taken_[i].reading.certainty, length->reading.certainty);
      length->name.clear();
      std::vector<Taken> measures;
      for (const Reading& reading : *both) {
        measures.push_back({reading, "", at});
        measures.back().reading.certainty = certainty;
      }
      const auto length_index = static_cast<std::size_t>(length - taken_.begin());
      taken_.erase(taken_.begin() + static_cast<std::ptrdiff_t>(std::max(i, length_index)));
      taken_.erase(taken_.begin() + static_cast<std::ptrdiff_t>(std::min(i, length_index)));
      const auto first = taken_.begin() + static_cast<std::ptrdiff_t>(std::min(i, length_index));
      taken_.insert(first, measures.begin(), measures.end());
    }
    return {};
  }

  Result<void> add_all() {
    std::map<std::pair<int, std::string>, toml::source_index> lines;
    for (Taken& taken : taken_) {
      const auto [earlier, added] = lines.try_emplace({taken.reading.trait, taken.reading.observer}, taken.at.line);
      if (!added) {
        const std::string& id = knowledge_->traits[static_cast<std::size_t>(taken.reading.trait)].id;
        return bad(taken.at, "two values for '" + id + "' by the same observer, in lines " +
                                 std::to_string(earlier->second) + " and " + std::to_string(taken.at.line) +
                                 ": keep one of them");
      }
      file_.find.readings.push_back(std::move(taken.reading));
    }
    return {};
  }

  const Knowledge* knowledge_;
  std::string name_;
  FoundReadings found_;
  std::vector<Taken> taken_;
  ReadingsFile file_;
};

}  // namespace

Result<ReadingsFile> read_readings_file(const Knowledge& knowledge, std::string_view text, const std::string& name) {
  auto root = parse_toml(text, name);
  if (!root) return tl::unexpected(root.error());
  return FileReader(knowledge, name).read(*root);
}

}  // namespace loomkey::evidence
