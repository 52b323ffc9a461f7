#!/usr/bin/env python3
"""Would a test notice? Changes constants, signs and operators of the kernels one at a time and runs the tests on each.

    mutate.py [--all] [--like TEXT]... [--sample N [--seed S]] [--jobs N]

Every mutant is compiled in at once (switch.hpp), in build-mutation/: one build serves them all, and a mutant costs no more than
the tests up to the first that fails, those of its own folder first. What does not compile is left out. explained.txt names
mutants that change no answer, and why. --like takes the mutants with TEXT in their printed name, such as a path. Prints each
fate and a table, also when stopped; exit 1 when one is left unexplained. Tests that take many times as long as without a mutant
are stopped: such mutants never end or are only slow, and are counted apart, as not killed.
"""
import argparse
import collections
import concurrent.futures
import os
import pathlib
import random
import re
import signal
import subprocess
import sys
import threading
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
TREE, BUILD = ROOT / "build-mutation" / "tree", ROOT / "build-mutation" / "build"
FOLDERS = ["air", "equip", "swing", "stats", "impact", "aero", "flight", "ground", "shot", "advise", "tune"]
FILES = ["lib/include/loftwright/core/detail/elementary.hpp", "lib/include/loftwright/core/detail/vec3.hpp", "lib/include/loftwright/core/detail/power_law.hpp",
         "lib/src/core/power_law.cpp"]
# Tests of what stands above them are left out, to build quickly, and 30,000 drives that need only end.
ABOVE = re.compile(r"cli/|tests/\w+/(shots|files|book|clinic|report|lessons)/.*cpp$|tests/(cli|property/robustness|"
                   r"acceptance/(tune|change|clinic|heads|lessons|chart|accuracy_page)_)")
KINDS = ["unit", "reference", "property", "acceptance"]
# Those that look at a folder, cheapest first; before them come the unit tests of the folder alone.
LOOKING = collections.defaultdict(lambda: ["unit", "reference", "property"], stats=["unit"], advise=["unit", "acceptance"], tune=["unit"])
# A run may take so many times the processor's time it takes without a mutant, at least so many seconds of it, and so many
# seconds of waiting when it only sleeps on a busy machine.
LONGEST_TIMES, LONGEST_LEAST, LONGEST_WAIT = 5, 30, 1800
MUTANTS_OF_FILE = 1000  # at most; numbers of one file do not depend on those before it, which would compile everything anew

# A place to change: its pattern, how it is written with its switch ({0}: what stood there, {1}: the mutant's number), what
# the mutant has instead.
Place = collections.namedtuple("Place", "pattern switch other")
PLACES = [
    Place(r"(?<![\w.'])(?:\d+\.\d*(?:e[-+]?\d+)?|\d+e[-+]?\d+)(?![\w.'])", "mutant::number({1}, {0}, {2})",
          lambda x: "1.0" if float(x) == 0.0 else f"{1.1 * float(x):.15g}"),
    Place(r" [-+]=? (?=[\w(!-])", "{0}mutant::Sign({1}) * ", lambda op: op.translate(str.maketrans("+-", "-+"))),
    Place(r"(?:(?<=[({])|(?<=[,=?:<>] )|(?<=return ))-(?=[A-Za-z_(])", "-mutant::Sign({1}) * ", lambda op: ""),
    Place(r" [*/] ", "{0}mutant::Swap({1}){0}", lambda op: op.translate(str.maketrans("*/", "/*"))),
    Place(r" (?:[<>]=?|[=!]=) ", "{0}mutant::Negate({1}){0}", lambda op: f" not{op}"),
    Place(r" (?:&&|\|\|) ", "{0}mutant::Negate({1}) ^ ", lambda op: f"{op}not "),
    Place(r" [&|] ", "{0}mutant::Swap({1}){0}", lambda op: op.translate(str.maketrans("&|", "|&"))),
]
# Rows of ModelNumber are constants of the compiler: their ranges are held by the tests of each model.
NOT_CODE = re.compile(r"\s*(#|template|using|static_assert|requires|case|friend|enum|struct|class|ModelNumber<)|.*(\boperator\b|if constexpr)")
CONSTANT = re.compile(r"(static |inline )?constexpr (?=double k\w+ =)")  # has to become one of the running program

Mutant = collections.namedtuple("Mutant", "id file line start end switched shown")


