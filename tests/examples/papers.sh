#!/usr/bin/env bash
# The examples as a user runs them: every PDF is sound, every code on the labels is read by
# two independent decoders (ZBar from whole pages, ZXing label by label) at the two usual
# resolutions of printers and equals what the plan says, and another time zone, locale and folder give the same bytes.
set -euo pipefail
gallipot=$(realpath "${1:?the program}") examples=$(realpath "${2:?the folder of the examples}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() { echo "$1" >&2; exit 1; }
# millimetres STOCK: width, height, columns, rows, left, top and gaps of its labels, in mm.
millimetres() {
  tr ',{}' '\n' <"$examples/../templates/stocks/$1.yaml" | sed 's/^ *//; s/^label: *//; s/^grid: *//' | awk '
    function mm(text,   part, whole) {  # "2 1/2 in", "38.1 mm"
      whole = 0; split(text, part, " ")
      for (i = 1; i in part; ++i) {
        if (part[i] ~ /\//) { split(part[i], f, "/"); whole += f[1] / f[2] }
        else if (part[i] ~ /^[0-9.]+$/) whole += part[i]
      }
      return text ~ / in$/ ? whole * 25.4 : whole
    }
    { name = $0; sub(/:.*/, "", name); value = $0; sub(/^[^:]*: */, "", value); v[name] = value }
    END { print mm(v["width"]), mm(v["height"]), v["columns"], v["rows"], mm(v["left"]), mm(v["top"]),
                mm(v["gap across"]), mm(v["gap down"]) }'
}
# What README promises a newcomer: the starter as it is written gives its papers. (The examples, which
# `new --from` writes, follow below.)
(cd "$work" && "$gallipot" new job.yaml && "$gallipot" check job.yaml &&
  "$gallipot" render job.yaml -o papers) >/dev/null 2>&1 || fail "the starter does not render as it is"
for job in hall flat workshop; do
  mkdir -p "$work/a/$job" "$work/b"
  cp "$examples/$job.yaml" "$work/a/$job/"
  "$gallipot" check "$work/a/$job/$job.yaml" >/dev/null 2>&1 || fail "$job: check finds errors"
  "$gallipot" render "$work/a/$job/$job.yaml" -o "$work/a/$job" >/dev/null 2>&1
  cp -r "$work/a/$job" "$work/b/"
  rm "$work/b/$job"/*.pdf
  (cd "$work/b/$job" && env TZ=Pacific/Auckland LC_ALL=tr_TR.UTF-8 LANGUAGE=de "$gallipot" render "$job.yaml" -o . >/dev/null 2>&1)
  for pdf in "$work/a/$job"/*.pdf; do
    qpdf --check "$pdf" >/dev/null || fail "$pdf: qpdf complains"
    [ -z "$(pdftotext "$pdf" - 2>&1 >/dev/null)" ] || fail "$pdf: pdftotext complains"
    # Debian's mutool has no colour profiles and says so of every file.
    [ -z "$(mutool draw -q -F txt -o /dev/null "$pdf" 2>&1 | grep -v 'ICC support')" ] || fail "$pdf: mutool complains"
    pdffonts "$pdf" | awk 'NR > 2 && $(NF-4) != "yes" { bad = 1 } END { exit bad }' || fail "$pdf: a font is not embedded"
    cmp "$pdf" "$work/b/$job/$(basename "$pdf")" || fail "$pdf: not the same bytes again"
  done
  if [ $job = hall ]; then
    pdftoppm -r 203 -gray -singlefile "$work/a/hall/caretaker-en.pdf" "$work/caretaker"
    zbarimg -q --raw "$work/caretaker.pgm" 2>/dev/null | grep -qE '^HTTP://192\.168\.1\.20:8017/ALL/[0-9A-Z]{10}$' ||
      fail "the caretaker's code is not read"
  fi
  cmp "$work/a/$job/visits.ics" "$work/b/$job/visits.ics" || fail "$job: not the same calendar again"
  for pack in "$work/a/$job"/pack-*.pdf; do
    # A cover and as many pages as its parts together, and a bookmark for each of the seven.
    language=$(basename "$pack" .pdf) pages=1
    for part in household tasting cards placement visits takedown; do
      n=$(pdfinfo "$work/a/$job/$part-${language#pack-}.pdf" | awk '/^Pages/ { print $2 }')
      pages=$((pages + n))
    done
    [ "$(pdfinfo "$pack" | awk '/^Pages/ { print $2 }')" -eq "$pages" ] || fail "$pack: not all pages of its parts"
    [ "$(mutool show "$pack" outline | grep -cP '^[-|+]\t"')" -eq 7 ] || fail "$pack: not a bookmark for each part"
  done
  "$gallipot" plan --json "$work/a/$job/$job.yaml" 2>/dev/null >"$work/plan.json"
  containers=$(grep -oE '"containers": [0-9]+' "$work/plan.json" | awk '{ n += $2 } END { print n }')
  for dpi in 203 300; do
    rm -f "$work"/page*
    pdftoppm -r $dpi -gray "$work/a/$job/labels.pdf" "$work/page"
    { zbarimg -q --raw "$work"/page* 2>/dev/null || true; } | sort >"$work/read"  # a page without codes is no fault
    # A fold-out in two languages has a label, and so a code, for each.
    parts=$(($(wc -l <"$work/read") / containers))
    { [ $parts -ge 1 ] && [ "$(wc -l <"$work/read")" -eq $((parts * containers)) ]; } ||
      fail "$job at $dpi dpi: not every code is read"
    # ZXing reads one code a picture: the containers' labels come first, row by row.
    read -r w h columns rows left top across down < <(millimetres "$(sed -n 's/^labels: *//p' "$examples/$job.yaml")")
    for ((i = 0; i < parts * containers; ++i)); do
      at=$((i % (columns * rows)))
      page=$((i / (columns * rows) + 1))
      read -r x y width height < <(awk "BEGIN { d = $dpi / 25.4
        print int(($left + $at % $columns * ($w + $across)) * d), int(($top + int($at / $columns) * ($h + $down)) * d), int($w * d), int($h * d) }")
      pdftoppm -r $dpi -png -f $page -l $page -x "$x" -y "$y" -W "$width" -H "$height" "$work/a/$job/labels.pdf" "$work/cell"
      ZXingReader "$work"/cell*.png | sed -n 's/^Text: *"\(.*\)"$/\1/p'
      rm -f "$work"/cell*
    done >"$work/read.in.order"
    sort "$work/read.in.order" | cmp -s - "$work/read" || fail "$job at $dpi dpi: ZXing reads something else than ZBar"
    if [ $job = hall ]; then
      grep -oE 'HTTP://[^"]+' "$work/plan.json" | sort -u >"$work/links"
      sort -u "$work/read" | comm -23 - "$work/links" | grep . && fail "$job: a code holds no link of the plan" || true
      awk -v parts=$parts -F'"' '/"containers":/ { split($0, n, /[:,]/); count = n[2] }
                 /"link":/ { for (i = 0; i < parts * count; ++i) print $4; count = 0 }' "$work/plan.json" |
        cmp -s - "$work/read.in.order" || fail "$job: a label carries another station's code"
    else
      english='NOT FOOD [A-Z0-9-]+ BORIC ACID [0-9.]+% [0-9.]+ M?G CALL 1-800-222-1222'
      spanish='NO ES COMIDA [A-Z0-9-]+ ácido bórico [0-9.]+.{1,2}% [0-9.]+.{1,2}m?g LLAME AL 1-800-222-1222'
      grep -vE "^($english|$spanish)\$" "$work/read" && fail "$job: a code says something else" || true
    fi
  done
done
echo "the papers of the examples are sound"
