# bash completion for gallipot: the program itself says what may stand next.
_gallipot() {
  local current=${COMP_WORDS[COMP_CWORD]} kind= word
  [[ $current == = ]] && current=  # --stock=a4 comes as three words
  COMPREPLY=()
  {
    read -r kind
    while IFS=$'\t' read -r word _; do
      [[ $word == *' '* ]] && printf -v word %q "$word"
      COMPREPLY+=("$word")
    done
  } < <("$1" __complete "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
  case $kind in
    files | folders | yaml | csv) compopt -o filenames 2>/dev/null ;;&
    files) mapfile -t COMPREPLY < <(compgen -f -- "$current") ;;
    folders) mapfile -t COMPREPLY < <(compgen -d -- "$current") ;;
    yaml | csv) mapfile -t COMPREPLY < <(compgen -d -- "$current"; compgen -f -X "!*.$kind" -- "$current") ;;
  esac
}
complete -F _gallipot gallipot
