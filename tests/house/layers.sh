#!/usr/bin/env bash
# The house's rules that a script can see:
#   one way: a layer (base/units, cli) includes only layers that stand before it in src/CMakeLists.txt;
#   one owner: a library's header is included in the folder that owns it and nowhere else;
#   no marks of one language between words: ": ", "; ", ", " come from the catalogs;
#   own header first: the first #include of x.cpp is x.hpp, so that each header stands alone.
set -u
top=${1:?the project folder}
cd "$top/src" || exit 2
faults=0
fault() { echo "$1"; faults=$((faults + 1)); }

order=$(sed -n '/^foreach(layer /,/)/p' CMakeLists.txt | tr -d '()' | tr -s ' \n' ' ' | sed 's/foreachlayer //; s/if.*//')
declare -A place
n=0
for layer in $order; do place[$layer]=$((n++)); done
# The layer that a path lies in: a/b of a/b/c.hpp where that is one, else a.
layer_of() {
  local outer=${1%%/*} rest=${1#*/}
  local inner=$outer/${rest%%/*}
  if [ -n "${place[$inner]:-}" ]; then echo "$inner"; else echo "$outer"; fi
}
while read -r file; do
  [ -n "${place[$(layer_of "$file")]:-}" ] || fault "src/$file is in no layer of the list in src/CMakeLists.txt"
done < <(find . -name '*.?pp' | sed 's|^\./||')

while IFS=: read -r file line; do
  from=$(layer_of "$file")
  header=$(sed -E 's/.*#include "([^"]+)".*/\1/' <<<"$line")
  to=$(layer_of "$header")
  [ -n "${place[$to]:-}" ] || { fault "$file includes \"$header\", which is in no layer"; continue; }
  [ "${place[$to]}" -le "${place[$from]:-0}" ] || fault "$file: $from may not include $to, which stands above it"
done < <(grep -H '#include "[a-z_]*/' -r --include='*.cpp' --include='*.hpp' .| sed 's|^\./||')

own() { # owner, pattern of the library's headers
  local strays
  strays=$(grep -rlE "#include [<\"]($2)" --include='*.cpp' --include='*.hpp' . | grep -v "^\./$1/")
  [ -z "$strays" ] || fault "only src/$1 may include $2: $strays"
}
own domain/yaml 'yaml-cpp/'
own papers/pdf 'hpdf|qpdf/|lcms2'
own '\(papers/pdf\|web\)' 'libdeflate'
own papers/qr 'qrcodegen'
own base/image 'turbojpeg|png.h'
own papers/fonts 'hb[-.]'
own tracking/keys 'sodium'
own tracking/log 'SQLiteCpp/|sqlite3'
# One rule for text everywhere, and its own use of it in each: words, lines, letters, zones; the
# reader, for the normal form alone.
own '\(papers/text\|papers/calendar\|papers/fonts\|tracking/log\|domain/yaml\)' 'unicode/'
own web 'microhttpd'
own cli 'CLI/'
own '\(tracking/analysis\|domain/mixing\)' 'boost/'

while read -r source; do
  header=${source%.cpp}.hpp
  [ -e "$header" ] || continue
  first=$(grep -m1 '#include' "$source")
  [ "$first" = "#include \"${header#./}\"" ] || fault "$source: its first include is not its own header"
done < <(find . -name '*.cpp')

# What is read is put together with the marks of its language (papers/document/joins.hpp). Not read:
# a header's commas, and the note that a log keeps of what was typed.
while read -r line; do
  fault "$line: say it by a join of the catalogs"
done < <(grep -nrE '(^|[ (+:?])"[:;,] "([ ;,)+]|$)' papers/document papers/html papers/calendar web --include='*.cpp' |
         grep -vE '^web/(app|visit_form)\.cpp:')

[ "$faults" -eq 0 ] && echo "layers: $n, all one way"
exit $((faults > 0))
