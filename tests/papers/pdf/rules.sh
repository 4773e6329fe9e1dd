#!/usr/bin/env bash
# Every paper of the examples, the report and labels on stocks of each shape keep the rules of PDF/UA-1 and
# PDF/A-2a that a program can check (rules.py), and no rule is blind. The files do not grow much by it.
set -euo pipefail
gallipot=$(realpath "${1:?the program}") examples=$(realpath "${2:?the folder of the examples}")
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
for job in hall flat workshop; do
  mkdir "$work/$job"
  cp "$examples/$job.yaml" "$work/$job/"
  "$gallipot" render "$work/$job/$job.yaml" -o "$work/$job/papers" >/dev/null 2>&1
done
"$gallipot" log "$work/hall/hall.yaml" --import "$examples/hall-visits.csv" >/dev/null 2>&1
"$gallipot" report "$work/hall/hall.yaml" --as-of 2027-04-02 -o "$work/report.pdf" >/dev/null 2>&1
sed 's/^languages: .*/languages: [es]/' "$examples/hall.yaml" >"$work/one.yaml"
sed 's/^languages: .*/languages: [ar, hi, vi, zh-Hans]/' "$examples/hall.yaml" >"$work/far.yaml"
"$gallipot" render "$work/far.yaml" -o "$work/far" >/dev/null 2>&1
for stock in a4-3x6 a4-round-80 a4-strip-40; do
  "$gallipot" render "$work/one.yaml" --only labels --stock "$stock" -o "$work/$stock" >/dev/null 2>&1
done
"$gallipot" render "$work/hall/hall.yaml" --only alignment -o "$work/alignment" >/dev/null 2>&1
mapfile -t files < <(find "$work" -name '*.pdf' | sort)
[ ${#files[@]} -gt 40 ] || { echo "only ${#files[@]} papers were made" >&2; exit 1; }
python3 "$here/rules.py" --table "${files[@]}"
python3 "$here/rules.py" --broken "$work/hall/papers/household-en.pdf"
