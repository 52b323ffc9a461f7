"""Holds what `lessons` pools against a sampler that shares nothing with it but the model on docs/lessons.md.

    gibbs_check.py MANY_COMMANDS SOURCE_DIR

MANY_COMMANDS is the program for many command lines at once. The program integrates true attacks, intercepts and the pupils' own
effects out and sums over a grid. Here they are all drawn, by Gibbs sampling (Geman & Geman, IEEE PAMI 6 (1984) 721) with the spread
between pupils drawn while their effects are summed over; the reached share is integrated on dense grids, the drives' slopes asked of `strike` one by one. Exit 77: NumPy is not installed.
"""
import json
import math
import os
import pathlib
import subprocess
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # small matrices: a second thread only waits
try:
    import numpy as np
except ImportError:
    print("NumPy is not installed: nothing was checked")
    sys.exit(77)

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
FOLDER = SOURCE / "data/academy/books"
DEG = math.pi / 180
DAY = {"attack": 0.28, "dynamic_loft": 0.35, "club_speed": 0.005}  # docs/lessons.md
failures = []


def books():
    return [(path.name, json.loads(path.read_text())) for path in sorted(FOLDER.glob("*.json"))]


def means_of(session):
    """Means and the covariance of their errors, in deg and m/s: (attack, dynamic loft, club speed)."""
    d, shots = session["delivery"], session["shots"]
    by_key = {r["reading"]: r for r in shots["readings"]}
    keys = ("attack", "dynamic_loft", "club_speed")
    mean = [d["attack_deg"], d["dynamic_loft_deg"], d["club_speed_mps"]]
    own = [by_key[k]["sd"] ** 2 / by_key[k]["count"] for k in keys]
    cov = np.diag(own)
    cov[0, 1] = cov[1, 0] = shots.get("loft_with_attack", 0.0) * math.sqrt(own[0] * own[1])
    cov[0, 2] = cov[2, 0] = shots.get("speed_with_attack", 0.0) * math.sqrt(own[0] * own[2])
    return mean, cov + np.diag([DAY["attack"] ** 2, DAY["dynamic_loft"] ** 2, (DAY["club_speed"] * mean[2]) ** 2])


def series(which):
    """x, y, var x, var y, cov; the series and the pupil of each point. A series: one pupil with one driver."""
    rows, of_series, of_pupil = [], [], []
    for pupil, (_, book) in enumerate(books()):
        drivers = {}
        for s in book["sessions"]:
            drivers.setdefault((s["club"]["head"], s["club"]["loft_deg"]), []).append(s)
        for sessions in drivers.values():
            if len(sessions) < 2:
                continue
            number = of_series[-1] + 1 if of_series else 0
            for s in sessions:
                mean, cov = means_of(s)
                rows.append((mean[0], mean[which], cov[0, 0], cov[which, which], cov[0, which]))
                of_series.append(number)
                of_pupil.append(pupil)
    kept = {p: n for n, p in enumerate(dict.fromkeys(of_pupil))}
    return np.array(rows).T, np.array(of_series), np.array([kept[p] for p in of_pupil])


def drawn_from(edges, log_density, random):
    """One draw a row of `log_density`, which holds for the cells between `edges`; even within a cell."""
    chance = np.exp(log_density - log_density.max(1, keepdims=True))
    below = np.cumsum(chance, 1)
    at = random.uniform(size=len(below)) * below[:, -1]
    row, cell = np.arange(len(below)), (below < at[:, None]).sum(1)
    return edges[cell + 1] - (edges[cell + 1] - edges[cell]) * (below[row, cell] - at) / chance[row, cell]


