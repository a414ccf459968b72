#!/usr/bin/env bash
# Installs into a folder of its own and looks at what a person gets: install_test.sh BUILD program|man|bash|zsh|fish
# Exits with 77 where the tool that reads the installed file is not there.
set -euo pipefail
build=$(realpath "$1")
what=$2
tree=$(realpath "$(dirname "${BASH_SOURCE[0]}")/../..")
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

fault() {
  printf 'fault: %s\n' "$*" >&2
  exit 1
}
needs() {
  command -v "$1" >/dev/null && return
  printf 'skipped: %s is not installed\n' "$1"
  exit 77
}

# With a blank, as a person's own folder may have one.
prefix="$place/a prefix"
cmake --install "$build" --prefix "$prefix" >"$place/install.log" || fault "cmake --install failed"
share=$prefix/share
completion() {
  case $1 in
    bash) echo "$share/bash-completion/completions/loomkey" ;;
    zsh) echo "$share/zsh/site-functions/_loomkey" ;;
    fish) echo "$share/fish/vendor_completions.d/loomkey.fish" ;;
  esac
}

# Runs a command in a folder that has nothing to do with the source, in a fresh home, with nothing inherited.
mkdir -p "$place/elsewhere" "$place/home"
elsewhere() { (cd "$place/elsewhere" && env -i HOME="$place/home" PATH="$prefix/bin:/usr/bin:/bin" LANG=C.UTF-8 "$@"); }

works() {
  local said
  said=$(elsewhere "$@" </dev/null) || fault "'$*' exited with $?"
  [[ -n $said ]] || fault "'$*' printed nothing"
}

case $what in
  program)
    [[ -s $share/loomkey/catalogue.sqlite ]] || fault "no catalogue under share/loomkey"
    cp "$tree/examples/first-find/find.toml" "$place/elsewhere/"
    works loomkey parts
    works loomkey identify --readings find.toml
    # A link in another folder, as people put one on their PATH.
    ln -s "$prefix/bin/loomkey" "$place/home/a-link"
    works "$place/home/a-link" parts
    # The whole prefix moved elsewhere, as a package builder does.
    mv "$prefix" "$place/moved"
    prefix=$place/moved
    works loomkey parts
    [[ -z $(find "$place/elsewhere" -newer "$place/install.log" ! -name find.toml -type f) ]] ||
      fault "the program left files behind in the current folder"
    ;;
  man)
    needs man
    page=$share/man/man1/loomkey.1
    [[ -s $page ]] || fault "no man page"
    text=$(MANWIDTH=80 LC_ALL=C.UTF-8 man --warnings -l "$page" 2>"$place/warnings") || fault "man cannot render it"
    [[ ! -s $place/warnings ]] || fault "man warns: $(cat "$place/warnings")"
    for word in NAME SYNOPSIS identify catalogue; do
      grep -q "$word" <<<"$text" || fault "the man page does not mention $word"
    done
    ;;
  bash)
    # The candidates for the second word of "loomkey id".
    said=$(elsewhere bash -c '
      set -eu
      source "$1"
      registered=$(complete -p loomkey)
      [[ $registered =~ -F\ ([^ ]+) ]]
      COMP_WORDS=(loomkey id) COMP_CWORD=1 COMP_LINE="loomkey id" COMP_POINT=10 COMPREPLY=()
      "${BASH_REMATCH[1]}" loomkey id loomkey || true
      printf "%s\n" "${COMPREPLY[@]}"' completions "$(completion bash)") || fault "bash cannot use the completions"
    [[ $said == identify* ]] || fault "bash offers '$said' for 'id'"
    ;;
  zsh)
    needs zsh
    [[ $(head -n 1 "$(completion zsh)") == '#compdef loomkey'* ]] || fault "the first line does not name the command"
    elsewhere zsh -n "$(completion zsh)" || fault "zsh cannot read the completions"
    ;;
  fish)
    needs fish
    said=$(elsewhere fish --no-config -c 'source $argv[1]; complete -C "loomkey id"' "$(completion fish)") ||
      fault "fish cannot use the completions"
    [[ $said == identify* ]] || fault "fish offers '$said' for 'id'"
    ;;
  *) fault "unknown check '$what'" ;;
esac
