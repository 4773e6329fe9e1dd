#!/usr/bin/env bash
# The examples as a user runs them: every PDF is sound, every code on the labels is read by an
# independent decoder (ZBar) at the two usual resolutions of printers and equals the plan's link,
# and another time zone, locale and folder give the same bytes.
set -euo pipefail
gallipot=$(realpath "${1:?the program}") examples=$(realpath "${2:?the folder of the examples}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() { echo "$1" >&2; exit 1; }
# What README promises a newcomer: the starter as it is written gives its papers.
(cd "$work" && "$gallipot" new job.yaml && "$gallipot" check job.yaml &&
  "$gallipot" render job.yaml -o papers) >/dev/null 2>&1 || fail "the starter does not render as it is"
for job in hall flat; do
  mkdir -p "$work/a/$job" "$work/b"
  cp "$examples/$job.yaml" "$work/a/$job/"
  "$gallipot" check "$work/a/$job/$job.yaml" >/dev/null 2>&1 || fail "$job: check finds errors"
  "$gallipot" render "$work/a/$job/$job.yaml" -o "$work/a/$job" >/dev/null 2>&1
  cp -r "$work/a/$job" "$work/b/"
  rm "$work/b/$job"/*.pdf
  (cd "$work/b/$job" && TZ=Pacific/Auckland LC_ALL=C.UTF-8 "$gallipot" render "$job.yaml" -o . >/dev/null 2>&1)
  for pdf in "$work/a/$job"/*.pdf; do
    qpdf --check "$pdf" >/dev/null || fail "$pdf: qpdf complains"
    [ -z "$(pdftotext "$pdf" - 2>&1 >/dev/null)" ] || fail "$pdf: pdftotext complains"
    pdffonts "$pdf" | awk 'NR > 2 && $(NF-4) != "yes" { bad = 1 } END { exit bad }' || fail "$pdf: a font is not embedded"
    cmp "$pdf" "$work/b/$job/$(basename "$pdf")" || fail "$pdf: not the same bytes again"
  done
  "$gallipot" plan --json "$work/a/$job/$job.yaml" 2>/dev/null >"$work/plan.json"
  containers=$(grep -oE '"containers": [0-9]+' "$work/plan.json" | awk '{ n += $2 } END { print n }')
  for dpi in 203 300; do
    rm -f "$work"/page*
    pdftoppm -r $dpi -gray "$work/a/$job/labels.pdf" "$work/page"
    { zbarimg -q --raw "$work"/page* 2>/dev/null || true; } | sort >"$work/read"  # a page without codes is no fault
    [ "$(wc -l <"$work/read")" -eq "$containers" ] || fail "$job at $dpi dpi: not every code is read"
    if [ $job = hall ]; then
      grep -oE 'HTTP://[^"]+' "$work/plan.json" | sort -u >"$work/links"
      sort -u "$work/read" | comm -23 - "$work/links" | grep . && fail "$job: a code holds no link of the plan" || true
    else
      grep -vE '^POISON NOT FOOD [A-Z0-9-]+ BORIC ACID [0-9.]+% [0-9.]+ M?G CALL 1-800-222-1222$' "$work/read" && fail "$job: a code says something else" || true
    fi
  done
done
echo "the papers of the examples are sound"
