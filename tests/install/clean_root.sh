#!/bin/sh
# By hand, as root, with a mirror at hand: a Debian with nothing on it takes the package and runs it; given the library's package
# too, it compiles the examples and they print what they should (two minutes, and two more for a compiler).
#   clean_root.sh PACKAGE.deb [LIBRARY.deb]
set -eu
here=$(cd "$(dirname "$0")" && pwd)
mmdebstrap --variant=apt --customize-hook="copy-in $* $here/clean_root_steps.sh /root" \
  --customize-hook='chroot "$1" sh /root/clean_root_steps.sh' bookworm /dev/null