def gibbs(which, prior_mean, prior_sd, spread_x, spread_y, chains=30, draws=800, burn=400):
    """Draws of the pupils' mean and of the spread between them, a chain after another. All chains take their steps together: every
    array has a row for each."""
    (x, y, vx, vy, cxy), group, pupil = series(which)
    random = np.random.default_rng(20261126 + which)
    deviates = lambda n: random.standard_normal((chains, n))
    in_series = np.eye(group.max() + 1)[group]  # points x series
    of_pupil = np.eye(pupil.max() + 1)[[pupil[group == g][0] for g in range(group.max() + 1)]]  # series x pupils
    (points, groups), pupils = in_series.shape, of_pupil.shape[1]
    count = in_series.sum(0)
    half = prior_sd / math.sqrt(2)  # half of the variance is of the mean, half between pupils
    own_vy = vy - cxy**2 / vx  # of y's error when x's is known
    edges = np.arange(201) * 0.03
    grid = (edges[1:] + edges[:-1]) / 2
    mean, between, wide, tall = (np.full((chains, 1), v) for v in (prior_mean, half, spread_x, spread_y))
    effect, intercept = np.full((chains, pupils), prior_mean), np.tile((y - prior_mean * x) @ in_series / count, (chains, 1))
    middle = np.tile(x @ in_series / count, (chains, 1))
    total_tall = own_vy[:, None] + (grid * spread_y) ** 2
    log_tall = np.log(total_tall).sum(0) + grid**2
    kept = []
    for n in range(burn + draws):
        # True x: seen as x, and through y.
        f, e = effect[:, pupil], vy + tall**2
        det = vx * e - cxy**2
        precision = (e - 2 * f * cxy + f**2 * vx) / det + 1 / wide**2
        pull = ((e - f * cxy) * x + (f * vx - cxy) * (y - intercept[:, group])) / det + middle[:, group] / wide**2
        true = pull / precision + deviates(points) / np.sqrt(precision)
        # Mean and spread of x in a series.
        middle = true @ in_series / count + deviates(groups) * wide / np.sqrt(count)
        square = ((true - middle[:, group]) ** 2).sum(1, keepdims=True)
        scale = grid * spread_x
        wide = drawn_from(edges * spread_x, -points * np.log(scale) - square / (2 * scale**2) - grid**2 / 2, random)[:, None]
        # y, less what x's error brings: a line whose intercept and slope are summed over for the spread between pupils.
        z, weight = y - cxy / vx * (x - true), 1 / (own_vy + tall**2)
        w, sx, sz = weight @ in_series, (weight * true) @ in_series, (weight * z) @ in_series
        xx = ((weight * true**2) @ in_series - sx**2 / w) @ of_pupil
        xz = ((weight * true * z) @ in_series - sx * sz / w) @ of_pupil
        slope, known = xz / xx, 1 / xx
        total = (grid[:, None] * half) ** 2 + known[:, None]  # chains x grid x pupils
        log = -0.5 * (np.log(total) + ((slope - mean) ** 2)[:, None] / total).sum(2) - grid**2 / 2
        between = drawn_from(edges * half, log, random)[:, None]
        precision = (1 / (between**2 + known)).sum(1, keepdims=True) + 1 / half**2
        pull = (slope / (between**2 + known)).sum(1, keepdims=True) + prior_mean / half**2
        mean = pull / precision + deviates(1) / np.sqrt(precision)
        precision = xx + 1 / between**2
        effect = (xz + mean / between**2) / precision + deviates(pupils) / np.sqrt(precision)
        intercept = (sz - effect @ of_pupil.T * sx) / w + deviates(groups) / np.sqrt(w)
        off = (z - intercept[:, group] - effect[:, pupil] * true) ** 2
        tall = drawn_from(edges * spread_y, -0.5 * (log_tall + off @ (1 / total_tall)), random)[:, None]
        if n >= burn:
            kept.append(np.hstack([mean, between]))
    return np.swapaxes(kept, 0, 1).reshape(-1, 2)


def compare(name, found, draws):
    """Each number within five standard errors of the sampler (from its 30 chains) and two hundredths of a standard deviation for the grid."""
    mean, between = draws[:, 0], draws[:, 1]
    batches = lambda f: np.std([f(b) for b in np.array_split(draws, 30)], ddof=1) / math.sqrt(30)
    wanted = {"mean": (mean.mean(), batches(lambda b: b[:, 0].mean())), "sd": (mean.std(), batches(lambda b: b[:, 0].std())),
              "low": (np.quantile(mean, 0.1), batches(lambda b: np.quantile(b[:, 0], 0.1))),
              "high": (np.quantile(mean, 0.9), batches(lambda b: np.quantile(b[:, 0], 0.9))),
              "between_sd": (math.sqrt((between**2).mean()), batches(lambda b: math.sqrt((b[:, 1] ** 2).mean()))),
              "between_low": (np.quantile(between, 0.1), batches(lambda b: np.quantile(b[:, 1], 0.1))),
              "between_high": (np.quantile(between, 0.9), batches(lambda b: np.quantile(b[:, 1], 0.9)))}
    for key, (value, error) in wanted.items():
        width = mean.std() if not key.startswith("between") else between.std()
        allowed = 5 * error + 0.02 * width
        print(f"{name} {key}: {found[key]:.5f}, sampled {value:.5f} +- {error:.5f}")
        if not abs(found[key] - value) <= allowed:
            failures.append(f"{name} {key}: {found[key]:.5f} is not {value:.5f} +- {allowed:.5f}")


