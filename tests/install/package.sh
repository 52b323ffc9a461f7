#!/bin/sh
# The two Debian packages: what they say of themselves, and that what they hold runs on its own.
#   package.sh BUILD_FOLDER SCRATCH_FOLDER
set -eu
build=$1 scratch=$2
for tool in cpack dpkg-deb dpkg-shlibdeps file; do
  command -v $tool >/dev/null || { echo "$tool is missing"; exit 77; }
done
rm -rf "$scratch"
mkdir -p "$scratch"
(cd "$build" && cpack -B "$scratch" >/dev/null)
package=$(echo "$scratch"/loftwright_*.deb) library=$(echo "$scratch"/loftwright-dev_*.deb)
dpkg-deb --field "$package"
dpkg-deb --field "$library"
version=$("$build/loftwright" --version)
for deb in "$package" "$library"; do
  [ "loftwright $(dpkg-deb --field "$deb" Version)" = "$version" ]
  dpkg-deb --field "$deb" Depends | grep -q libnlopt
done
# Neither holds a file of the other, and the program's no part of the library.
dpkg-deb --extract "$package" "$scratch/root"
dpkg-deb --extract "$library" "$scratch/dev"
both=$( (cd "$scratch/root" && find . -type f; cd "$scratch/dev" && find . -type f) | sort | uniq -d)
[ -z "$both" ] || { echo "in both packages: $both"; exit 1; }
[ ! -e "$scratch/root/usr/include" ]
[ ! -e "$scratch/dev/usr/bin" ]
# The library's package alone is enough to compile and run its examples.
dev=$scratch/dev/usr
cmake -S "$dev/share/doc/loftwright/docs/examples" -B "$scratch/examples" -G Ninja -DCMAKE_PREFIX_PATH="$dev" >/dev/null
cmake --build "$scratch/examples" --target fly_a_drive >/dev/null
"$scratch/examples/fly_a_drive" | diff -u "$dev/share/doc/loftwright/docs/examples/fly_a_drive.txt" -
cd "$scratch/root/usr"
[ "$(bin/loftwright --version)" = "$version" ]
bin/loftwright demo >"$scratch/installed"
"$build/loftwright" demo | cmp - "$scratch/installed"
# The documents' examples name files from where README stands.
cd share/doc/loftwright
../../../bin/loftwright check data/pupils/demo.json
