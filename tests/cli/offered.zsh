# What zsh offers at the end of a line, each on a line of its own.
#   zsh -f offered.zsh COMPLETIONS LINE CACHE     CACHE keeps what takes a second to find out
# A zsh at a terminal of its own (zpty) completes; a compadd in place of the built-in one writes down
# what it is given that fits what was typed.
zmodload zsh/zpty
out=$(mktemp)
setup=$(mktemp)
cat >$setup <<SETUP
PS1=
fpath=($1 \$fpath)
autoload -Uz compinit
compinit -u -d $3
compadd() {
  builtin compadd "\$@"
  local stored=\$?
  # With -O, -A or -D nothing is offered, only stored.
  if [[ \${@[1,(i)(-|--)]} != *-[OAD]\ * ]]; then
    local -a fitting
    builtin compadd -A fitting "\$@"
    print -rl -- \$fitting >>$out
  fi
  return \$stored
}
# A key that says when the Tab before it has done its work.
said() { print DONE >$out.done }
zle -N said
bindkey '^G' said
print READY
SETUP
zpty offered zsh -f -i
zpty -w offered "source $setup"
zpty -r -m offered ignored '*READY*'
zpty -w -n offered "$2"$'\t\a'
for i in {1..300}; do
  [[ -e $out.done ]] && break
  sleep 0.1
done
zpty -d offered
sort -u $out | grep .
rm -f $out $out.done $setup
