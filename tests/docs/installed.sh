#!/usr/bin/env bash
# Installs the pages into an empty folder, and follows every link between them there.
#   installed.sh BUILD SOURCE
set -euo pipefail
build=${1:?build folder}
source=${2:?project folder}
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
cmake --install "$build" --prefix "$place" >"$place/log" 2>&1 || { tail -5 "$place/log"; exit 1; }
python3 "$source/tests/docs/links.py" "$place/share/doc/gallipot"
