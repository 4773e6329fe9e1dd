#!/usr/bin/env bash
# The house's rules that a script can see:
#   one way: a folder of src/ includes only folders that stand before it in src/CMakeLists.txt;
#   one owner: a library's header is included in the folder that owns it and nowhere else;
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
for folder in */; do
  [ -n "${place[${folder%/}]:-}" ] || fault "src/$folder is not in the list of layers in src/CMakeLists.txt"
done

while IFS=: read -r file line; do
  from=${file%%/*}
  to=$(sed -E 's/.*#include "([^/"]+)\/.*/\1/' <<<"$line")
  [ -n "${place[$to]:-}" ] || { fault "$file includes \"$to/...\", which is no layer"; continue; }
  [ "${place[$to]}" -le "${place[$from]:-0}" ] || fault "$file: $from may not include $to, which stands above it"
done < <(grep -H '#include "[a-z_]*/' -r --include='*.cpp' --include='*.hpp' .| sed 's|^\./||')

own() { # owner, pattern of the library's headers
  local strays
  strays=$(grep -rlE "#include [<\"]($2)" --include='*.cpp' --include='*.hpp' . | grep -v "^\./$1/")
  [ -z "$strays" ] || fault "only src/$1 may include $2: $strays"
}
own yaml 'yaml-cpp/'
own pdf 'hpdf|zlib'
own qr 'qrcodegen'
own fonts 'hb[-.]'
own keys 'sodium'
own log 'SQLiteCpp/|sqlite3'
own web 'httplib'
own command 'CLI/'
own '\(analysis\|mixing\)' 'boost/'

while read -r source; do
  header=${source%.cpp}.hpp
  [ -e "$header" ] || continue
  first=$(grep -m1 '#include' "$source")
  [ "$first" = "#include \"${header#./}\"" ] || fault "$source: its first include is not its own header"
done < <(find . -name '*.cpp')

[ "$faults" -eq 0 ] && echo "layers: $n, all one way"
exit $((faults > 0))
