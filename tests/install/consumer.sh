#!/bin/sh
# Builds the consumer beside this script; its drive must be the program's to the last digit.
#   consumer.sh PROGRAM BUILD_FOLDER [--as-in LIBRARY_BUILD] CMAKE_OPTION...
# With --as-in, the library within the consumer is to be made by the very commands of LIBRARY_BUILD, from the very files, and what
# these made there is linked: to compile it all again would be a quarter of the time that all tests take.
set -eu
program=$1 build=$2
shift 2
library=
if [ "$1" = --as-in ]; then
  library=$2
  shift 2
fi
rm -rf "$build"
cmake -S "$(dirname "$0")" -B "$build" -G Ninja "$@" >/dev/null
if [ -n "$library" ]; then
  here="s#$library/#BUILD/#g; s#$library#BUILD#g"
  within="s#$build/loftwright/#BUILD/#g; s#$build#BUILD#g; s#\([ =>]\)loftwright/lib/#\1lib/#g"
  ninja -C "$library" -t commands lib/libloftwright.a | sed "$here" | sort >"$build/commands_here"
  ninja -C "$build" -t commands one_drive >"$build/commands"
  sed "$within" "$build/commands" | sort >"$build/commands_within"
  comm -13 "$build/commands_here" "$build/commands_within" >"$build/others"
  comm -23 "$build/commands_here" "$build/commands_within" >"$build/missing"
  if [ -s "$build/missing" ] || [ "$(wc -l <"$build/others")" != 2 ] || [ "$(grep -c one_drive "$build/others")" != 2 ]; then
    echo "within another project the library is made otherwise; only here:"
    cat "$build/missing"
    echo "only there:"
    cat "$build/others"
    exit 1
  fi
  for made in $(cd "$library/lib" && find include CMakeFiles "(" -name "*.hpp" -o -name "*.cxx" ")"); do
    case $made in
      *.cxx) grep -qF "lib/$made" "$library/build.ninja" || continue ;;  # left over from files grouped otherwise
    esac
    sed "$here" "$library/lib/$made" >"$build/made_here"
    sed "$within" "$build/loftwright/lib/$made" | cmp "$build/made_here"
  done
  cp "$library/lib/libloftwright.a" "$build/loftwright/lib/"
  grep one_drive "$build/commands" | (cd "$build" && sh -e)
else
  cmake --build "$build" >/dev/null
fi
drive=$("$build/one_drive")
echo "$drive"
"$program" strike --club-speed 82mph --attack -4deg --dynamic-loft 10deg --json | grep -F "\"carry_m\": ${drive#carry_m }"
