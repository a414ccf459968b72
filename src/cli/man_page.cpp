#include "cli/man_page.h"

#include <array>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "cli/exit_codes.h"
#include "cli/spoken.h"

namespace loomkey::cli {
namespace {

struct Row {
  std::string_view term;
  std::string_view meaning;
};

constexpr std::array<Row, 7> variables = {{
    {"LOOMKEY_CATALOGUE", "The catalogue to use where --catalogue names none."},
    {"LOOMKEY_OVERLAY", "The overlay folder to use where neither --overlay nor --no-overlay is given."},
    {"XDG_DATA_HOME",
     "The folder in which loomkey/catalogue.sqlite and loomkey/overlay are looked for; ~/.local/share if unset."},
    {"XDG_STATE_HOME", "The folder in which conversations are kept; ~/.local/state if unset."},
    {"NO_COLOR", "If set to anything, text is written without bold and colour."},
    {"TERM", "If it is dumb, no terminal codes are written and lines are read without editing."},
    {"COLUMNS", "The width of text, up to 80 columns."},
}};

constexpr std::array<Row, 4> files = {{
    {"../share/loomkey/catalogue.sqlite", "The default catalogue, beside the folder of the program."},
    {"$XDG_DATA_HOME/loomkey/overlay",
     "Parts of your own: parts/*.toml, advice/*.toml, families/*.toml and confusions.toml, written as the sources of "
     "the "
     "catalogue are. A part whose id ships replaces it. 'loomkey catalogue check' on it lists its mistakes."},
    {"$XDG_STATE_HOME/loomkey/last.toml",
     "The readings of the last conversation; identify --resume goes on with them."},
    {"$XDG_STATE_HOME/loomkey/previous.toml", "Those of the conversation before it."},
}};

constexpr std::array<Row, 5> examples = {{
    {"loomkey identify", "Answer questions about the part in your hand."},
    {"loomkey identify --resume", "Go on with them."},
    {"loomkey identify --reading form=can --reading 'size_long=about 30 mm (think so)' --bike volts=12",
     "One shot from three things that are known."},
    {"loomkey identify --readings find.toml --json",
     "The same from a file, as data. Growing the file by the answers to "
     "its \"questions\" drives a whole conversation."},
    {"loomkey parts search rectifier", "Look for parts."},
}};

// Text that troff shall take as it is.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else if (c == '\'') {
      out += "\\(aq";
    } else if (c == '"') {
      out += "\\(dq";
    } else {
      out += c;
    }
  }
  // At the start of a line these would be requests.
  return out.starts_with('.') ? "\\&" + out : out;
}

std::string bold(std::string_view text) { return "\\fB" + escaped(text) + "\\fR"; }
std::string slanted(std::string_view text) { return "\\fI" + escaped(text) + "\\fR"; }

std::string stopped(std::string text) { return text.empty() || text.back() == '.' ? text : text + "."; }

void entry(std::string& out, const std::string& term, std::string_view meaning) {
  out += ".TP\n" + term + "\n" + escaped(meaning) + "\n";
}

std::string option_term(const OptionNode& option) {
  std::vector<std::string> names;
  for (const std::string& name : option.names) names.push_back(bold(name));
  std::string out = join(names, ", ");
  if (option.value.empty()) return out;
  return out + " " + (option.value_optional ? "[" + slanted(option.value) + "]" : slanted(option.value));
}

std::string option_meaning(const OptionNode& option) {
  std::string text = stopped(option.help);
  if (!option.choices.empty()) text += " One of: " + join(option.choices, ", ") + ".";
  if (!option.limits.empty()) text += " From " + option.limits + ".";
  if (option.repeatable) text += " May be repeated.";
  return text;
}

void options(std::string& out, const CommandNode& node) {
  for (const OptionNode& option : node.options) {
    if (option.names.front() != "--help") entry(out, option_term(option), option_meaning(option));
  }
}

std::string usage(const std::vector<const CommandNode*>& path) {
  std::string out = bold(path_text(path));
  const CommandNode& node = *path.back();
  if (node.options.size() > 1) out += " [" + slanted("OPTIONS") + "]";
  for (const ArgumentNode& argument : node.arguments) out += " " + slanted(argument.usage());
  return out;
}

// Every command that does something; hidden ones are for packagers.
void commands(std::string& out, std::vector<const CommandNode*> path) {
  const CommandNode& node = *path.back();
  if (path.size() > 1 && (node.commands.empty() || node.runs_alone)) {
    out += ".SS " + usage(path) + "\n" + escaped(stopped(node.help)) + "\n";
    options(out, node);
    for (const ArgumentNode& argument : node.arguments) entry(out, slanted(argument.usage()), stopped(argument.help));
  }
  for (const CommandNode& command : node.commands) {
    if (command.hidden) continue;
    path.push_back(&command);
    commands(out, path);
    path.pop_back();
  }
}

template <std::size_t size>
void rows(std::string& out, const std::string& title, const std::array<Row, size>& table) {
  out += ".SH " + title + "\n";
  for (const Row& row : table) entry(out, bold(row.term), row.meaning);
}

}  // namespace

std::string man_page(const CommandNode& root, const std::string& version) {
  std::string out = ".TH LOOMKEY 1 \"\" \"" + escaped(version) + "\" \"User Commands\"\n";
  out += ".SH NAME\nloomkey \\- identify unknown electrical parts of classic motorcycles\n";
  out += ".SH SYNOPSIS\n" + bold(root.name) + " [" + slanted("OPTIONS") + "] " + slanted("COMMAND") + " ...\n";
  out += ".SH DESCRIPTION\n" + escaped(root.help) + "\n";
  out += ".PP\n" +
         escaped(
             "At a terminal, 'loomkey identify' asks; without one, or when readings are given, it answers "
             "at once. Results go to standard output, messages to standard error.") +
         "\n";
  out += ".SH OPTIONS\n";
  options(out, root);
  entry(out, bold("--help"), "Show help; it works for every command.");
  out += ".SH COMMANDS\n";
  commands(out, {&root});
  out += ".SH CONVERSATION\n" +
         escaped(
             "While a question stands, these words, or their letters, may be typed instead of an "
             "answer. While letters or colours are asked for, single letters are answers.") +
         "\n";
  for (const Key& key : conversation_keys) {
    const std::string letter = key.letter == ' ' ? "" : bold(std::string(1, key.letter)) + ", ";
    entry(out, letter + bold(key.use), key.meaning);
  }
  out += ".SH EXIT STATUS\n";
  for (const ExitMeaning& meaning : exit_meanings) {
    entry(out, bold(std::to_string(static_cast<int>(meaning.code))), meaning.meaning);
  }
  rows(out, "ENVIRONMENT", variables);
  rows(out, "FILES", files);
  rows(out, "EXAMPLES", examples);
  return out;
}

}  // namespace loomkey::cli
