#!/usr/bin/env bash
# Installs what is missing, builds everything, runs every check, and says how long each suite took against its budget
# (tests/budgets.txt). What each suite printed is kept in build/logs/.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source tests/setup.sh

logs=$PWD/build/logs
jobs=$(nproc)
# Tests of the source tree and the shipped files have suites of their own.
tree_labels='layering|readme|install'
passed=0 failed=0 skipped=0
troubles=() table=() skips=()

budget_of() { awk -v suite="$1" '$1 == suite { print $2 }' tests/budgets.txt; }
clock() { printf '%d:%02d' $(($1 / 60)) $(($1 % 60)); }

# run_suite NAME TITLE COMMAND...; the command finds its log in $log. A suite of ctest counts its tests itself, any
# other one is one check.
run_suite() {
  local name=$1 title=$2 start=$SECONDS counted=$((passed + failed + skipped)) failed_before=$failed
  local result=ok limit took
  shift 2
  log=$logs/$name.log
  : >"$log"
  say "== $name: $title"
  if ! "$@"; then
    result=FAILED
    tail -n 40 "$log"
    troubles+=("$name failed; all it said is in build/logs/$name.log")
  fi
  if [[ $result == FAILED ]] && ((failed == failed_before)); then failed=$((failed + 1)); fi
  if [[ $result == ok ]] && ((passed + failed + skipped == counted)); then passed=$((passed + 1)); fi
  took=$((SECONDS - start))
  limit=$(budget_of "$name")
  if [[ -n $limit ]] && ((took > limit * 60)); then
    troubles+=("$name took $(clock $took) minutes, over its budget of $limit in tests/budgets.txt")
    failed=$((failed + 1))
  fi
  table+=("$(printf '%-9s %-7s %6s %8s' "$name" "$result" "$(clock $took)" "${limit:--}")")
  say "   $result after $(clock $took) minutes"
  [[ $result == ok ]]
}

build_all() {
  cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DLOOMKEY_WERROR=ON -DLOOMKEY_TESTS=ON \
    -DLOOMKEY_BENCHMARKS=ON >>"$log" 2>&1 && with_progress "$log" cmake --build build --parallel "$jobs"
}

# run_ctest BUILD_DIR OPTION...
run_ctest() {
  local folder=$1 status=0 xml=${log%.log}.xml
  shift
  rm -f "$xml"
  with_progress "$log" ctest --test-dir "$folder" --parallel "$jobs" --output-on-failure --timeout 300 \
    --no-tests=error --output-junit "$xml" "$@" || status=$?
  count_tests "$xml" || status=1
  return "$status"
}

count_tests() {
  local tests failures idle name
  tests=$(junit_number "$1" tests) failures=$(junit_number "$1" failures)
  idle=$(($(junit_number "$1" skipped) + $(junit_number "$1" disabled)))
  passed=$((passed + tests - failures - idle)) failed=$((failed + failures)) skipped=$((skipped + idle))
  while IFS= read -r name; do skips+=("$(basename "$log" .log): $name"); done < <(
    sed -nE 's/^\s+[0-9]+ - (.*) \((Skipped|Disabled)\)$/\1/p' "$log"
  )
  if ((tests == 0)); then
    failed=$((failed + 1))
    return 1
  fi
}

junit_number() {
  local value=''
  [[ ! -f $1 ]] || value=$(grep -m 1 -oP "\\b$2=\"\\K[0-9]+" "$1") || true
  printf '%s' "${value:-0}"
}

check_format() {
  find src tests \( -name '*.cpp' -o -name '*.h' \) -print0 |
    xargs -0 -r clang-format-14 --dry-run -Werror >>"$log" 2>&1
}

check_lint() {
  local -a files
  # Longest first, so that no core waits for the other at the end.
  mapfile -t files < <(find src -name '*.cpp' -exec ls -S {} +)
  with_progress "$log" lint_each "${files[@]}"
}

lint_each() {
  local file n=0
  for file in "$@"; do
    n=$((n + 1))
    printf '%s\0%s\0' "$n/$#" "$file"
  done | xargs -0 -n 2 -P "$jobs" bash -c '
    if said=$(clang-tidy-14 -p build --quiet --extra-arg=-Wno-unknown-warning-option "$2" 2>&1); then echo "[$1] $2"; else
      printf "[%s] %s\n%s\n" "$1" "$2" "$(grep -v "warnings generated" <<<"$said")"; exit 1; fi' lint
}

check_data() { build/loomkey catalogue check data >>"$log" 2>&1; }

build_and_test_sanitized() {
  cmake -S . -B build-sanitize -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG='-O0 -g1' -DLOOMKEY_TESTS=ON \
    -DLOOMKEY_BENCHMARKS=OFF -DLOOMKEY_SANITIZE=address,undefined >>"$log" 2>&1 &&
    with_progress "$log" cmake --build build-sanitize --parallel "$jobs" &&
    run_ctest build-sanitize --label-exclude "^($tree_labels|slow)\$"
}

finish() {
  local line total=$((passed + failed)) good
  good=$((total == 0 ? 0 : passed * 100 / total))
  say
  say "suite     result  minutes   budget"
  printf '%s\n' "${table[@]}"
  for line in "${skips[@]}"; do say "skipped: $line"; done
  for line in "${troubles[@]}"; do say "error: $line"; done
  say
  say "$good% tests passed, $failed tests failed out of $total"
  say "$passed passed, $failed failed, $skipped skipped"
  ((failed == 0 && ${#troubles[@]} == 0)) || exit 1
  exit 0
}

mkdir -p "$logs"
say "== setup: Debian packages"
require_packages "$logs/setup.log" build test
begun=$SECONDS

if ! run_suite build "everything, warnings as errors" build_all; then finish; fi
run_suite tests "unit tests, examples and outside checks" run_ctest build --label-exclude "^($tree_labels)\$" || true
run_suite format "layout of the code" check_format || true
run_suite lint "slips in the code of src" check_lint || true
run_suite data "the catalogue's sources" check_data || true
run_suite layering "arrows between modules, rules of the house" run_ctest build --label-regex '^layering$' || true
run_suite readme "commands of the README" run_ctest build --label-regex '^readme$' || true
run_suite install "an installed program" run_ctest build --label-regex '^install$' || true
spare=$(($(budget_of total) * 60 - (SECONDS - begun)))
if ((spare >= $(budget_of sanitize) * 60)); then
  run_suite sanitize "unit tests under the address and undefined-behaviour sanitizers" build_and_test_sanitized || true
else
  skipped=$((skipped + 1))
  skips+=("sanitize: $(clock $((spare > 0 ? spare : 0))) minutes of the total budget are left")
fi
if ((SECONDS - begun > $(budget_of total) * 60)); then
  failed=$((failed + 1))
  troubles+=("the run took $(clock $((SECONDS - begun))) minutes, over the total budget in tests/budgets.txt")
fi
finish
