#!/bin/sh
# Every public declaration says what it is, and Doxygen has no warning: headers.sh BUILD_FOLDER
set -eu
command -v doxygen >/dev/null && [ -e "$1/Doxyfile" ] || { echo "doxygen is missing, or was when this was configured"; exit 77; }
said=$(doxygen "$1/Doxyfile" 2>&1) || { echo "$said"; exit 1; }
echo "$said"
[ -z "$said" ]
