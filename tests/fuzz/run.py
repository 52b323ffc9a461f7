#!/usr/bin/env python3
r"""Runs fuzz targets and prints what came of it.

    cmake -S . -B build-fuzz -G Ninja -DCMAKE_CXX_COMPILER=clang++ -DLOFTWRIGHT_SANITIZE=fuzzer-no-link,address,undefined
    cmake --build build-fuzz --target loftwright_fuzz
    /usr/bin/python3 tests/fuzz/run.py build-fuzz --runs 10000000 --seconds 600 json csv

For many runs a build that looks for less and is faster: undefined behaviour and the checks of the standard
library trap, addresses are not watched, comparisons not traced.

    cmake -S . -B build-fuzz-fast -G Ninja -DCMAKE_CXX_COMPILER=clang++ -DLOFTWRIGHT_SANITIZE=fuzzer-no-link,undefined,float-cast-overflow \
      -DCMAKE_CXX_FLAGS="-fsanitize-trap=undefined,float-cast-overflow -fno-sanitize-coverage=trace-cmp" \
      -DCMAKE_CXX_FLAGS_RELEASE="-O2 -g1 -D_GLIBCXX_ASSERTIONS"

What is found stays in BUILD/fuzz/TARGET: inputs that reach new code, and crash-* where something that must hold did not.
Exit 1 when there is such a finding. --merge adds to tests/fuzz/corpus/TARGET the few inputs that reach new lines.
"""
import argparse
import os
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
# Files of the program's own that a target begins with, besides its corpus; and the longest input worth trying [bytes]. A target
# that is not named has none, and 1000.
KNOWN = {
    "units": ([], 60),
    "options": ([], 200),
    "json": (["balls", "heads", "turf", "aero"], 1000),
    "csv": ([], 300),
    "book": ([], 1600),
    "pupil": (["pupils"], 1100),
}
TARGETS = {file.stem: KNOWN.get(file.stem, ([], 1000)) for file in sorted((ROOT / "tests/fuzz").glob("*.cpp")) if file.stem != "replay"}


def folders(target, work):
    here = ROOT / "tests/fuzz"
    known = [here / "corpus" / target, here / "crashes" / target, *(ROOT / "data" / name for name in TARGETS[target][0])]
    return [work, *(folder for folder in known if folder.is_dir())]


def call(program, work, options, where):
    log = work.parent / f"{work.name}.log"
    quick = {"ASAN_OPTIONS": "quarantine_size_mb=16:malloc_context_size=2", **os.environ}  # runs a second before long reports
    with open(log, "w") as out:
        subprocess.run([program, *options, *map(str, where)], stdin=subprocess.DEVNULL, stdout=out, stderr=out, cwd=work.parent, env=quick)
    return log.read_text(errors="replace")


def last(pattern, log):
    found = re.findall(pattern, log)
    return int(found[-1]) if found else 0


def fuzz(build, target, args):
    program = build / "tests/fuzz" / f"loftwright_fuzz_{target}"
    work = build / "fuzz" / target
    work.mkdir(parents=True, exist_ok=True)
    options = [f"-runs={args.runs}", f"-max_total_time={args.seconds}", f"-max_len={TARGETS[target][1]}", f"-artifact_prefix={work}-",
               "-print_final_stats=1", "-timeout=300", "-entropic=0"]
    log = call(program, work, options, folders(target, work))
    if args.merge:  # lines only: that keeps a corpus small
        kept = ROOT / "tests/fuzz/corpus" / target
        call(program, work, ["-merge=1", "-use_counters=0", f"-max_len={TARGETS[target][1]}"], [kept, *folders(target, work)[:1]])
    findings = sum(1 for kind in ("crash", "timeout", "oom", "leak") for _ in work.parent.glob(f"{target}-{kind}-*"))
    return (last(r"number_of_executed_units: (\d+)", log), last(r"average_exec_per_sec: +(\d+)", log), last(r" ft: (\d+)", log), findings)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build", type=pathlib.Path)
    parser.add_argument("targets", nargs="*", metavar="TARGET", help=f"of {', '.join(TARGETS)}; none: all")
    parser.add_argument("--runs", type=int, default=10_000_000)
    parser.add_argument("--seconds", type=int, default=600, help="at most, for each target")
    parser.add_argument("--merge", action="store_true")
    args = parser.parse_intermixed_args()
    if unknown := [target for target in args.targets if target not in TARGETS]:
        parser.error(f"there is no target {unknown[0]}")
    print("| target | runs | runs/s | features | findings |\n|---|---|---|---|---|")
    found = 0
    for target in args.targets or TARGETS:
        runs, rate, features, findings = fuzz(args.build.resolve(), target, args)
        found += findings
        print(f"| {target} | {runs:,} | {rate:,} | {features:,} | {findings} |", flush=True)
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
