#!/usr/bin/env bash
# What Tab offers, asked of the three shells themselves: bash with the words of a line as it hands
# them over, zsh at a terminal of its own (zpty), fish by `complete -C`.
#   completions.sh PROGRAM SCRIPTS    SCRIPTS: src/cli/completions
set -euo pipefail
gallipot=$(realpath "${1:?the program}")
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
scripts=$(realpath "${2:?the folder with the completions}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin" "$work/job" "$work/job/papers"
ln -s "$gallipot" "$work/bin/gallipot"
export PATH=$work/bin:$PATH HOME=$work TERM=xterm LC_ALL=C.UTF-8
cd "$work/job"
gallipot new job.yaml >/dev/null
touch visits.csv notes.txt
faults=0

# What each shell offers at the end of the line, one a line.
in_bash() {
  bash --norc --noprofile -c '
    source "$1/gallipot.bash"
    read -ra COMP_WORDS <<<"$2"
    [[ $2 == *" " ]] && COMP_WORDS+=("")
    COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
    _gallipot gallipot
    printf "%s\n" "${COMPREPLY[@]}"' _ "$scripts" "$1"
}
in_zsh() {
  timeout 60 zsh -f "$here/offered.zsh" "$scripts" "$1" "$work/zsh.cache" 2>/dev/null || true
}
in_fish() {
  XDG_CONFIG_HOME=$work fish --no-config -c '
    source "$argv[1]/gallipot.fish"
    complete -C "$argv[2]"' "$scripts" "$1" | cut -f 1
}

# offers LINE WORD...: each of these is offered; a word after - is not.
offers() {
  local line=$1 shell got word
  shift
  for shell in bash zsh fish; do
    got=$("in_$shell" "$line")
    for word; do
      if [[ $word == -[^-]* ]]; then
        grep -qxF -- "${word#-}" <<<"$got" && { echo "$shell offers '${word#-}' for '$line'" >&2; faults=$((faults + 1)); }
      elif ! grep -qE -- "(^|,)$word=?\$" <<<"$got"; then
        echo "$shell does not offer '$word' for '$line' but: $(tr '\n' ' ' <<<"$got")" >&2
        faults=$((faults + 1))
      fi
    done
  done
  return 0
}

offers 'gallipot ' new check plan render serve visit log report explain pests substances stocks fonts languages
offers 'gallipot re' render report -check
offers 'gallipot render ' job.yaml -notes.txt -visits.csv
offers 'gallipot render job.yaml --s' --stock --start-at
offers 'gallipot render job.yaml --stock a4-3' a4-3x7 -letter-2x5
offers 'gallipot render job.yaml --only ' cards labels alignment
offers 'gallipot render job.yaml --only cards,la' labels
offers 'gallipot render job.yaml --language ' en uk
offers 'gallipot new --from ' syrup powder paste spray hall flat workshop
offers 'gallipot visit job.yaml ' K1 D1 C1
offers 'gallipot visit job.yaml K1 --state ' clogged mouldy
offers 'gallipot visit job.yaml K1 --level ' full empty
offers 'gallipot log job.yaml --import ' visits.csv -notes.txt
offers 'gallipot explain mixes.' mixes.basis
offers 'gallipot substances bor' borax -sugar
[ "$faults" -eq 0 ] || exit 1
echo "bash, zsh and fish offer what they should"
