#!/usr/bin/env bash
# The manual page as three programs read it: man and groff warn of nothing, mandoc's lint neither, and
# what is shown has every section, every command and its options.
set -euo pipefail
gallipot=$(realpath "${1:?the program}")
page=$(realpath "${2:?the manual page}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() { echo "$1" >&2; exit 1; }
said=$(MANWIDTH=80 LC_ALL=C.UTF-8 man --warnings -l "$page" 2>&1 >"$work/page.txt") || fail "man fails: $said"
[ -z "$said" ] || fail "man warns: $said"
said=$(groff -man -Tutf8 -ww -z "$page" 2>&1)
[ -z "$said" ] || fail "groff warns: $said"
said=$(mandoc -T lint -W style "$page" 2>&1) || fail "mandoc: $said"
[ "$(lexgrog "$page" | grep -c 'gallipot - ')" -eq 1 ] || fail "apropos would not find it"
col -b <"$work/page.txt" >"$work/plain.txt"
for section in NAME SYNOPSIS DESCRIPTION COMMANDS "EXIT STATUS" ENVIRONMENT FILES; do
  grep -q "^$section\$" "$work/plain.txt" || fail "no section $section"
done
for command in $("$gallipot" --help | awk '/^Commands:/ { on = 1; next } /^$/ { on = 0 } on && /^  [a-z]/ { print $1 }'); do
  grep -q "^   gallipot $command " "$work/plain.txt" || fail "the page has no part on $command"
  for option in $("$gallipot" "$command" --help | grep -oE '^  (-., *)?(-.,)?--[a-z-]+' | grep -oE -- '--[a-z-]+'); do
    grep -qE -- "(^|[ ,])$option( |\$)" "$work/plain.txt" || fail "the page lacks $option of $command"
  done
done
echo "the manual page is sound"
