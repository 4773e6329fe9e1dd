#!/usr/bin/env bash
# Makes the pictures that README.md and src/TUTORIAL.md show, from the hall's job with its made-up visits and from the tutorial,
# and small ones of the first page of each paper for src/papers/pictures.
#   examples/pictures.sh [PROGRAM]      needs poppler-utils, imagemagick, python3, and chromium for the phone's page
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
gallipot=$(realpath "${1:-$here/../build/release/bin/gallipot}")
pictures=$here/pictures
work=$(mktemp -d)
server=
trap '[ -z "$server" ] || kill "$server"; rm -rf "$work"' EXIT
mkdir -p "$pictures" "$work/tutorial"
cp "$here/hall.yaml" "$here/hall-visits.csv" "$work"
cd "$work"

# part NAME PDF PAGE DPI [X Y WIDTH HEIGHT in pixels]: a picture of a page, or of a piece of it
part() {
  local crop=()
  [ $# -le 4 ] || crop=(-x "$5" -y "$6" -W "$7" -H "$8")
  pdftoppm -png -singlefile -f "$3" -l "$3" -r "$4" "${crop[@]}" "$2" "$1"
}
# picture NAME PDF PAGE: a page as the pages of documentation show it
picture() {
  part "$work/$1" "$2" "$3" 60
  convert "$work/$1.png" -bordercolor '#999' -border 1 -colors 64 "$pictures/$1.png"
}

"$gallipot" render hall.yaml -o papers >/dev/null 2>&1
"$gallipot" log hall.yaml --import hall-visits.csv >/dev/null 2>&1
"$gallipot" report hall.yaml --as-of 2027-04-02 --language en -o report.pdf >/dev/null 2>&1
part label papers/labels.pdf 1 150 25 80 600 385
part card papers/cards-en.pdf 1 70
part sheet papers/household-en.pdf 1 70
part report report.pdf 1 70

# after NAME PDF: in few colours, for they are many
after() {
  pdftoppm -png -singlefile -f 1 -l 1 -r 50 "$2" "$work/$1"
  convert "$work/$1.png" -colors 24 -strip "PNG8:$here/../src/papers/pictures/after-$1.png"
}
after labels papers/labels.pdf
after card papers/cards-en.pdf
after household papers/household-en.pdf
after pictures papers/pictures.pdf
after placement papers/placement-en.pdf
after visits papers/visits-en.pdf
after takedown papers/takedown-en.pdf
after report report.pdf

# language TAG: label, household sheet and card beside each other
language() {
  sed "s/^languages: .*/languages: [$1, en]/" "$here/hall.yaml" >"$1.yaml"
  "$gallipot" render "$1.yaml" -o "in-$1" >/dev/null 2>&1
  pdftoppm -png -singlefile -f 1 -l 1 -r 90 -x 20 -y 44 -W 350 -H 242 "in-$1/labels.pdf" "$work/$1-label"
  pdftoppm -png -singlefile -f 1 -l 1 -r 60 "in-$1/household-$1.pdf" "$work/$1-sheet"
  pdftoppm -png -singlefile -f 1 -l 1 -r 60 "in-$1/cards-$1.pdf" "$work/$1-card"
  convert "$work/$1-label.png" "$work/$1-sheet.png" "$work/$1-card.png" -background white -gravity north \
    -bordercolor '#999' -border 1 +append -colors 24 -strip "PNG8:$here/../src/papers/pictures/language-$1.png"
}
for tag in ar hi zh-Hans vi; do language "$tag"; done

"$gallipot" serve hall.yaml --listen 127.0.0.1:8917 >serve.txt 2>&1 &
server=$!
for _ in $(seq 100); do grep -q 'http://127' serve.txt && break; sleep 0.1; done
path=$("$gallipot" plan hall.yaml --json 2>/dev/null |
  grep -oE '"link": "HTTP://[^"]+/S/K1/[^"]+"' | head -1 | sed -E 's#.*(/S/K1/[^"]+)"#\1#')
timeout 60 chromium --headless --no-sandbox --hide-scrollbars --window-size=390,1100 \
  --screenshot="$work/log.png" "http://127.0.0.1:8917$path" >/dev/null 2>&1
convert label.png card.png sheet.png log.png report.png -resize x560 -bordercolor '#999' -border 1 \
  -bordercolor white -border 8 +append -resize 1800x -colors 128 "$pictures/overview.png"

python3 "$here/../tests/docs/console.py" "$gallipot" "$here/../src/TUTORIAL.md" --keep "$work/tutorial" >/dev/null || true
picture tutorial-1 tutorial/step-1/cards-en.pdf 1
picture tutorial-2 tutorial/step-2/cards-en.pdf 1
picture tutorial-4 tutorial/step-4/labels.pdf 1
picture tutorial-5 tutorial/step-5/household-es.pdf 1
picture tutorial-6 tutorial/step-6/placement-en.pdf 1
picture tutorial-8 tutorial/report.pdf 1
ls -l "$pictures"
