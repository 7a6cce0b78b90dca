#!/bin/sh
# The manual page and the completions name every command that help lists, and the shells take them.
. "$(dirname "$0")/scratch.sh"
casebound=$build/casebound
"$casebound" manual >"$scratch/casebound.1"
man --warnings -l "$scratch/casebound.1" >"$scratch/page" 2>"$scratch/said"
[ ! -s "$scratch/said" ] || { cat "$scratch/said"; fails "man complains"; }
for shell in bash zsh fish; do "$casebound" completion $shell >"$scratch/$shell"; done
zsh -n "$scratch/zsh"
fish --no-execute "$scratch/fish"

cat >"$scratch/try" <<'END'
. "$1"
shift
COMP_WORDS=("$@") COMP_CWORD=$(($# - 1))
_casebound
echo "${COMPREPLY[@]}"
END
follows_bash() { bash "$scratch/try" "$scratch/bash" "$@"; }
follows_fish() { fish -c "source $scratch/fish; complete -C '$*'" | cut -f1 | sort | tr '\n' ' ' | sed 's/ $//'; }
is() { [ "$1" = "$2" ] || fails "wanted: $1; completed: $2"; }
is 'load list' "$(follows_bash casebound pack l)"
is 'list load' "$(follows_fish casebound pack l)"
is '--seal --shop' "$(follows_bash casebound pack check mine --s)"
is '--seal --shop' "$(follows_fish casebound pack check mine --s)"
is 'fits' "$(follows_bash casebound --json fit)"
is 'fits' "$(follows_fish casebound --json fit)"
is '' "$(follows_bash casebound list va)" # the shell's own: names of files
is '--evidence' "$(follows_bash casebound vehicle new x --ev)"

"$casebound" --help | awk '/^  [a-z]/ && $1 != "command" { print $1 }' | uniq >"$scratch/commands"
[ "$(wc -l <"$scratch/commands")" -gt 20 ] || fails "help lists few commands"
while read -r first; do
  grep -q "^   $first" "$scratch/page" || fails "the manual page lacks $first"
  follows_bash casebound "$first" | grep -q . || fails "bash is not told of $first"
  for shell in zsh fish; do grep -q "$first" "$scratch/$shell" || fails "$shell is not told of $first"; done
done <"$scratch/commands"