def name(mutant):
    return f"{mutant.file}: {mutant.shown}"


def mutants_of(file, first_id):
    """All mutants of a file, in the order of its text."""
    mutants = []
    of_table = 0  # how deep within the braces of a table that is the compiler's
    for at, line in enumerate((ROOT / file).read_text(encoding="utf-8").split("\n")):
        code = re.sub(r"//.*", "", re.sub(r'"(?:\\.|[^"\\])*"', lambda quoted: "_" * len(quoted[0]), line))
        if of_table or ("constexpr" in code and ")" not in code and not CONSTANT.search(code)):
            of_table += code.count("{") - code.count("}")
            continue
        if NOT_CODE.match(code) or ("constexpr" in code and not CONSTANT.search(code)):
            continue
        found = [(m.start(), m[0], place) for place in PLACES for m in re.finditer(place.pattern, code)]
        for start, text, place in sorted(found):
            other, number = place.other(text), first_id + len(mutants)
            mutants.append(Mutant(number, file, at, start, start + len(text), place.switch.format(text, number, other),
                                  f"{line[:start]}[{text.strip()} -> {other.strip()}]{line[start + len(text):]}".strip()))
    return mutants


def with_switches(text, mutants):
    lines = text.split("\n")
    for m in sorted(mutants, key=lambda m: (m.line, -m.start)):  # from the right: places on the left stay
        lines[m.line] = lines[m.line][:m.start] + m.switched + lines[m.line][m.end:]
    kinds = {"static ": "static inline const ", "inline ": "inline const ", None: "static const "}  # no lambda need capture it
    return "\n".join(CONSTANT.sub(lambda m: kinds[m[1]], line) for line in lines)


def write_tree(mutants):
    listed = subprocess.run(["git", "-C", ROOT, "ls-files"], capture_output=True, text=True, check=True).stdout
    of_file = collections.defaultdict(list)
    for m in mutants:
        of_file[m.file].append(m)
    paths = [path for path in listed.splitlines() if not ABOVE.match(path)]
    for gone in {f for f in TREE.rglob("*") if f.is_file()} - {TREE / path for path in paths}:
        gone.unlink()
    for path in paths:
        content = (ROOT / path).read_bytes()
        if path in of_file:
            content = with_switches(content.decode(), of_file[path]).encode()
        elif path == "lib/CMakeLists.txt":  # at -O3 GCC 12 itself fails where lanes meet a switch; most time goes into flights
            content = content.replace(b" -O3 ", b" -O1 ") + b"set_source_files_properties(${flights} PROPERTIES COMPILE_OPTIONS -O2)\n"
        target = TREE / path
        if not target.exists() or target.read_bytes() != content:  # else as old as it is: not compiled again
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)


def build(mutants):
    """Builds with all mutants that compile, and returns those."""
    switch = TREE / "tests/mutation/switch.hpp"
    targets = [["loftwright"], [f"loftwright_{kind}_tests" for kind in KINDS]]
    while targets:
        write_tree(mutants)
        subprocess.run(["cmake", "-S", TREE, "-B", BUILD, "-G", "Ninja", "-DCMAKE_CXX_COMPILER_LAUNCHER=ccache", "-DLOFTWRIGHT_CLI=OFF",
                        "-DCMAKE_BUILD_TYPE=Debug", "-DCMAKE_CXX_FLAGS_DEBUG=-O1", f"-DCMAKE_CXX_FLAGS=-std=c++20 -w -include {switch}"],
                       check=True, stdout=subprocess.DEVNULL)
        done = subprocess.run(["ninja", "-C", BUILD, f"-j{asked.jobs}", "-k0", *targets[0]], capture_output=True, text=True)
        if done.returncode == 0:
            targets.pop(0)
            continue
        # A line with an error loses its operators; its constants too when it has no operator left.
        wrong = set(re.findall(r"tree/(lib/[^:]*):(\d+):\d+: +(?:error|required)", done.stdout))
        bad = [m for m in mutants if (m.file, str(m.line + 1)) in wrong]
        bad = [m for m in bad if "number" not in m.switched] or bad
        if not bad:
            sys.exit(done.stdout[-5000:])
        print(f"{len(bad)} mutants do not compile:", *(f"  {name(m)}" for m in bad), sep="\n", flush=True)
        mutants = [m for m in mutants if m not in bad]
    return mutants


