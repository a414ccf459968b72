#!/usr/bin/env bash
# From a fresh Debian 12 to the first verdict: installs what is missing, builds loomkey, and identifies one part.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
readings=examples/first-find/find.toml
source tests/setup.sh

mkdir -p build/logs
say "1/3 Packages"
require_packages build/logs/setup.log build

say "2/3 Build, in $PWD/build"
: >build/logs/first-find.log
# Also what `cmake --install build` puts beside the program, so that it works straight after.
targets=(loomkey catalogue generated)
configure=(cmake -S . -B build)
# A build folder that tests/run.sh has made is used as it is.
if [[ ! -f build/CMakeCache.txt ]]; then configure+=(-G Ninja -DCMAKE_BUILD_TYPE=Release -DLOOMKEY_TESTS=OFF); fi
if ! "${configure[@]}" >>build/logs/first-find.log 2>&1 ||
  ! with_progress build/logs/first-find.log cmake --build build --parallel "$(nproc)" --target "${targets[@]}"; then
  tail -n 30 build/logs/first-find.log >&2
  stop "the build failed; all it said is in build/logs/first-find.log"
fi

say "3/3 What is the part in $readings?"
say
build/loomkey identify --readings "$readings"
