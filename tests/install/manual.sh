#!/bin/sh
# The manual page renders without a warning: manual.sh PAGE
set -eu
for tool in groff mandoc; do
  command -v $tool >/dev/null || { echo "$tool is missing"; exit 77; }
done
# No date: the same source gives the same page.
said=$(groff -ww -man -Tutf8 -z "$1" 2>&1; mandoc -T lint -W warning "$1" | grep -v 'missing date' || true)
echo "$said"
[ -z "$said" ]
