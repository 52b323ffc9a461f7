#!/bin/sh
# By hand, as root, with a mirror at hand: a Debian with nothing on it takes the package and runs it (two minutes).
#   clean_root.sh PACKAGE.deb
set -eu
mmdebstrap --variant=apt --customize-hook="copy-in $1 /root" \
  --customize-hook='chroot "$1" sh -c "apt-get install -y --no-install-recommends /root/*.deb && cd / && loftwright demo"' bookworm /dev/null