def runs(folder):
    """The runs of tests that look at a folder, cheapest first."""
    return [("unit", f"[{folder}]"), *((kind, "") for kind in LOOKING[folder])]


def run(kind, tags, mutant_id):
    """Whether tests pass (None: stopped before their end), and the seconds of the processor they took, as far as they came."""
    environment = dict(os.environ, LOFTWRIGHT_MUTANT=str(mutant_id))
    longest = max(LONGEST_LEAST, round(LONGEST_TIMES * usual[kind, tags])) if mutant_id else "unlimited"
    command = ["prlimit", f"--cpu={longest}", BUILD / f"tests/loftwright_{kind}_tests", "--abort", *filter(None, [tags])]
    process = subprocess.Popen(command, cwd=BUILD / "tests", env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    watch = threading.Timer(LONGEST_WAIT, process.kill)
    watch.start()
    _, status, used = os.wait4(process.pid, 0)
    watch.cancel()
    process.returncode = os.waitstatus_to_exitcode(status)
    return None if process.returncode in (-signal.SIGXCPU, -signal.SIGKILL) else process.returncode == 0, used.ru_utime + used.ru_stime


def folder_of(mutant):
    return next(part for part in mutant.file.split("/") if part in FOLDERS + ["core"])


def fate_of(mutant):
    """What becomes of a mutant, and the first run of tests that fails or is stopped."""
    for kind, tags in runs(folder_of(mutant)):
        passed, _ = run(kind, tags, mutant.id)
        if not passed:
            return "stopped" if passed is None else "killed", kind
    return "explained" if name(mutant) in known else "survived", None


def explained():
    text = (ROOT / "tests/mutation/explained.txt").read_text(encoding="utf-8")
    return {line for line in text.splitlines() if line and not line.startswith("#")}


parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
parser.add_argument("--all", action="store_true")
parser.add_argument("--sample", type=int, metavar="N")
parser.add_argument("--seed", type=int, default=1)
parser.add_argument("--jobs", type=int, default=1)
parser.add_argument("--like", action="append", default=[], metavar="TEXT")
asked = parser.parse_args()

files = [str(f.relative_to(ROOT)) for folder in FOLDERS for top in ("lib/include/loftwright", "lib/src")
         for f in sorted((ROOT / top / folder).rglob("*.[hc]pp"))] + FILES
mutants = []
for place, file in enumerate(files):
    mutants += mutants_of(file, MUTANTS_OF_FILE * place + 1)
started = time.time()
mutants = build(mutants)
print(f"{len(mutants)} mutants built in {time.time() - started:.0f} s", flush=True)
chosen = [m for m in mutants if asked.all or any(text in name(m) for text in asked.like)]
if asked.sample:
    chosen = random.Random(asked.seed).sample(chosen or mutants, asked.sample)  # whatever is done when it is stopped is a sample
usual = {}
for kind, tags in sorted({each for m in chosen for each in runs(folder_of(m))}):
    passed, usual[kind, tags] = run(kind, tags, 0)
    if not passed:
        sys.exit(f"the {kind} tests {tags} fail without a mutant")

known = explained()
for gone in known - {name(m) for m in mutants}:
    print(f"explained, but no mutant any more: {gone}")
table = collections.defaultdict(collections.Counter)
pool = concurrent.futures.ThreadPoolExecutor(asked.jobs)
for stop in (signal.SIGINT, signal.SIGTERM):  # SIGINT too: a shell lets its background jobs ignore it
    signal.signal(stop, signal.default_int_handler)
try:
    for m, (fate, by) in zip(chosen, pool.map(fate_of, chosen)):
        table[m.file][fate] += 1
        print(f"{fate}{f' by {by}' if by else ''}: {name(m)}", flush=True)
except KeyboardInterrupt:
    pool.shutdown(cancel_futures=True)
    print(f"stopped after {sum(fates.total() for fates in table.values())} of {len(chosen)}")
total = sum(table.values(), collections.Counter())
for file, fates in [*table.items(), ("all", total)]:
    print(f"{file:45}", *(f"{fates[fate]:5} {fate}" for fate in ("killed", "stopped", "explained", "survived")))
print(f"{100.0 * total['killed'] / max(total.total() - total['explained'], 1):.1f} % killed of those not explained")
sys.exit(1 if total["survived"] + total["stopped"] else 0)
