#!/bin/sh
# Runs an example; what it prints must be what stands in the text beside it. LOFTWRIGHT_APPROVE=1 writes that anew.
#   example.sh PROGRAM EXPECTED ARGUMENT...
set -eu
program=$1 expected=$2
shift 2
if [ -n "${LOFTWRIGHT_APPROVE:-}" ]; then
  "$program" "$@" >"$expected"
else
  "$program" "$@" | diff -u "$expected" -
fi
