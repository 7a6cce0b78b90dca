#!/bin/sh
# casebound_case.sh PROGRAM PLUGINS SEED CASE: runs one text case against an installed program, in a folder of its own,
# with the plugins of the folder PLUGINS as the person's own. Lines of a case:
#   # text     what it claims, and why
#   $ command  run by the shell; $SEED is the folder with the packs; it must end with 0 unless `exit N` follows
#   exit N     the command above ended with N
#   > words    appear in what it printed, however they are wrapped;  ! words  do not
#   empty home said of every case: nothing is loaded before
set -u
program=$1 plugins=$2 SEED=$3 case=$4
home=$(mktemp -d) || exit 1
trap 'rm -rf "$home"' EXIT
ln -s "$plugins" "$home/plugins"
PATH=$(dirname "$program"):$PATH CASEBOUND_HOME=$home CASEBOUND_TODAY=2026-11-25 COLUMNS=80
export PATH CASEBOUND_HOME CASEBOUND_TODAY COLUMNS SEED
squeezed() { printf '%s' "$1" | tr -s ' \n\t' '   ' | sed 's/^ //; s/ $//'; }
line=0 faults=0 ran=no code=0 said=
fault() {
  faults=$((faults + 1))
  printf '%s:%s: %s\nexit %s\n%s\n' "$case" "$line" "$1" "$code" "$said"
}
unnamed_exit() { [ "$code" = 0 ] || [ "$ran" != open ] || fault "ended with an exit code that the case does not name"; }
found() { case $(squeezed "$said") in *"$(squeezed "$1")"*) return 0 ;; esac; return 1; }
while IFS= read -r text || [ -n "$text" ]; do
  line=$((line + 1))
  case $text in
    '' | '#'* | 'empty home') ;;
    '$ '*) unnamed_exit; said=$(cd "$home" && sh -c "${text#'$ '}" 2>&1 </dev/null); code=$?; ran=open ;;
    'exit '*) [ "$code" = "${text#exit }" ] || fault "expected $text"; ran=named ;;
    '> '*) found "${text#'> '}" || fault "missing: ${text#'> '}" ;;
    '! '*) ! found "${text#'! '}" || fault "must not appear: ${text#'! '}" ;;
    *) fault "not a word of a case: $text" ;;
  esac
done <"$case"
unnamed_exit
[ "$ran" != no ] || fault "runs no command"
[ "$faults" = 0 ]
