#!/bin/sh
# The Debian package: needs what the program is linked with, holds what is installed, and runs where it is unpacked.
. "$(dirname "$0")/scratch.sh"
quietly cpack --config "$build/CPackConfig.cmake" -G DEB -B "$scratch/made"
package=$(ls "$scratch"/made/*.deb)
dpkg-deb -f "$package" Depends >"$scratch/said"
for library in libc6 libfmt9 libxlsxwriter4 'libstdc++6 (>= 12)'; do said "$library"; done
# SQLite is linked in where its archive is installed, and needed where it is not.
grep -q '^SQLITE_ARCHIVE:.*libsqlite3\.a$' "$build/CMakeCache.txt" || said libsqlite3-0
quietly dpkg-deb -x "$package" "$scratch/root"
quietly cmake --install "$build" --prefix "$scratch/prefix"
quietly diff -rq "$scratch/prefix" "$scratch/root/usr" --exclude=casebound --exclude='*.so' # those are stripped
[ "$(ls "$scratch/root/usr/lib/casebound/plugins")" = "$(ls "$scratch/prefix/lib/casebound/plugins")" ] || fails "plugins"
quietly "$scratch/root/usr/bin/casebound" pack load --reference
quietly "$scratch/root/usr/bin/casebound" plugin check
