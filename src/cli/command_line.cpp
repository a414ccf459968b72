#include "cli/command_line.h"

#include <algorithm>

#include <CLI/CLI.hpp>

#include "base/text.h"
#include "cli/option_tree.h"

namespace loomkey::cli {
namespace {

// CLI11 keeps the allowed values of an option only in its description: "LEVEL:{sure,think-so,guess}".
std::vector<std::string> choices_in(const std::string& type) {
  const std::size_t open = type.find('{');
  const std::size_t close = type.rfind('}');
  if (open == std::string::npos || close == std::string::npos) return {};
  return split(std::string_view(type).substr(open + 1, close - open - 1), ',');
}

// Likewise the limits of a number: "N:INT in [1 - 20]".
std::string limits_in(const std::string& type) {
  const std::size_t open = type.find("in [");
  const std::size_t dash = type.find(" - ", open);
  const std::size_t close = type.find(']', dash);
  if (open == std::string::npos || dash == std::string::npos || close == std::string::npos) return {};
  return type.substr(open + 4, dash - open - 4) + " to " + type.substr(dash + 3, close - dash - 3);
}

OptionNode option_node(const CLI::Option& option) {
  OptionNode node;
  for (const std::string& name : option.get_lnames()) node.names.push_back("--" + name);
  for (const std::string& name : option.get_snames()) node.names.push_back("-" + name);
  const std::string type = option.get_type_name();
  if (option.get_items_expected_max() > 0) {
    node.value = type.substr(0, type.find_first_of(": "));
    node.value_optional = option.get_items_expected_min() == 0;
  }
  node.choices = choices_in(type);
  node.limits = limits_in(type);
  node.repeatable = option.get_items_expected_max() >= CLI::detail::expected_max_vector_size;
  node.required = option.get_required();
  node.help = option.get_description();
  return node;
}

ArgumentNode argument_node(const CLI::Option& option) {
  ArgumentNode node;
  node.name = option.get_single_name();
  node.required = option.get_required();
  node.repeatable = option.get_items_expected_max() > 1;
  node.choices = choices_in(option.get_type_name());
  node.help = option.get_description();
  return node;
}

CommandNode command_node(const CLI::App& app) {
  CommandNode node;
  node.name = app.get_name();
  node.help = app.get_description();
  // The empty group that hides a command is inherited by its subcommands, which need no hiding of their own.
  node.hidden = app.get_parent() != nullptr && app.get_parent()->get_parent() == nullptr && app.get_group().empty();
  node.runs_alone = app.get_require_subcommand_min() == 0;
  for (const CLI::Option* option : app.get_options()) {
    if (option->get_positional()) {
      node.arguments.push_back(argument_node(*option));
    } else {
      node.options.push_back(option_node(*option));
    }
  }
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    node.commands.push_back(command_node(*command));
  }
  return node;
}

// The commands that were named before help was asked for.
std::vector<std::string> path_of(const CLI::App& root) {
  std::vector<std::string> path;
  const CLI::App* app = &root;
  while (!app->get_subcommands().empty()) {
    app = app->get_subcommands().front();
    path.push_back(app->get_name());
  }
  return path;
}

// CLI11's own words, without its line breaks.
std::string own_words(const CLI::ParseError& error) { return trim(printable(error.what())); }

}  // namespace

Result<CommandLine> parse_command_line(const std::vector<std::string>& words) {
  CommandLine out;
  const auto root = option_tree(out);
  // CLI11 takes the words from the back.
  std::vector<std::string> reversed(words.rbegin(), words.rend());
  try {
    root->parse(std::move(reversed));
  } catch (const CLI::CallForHelp&) {
    out.command = Command::help;
    out.help_on = path_of(*root);
    return out;
  } catch (const CLI::CallForVersion&) {
    out.command = Command::version;
    return out;
  } catch (const CLI::ParseError& error) {
    const std::string explained = explain_refusal(command_node(*root), words);
    return fail(ErrorKind::usage, explained.empty() ? own_words(error) : explained);
  }
  const CLI::App* identify = root->get_subcommand("identify");
  out.identify.resume = identify->get_option("--resume")->count() > 0;
  return out;
}

CommandNode command_tree() {
  CommandLine ignored;
  return command_node(*option_tree(ignored));
}

}  // namespace loomkey::cli
