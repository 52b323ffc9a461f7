#!/bin/sh
# The Debian package: what it says of itself, and that what it holds runs on its own.
#   package.sh BUILD_FOLDER SCRATCH_FOLDER
set -eu
build=$1 scratch=$2
for tool in cpack dpkg-deb dpkg-shlibdeps file; do
  command -v $tool >/dev/null || { echo "$tool is missing"; exit 77; }
done
rm -rf "$scratch"
mkdir -p "$scratch"
(cd "$build" && cpack -B "$scratch" >/dev/null)
package=$(echo "$scratch"/loftwright_*.deb)
dpkg-deb --field "$package"
version=$("$build/loftwright" --version)
[ "loftwright $(dpkg-deb --field "$package" Version)" = "$version" ]
dpkg-deb --field "$package" Depends | grep -q libnlopt
dpkg-deb --extract "$package" "$scratch/root"
cd "$scratch/root/usr"
[ "$(bin/loftwright --version)" = "$version" ]
bin/loftwright demo >"$scratch/installed"
"$build/loftwright" demo | cmp - "$scratch/installed"
# The documents' examples name files from where README stands.
cd share/doc/loftwright
../../../bin/loftwright check data/pupils/demo.json
