"""Holds `shots` and `compare`, from the file to the JSON, against NumPy and SciPy on the academy's lists (invented).

    compare_check.py PROGRAM SOURCE_DIR

The lists are read here with Python's csv module. Exit 77: SciPy is not installed.
"""
import csv
import json
import math
import pathlib
import subprocess
import sys

try:
    import numpy as np
    import scipy
    from scipy import special, stats
except ImportError:
    print("SciPy is not installed: nothing was checked")
    sys.exit(77)

PROGRAM, DATA = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]) / "data/academy"
TO_SI = {"mph": 0.44704, "yd": 0.9144, "ft": 0.3048, "deg": 1, "rpm": 1, "mm": 1}  # in the units of the JSON
KEYS = {"Club Speed": "club_speed", "Attack": "attack", "Path": "path", "Face": "face", "Dynamic Loft": "dynamic_loft",
        "Toe": "toe", "High": "high", "Ball Speed": "ball_speed", "Launch": "launch", "Azimuth": "azimuth", "Spin": "spin",
        "Tilt": "tilt", "Carry": "carry", "Total": "total", "Side": "side", "Apex": "apex"}
checked, wrong = 0, []


def near(what, got, expected, relative=1e-9, absolute=1e-9):
    """Twelve digits are written; Student's quantile of SciPy 1.10 is good to about 1e-8, which callers allow."""
    global checked
    checked += 1
    if got is None or not math.isclose(got, expected, rel_tol=relative, abs_tol=absolute):
        wrong.append(f"{what}: {got!r}, expected {expected!r}")


def read(name, leave_out=(), without_odd=False):
    """Columns in SI and deg, rpm, mm; only lists with the unit in every head. Odd: over five robust deviations off."""
    with open(DATA / f"{name}.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.reader(line for line in file if not line.startswith("#")))
    columns = {}
    for i, head in enumerate(rows[0]):
        if "(" not in head:
            continue
        title, unit = head.rstrip(")").split(" (")
        columns[KEYS[title]] = np.array([float(r[i]) * TO_SI[unit] for r in rows[1:] if r[0] not in leave_out])
    if without_odd:
        odd = [np.abs(x - np.median(x)) > 5 * 1.4826 * np.median(np.abs(x - np.median(x))) for x in columns.values()]
        columns = {key: x[~np.any(odd, axis=0)] for key, x in columns.items()}
    return columns


def ask(*args):
    done = subprocess.run([PROGRAM, *args, "--json", "--quiet"], cwd=DATA, capture_output=True, text=True)
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout)


def check_summary(where, part, x):
    near(f"{where} mean", part["mean"], np.mean(x))
    near(f"{where} sd", part["sd"], np.std(x, ddof=1))
    near(f"{where} standard error", part["standard_error"], stats.sem(x))


def check_shots(name, leave_out=(), *options):
    columns, answer = read(name, leave_out, "leave-out" in options), ask("shots", f"{name}.csv", *options)
    assert {r["reading"] for r in answer["readings"]} == set(columns)
    for r in answer["readings"]:
        x = columns[r["reading"]]
        check_summary(f"{name} {r['reading']}", r, x)
        near(f"{name} {r['reading']} median", r["median"], np.median(x))
        near(f"{name} {r['reading']} robust sd", r["robust_sd"], stats.median_abs_deviation(x, scale="normal"), 1e-4)  # 1.4826 has five digits
    assert len(answer["correlations"]) == len(columns) * (len(columns) - 1) // 2
    for c in answer["correlations"]:
        a, b = c["between"]
        near(f"{name} {a} {b}", c["value"], stats.pearsonr(columns[a], columns[b])[0])


