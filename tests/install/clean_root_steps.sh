# What clean_root.sh does inside; the packages lie beside this script.
set -eu
apt-get install -y --no-install-recommends /root/loftwright_*.deb
cd /
loftwright demo
[ -e /root/loftwright-dev_*.deb ] || exit 0
apt-get install -y --no-install-recommends /root/loftwright-dev_*.deb cmake g++ make
cd /usr/share/doc/loftwright  # the examples' arguments name files from where README stands
cmake -S docs/examples -B /tmp/examples >/dev/null
cmake --build /tmp/examples
for source in docs/examples/*.cpp; do
  example=${source%.cpp} arguments=
  [ ! -e "$example.args" ] || arguments=$(cat "$example.args")
  "/tmp/examples/$(basename "$example")" $arguments | diff -u "$example.txt" -
  echo "$example: as it should be"
done
