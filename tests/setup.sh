# shellcheck shell=bash
# Puts the Debian packages in place that loomkey needs, and shows the progress of long commands.
# examples/first-find.sh and tests/run.sh source this file; it can also be run: bash tests/setup.sh build test
# Nothing is done, and the network is not asked, when every package is there already.

# group  package             what it is for
package_table() {
  cat <<'TABLE'
build  g++                   compiles loomkey
build  cmake                 describes the build
build  ninja-build           runs the build
build  pkg-config            finds libedit
build  libsqlite3-dev        holds the catalogue
build  libsqlitecpp-dev      SQLite in C++
build  libtomlplusplus-dev   reads catalogue sources and readings files
build  libcli11-dev          reads the command line
build  libedit-dev           edits answers in a conversation
build  libfmt-dev            formats numbers and text
build  libexpected-dev       carries a result or an error
build  nlohmann-json3-dev    writes JSON
build  libssl-dev            hashes the content of the catalogue
test   catch2                runs the unit tests
test   librapidcheck-dev     makes random cases
test   libbenchmark-dev      measures speed
test   clang-format-14       checks the layout of the code
test   clang-tidy-14         looks for slips in the code
test   python3               runs the checks of the source tree
test   python3-numpy         numbers for scikit-learn
test   python3-sklearn       naive Bayes to compare beliefs with
test   python3-jsonschema    validates the JSON output
test   r-base-core           opens the datasets of r-cran-mlbench
test   r-cran-mlbench        open datasets for the question engine
test   sqlite3               looks at the catalogue from outside
test   tmux                  holds conversations at a terminal
test   man-db                renders the man page
test   zsh                   reads its completions
test   fish                  reads its completions
TABLE
}

say() { printf '%s\n' "$*"; }
stop() {
  printf 'error: %s\n' "$*" >&2
  exit 1
}

package_is_there() { [[ $(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null) == installed ]]; }

# require_packages LOG GROUP...
require_packages() {
  local log=$1 group package purpose
  shift
  local -a missing=() wanted=()
  while read -r group package purpose; do
    [[ " $* " == *" $group "* ]] || continue
    wanted+=("$package")
    package_is_there "$package" && continue
    if ((${#missing[@]} == 0)); then say "These Debian packages are missing and will be installed:"; fi
    printf '  %-21s %s\n' "$package" "$purpose"
    missing+=("$package")
  done < <(package_table)
  if ((${#missing[@]} == 0)); then
    say "All ${#wanted[@]} Debian packages needed are there."
    return
  fi
  local by_hand="apt-get update && apt-get install --no-install-recommends ${missing[*]}"
  command -v apt-get >/dev/null || stop "this script installs packages of Debian 12 with apt-get, which is not here."

  local -a as_root=()
  if ((EUID != 0)); then
    command -v sudo >/dev/null || stop "installing needs root, and there is no sudo. As root, run: $by_hand"
    if ! sudo -n true 2>/dev/null; then
      [[ -t 0 ]] || stop "installing needs root, and sudo wants a password. As root, run: $by_hand"
      say "sudo asks for your password to install them."
      sudo -v || stop "sudo did not allow it. As root, run: $by_hand"
    fi
    as_root=(sudo)
  fi
  # Time limits and retries, so that a missing network ends in a message and not in a long silence.
  as_root+=(env DEBIAN_FRONTEND=noninteractive apt-get -y -o DPkg::Lock::Timeout=300 -o Acquire::Retries=2
    -o Acquire::http::Timeout=30 -o Acquire::https::Timeout=30)
  say "Reading the package lists (log: $log)."
  # An unreachable list of some other repository is no reason to stop: the next step tells whether ours was read.
  "${as_root[@]}" update >"$log" 2>&1 </dev/null || true
  say "Downloading and installing."
  if ! with_progress "$log" "${as_root[@]}" -o Dpkg::Use-Pty=0 install --no-install-recommends "${missing[@]}"; then
    local reason
    reason=$(grep -m 1 -E '^(W|E): ' "$log") || reason='no reason given'
    stop "apt-get could not install the packages ($reason). Is there a network connection? All it said is in $log"
  fi
  for package in "${missing[@]}"; do
    package_is_there "$package" || stop "apt-get ended well, but $package is not installed; see $log"
  done
  say "Installed ${#missing[@]} packages and what they need."
}

# with_progress LOG COMMAND... appends everything the command prints to LOG and shows how far it has come, a line
# every ten seconds at most: steps of ninja and ctest, packages of apt-get.
with_progress() {
  local log=$1 status=0
  shift
  "$@" 2>&1 </dev/null | tee -a "$log" | show_steps || status=$?
  return "$status"
}

show_steps() {
  local line step='' shown=$SECONDS packages='' done_packages=0
  while IFS= read -r line; do
    if [[ $line =~ ^\ *\[?([0-9]+)/([0-9]+)[\]\ ] ]]; then
      step="${BASH_REMATCH[1]} of ${BASH_REMATCH[2]} steps"
    elif [[ $line =~ ,\ ([0-9]+)\ newly\ installed ]]; then
      packages=${BASH_REMATCH[1]}
    elif [[ $line =~ ^Get:([0-9]+)\  && -n $packages ]]; then
      step="downloaded ${BASH_REMATCH[1]} of $packages packages"
    elif [[ $line == Setting\ up\ * ]]; then
      done_packages=$((done_packages + 1))
      # Packages set up on the side of others can exceed what apt-get announced.
      if [[ -n $packages ]] && ((packages < done_packages)); then packages=$done_packages; fi
      step="installed $done_packages${packages:+ of $packages} packages"
    fi
    if [[ -n $step ]] && ((SECONDS - shown >= 10)); then
      printf '  ... %s\n' "$step"
      shown=$SECONDS step=''
    fi
  done
}

# Compiling again what has not changed is the longest wait of a developer; ccache is used where it is installed.
if command -v ccache >/dev/null; then export CMAKE_CXX_COMPILER_LAUNCHER=${CMAKE_CXX_COMPILER_LAUNCHER:-ccache}; fi

if [[ ${BASH_SOURCE[0]} == "$0" ]]; then
  set -euo pipefail
  (($# > 0)) || stop "name the groups to install: build, test"
  cd "$(dirname "${BASH_SOURCE[0]}")/.."
  mkdir -p build/logs
  require_packages build/logs/setup.log "$@"
fi
