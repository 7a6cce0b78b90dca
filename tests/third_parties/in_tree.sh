#!/bin/sh
# A new domain in a copy of the source tree: no other file is changed, it is laid out, built and found like any other.
. "$(dirname "$0")/scratch.sh"
mkdir "$scratch/tree"
(cd "$source" && tar --exclude=.git --exclude=.build --exclude=node_modules -cf - .) | tar -xf - -C "$scratch/tree"
cp -r "$scratch/tree" "$scratch/before"
cd "$scratch/tree/tests/cases" # anywhere in it
quietly "$build/casebound" domain new brake_hoses
cd "$scratch/tree"
diff -rq "$scratch/before" . | sort >"$scratch/said" || true
[ "$(wc -l <"$scratch/said")" = 4 ] || { cat "$scratch/said"; fails "four places are new, and nothing else"; }
for place in plugins schema seed-data tests/cases; do said "^Only in ./$place: brake_hoses"; done
! (cd core && "$build/casebound" domain new brake_hoses 2>/dev/null) || fails "it was written over"

clang-format -i plugins/brake_hoses/*.cpp plugins/brake_hoses/*/*.cpp plugins/brake_hoses/*/*.h
quietly cmake -S . -B "$scratch/build" -DCASEBOUND_TESTS=OFF
quietly cmake --build "$scratch/build" --target casebound_brake_hoses
CASEBOUND_PLUGINS=$scratch/build/plugins quietly "$build/casebound" plugin check
said "$scratch/build/plugins/brake_hoses.so"
quietly "$build/casebound" pack check seed-data/brake_hoses --plugins "$scratch/build/plugins"
quietly sh plugins/casebound_case.sh "$build/casebound" "$scratch/build/plugins" "$PWD/seed-data" tests/cases/brake_hoses/first.case
