"""Holds tuning against SciPy's least_squares, live: the same rows, weighed with dense matrices, minimised by another method
with derivatives of its own. Usage: least_squares_check.py PROBE. Exit 77: SciPy is not installed."""
import json
import os
import subprocess
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # matrices of a few rows: a second thread only waits
try:
    import numpy as np
    import scipy
    from scipy import linalg, optimize
except ImportError:
    print("SciPy is not installed: nothing was checked")
    sys.exit(77)

random = np.random.default_rng(20261125)
HEADS = ["club_speed_mps", "attack_deg", "dynamic_loft_deg", "path_deg", "face_deg", "ball_speed_mps", "launch_deg", "spin_rpm", "carry_m",
         "apex_m", "landing_deg", "total_m"]
CLUB, BALL, FLIGHT, RUN = HEADS[:5], HEADS[5:8], HEADS[8:11], HEADS[11:]


def ask(**question):
    done = subprocess.run([sys.argv[1]], input=json.dumps([{"what": "tuning", **question}]), capture_output=True, text=True, check=True)
    return json.loads(done.stdout)[0]


def invented(columns, shots, handed, longer=1.0):
    """Numbers like a lesson's; how far they are from the model does not matter here, only that they are from it. With carries so many
    times as long, what can be tuned ends at the ends of its ranges."""
    pupil = {"format": "loftwright-pupil/1", "handed": handed, "delivery": {"club_speed_mps": 37, "attack_deg": -1, "dynamic_loft_deg": 13},
             "club": {"loft_deg": 10.5}, "spread": {"toe_mm": 9, "high_mm": 7}}
    middle = {"club_speed_mps": 37, "attack_deg": -1, "dynamic_loft_deg": 13, "path_deg": 1, "face_deg": 0, "ball_speed_mps": 53.4,
              "launch_deg": 11.2, "spin_rpm": 2750, "carry_m": 152, "apex_m": 17.5, "landing_deg": 28, "total_m": 178}
    off = {key: value * random.normal(1.0, 0.01) for key, value in middle.items()}
    off["carry_m"] *= longer
    rows = [", ".join(columns)]
    for _ in range(shots):
        swing = random.normal(0.0, 0.006)
        rows.append(", ".join(f"{off[key] * (1 + (swing if 'deg' not in key else 0) + random.normal(0, 0.004)):.4f}" for key in columns))
    return json.dumps(pupil), "\n".join(rows) + "\n"


def whitening(shots):
    """By what each shot's residuals are multiplied, for least squares to sum: the sum is the mean shot's, independent and of unit
    variance."""
    present = sorted({r for shot in shots for r in shot["readings"]})
    place = [np.eye(7)[:, shot["readings"]][present] for shot in shots]
    weight = [linalg.inv(np.array(shot["own"])) for shot in shots]
    own = linalg.inv(sum(p @ w @ p.T for p, w in zip(place, weight)))
    share = [own @ p @ w for p, w in zip(place, weight)]
    shared = sum(s @ np.array(shot["shared"]) for s, shot in zip(share, shots))
    root = linalg.cholesky(own + shared @ shared.T, lower=True)
    return [linalg.solve_triangular(root, s, lower=True) for s in share]


STEPS = 1e-3 * np.eye(8)


def differences(of_places):
    """Central, of what is known at a place, at a step on along each tunable, and at a step back."""
    above, below = np.split(np.array(of_places[1:]), 2)
    return (above - below).T / 2e-3


checked, wrong = 0, 0


def check(name, ours, theirs, allowed):
    global checked, wrong
    worst = float(np.max(np.abs(np.asarray(ours) - np.asarray(theirs))))
    checked += 1
    if not worst <= allowed:
        wrong += 1
        print(f"{name}: ours {ours}, SciPy {theirs}, allowed {allowed}")
    return worst


held = 0
for columns, shots, handed, *longer in [(HEADS, 12, "right"), (HEADS, 30, "left"), (HEADS[:-1], 12, "right"),
                               (BALL + FLIGHT[:1] + RUN, 20, "right"), (CLUB + BALL, 10, "right"), (BALL + FLIGHT, 15, "right"),
                               (CLUB[:3] + BALL + FLIGHT[:1], 8, "right"), (CLUB + FLIGHT, 14, "left"), (CLUB + BALL[:2] + FLIGHT, 9, "right"),
                               (HEADS[:-1], 20, "right", 1.35), (BALL + FLIGHT[:1], 20, "right", 1.3), (BALL + FLIGHT[:1] + RUN, 20, "right", 0.72)]:
    pupil, text = invented(columns, shots, handed, *longer)
    ours = ask(pupil=pupil, shots=text)
    same = {"pupil": pupil, "shots": text, "hidden_scale": ours["hidden_scale"]}
    if any(ours["widened"]):
        print(f"{columns}: noise was widened; the numbers invented here are not to need it")
        sys.exit(1)
    by = whitening(ask(**same, at=[[0] * 8]))

    def whitened(places):
        """The mean shot's residuals at each place, then the way from the prior."""
        shots = ask(**same, at=np.array(places).tolist())
        return [np.concatenate([sum(b @ shot["residuals"][n] for b, shot in zip(by, shots)), at]) for n, at in enumerate(places)]

    found = optimize.least_squares(lambda at: whitened([at])[0], np.zeros(8), lambda at: differences(whitened([at, *at + STEPS, *at - STEPS])),
                                   bounds=(-4, 4), xtol=1e-10, ftol=1e-12, gtol=1e-10)
    covariance = linalg.inv(found.jac.T @ found.jac)
    sd = np.sqrt(np.diag(covariance))
    # The last three are fitted by their logarithms.
    turf = [np.log1p(v["prior_sd"]) for v in ours["values"][5:]]
    at = np.array([(v["value"] - v["prior"]) / v["prior_sd"] for v in ours["values"][:5]]
                  + [np.log(v["value"]) / width for v, width in zip(ours["values"][5:], turf)])
    share = np.array([v["sd"] / v["prior_sd"] for v in ours["values"][:5]]
                     + [np.log1p(v["sd"] / v["value"]) / width for v, width in zip(ours["values"][5:], turf)])
    # Ours stops within 1e-4 of a posterior standard deviation; theirs differentiates in steps of 1e-3.
    held += int(np.sum(np.abs(at) > 4 - 1e-9))
    a = check(f"{columns} value", at / sd, found.x / sd, 2e-4)
    b = check(f"{columns} sd", share / sd, np.ones(8), 1e-5)
    c = check(f"{columns} correlation", ours["correlation"], covariance / np.outer(sd, sd), 1e-5)
    shot = ask(**same, at=[at.tolist(), *(at + STEPS).tolist(), *(at - STEPS).tolist()])[0]
    slope = differences(shot["residuals"])
    scale = np.abs(slope).max(axis=1, keepdims=True) + 1e-12
    d = check(f"{columns} slope", np.array(shot["slope"]) / scale, slope / scale, 1e-5)  # of a third derivative, and of the flight's steps
    print(f"{len(columns)} columns, {shots} shots: value within {a:.1e} sd, sd {b:.1e}, correlation {c:.1e}, slope {d:.1e}")

print(f"{checked} held against SciPy {scipy.__version__}, {wrong} wrong; {held} values at an end of their range")
sys.exit(1 if wrong or checked != 48 or held < 3 else 0)