def check_compare(who, confidence, leave_out=(), *options):
    before, after = (read(f"{who}-{which}", leave, "leave-out" in options) for which, leave in (("before", leave_out), ("after", ())))
    answer = ask("compare", f"{who}-before.csv", f"{who}-after.csv", "--confidence", f"{100 * confidence}%", *options)
    assert {r["reading"] for r in answer["readings"]} == set(before)
    p = {}
    for r in answer["readings"]:
        key = r["reading"]
        x, y = before[key], after[key]
        where = f"{who} {key}"
        check_summary(where + " before", r["before"], x)
        check_summary(where + " after", r["after"], y)
        test = stats.ttest_ind(y, x, equal_var=False)
        v = [x.var(ddof=1) / x.size, y.var(ddof=1) / y.size]
        df = sum(v) ** 2 / (v[0] ** 2 / (x.size - 1) + v[1] ** 2 / (y.size - 1))
        half = stats.t.isf((1 - confidence) / 2, df) * math.sqrt(sum(v))
        difference = y.mean() - x.mean()
        near(where + " difference", r["difference"], difference)
        near(where + " t", r["t"], test.statistic, 1e-8)
        near(where + " p", r["p"], test.pvalue, 1e-8)
        near(where + " df", r["degrees_of_freedom"], df, 1e-8)
        near(where + " low", r["low"], difference - half, 1e-7, 1e-7)
        near(where + " high", r["high"], difference + half, 1e-7, 1e-7)
        free = x.size + y.size - 2
        pooled = math.sqrt(((x.size - 1) * x.var(ddof=1) + (y.size - 1) * y.var(ddof=1)) / free)
        small = math.exp(special.gammaln(free / 2) - special.gammaln((free - 1) / 2)) / math.sqrt(free / 2)
        near(where + " g", r["hedges_g"], small * difference / pooled, 1e-8)
        p[key] = test.pvalue
        if key in ("carry", "total"):
            # Resamples differ: the standard error of a 2.5 % quantile of 10 000 is 0.027 standard errors of the difference,
            # of SciPy's 50 000 0.012; in the long tail of a list with a topped shot about twice that. Five together: 0.3.
            other = stats.bootstrap((x, y), lambda a, b, axis: b.mean(axis=axis) - a.mean(axis=axis), n_resamples=50000, batch=5000,
                                    vectorized=True, method="BCa", confidence_level=confidence,
                                    random_state=np.random.default_rng(1)).confidence_interval
            for end, expected in zip(("low", "high"), other):
                near(f"{where} bootstrap {end}", r["bootstrap"][end], expected, 0, 0.3 * math.sqrt(sum(v)))
    order = sorted(p, key=p.get)
    adjusted, largest = {}, 0.0
    for rank, key in enumerate(order):
        largest = max(largest, min(1.0, (len(order) - rank) * p[key]))
        adjusted[key] = largest
    for r in answer["readings"]:
        near(f"{who} {r['reading']} Holm", r["adjusted_p"], adjusted[r["reading"]], 1e-8)
    goal = next(r for r in answer["readings"] if r["reading"] == answer["goal"])
    key = "gain" if goal["low"] > 0 else "loss" if goal["high"] < 0 else answer["verdict"]["key"]
    assert key == answer["verdict"]["key"], answer["verdict"]
    return answer


# The sixth shot of this list was typed without its decimal point: the program must set it aside too.
check_shots("tamsin-before", {"6"})
check_shots("tamsin-after")
check_shots("suvi-before")
check_shots("suvi-before", (), "--odd", "leave-out")
check_compare("tamsin", 0.95, {"6"})
check_compare("tamsin", 0.8, {"6"}, "--goal", "total")
check_compare("suvi", 0.95)
kept_out = check_compare("suvi", 0.99, (), "--odd", "leave-out")
# What the program says was hit is what was made: Suvi's gain in the model is her measured one, within chance.
assert kept_out["change"]["unexplained"]["low_m"] < 0 < kept_out["change"]["unexplained"]["high_m"]
print("\n".join(wrong[:20]))
print(f"{checked} numbers held against SciPy {scipy.__version__}, {len(wrong)} wrong")
sys.exit(1 if wrong or checked < 400 else 0)
