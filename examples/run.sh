#!/usr/bin/env bash
# Installs what is needed, builds gallipot, and makes the papers of the example jobs.
#   examples/run.sh [FOLDER]          the papers go to FOLDER, else to out/ in this project
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
. "$top/tests/packages.sh"
# shellcheck disable=SC2086
install_packages $build_packages
out=$(realpath -m "${1:-$top/out}")
build=$top/build/release
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DGALLIPOT_TESTS=OFF >/dev/null
cmake --build "$build"
gallipot=$build/bin/gallipot
for job in hall flat workshop; do
  # Each job keeps its secret beside it, so the example is copied before it is used.
  mkdir -p "$out/$job"
  cp "$top/examples/$job.yaml" "$out/$job/"
  "$gallipot" check "$out/$job/$job.yaml"
  "$gallipot" plan "$out/$job/$job.yaml"
  "$gallipot" render "$out/$job/$job.yaml" -o "$out/$job"
done
# Five weeks later at the hall. The visits are made up, to show the report; the same file twice adds
# nothing.
"$gallipot" log "$out/hall/hall.yaml" --import "$top/examples/hall-visits.csv"
"$gallipot" report "$out/hall/hall.yaml" --as-of 2027-04-02
"$gallipot" report "$out/hall/hall.yaml" --as-of 2027-04-02 --json >"$out/hall/report.json"
"$gallipot" report "$out/hall/hall.yaml" --as-of 2027-04-02 -o "$out/hall/report.pdf"
echo
echo "The papers are here:"
find "$out" -name '*.pdf' -o -name '*.ics' -o -name '*.html' | sort | sed 's/^/  /'
