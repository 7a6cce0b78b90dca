# Sourced by the scripts beside it, with the arguments SOURCE and BUILD: a scratch folder that no path of the source
# leads to, and how a claim fails.
set -eu
source=$1 build=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
chmod 755 "$scratch"
unset CASEBOUND_PLUGINS XDG_DATA_HOME
export CASEBOUND_HOME="$scratch/home" CMAKE_BUILD_PARALLEL_LEVEL=2 COLUMNS=80
fails() { echo "FAILED: $1"; exit 1; }
# quietly COMMAND...: shows what it said only where it fails.
quietly() { "$@" >"$scratch/said" 2>&1 || { cat "$scratch/said"; fails "$*"; }; }
said() { grep -q -- "$1" "$scratch/said" || { cat "$scratch/said"; fails "does not say: $1"; }; }
