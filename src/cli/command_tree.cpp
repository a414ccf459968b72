#include "cli/command_tree.h"

#include <algorithm>

#include "base/nearest.h"
#include "base/text.h"
#include "report/text.h"

namespace loomkey::cli {
namespace {

constexpr std::size_t names_width = 26;

struct HelpRow {
  std::string left;
  std::string right;
};

// Two columns; a left side that is too long has a line of its own.
std::string rows_text(const std::vector<HelpRow>& rows, std::size_t width) {
  const std::size_t left = std::min(names_width, width / 2);
  std::string out;
  for (const HelpRow& row : rows) {
    std::string line = "  " + row.left;
    const std::vector<std::string> right = report::fold(row.right, width - left - 2);
    if (display_width(line) > left) {
      for (const std::string& piece : report::fold(row.left, width - 2)) out += "  " + piece + '\n';
      line.clear();
    }
    for (const std::string& piece : right) {
      out += line + std::string(left + 2 - display_width(line), ' ') + piece + '\n';
      line.clear();
    }
  }
  return out;
}

std::string folded(const std::string& text, std::size_t width) { return join(report::fold(text, width), "\n") + "\n"; }

std::string section(const std::string& title, const std::vector<HelpRow>& rows, std::size_t width) {
  return rows.empty() ? "" : "\n" + folded(title + ":", width) + rows_text(rows, width);
}

HelpRow option_row(const OptionNode& option) {
  std::string right = option.help;
  if (!option.choices.empty()) right += " (" + join(option.choices, ", ") + ")";
  if (option.repeatable) right += " (may be repeated)";
  return {option.usage(), right};
}

// Names that a user may have meant: the options of the command and of those above it.
std::vector<std::string> option_names(const std::vector<const CommandNode*>& path) {
  std::vector<std::string> names;
  for (auto node = path.rbegin(); node != path.rend(); ++node) {
    for (const OptionNode& option : (*node)->options) {
      for (const std::string& name : option.names) {
        // A single letter is near to everything.
        if (name.size() > 2 && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
      }
    }
  }
  return names;
}

const OptionNode* find_option(const std::vector<const CommandNode*>& path, std::string_view name) {
  for (auto node = path.rbegin(); node != path.rend(); ++node) {
    if (const OptionNode* option = (*node)->option(name)) return option;
  }
  return nullptr;
}

std::vector<std::string> command_names(const CommandNode& node) {
  std::vector<std::string> names;
  for (const CommandNode& command : node.commands) {
    if (!command.hidden) names.push_back(command.name);
  }
  return names;
}

std::string see_help(const std::vector<const CommandNode*>& path) { return " See '" + path_text(path) + " --help'."; }

// A word that is no command here may be one that stands somewhere else in the tree: "list" for "parts list".
std::string elsewhere(const CommandNode& root, const std::string& word) {
  for (const CommandNode& command : root.commands) {
    if (command.hidden) continue;
    if (const auto meant = nearest(word, command_names(command))) {
      return " Did you mean '" + root.name + " " + command.name + " " + *meant + "'?";
    }
  }
  return {};
}

std::string unknown_command(const std::vector<const CommandNode*>& path, const std::string& word) {
  const CommandNode& node = *path.back();
  const std::vector<std::string> names = command_names(node);
  std::string hint = did_you_mean(word, names);
  if (hint.empty()) hint = elsewhere(*path.front(), word);
  if (hint.empty()) hint = " It is one of: " + join(names, ", ") + ".";
  return "'" + path_text(path) + "' has no command '" + printable(word) + "'." + hint;
}

std::string unknown_option(const std::vector<const CommandNode*>& path, const std::string& name) {
  const std::string hint = did_you_mean(name, option_names(path));
  return "'" + path_text(path) + "' has no option '" + printable(name) + "'." + (hint.empty() ? see_help(path) : hint);
}

std::string wrong_choice(const std::string& name, const std::string& value, const std::vector<std::string>& choices) {
  const std::string hint = did_you_mean(value, choices);
  return name + " does not take '" + printable(value) + "'." +
         (hint.empty() ? " It is one of: " + join(choices, ", ") + "." : hint);
}

bool is_number(const std::string& value) {
  return !value.empty() && std::all_of(value.begin(), value.end(), [](char c) { return c >= '0' && c <= '9'; });
}

bool is_within(const std::string& limits, const std::string& value) {
  constexpr std::size_t most_digits = 9;
  if (!is_number(value) || value.size() > most_digits) return false;
  const std::size_t middle = limits.find(" to ");
  const long number = std::stol(value);
  return number >= std::stol(limits.substr(0, middle)) && number <= std::stol(limits.substr(middle + 4));
}

bool is_choice(const std::vector<std::string>& choices, const std::string& value) {
  return choices.empty() || std::find(choices.begin(), choices.end(), value) != choices.end();
}

// Follows the words as the parser does and stops at the first one it cannot place.
class Explainer {
 public:
  Explainer(const CommandNode& root, const std::vector<std::string>& words) : path_{&root}, words_(words) {}

  std::string explain() {
    bool only_arguments = false;
    for (at_ = 0; at_ < words_.size(); ++at_) {
      const std::string& word = words_[at_];
      std::string problem;
      if (!only_arguments && word == "--") {
        only_arguments = true;
      } else if (!only_arguments && word.size() > 1 && word.front() == '-') {
        problem = take_option(word);
      } else {
        problem = take_word(word);
      }
      if (!problem.empty()) return problem;
    }
    return missing();
  }

 private:
  std::string take_option(const std::string& word) {
    const std::size_t equals = word.find('=');
    const std::string name = word.substr(0, equals);
    const OptionNode* option = find_option(path_, name);
    if (option == nullptr && word[1] != '-') option = find_option(path_, word.substr(0, 2));
    if (option == nullptr) return unknown_option(path_, name);
    if (option->value.empty()) {
      return equals == std::string::npos ? "" : name + " takes no value.";
    }
    std::string value;
    if (equals != std::string::npos) {
      value = word.substr(equals + 1);
    } else if (at_ + 1 < words_.size() && (words_[at_ + 1].size() < 2 || words_[at_ + 1].front() != '-')) {
      value = words_[++at_];
    } else if (option->value_optional) {
      return {};
    } else {
      return name + " needs a value: " + option->usage() + ".";
    }
    if (!is_choice(option->choices, value)) return wrong_choice(name, value, option->choices);
    if (!option->limits.empty() && !is_within(option->limits, value)) {
      return name + " takes a number from " + option->limits + ", not '" + printable(value) + "'.";
    }
    if (option->value == "N" && !is_number(value)) return name + " takes a number, not '" + printable(value) + "'.";
    return {};
  }

  std::string take_word(const std::string& word) {
    const CommandNode& node = *path_.back();
    if (const CommandNode* command = node.command(word); command != nullptr && arguments_ == 0) {
      path_.push_back(command);
      return {};
    }
    if (!node.commands.empty()) return unknown_command(path_, word);
    if (node.arguments.empty()) {
      return "'" + path_text(path_) + "' takes no further word, but '" + printable(word) + "' was given." +
             see_help(path_);
    }
    const std::size_t place = std::min(arguments_, node.arguments.size() - 1);
    const ArgumentNode& argument = node.arguments[place];
    if (arguments_ >= node.arguments.size() && !argument.repeatable) {
      return "'" + path_text(path_) + "' takes no further word, but '" + printable(word) +
             "' was given. It is used as: " + synopsis(path_);
    }
    ++arguments_;
    return is_choice(argument.choices, word) ? "" : wrong_choice(argument.name, word, argument.choices);
  }

  [[nodiscard]] std::string missing() const {
    const CommandNode& node = *path_.back();
    if (!node.commands.empty() && !node.runs_alone) {
      return "say what '" + path_text(path_) + "' is to do: " + join(command_names(node), ", ") + "." + see_help(path_);
    }
    for (std::size_t i = arguments_; i < node.arguments.size(); ++i) {
      if (node.arguments[i].required) {
        return "'" + path_text(path_) + "' needs " + node.arguments[i].name + ". It is used as: " + synopsis(path_);
      }
    }
    for (const OptionNode& option : node.options) {
      const bool given = std::any_of(words_.begin(), words_.end(), [&](const std::string& word) {
        return std::find(option.names.begin(), option.names.end(), word.substr(0, word.find('='))) !=
               option.names.end();
      });
      if (option.required && !given) return "'" + path_text(path_) + "' needs " + option.usage() + ".";
    }
    return {};
  }

  std::vector<const CommandNode*> path_;
  const std::vector<std::string>& words_;
  std::size_t at_ = 0;
  std::size_t arguments_ = 0;
};

}  // namespace

bool OptionNode::ends_at_once() const {
  return std::any_of(names.begin(), names.end(),
                     [](const std::string& name) { return name == "--help" || name == "--version"; });
}

std::string OptionNode::usage() const {
  std::string text = join(names, ", ");
  if (value.empty()) return text;
  return text + (value_optional ? " [" + value + "]" : " " + value);
}

std::string ArgumentNode::usage() const {
  const std::string text = name + (repeatable ? "..." : "");
  return required ? text : "[" + text + "]";
}

const CommandNode* CommandNode::command(std::string_view wanted) const {
  for (const CommandNode& node : commands) {
    if (node.name == wanted) return &node;
  }
  return nullptr;
}

const OptionNode* CommandNode::option(std::string_view wanted) const {
  for (const OptionNode& node : options) {
    if (std::find(node.names.begin(), node.names.end(), wanted) != node.names.end()) return &node;
  }
  return nullptr;
}

std::vector<const CommandNode*> walk(const CommandNode& root, const std::vector<std::string>& path) {
  std::vector<const CommandNode*> nodes = {&root};
  for (const std::string& name : path) {
    const CommandNode* next = nodes.back()->command(name);
    if (next == nullptr) break;
    nodes.push_back(next);
  }
  return nodes;
}

std::string path_text(const std::vector<const CommandNode*>& path) {
  std::vector<std::string> names;
  for (const CommandNode* node : path) names.push_back(node->name);
  return join(names, " ");
}

std::string synopsis(const std::vector<const CommandNode*>& path) {
  const CommandNode& node = *path.back();
  std::string text = path_text(path);
  if (!node.options.empty()) text += " [OPTIONS]";
  for (const ArgumentNode& argument : node.arguments) text += " " + argument.usage();
  if (!node.commands.empty()) text += node.runs_alone ? " [COMMAND]" : " COMMAND";
  return text;
}

std::string help_text(const CommandNode& root, const std::vector<std::string>& path, std::size_t width) {
  const std::vector<const CommandNode*> nodes = walk(root, path);
  const CommandNode& node = *nodes.back();
  std::string out = folded(node.help, width) + "\n" + folded("Use: " + synopsis(nodes), width);
  std::vector<HelpRow> rows;
  for (const CommandNode& command : node.commands) {
    if (!command.hidden) rows.push_back({command.name, command.help});
  }
  out += section("Commands", rows, width);
  rows.clear();
  for (const ArgumentNode& argument : node.arguments) {
    const std::string choices = argument.choices.empty() ? "" : " (" + join(argument.choices, ", ") + ")";
    rows.push_back({argument.usage(), argument.help + choices});
  }
  out += section("Words", rows, width);
  rows.clear();
  for (const OptionNode& option : node.options) rows.push_back(option_row(option));
  out += section("Options", rows, width);
  rows.clear();
  if (nodes.size() > 1) {
    for (const OptionNode& option : root.options) {
      if (node.option(option.names.front()) == nullptr && !option.ends_at_once()) rows.push_back(option_row(option));
    }
  }
  return out + section("Options of every command", rows, width);
}

std::string explain_refusal(const CommandNode& root, const std::vector<std::string>& words) {
  return Explainer(root, words).explain();
}

}  // namespace loomkey::cli
