#!/usr/bin/env bash
# Builds the release program and sets it beside general-purpose peers that draw the same labels in
# the same run; then its own time and memory by the size of the job. Prints the tables that the
# README quotes; nothing else should run meanwhile. Takes about ten minutes on two cores.
#   tests/bench/run.sh [--labels N] [--no-peers] [--no-scaling]
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
. "$top/tests/packages.sh"
# shellcheck disable=SC2086
install_packages $build_packages poppler-utils python3 python3-reportlab r-base-core time
build=$top/build/release
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DGALLIPOT_TESTS=OFF >/dev/null
cmake --build "$build"
peers=$top/build/peers
if [[ " $* " != *" --no-peers "* ]]; then
  command -v npm >/dev/null || install_packages nodejs npm
  mkdir -p "$peers"
  cp "$top"/tests/bench/labels/* "$peers/"
  (cd "$peers" && npm install --silent --no-audit --no-fund --no-save pdfkit@0.17 qrcode@1.5)
fi
python3 "$top/tests/bench/compare.py" "$build/bin/gallipot" "$peers" "$@"
