#!/usr/bin/env bash
# Makes the pictures that README.md shows, from the hall's job and its made-up visits, and small ones
# of the first page of each paper for src/papers/pictures.
#   examples/pictures.sh [PROGRAM]      needs poppler-utils, imagemagick, and chromium for the phone
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
gallipot=$(realpath "${1:-$here/../build/release/bin/gallipot}")
pictures=$here/pictures
work=$(mktemp -d)
server=
trap '[ -z "$server" ] || kill "$server"; rm -rf "$work"' EXIT
mkdir -p "$pictures"
cp "$here/hall.yaml" "$here/hall-visits.csv" "$work"
cd "$work"

# picture NAME PDF PAGE DPI [X Y WIDTH HEIGHT in pixels]
picture() {
  local crop=()
  [ $# -le 4 ] || crop=(-x "$5" -y "$6" -W "$7" -H "$8")
  pdftoppm -png -singlefile -f "$3" -l "$3" -r "$4" "${crop[@]}" "$2" "$pictures/$1"
}

"$gallipot" render hall.yaml -o papers >/dev/null 2>&1
"$gallipot" log hall.yaml --import hall-visits.csv >/dev/null
"$gallipot" report hall.yaml --as-of 2027-04-02 --language en -o report.pdf >/dev/null
picture label papers/labels.pdf 1 150 25 80 600 385
picture card papers/cards-en.pdf 1 70
picture sheet papers/household-en.pdf 1 70
picture report report.pdf 1 70

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

"$gallipot" serve hall.yaml --listen 127.0.0.1:8917 >serve.txt 2>&1 &
server=$!
until grep -q 'http://127' serve.txt; do sleep 0.1; done
path=$("$gallipot" plan hall.yaml --json 2>/dev/null |
  grep -oE '"link": "HTTP://[^"]+/S/K1/[^"]+"' | head -1 | sed -E 's#.*(/S/K1/[^"]+)"#\1#')
chromium --headless --no-sandbox --hide-scrollbars --window-size=390,1100 \
  --screenshot="$pictures/log.png" "http://127.0.0.1:8917$path" >/dev/null 2>&1
ls -l "$pictures"
