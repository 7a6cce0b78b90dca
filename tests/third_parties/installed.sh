#!/bin/sh
# A domain of somebody else: written by the installed program, built by find_package(casebound), checked and tried in a
# place from which the source tree cannot be seen.
. "$(dirname "$0")/scratch.sh"
quietly cmake --install "$build" --prefix "$scratch/first"
mv "$scratch/first" "$scratch/prefix" # what is installed may be moved as a whole
casebound=$scratch/prefix/bin/casebound
if ! grep -q '^CASEBOUND_SANITIZE:[A-Z]*=\(ON\|address\|undefined\)' "$build/CMakeCache.txt"; then # whose reports name sources
  ! grep -rlF "$source" "$scratch/prefix" || fails "a path of the source was installed"
fi

cd "$scratch"
quietly "$casebound" domain new brake_hoses
cd brake_hoses
! grep -rn "new.domain" . || fails "the template's own name was left"
quietly cmake -B build -DCMAKE_PREFIX_PATH="$scratch/prefix" -DCMAKE_EXPORT_COMPILE_COMMANDS=ON -DCMAKE_CXX_FLAGS=-Werror
! grep -rlF "$source" build --include='*.json' --include='*.make' --include='CMakeCache.txt' || fails "built with the source"
quietly cmake --build build
quietly ctest --test-dir build --output-on-failure
said '100% tests passed, 0 tests failed out of 1'

# A case that is wrong is seen to be wrong.
cp cases/first.case kept
sed -i 's/^> This part goes in\./> This part goes out./' cases/first.case
! ctest --test-dir build >/dev/null 2>&1 || fails "a wrong case passed"
mv kept cases/first.case

# The person's own folder: the plugin, and its pack beside it.
mkdir -p "$CASEBOUND_HOME/plugins"
cp -rL build/plugins/. "$CASEBOUND_HOME/plugins"
quietly "$casebound" plugin check
said "$CASEBOUND_HOME/plugins/brake_hoses.so"
quietly "$casebound" pack check seed-data/brake_hoses
quietly "$casebound" pack load --reference
said "brake_hoses: its pack is invented.*"
said 'transmission-fluids-reference'
rm -r "$CASEBOUND_HOME"

# For everybody: into the prefix of casebound itself.
quietly cmake --install build --prefix "$scratch/prefix"
quietly "$casebound" plugin check
said "$scratch/prefix/lib/casebound/plugins/brake_hoses.so"
sed -i 's/"invented": true/"invented": false/' "$scratch/prefix/share/casebound/packs/brake_hoses/datapackage.json"
sed -i 's/,invented,/,memory,/' "$scratch/prefix/share/casebound/packs/brake_hoses/sources.csv"
quietly "$casebound" pack check --seal "$scratch/prefix/share/casebound/packs/brake_hoses"
quietly "$casebound" pack load --reference
said '^brake-hoses 0.1.0'
quietly "$casebound" pack load "$scratch/prefix/share/casebound/invented/demo-fleet"

# Another compiler is named before anything is built.
sed -i 's/STREQUAL "GNU [0-9]*"/STREQUAL "GNU 4"/' "$scratch/prefix/lib/cmake/casebound/casebound-config.cmake"
! cmake -B other -DCMAKE_PREFIX_PATH="$scratch/prefix" >"$scratch/said" 2>&1 || fails "built by another compiler"
said 'loads no plugin built by'
