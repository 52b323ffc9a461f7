#!/bin/sh
# Runs an example with the arguments of NAME.args; what it prints must be what stands in NAME.txt. LOFTWRIGHT_APPROVE=1 writes
# that anew.
#   example.sh PROGRAM FOLDER/NAME
set -eu
program=$1 expected=$2.txt
set --
[ ! -e "${expected%.txt}.args" ] || set -- $(cat "${expected%.txt}.args")
if [ -n "${LOFTWRIGHT_APPROVE:-}" ]; then
  "$program" "$@" >"$expected"
else
  "$program" "$@" | diff -u "$expected" -
fi
