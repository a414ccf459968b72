#include <algorithm>

#include "base/nearest.h"
#include "base/text.h"
#include "bench/compare.h"
#include "cli/commands.h"
#include "cli/completion.h"
#include "cli/man_page.h"
#include "evidence/wording.h"
#include "inference/settings.h"
#include "report/catalogue_document.h"
#include "report/catalogue_json.h"
#include "report/words.h"

namespace loomkey::cli {
namespace {

using knowledge::Knowledge;

constexpr std::size_t most_found = 20;

template <typename Items>
std::vector<std::string> ids_of(const Items& items) {
  std::vector<std::string> ids;
  for (const auto& item : items) ids.push_back(item.id);
  return ids;
}

template <typename Items>
std::vector<int> all_of(const Items& items) {
  std::vector<int> indices(items.size());
  for (std::size_t i = 0; i < items.size(); ++i) indices[i] = static_cast<int>(i);
  return indices;
}

Result<int> family_of(const Knowledge& knowledge, const std::string& words) {
  const std::string wanted = evidence::words_of(words);
  for (std::size_t f = 0; f < knowledge.families.size(); ++f) {
    const auto& family = knowledge.families[f];
    if (wanted == evidence::words_of(family.id) || wanted == evidence::words_of(family.name))
      return static_cast<int>(f);
  }
  const std::vector<std::string> ids = ids_of(knowledge.families);
  const std::string hint = did_you_mean(words, ids);
  return fail(ErrorKind::input, "no family is called " + evidence::quoted(words) + "." +
                                    (hint.empty() ? " They are: " + join(ids, ", ") + "." : hint));
}

Result<int> trait_of(const Knowledge& knowledge, const std::string& words) {
  const std::string wanted = evidence::words_of(words);
  for (std::size_t t = 0; t < knowledge.traits.size(); ++t) {
    const auto& trait = knowledge.traits[t];
    if (wanted == evidence::words_of(trait.id) || wanted == evidence::words_of(trait.name)) return static_cast<int>(t);
  }
  const std::string hint = did_you_mean(words, ids_of(knowledge.traits));
  return fail(ErrorKind::input, "no trait is called " + evidence::quoted(words) + "." +
                                    (hint.empty() ? " 'loomkey traits' lists all." : hint));
}

Result<std::vector<int>> parts_of(const bench::Workbench& bench, const std::vector<std::string>& words) {
  std::vector<int> parts;
  for (const std::string& word : words) {
    const auto part = bench.part(word);
    if (!part) return tl::unexpected(part.error());
    if (std::find(parts.begin(), parts.end(), *part) != parts.end()) {
      return fail(ErrorKind::input, evidence::quoted(word) + " is named twice; there is nothing to compare");
    }
    parts.push_back(*part);
  }
  return parts;
}

}  // namespace

Result<ExitCode> printed(const Shell& shell, std::string_view text) {
  if (auto done = shell.print(text); !done) return tl::unexpected(done.error());
  return ExitCode::answered;
}

Result<ExitCode> printed(const Shell& shell, const report::Document& document) {
  return printed(shell, report::to_text(document, shell.style()));
}

Result<ExitCode> list_parts(const CommandLine& line, const Shell& shell) {
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const Knowledge& knowledge = bench->knowledge();
  std::vector<int> parts = all_of(knowledge.parts);
  if (!line.family.empty()) {
    const auto family = family_of(knowledge, line.family);
    if (!family) return tl::unexpected(family.error());
    std::erase_if(parts, [&](int p) { return knowledge.parts[static_cast<std::size_t>(p)].family != *family; });
  }
  if (line.json) return printed(shell, report::parts_json(knowledge, parts));
  return printed(shell, report::parts_list_document(knowledge, parts));
}

Result<ExitCode> search_parts(const CommandLine& line, const Shell& shell) {
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const std::vector<int> found = bench->search(join(line.words, " "), most_found);
  if (line.json) return printed(shell, report::parts_json(bench->knowledge(), found));
  if (found.empty()) {
    return fail(ErrorKind::input,
                "no part holds " + evidence::quoted(join(line.words, " ")) + ". 'loomkey parts list' shows all.");
  }
  // Best first, whatever the family.
  report::Table table;
  table.columns = {{"part"}, {"name"}};
  for (const int p : found) {
    const auto& part = bench->knowledge().parts[static_cast<std::size_t>(p)];
    table.rows.push_back({part.id, part.name});
  }
  report::Document page;
  page.blocks.emplace_back(std::move(table));
  return printed(shell, page);
}

Result<ExitCode> show_part(const CommandLine& line, const Shell& shell) {
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const auto part = bench->part(line.words.front());
  if (!part) return tl::unexpected(part.error());
  if (line.json) return printed(shell, report::part_json(bench->knowledge(), *part));
  return printed(shell, report::part_document(bench->knowledge(), *part));
}

Result<ExitCode> compare_parts(const CommandLine& line, const Shell& shell) {
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const auto parts = parts_of(*bench, line.words);
  if (!parts) return tl::unexpected(parts.error());
  const std::vector<bench::Separation> separations = bench::compare(bench->model(), *parts);
  if (line.json) return printed(shell, report::comparison_json(bench->knowledge(), *parts, separations));
  return printed(shell, report::comparison_document(bench->knowledge(), *parts, separations));
}

Result<ExitCode> show_traits(const CommandLine& line, const Shell& shell) {
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const Knowledge& knowledge = bench->knowledge();
  if (line.words.empty()) {
    if (line.json) return printed(shell, report::traits_json(knowledge, all_of(knowledge.traits)));
    return printed(shell, report::traits_document(knowledge));
  }
  const auto trait = trait_of(knowledge, line.words.front());
  if (!trait) return tl::unexpected(trait.error());
  if (line.json) return printed(shell, report::traits_json(knowledge, {*trait}));
  return printed(shell, report::trait_document(knowledge, *trait));
}

Result<ExitCode> show_settings(const CommandLine&, const Shell& shell) {
  const inference::Settings defaults;
  report::Table table;
  table.columns = {{"setting"}, {"value", true}, {"from", true}, {"to", true}, {"meaning"}};
  for (const inference::Tunable& tunable : inference::tunables()) {
    table.rows.push_back({std::string(tunable.name), report::figure(defaults.*tunable.value),
                          report::figure(tunable.low), report::figure(tunable.high), std::string(tunable.help)});
  }
  report::Document page;
  page.blocks.emplace_back(std::move(table));
  return printed(shell, page);
}

Result<ExitCode> generate(const CommandLine& line, const Shell& shell) {
  if (line.command == Command::generate_man)
    return printed(shell, man_page(command_tree(), "loomkey " LOOMKEY_VERSION));
  if (line.command == Command::generate_completion) {
    return printed(shell, completion_script(command_tree(), line.words.front()));
  }
  const auto bench = open_workbench(line, shell);
  if (!bench) return tl::unexpected(bench.error());
  const Knowledge& knowledge = bench->knowledge();
  std::vector<std::string> ids = ids_of(knowledge.parts);
  if (line.words.front() == "traits") ids = ids_of(knowledge.traits);
  if (line.words.front() == "families") ids = ids_of(knowledge.families);
  return printed(shell, join(ids, "\n") + "\n");
}

}  // namespace loomkey::cli
