#include "cli/completion.h"

#include <array>
#include <utility>
#include <vector>

#include "base/text.h"

namespace loomkey::cli {
namespace {

// A command with its place in the tree: "" for the root, "/parts/list".
struct Place {
  std::string path;
  const CommandNode* node;
};

void collect(const CommandNode& node, const std::string& path, std::vector<Place>& out) {
  out.push_back({path, &node});
  for (const CommandNode& command : node.commands) collect(command, path + "/" + command.name, out);
}

std::vector<Place> places(const CommandNode& root) {
  std::vector<Place> out;
  collect(root, "", out);
  return out;
}

struct Source {
  std::string_view name;  // of a value or an argument
  std::string_view kind;  // what is offered for it
};

constexpr std::array<Source, 11> sources = {{
    {"FILE", "files"},
    {"DIR", "folders"},
    {"OLD", "files"},
    {"NEW", "files"},
    {"PART", "parts"},
    {"A", "parts"},
    {"B", "parts"},
    {"C", "parts"},
    {"TRAIT", "traits"},
    {"FAMILY", "families"},
    {"TRAIT=VALUE", "readings"},
}};

// "files", "parts", "choices sure think-so guess", or "other" where nothing can be offered.
std::string wanted(const std::string& name, const std::vector<std::string>& choices) {
  if (!choices.empty()) return "choices " + join(choices, " ");
  for (const Source& source : sources) {
    if (source.name == name) return std::string(source.kind);
  }
  return "other";
}

std::string quoted(std::string_view text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::string paths_pattern(const std::vector<Place>& all) {
  std::vector<std::string> paths;
  for (const Place& place : all) {
    if (!place.path.empty()) paths.push_back(place.path);
  }
  return join(paths, "|");
}

// Lines "'/identify --readings') want=files ;;"; the options of the root are known everywhere.
std::string value_cases(const std::vector<Place>& all, const std::string& indent) {
  std::string out;
  for (const Place& place : all) {
    for (const OptionNode& option : place.node->options) {
      if (option.value.empty() || option.value_optional) continue;
      for (const std::string& name : option.names) {
        const std::string pattern = place.path.empty() ? "*' " + name + "'" : quoted(place.path + " " + name);
        out += indent + pattern + ") want=" + quoted(wanted(option.value, option.choices)) + " ;;\n";
      }
    }
  }
  return out;
}

std::vector<std::string> option_names(const CommandNode& root, const CommandNode& node) {
  std::vector<std::string> names;
  for (const OptionNode& option : node.options) names.insert(names.end(), option.names.begin(), option.names.end());
  if (&node == &root) return names;
  for (const OptionNode& option : root.options) {
    if (!option.ends_at_once()) names.push_back(option.names.front());
  }
  return names;
}

std::string argument_kind(const CommandNode& node) {
  return node.arguments.empty() ? "" : wanted(node.arguments.front().name, node.arguments.front().choices);
}

std::string bash_script(const CommandNode& root) {
  const std::vector<Place> all = places(root);
  std::string out = R"sh(# bash completions of loomkey, written by 'loomkey generate completion bash'
_loomkey() {
  local cur=${COMP_WORDS[COMP_CWORD]} place='' want='' word='' commands='' options='' kind='' i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    if [[ $word == '=' ]]; then continue; fi
    if [[ -n $want ]]; then
      want=''
      continue
    fi
    case $place/$word in
      )sh" + paths_pattern(all) +
                    R"sh() place=$place/$word ;;
    esac
    case "$place $word" in
)sh" + value_cases(all, "      ") +
                    R"sh(    esac
  done
  if [[ $cur == '=' ]]; then cur=''; fi
  case $place in
)sh";
  for (const Place& place : all) {
    std::vector<std::string> commands;
    for (const CommandNode& command : place.node->commands) {
      if (!command.hidden) commands.push_back(command.name);
    }
    out += "    " + quoted(place.path) + ") commands=" + quoted(join(commands, " ")) +
           " options=" + quoted(join(option_names(root, *place.node), " ")) +
           " kind=" + quoted(argument_kind(*place.node)) + " ;;\n";
  }
  return out + R"sh(  esac
  if [[ -z $want && $cur == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$cur")
    return
  fi
  case ${want:-$kind} in
    files)
      compopt -o filenames 2>/dev/null || true
      mapfile -t COMPREPLY < <(compgen -f -- "$cur")
      ;;
    folders)
      compopt -o filenames 2>/dev/null || true
      mapfile -t COMPREPLY < <(compgen -d -- "$cur")
      ;;
    parts | traits | families)
      mapfile -t COMPREPLY < <(compgen -W "$(loomkey generate words "${want:-$kind}" 2>/dev/null)" -- "$cur")
      ;;
    readings)
      compopt -o nospace 2>/dev/null || true
      mapfile -t COMPREPLY < <(compgen -S = -W "$(loomkey generate words traits 2>/dev/null)" -- "$cur")
      ;;
    choices*)
      word=${want:-$kind}
      mapfile -t COMPREPLY < <(compgen -W "${word#choices }" -- "$cur")
      ;;
    '')
      mapfile -t COMPREPLY < <(compgen -W "$commands" -- "$cur")
      ;;
  esac
}
complete -F _loomkey loomkey
)sh";
}

