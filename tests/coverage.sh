#!/usr/bin/env bash
# How much of each folder of src the tests reach: lines and branches, as a table (Markdown).
# Branches that only exceptions take (any call may throw) are left out.
#   tests/coverage.sh [ctest options]      tests/coverage.sh -LE slow
# tests/coverage.sh --detail FILE names the lines of a file that are not reached, from the last run.
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$top"
. tests/packages.sh
# shellcheck disable=SC2086
install_packages $build_packages $test_packages gcovr
build=build/coverage
if [ "${1:-}" = --detail ]; then
  python3 - "$build/coverage.json" "$2" <<'PY'
import json, sys
for file in json.load(open(sys.argv[1]))["files"]:
    if file["file"] == sys.argv[2]:
        source = open(sys.argv[2]).read().splitlines()
        for line in file["lines"]:
            if line.get("gcovr/noncode"):
                continue
            missed = [b for b in line["branches"] if not b["count"] and not b["throw"]]
            if not line["count"] or missed:
                what = "never  " if not line["count"] else "partly "
                print(f'{line["line_number"]:5} {what}{source[line["line_number"] - 1]}')
PY
  exit
fi
cmake -S . -B $build -G Ninja -DCMAKE_BUILD_TYPE=Coverage >/dev/null
cmake --build $build
find $build -name '*.gcda' -delete
ctest --test-dir $build --output-on-failure --no-tests=error -j "$(nproc)" "$@" >&2
gcovr --root . --filter 'src/' --exclude-throw-branches --exclude-unreachable-branches \
  --gcov-ignore-parse-errors -j "$(nproc)" --json $build/coverage.json $build/src
python3 - $build/coverage.json <<'PY'
import collections, json, sys
table = collections.defaultdict(lambda: [0, 0, 0, 0])
for file in json.load(open(sys.argv[1]))["files"]:
    folder = file["file"].split("/")[1:-1]
    row = table["/".join(folder)]
    for line in file["lines"]:
        if line.get("gcovr/noncode"):
            continue
        row[0] += line["count"] > 0
        row[1] += 1
        branches = [b for b in line["branches"] if not b["throw"]]
        row[2] += sum(b["count"] > 0 for b in branches)
        row[3] += len(branches)
order = open("src/CMakeLists.txt").read().split("foreach(layer ")[1].split(")")[0].split()
print("| Folder | Lines | Branches |\n|---|---|---|")
total = [sum(row[i] for row in table.values()) for i in range(4)]
for name in [n for n in order if n in table] + ["all"]:
    row = table.get(name, total)
    percent = lambda part, whole: f"{100 * part / whole:.1f} % of {whole}" if whole else "none"
    print(f"| {name} | {percent(row[0], row[1])} | {percent(row[2], row[3])} |")
PY
