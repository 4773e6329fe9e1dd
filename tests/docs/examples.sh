#!/usr/bin/env bash
# Every example is run by a test: each job in examples/ stands in tests/examples/papers.sh, each
# other file in it is used by a test or by another script there; every script is named in README.md or tests/README.md.
set -u
top=${1:?the project folder}
cd "$top" || exit 2
faults=0
fault() { echo "$1"; faults=$((faults + 1)); }
jobs=$(sed -n 's/^for job in \(.*\); do$/\1/p' tests/examples/papers.sh)
for file in examples/*; do
  name=$(basename "$file")
  case $name in
    *.yaml) [[ " $jobs " == *" ${name%.yaml} "* ]] || fault "$name is not rendered by tests/examples/papers.sh" ;;
    *.csv) grep -rqF "$name" tests || fault "$name is used by no test" ;;
    *.sh) grep -qF "examples/$name" README.md tests/README.md || fault "$name is named in no README.md" ;;
    pictures) for picture in "$file"/*; do
        grep -qF "$picture" README.md src/TUTORIAL.md || fault "$picture is shown in no page"
        grep -qE "picture $(basename "$picture" .png) |$(basename "$picture")" examples/pictures.sh ||
          fault "$picture is not made by examples/pictures.sh"
      done ;;
    README.md) ;;
    *) fault "$name: what is it, and which test runs it?" ;;
  esac
done
[ "$faults" -eq 0 ] && echo "every example has its case"
exit $((faults > 0))
