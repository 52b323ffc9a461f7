"""Holds the choice of `rack` against an integer program solved by SciPy's HiGHS, live.

    rack_check.py PROGRAM SOURCE_DIR

Which k lofts lose least is the k-median problem (Hakimi, Operations Research 12 (1964) 450; from memory): y_j says whether loft j is
in the rack, x_ij whether pupil i takes it;

    minimise sum_ij loss_ij x_ij   with   sum_j x_ij = 1,   x_ij <= y_j,   sum_j y_j = k,   y whole.

Losses are worked out here from the gains that the program prints, by the rule of docs/cli.md. Pupils are the clinic's twelve, and two
hundred made by moving them about. Exit 77: SciPy's milp is not installed.
"""
import json
import pathlib
import random
import subprocess
import sys
import tempfile

try:
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import lil_matrix
except ImportError:
    print("SciPy (1.9 or newer) is not installed: nothing was checked")
    sys.exit(77)

PROGRAM, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
failures = []


def losses_of(answer):
    rows = []
    for gains, pupil in zip(answer["gain_m"], answer["pupils"], strict=True):
        best = pupil["best_gain_m"]
        worst = min([0.0, best, *(g for g in gains if g is not None)])
        rows.append([best - (worst if g is None else g) for g in gains])
    return np.array(rows)


def least(losses, places):
    """The least sum, by the integer program."""
    pupils, lofts = losses.shape
    size = lofts + pupils * lofts  # y, then x row after row
    cost = np.concatenate([np.zeros(lofts), losses.ravel()])
    rows, low, high = lil_matrix((1 + pupils + pupils * lofts, size)), [], []
    rows[0, :lofts] = 1
    low.append(places), high.append(places)
    for i in range(pupils):
        rows[1 + i, lofts + i * lofts: lofts + (i + 1) * lofts] = 1
        low.append(1), high.append(1)
    for i in range(pupils):
        for j in range(lofts):
            at = 1 + pupils + i * lofts + j
            rows[at, lofts + i * lofts + j], rows[at, j] = 1, -1
            low.append(-np.inf), high.append(0)
    whole = np.concatenate([np.ones(lofts), np.zeros(pupils * lofts)])
    found = milp(cost, integrality=whole, bounds=Bounds(0, 1), constraints=LinearConstraint(rows.tocsr(), low, high),
                 options={"mip_rel_gap": 0.0})
    assert found.success, found.message
    return found.fun


def moved_about(count):
    """So many pupils' files, each one of the clinic's with other numbers and some with a limit."""
    rng = random.Random(count)
    models = [json.loads(f.read_text()) for f in sorted((SOURCE / "data/clinic").glob("*.json"))]
    for n in range(count):
        pupil = json.loads(json.dumps(models[n % len(models)]))
        pupil["delivery"]["club_speed_mph"] = round(rng.uniform(60, 100), 1)
        pupil["delivery"]["dynamic_loft_deg"] = round(rng.uniform(8, 17), 1)
        if n % 5 == 0:
            pupil["limits"] = {"spin_rpm": [None, rng.choice([2400, 2800, 3200])]}
        yield f"{n:03}.json", json.dumps(pupil)


def check(folder, lofts, places):
    done = subprocess.run([PROGRAM, "rack", folder, "--lofts", ",".join(map(str, lofts)), "--places", str(places), "--json", "--quiet"],
                          capture_output=True, text=True, check=True)
    answer = json.loads(done.stdout)
    losses, sizes, worst = losses_of(answer), answer["by_places"], 0.0
    assert answer["exact"] and len(sizes) == len(lofts)
    for size in sizes if len(losses) < 50 else [sizes[k - 1] for k in (1, 2, 3, 5, 8)]:
        wanted = least(losses, size["places"])
        worst = max(worst, abs(size["lost_m"] - wanted))
        if abs(size["lost_m"] - wanted) > 1e-6 * (1 + wanted):  # the solver's own tolerance
            failures.append(f"{len(losses)} pupils, {size['places']} of {len(lofts)} lofts: {size['lost_m']}, the integer program {wanted}")
    if answer["lost_m"] != sizes[places - 1]["lost_m"]:
        failures.append("lost_m is not that of so many places")
    here = [lofts.index(d) for d in answer["chosen_deg"]]
    now = losses[:, here].min(axis=1)
    for step in answer["next"]:  # each the loft that saves most beside those before it
        best = max(np.maximum(0, now - losses[:, j]).sum() for j in range(len(lofts)))
        own = np.maximum(0, now - losses[:, lofts.index(step["loft_deg"])]).sum()
        if abs(own - step["saves_m"]) > 1e-8 or best > own + 1e-8:
            failures.append(f"next: {step}, here {own}, the best {best}")
        now = np.minimum(now, losses[:, lofts.index(step["loft_deg"])])
    print(f"{len(losses)} pupils, {len(lofts)} lofts: within {worst:.1e} m of the integer program")


check(SOURCE / "data/clinic", [9, 10.5, 12, 13.5, 15], 3)
check(SOURCE / "data/clinic", [7 + 0.5 * n for n in range(20)], 8)
with tempfile.TemporaryDirectory() as folder:
    for name, text in moved_about(200):
        (pathlib.Path(folder) / name).write_text(text)
    check(folder, [7 + 0.5 * n for n in range(20)], 8)
print("\n".join(failures))
sys.exit(1 if failures else 0)
