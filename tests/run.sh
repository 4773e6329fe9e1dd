#!/usr/bin/env bash
# Installs what is needed, builds, and passes the tests. From any folder; twice in a row is quick.
#   tests/run.sh [ctest options]      BUILD_TYPE=Asan tests/run.sh   with the sanitizers
# Without options: all but what takes many minutes (label `long`), which .ci/run runs as well.
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
. "$top/tests/packages.sh"
# shellcheck disable=SC2086
install_packages $build_packages $test_packages
type=${BUILD_TYPE:-Dev}
build=$top/build/${type,,}
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE="$type" -DGALLIPOT_TESTS=ON >/dev/null
cmake --build "$build"
[ $# -gt 0 ] || set -- -LE long
ctest --test-dir "$build" --output-on-failure --no-tests=error -j "$(nproc)" "$@"