def ran(lines):
    """What the program says to each line, as JSON."""
    done = subprocess.run([PROGRAM], input=json.dumps([[*line, "--json"] for line in lines]), stdout=subprocess.PIPE, text=True, check=True)
    return [json.loads(one["out"]) for one in json.loads(done.stdout)]


def strike(delivery, handed):
    line = ["strike", "--handed", handed]
    for option, key, unit in (("club-speed", "club_speed_mps", "m/s"), ("attack", "attack_deg", "deg"), ("dynamic-loft", "dynamic_loft_deg", "deg"),
                              ("path", "path_deg", "deg"), ("face", "face_deg", "deg"), ("toe", "toe_mm", "mm"), ("high", "high_mm", "mm")):
        line.append(f"--{option}={delivery[key]:.9f}{unit}")
    return line


def drive_variance(session, handed):
    _, cov = means_of(session)
    steps = {"attack_deg": 0.2, "dynamic_loft_deg": 0.2, "club_speed_mps": 0.15}
    struck = ran([strike({**session["delivery"], key: session["delivery"][key] + s}, handed) for key, step in steps.items() for s in (step, -step)])
    carry = np.reshape([one["flight"]["carry_m"] for one in struck], (3, 2))
    slope = (carry[:, 0] - carry[:, 1]) / (2 * np.array(list(steps.values())))
    return slope @ cov @ slope


def reached(found):
    """The share of promises reached: one promise a pupil, held against his last session."""
    promises = []
    for _, book in books():
        first, last = book["sessions"][0], book["sessions"][-1]
        if len(book["sessions"]) > 1 and first.get("promised"):
            assert first["promised"]["goal"] == "carry" and not any("promised" in s for s in book["sessions"][1:])
            promises.append((first["promised"]["reference_gain_m"], last["reference"]["carry_m"] - first["reference"]["carry_m"],
                             drive_variance(first, book["handed"]), drive_variance(last, book["handed"])))
    share = np.linspace(-3, 5, 2001)
    step = share[1] - share[0]
    mean, between = np.linspace(-0.9, 2.9, 191), (np.arange(180) + 0.5) / 180 * 1.8
    log = -0.5 * ((mean[:, None] - 1.0) / 0.4) ** 2 - 0.5 * (between[None, :] / 0.4) ** 2
    promised, got, var_from, var_to = np.array(promises).T[:, None, :]
    variance = var_to + (1 - share[:, None]) ** 2 * var_from
    like = np.exp(-0.5 * (got - share[:, None] * promised) ** 2 / variance) / np.sqrt(variance)
    # A narrow spread falls between the points of a grid: cells, by the error function. A step of the mean is five of the share's.
    offset = share[0] + step / 2 - mean[-1] + step * np.arange(len(share) + 5 * (len(mean) - 1))
    for j, b in enumerate(between):
        below = np.lib.stride_tricks.sliding_window_view(0.5 * (1 + erf(offset / (b * math.sqrt(2)))), len(share))[::-5]
        log[:, j] += np.log(np.maximum(np.diff(below, axis=1, prepend=0.0) @ like, 1e-300)).sum(1)
    weight = np.exp(log - log.max())
    weight /= weight.sum()
    of_mean, of_between = weight.sum(1), weight.sum(0)
    m = (of_mean * mean).sum()
    wanted = {"mean": m, "sd": math.sqrt((of_mean * (mean - m) ** 2).sum()), "between_sd": math.sqrt((of_between * between**2).sum())}
    for key, value in wanted.items():
        print(f"reached {key}: {found[key]:.5f}, by dense grids {value:.5f}")
        if not abs(found[key] - value) <= 0.02 * wanted["sd"]:  # two grids, and differences of another step for the slopes
            failures.append(f"reached {key}: {found[key]:.5f} is not {value:.5f}")
    if found["pupils"] != len(promises):
        failures.append(f"{found['pupils']} pupils with promises, {len(promises)} in the books")


def erf(x):
    """Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.26 (from memory): to 1.5e-7."""
    t = 1 / (1 + 0.3275911 * np.abs(x))
    series_of_t = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
    return np.sign(x) * (1 - series_of_t * np.exp(-x * x))


def main():
    [answer] = ran([["lessons", str(FOLDER), "--quiet"]])
    # Follow: 0.85, a triangle to 0.4 either way; speed cost: 0.15 mph a degree either way (advise's ErrorWidths).
    compare("follow", answer["follow"], gibbs(1, 0.85, 0.4 / math.sqrt(6), 4.0, 0.7))
    compare("speed", answer["speed_per_attack_mps_per_deg"], gibbs(2, 0.0, 0.15 * 0.44704, 4.0, 0.5))
    reached(answer["reached_share"])
    print("\n".join(failures) or "all alike")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