// A colon separates a candidate from its description.
std::string zsh_item(const std::string& name, const std::string& help) {
  std::string escaped;
  for (const char c : name) escaped += c == ':' ? std::string("\\:") : std::string(1, c);
  return quoted(escaped + ":" + help);
}

std::string zsh_script(const CommandNode& root) {
  const std::vector<Place> all = places(root);
  std::string out = R"sh(#compdef loomkey
# zsh completions of loomkey, written by 'loomkey generate completion zsh'
local place='' want='' word='' kind='' i
local -a commands options ids
for ((i = 2; i < CURRENT; i++)); do
  word=$words[i]
  if [[ -n $want ]]; then
    want=''
    continue
  fi
  case $place/$word in
    )sh" + paths_pattern(all) +
                    R"sh() place=$place/$word ;;
  esac
  case "$place $word" in
)sh" + value_cases(all, "    ") +
                    R"sh(  esac
done
case $place in
)sh";
  for (const Place& place : all) {
    std::vector<std::string> commands;
    for (const CommandNode& command : place.node->commands) {
      if (!command.hidden) commands.push_back(zsh_item(command.name, command.help));
    }
    std::vector<std::string> options;
    for (const std::string& name : option_names(root, *place.node)) {
      const OptionNode* option = place.node->option(name);
      if (option == nullptr) option = root.option(name);
      options.push_back(zsh_item(name, option->help));
    }
    out += "  " + quoted(place.path) + ")\n    commands=(" + join(commands, " ") + ")\n    options=(" +
           join(options, " ") + ")\n    kind=" + quoted(argument_kind(*place.node)) + " ;;\n";
  }
  return out + R"sh(esac
if [[ -z $want && $PREFIX == -* ]]; then
  _describe option options
  return
fi
case ${want:-$kind} in
  files) _files ;;
  folders) _files -/ ;;
  parts | traits | families)
    ids=(${(f)"$(loomkey generate words ${want:-$kind} 2>/dev/null)"})
    compadd -a ids
    ;;
  readings)
    ids=(${(f)"$(loomkey generate words traits 2>/dev/null)"})
    compadd -S = -a ids
    ;;
  choices*)
    word=${want:-$kind}
    ids=(${=word#choices })
    compadd -a ids
    ;;
  '') _describe command commands ;;
esac
)sh";
}

// What fish offers for a value or an argument, as flags of its `complete`.
std::string fish_values(const std::string& kind) {
  if (kind == "files" || kind == "folders") return kind == "files" ? " -F" : " -a '(__fish_complete_directories)'";
  if (kind == "readings") return " -a '(loomkey generate words traits 2>/dev/null)='";
  if (kind.starts_with("choices ")) return " -a " + quoted(kind.substr(8));
  if (kind.empty() || kind == "other") return {};
  return " -a '(loomkey generate words " + kind + " 2>/dev/null)'";
}

std::string fish_option(const OptionNode& option) {
  std::string out;
  for (const std::string& name : option.names) {
    out += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  }
  // Files are offered wherever a value is wanted, unless they are told not to be.
  const std::string kind = option.value.empty() ? "" : wanted(option.value, option.choices);
  if (!option.value.empty() && !option.value_optional) out += kind == "files" ? " -r" : " -x";
  return out + fish_values(kind) + " -d " + quoted(option.help);
}

std::string fish_script(const CommandNode& root) {
  const std::vector<Place> all = places(root);
  std::string paths = paths_pattern(all);
  for (char& c : paths) c = c == '|' ? ' ' : c;
  std::string out =
      "# fish completions of loomkey, written by 'loomkey generate completion fish'\n"
      "function __loomkey_at\n"
      "  set -l place ''\n"
      "  for word in (commandline -opc)[2..-1]\n"
      "    if contains -- $place/$word " +
      paths +
      "\n"
      "      set place $place/$word\n"
      "    end\n"
      "  end\n"
      "  test \"$place\" = \"$argv[1]\"\n"
      "end\n"
      "complete -c loomkey -f\n";
  for (const OptionNode& option : root.options) {
    const std::string where = option.ends_at_once() ? " -n \"__loomkey_at ''\"" : "";
    out += "complete -c loomkey" + where + fish_option(option) + "\n";
  }
  for (const Place& place : all) {
    const std::string at = "complete -c loomkey -n \"__loomkey_at '" + place.path + "'\"";
    for (const CommandNode& command : place.node->commands) {
      if (!command.hidden) out += at + " -a " + command.name + " -d " + quoted(command.help) + "\n";
    }
    const std::string values = fish_values(argument_kind(*place.node));
    if (!values.empty()) out += at + values + "\n";
    if (place.node == &root) continue;
    for (const OptionNode& option : place.node->options) out += at + fish_option(option) + "\n";
  }
  return out;
}

}  // namespace

std::string completion_script(const CommandNode& root, std::string_view shell) {
  if (shell == "bash") return bash_script(root);
  return shell == "zsh" ? zsh_script(root) : fish_script(root);
}

}  // namespace loomkey::cli
