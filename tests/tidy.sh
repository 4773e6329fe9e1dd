#!/usr/bin/env bash
# clang-tidy over src: .clang-tidy says what is looked for and why. Clean, or exit 1.
#   tests/tidy.sh [files of src, all when left out]
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$top"
. tests/packages.sh
install_packages clang-tidy
cmake -S . -B build/dev -G Ninja -DGALLIPOT_TESTS=ON >/dev/null  # writes compile_commands.json
[ $# -gt 0 ] || set -- $(find src -name '*.cpp' | sort)
printf '%s\n' "$@" | xargs -P "$(nproc)" -n 4 clang-tidy -p build/dev --quiet 2>/dev/null
echo "clang-tidy: $# files, nothing found"
