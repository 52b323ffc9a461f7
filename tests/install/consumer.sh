#!/bin/sh
# Builds the consumer beside this script; its drive must be the program's to the last digit.
#   consumer.sh PROGRAM BUILD_FOLDER CMAKE_OPTION...
set -eu
program=$1 build=$2
shift 2
rm -rf "$build"
cmake -S "$(dirname "$0")" -B "$build" -G Ninja "$@" >/dev/null
cmake --build "$build" >/dev/null
drive=$("$build/one_drive")
echo "$drive"
"$program" strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg --json | grep -F "\"carry_m\": ${drive#carry_m }"
