#!/usr/bin/env bash
# Builds the fuzz targets with clang, AddressSanitizer and UndefinedBehaviorSanitizer, and fuzzes
# each for so many seconds, one after the other. The corpus grows in build/fuzz/corpus, crashes are
# left in build/fuzz/crashes.
#   tests/fuzz/run.sh SECONDS [TARGET...]
set -euo pipefail
seconds=${1:?how many seconds for each target}
shift
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
build=$top/build/fuzz
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Fuzz -DCMAKE_CXX_COMPILER=clang++ >/dev/null
targets=("$@")
[ $# -gt 0 ] || mapfile -t targets < <(sed -n 's/^gallipot_fuzz(\([a-z]*\) .*/\1/p' "$top/tests/fuzz/CMakeLists.txt")
cmake --build "$build" --target fuzz_dictionary "${targets[@]/#/fuzz_}" >/dev/null

# Where a target's seeds are, its own and the project's: CMakeLists.txt says so.
seeds() { cat "$build/$1.seeds"; }

# A word in quotes a line: of a job its keys and values, else whatever stands in the seeds.
dictionary() {
  if [ "$1" = job ]; then
    "$build/tests/fuzz/fuzz_dictionary"
  else
    # shellcheck disable=SC2046
    cat $(find $(seeds "$1") -maxdepth 1 -type f) | grep -aoE '[A-Za-z_][A-Za-z_ -]{0,20}[:=]?' | sort -u | sed 's/.*/"&"/'
  fi
}

longest() { # bytes: about twice the largest seed
  case $1 in
    job) echo 8000 ;;
    texts) echo 12000 ;;
    csv | table | form) echo 4000 ;;
    *) echo 2000 ;;
  esac
}

status=0
for target in "${targets[@]}"; do
  corpus=$build/corpus/$target
  crashes=$build/crashes/$target
  log=$build/$target.log
  mkdir -p "$corpus" "$crashes"
  dictionary "$target" >"$build/$target.dict"
  # shellcheck disable=SC2046
  "$build/tests/fuzz/fuzz_$target" -max_total_time="$seconds" -timeout=10 -rss_limit_mb=2048 \
    -max_len="$(longest "$target")" -dict="$build/$target.dict" -artifact_prefix="$crashes/" \
    -print_final_stats=1 "$corpus" $(seeds "$target") >"$log" 2>&1 || status=1
  executed=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
  edges=$(grep -oE 'cov: [0-9]+' "$log" | tail -1 || true) # none: it fell over a seed
  echo "$target: ${executed:-0} executions, ${edges:-cov: none}, $(find "$crashes" -type f ! -name "slow-unit-*" | wc -l) crashes in $crashes"
done
exit $status
