#!/usr/bin/env bash
# Faults that a passing test does not show: memory, undefined behaviour, threads.
#   tests/sanitizers.sh                 all three
#   tests/sanitizers.sh fast            the suites of what computes under AddressSanitizer and UBSan: some
#                                       minutes, so .ci/run does it for every change
#   tests/sanitizers.sh address         the whole suite under both
#   tests/sanitizers.sh thread          what has threads under ThreadSanitizer: the server, its
#                                       durability test, and `render` of both examples
#   tests/sanitizers.sh valgrind        memcheck on check, plan, render and report of both examples
# Builds are kept in build/asan, build/tsan and build/dev.
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$top"
. tests/packages.sh
# shellcheck disable=SC2086
install_packages $build_packages $test_packages

build() { # type, targets
  local type=$1 folder=build/${1,,}
  shift
  cmake -S . -B "$folder" -G Ninja -DCMAKE_BUILD_TYPE="$type" >/dev/null
  cmake --build "$folder" ${1:+--target "$@"}
}

# visited FOLDER GALLIPOT: both examples there, with some visits.
visited() {
  cp examples/hall.yaml examples/flat.yaml "$1"
  local day
  for day in 03 12 20; do
    "$2" visit "$1/hall.yaml" K1 --seen 9 --level 1/2 --at "2027-03-$day 09:00" >/dev/null 2>&1
    "$2" visit "$1/flat.yaml" K1 --seen 4 --did refilled --at "2027-05-$day 09:00" >/dev/null 2>&1
  done
}

# everywhere PREFIX.. -- GALLIPOT: the commands that compute, on both examples.
everywhere() {
  local work job
  work=$(mktemp -d)
  visited "$work" "$1"
  for job in hall flat; do
    "${@:2}" "$1" check "$work/$job.yaml"
    "${@:2}" "$1" plan "$work/$job.yaml"
    "${@:2}" "$1" plan --json "$work/$job.yaml"
    "${@:2}" "$1" render "$work/$job.yaml" -o "$work/papers"
    "${@:2}" "$1" report "$work/$job.yaml"
    "${@:2}" "$1" report --json -o "$work/report.pdf" "$work/$job.yaml"
  done >/dev/null 2>"$work/told" || { cat "$work/told"; rm -rf "$work"; return 1; }
  rm -rf "$work"
}

fast() {
  local suites="strings units diag image system reference yaml job safety mixing schedule route plan
    keys visit analysis"
  # shellcheck disable=SC2046,SC2086
  build Asan $(printf 'test_%s ' $suites)
  # shellcheck disable=SC2086
  ctest --test-dir build/asan --output-on-failure --no-tests=error -j "$(nproc)" \
    -R "^($(printf '%s|' $suites | sed 's/|$//'))\$"
}

address() {
  build Asan
  ctest --test-dir build/asan --output-on-failure --no-tests=error -j "$(nproc)"
}

thread() {
  build Tsan gallipot test_web test_log test_fonts
  export TSAN_OPTIONS="halt_on_error=1 exitcode=66 ${TSAN_OPTIONS:-}"
  build/tsan/tests/web/test_web
  build/tsan/tests/tracking/log/test_log
  build/tsan/tests/papers/fonts/test_fonts "*threads*"
  python3 tests/web/durability_test.py build/tsan/bin/gallipot . 3
  everywhere build/tsan/bin/gallipot
}

valgrind_() {
  install_packages valgrind
  build Dev gallipot
  # Definite leaks are errors. What is still reachable at the end are tables of ICU and FreeType,
  # and the list of names in src/base/system/process.cpp, which lives as long as the program.
  everywhere build/dev/bin/gallipot valgrind --quiet --error-exitcode=65 --leak-check=full \
    --errors-for-leak-kinds=definite --show-leak-kinds=definite
}

for which in "${@:-address thread valgrind}"; do
  for one in $which; do
    echo "== $one"
    if [ "$one" = valgrind ]; then valgrind_; else "$one"; fi
    echo "$one: nothing found"
  done
done
