"""Instructions spent on a flight and on a drive in eight lanes, counted by callgrind: times vary, counts do not.

    instructions.py PROBE

Asserted within 5 % of what is written here (GCC 12, Release, x86-64). A change that spends more has to say so here, and why.
"""
import json
import platform
import re
import shutil
import subprocess
import sys

EXPECTED = {"flights": 12880, "drives": 5259}  # a flight; a drive: impact, flight and run, whose hops meet air (some 330 of them)
SLACK = 0.05
MORE = 400

probe = sys.argv[1]
if not shutil.which("valgrind") or platform.machine() != "x86_64":
    print("valgrind is not installed, or this is no x86-64: instructions are not counted")
    sys.exit(77)


def instructions(what, count):
    done = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", probe], text=True, capture_output=True,
                          input=json.dumps([{"what": what, "count": count}]), check=True)
    return int(re.search(r"Collected : (\d+)", done.stderr)[1])


failures = 0
for what, expected in EXPECTED.items():
    each = (instructions(what, 2 * MORE) - instructions(what, MORE)) / MORE  # what starting up costs falls out
    wrong = abs(each / max(expected, 1) - 1.0) > SLACK
    failures += wrong
    print(f"{what}: {each:.0f} instructions each, {expected} expected{' -- more than 5 % off' if wrong else ''}")
sys.exit(1 if failures else 0)
