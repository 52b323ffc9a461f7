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
for example in fly_a_drive advise_in_code "advise_on_file data/pupils/clinic.json" table_of_speeds \
               "tune_to_shots data/academy/ivo.json data/academy/ivo-before.csv"; do
  /tmp/examples/$example | diff -u "docs/examples/${example%% *}.txt" -
  echo "$example: as it should be"
done
