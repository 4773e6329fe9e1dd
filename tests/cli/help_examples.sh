#!/usr/bin/env bash
# Runs the examples of every command's --help as they stand, in their order, in an empty folder.
set -euo pipefail
gallipot=$(realpath "${1:?the program}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() { echo "$1" >&2; exit 1; }
mkdir "$work/here" "$work/said"
cd "$work/here"
mkdir "$work/bin"
ln -s "$gallipot" "$work/bin/gallipot"
export PATH=$work/bin:$PATH
run=0
commands=$(gallipot --help | awk '/^Commands:/ { on = 1; next } /^$/ { on = 0 } on && /^  [a-z]/ { print $1 }')
[ "$(wc -w <<<"$commands")" -ge 13 ] || fail "--help lists too few commands: $commands"
for command in $commands; do
  examples=$(gallipot "$command" --help | awk '/^Examples:/ { on = 1; next } on' | sed 's/ *# .*//; s/^  //')
  [ -n "$examples" ] || fail "gallipot $command --help has no example"
  while IFS= read -r line; do
    case $line in
      "gallipot serve"*)
        # Until it is stopped; the port may be taken on a busy machine, so any will do.
        line=${line%% --listen*}
        bash -c "${line/gallipot serve/exec gallipot serve} --listen 127.0.0.1:0" >"$work/said/out" 2>"$work/said/err" &
        server=$!
        # However long a busy machine takes to start it.
        for _ in $(seq 600); do
          grep -q "Ctrl-C" "$work/said/out" && break
          sleep 0.1
        done
        sleep 0.5
        kill -INT "$server"
        wait "$server" || true
        grep -q "Every confirmed visit is in the log" "$work/said/out" || fail "$line: $(cat "$work/said/out" "$work/said/err")"
        ;;
      *)
        bash -c "$line" >"$work/said/out" 2>"$work/said/err" </dev/null || fail "$line: exit $?: $(cat "$work/said/err")"
        ;;
    esac
    run=$((run + 1))
  done <<<"$examples"
done
[ -s papers/pack-en.pdf ] && [ -s papers/alignment.pdf ] && [ -s out/labels.pdf ] ||
  fail "the papers are not there"
[ -s report.pdf ] && [ -s next.ics ] && [ -s copy.sqlite ] && [ -s visits.csv ] || fail "the files are not there"
echo "$run examples of --help run"
