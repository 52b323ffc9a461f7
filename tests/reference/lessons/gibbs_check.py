"""Holds what `lessons` pools against a sampler that shares nothing with it but the model on docs/lessons.md.

    gibbs_check.py PROGRAM SOURCE_DIR

The program integrates true attacks, intercepts and the pupils' own effects out and sums over a grid. Here they are all drawn, by
Gibbs sampling (Geman & Geman, IEEE PAMI 6 (1984) 721) with the spread between pupils drawn while their effects are summed over;
the reached share is integrated on dense grids, the drives' slopes asked of `strike` one by one. Exit 77: NumPy is not installed.
"""
import json
import math
import pathlib
import subprocess
import sys

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


def drawn_from(grid, log_density, random):
    """`grid`: the middles of cells, the first of which begins at zero; even within a cell."""
    below = np.concatenate(([0.0], np.cumsum(np.exp(log_density - log_density.max()))))
    edges = np.concatenate(([0.0], grid + (grid[1] - grid[0]) / 2))
    return np.interp(random.uniform() * below[-1], below, edges)


def gibbs(which, prior_mean, prior_sd, spread_x, spread_y, draws=24000, burn=2000):
    """Draws of the pupils' mean and of the spread between them."""
    (x, y, vx, vy, cxy), group, pupil = series(which)
    random = np.random.default_rng(20261126 + which)
    groups, pupils = group.max() + 1, pupil.max() + 1
    pupil_of_group = np.array([pupil[group == g][0] for g in range(groups)])
    count = np.bincount(group)
    by_group = lambda v: np.bincount(group, v, groups)
    half = prior_sd / math.sqrt(2)  # half of the variance is of the mean, half between pupils
    own_vy = vy - cxy**2 / vx  # of y's error when x's is known
    grid = (np.arange(200) + 0.5) * 0.03
    mean, between, wide, tall = prior_mean, half, spread_x, spread_y
    effect, intercept = np.full(pupils, prior_mean), by_group(y - prior_mean * x) / count
    middle, true = by_group(x) / count, x.copy()
    kept = []
    for n in range(burn + draws):
        # True x: seen as x, and through y.
        f, e = effect[pupil], vy + tall**2
        det = vx * e - cxy**2
        precision = (e - 2 * f * cxy + f**2 * vx) / det + 1 / wide**2
        pull = ((e - f * cxy) * x + (f * vx - cxy) * (y - intercept[group])) / det + middle[group] / wide**2
        true = pull / precision + random.standard_normal(x.size) / np.sqrt(precision)
        # Mean and spread of x in a series.
        middle = by_group(true) / count + random.standard_normal(groups) * wide / np.sqrt(count)
        square = ((true - middle[group]) ** 2).sum()
        scale = grid * spread_x
        wide = drawn_from(scale, -x.size * np.log(scale) - square / (2 * scale**2) - (scale / spread_x) ** 2 / 2, random)
        # y, less what x's error brings: a line whose intercept and slope are summed over for the spread between pupils.
        z, weight = y - cxy / vx * (x - true), 1 / (own_vy + tall**2)
        w, sx, sz = by_group(weight), by_group(weight * true), by_group(weight * z)
        xx = np.bincount(pupil_of_group, by_group(weight * true**2) - sx**2 / w, pupils)
        xz = np.bincount(pupil_of_group, by_group(weight * true * z) - sx * sz / w, pupils)
        slope, known = xz / xx, 1 / xx
        scale = (grid * half)[:, None]
        total = scale**2 + known
        log = -0.5 * (np.log(total) + (slope - mean) ** 2 / total).sum(1) - grid**2 / 2
        between = drawn_from(grid * half, log, random)
        precision = (1 / (between**2 + known)).sum() + 1 / half**2
        mean = ((slope / (between**2 + known)).sum() + prior_mean / half**2) / precision + random.standard_normal() / math.sqrt(precision)
        precision = xx + 1 / between**2
        effect = (xz + mean / between**2) / precision + random.standard_normal(pupils) / np.sqrt(precision)
        intercept = (sz - effect[pupil_of_group] * sx) / w + random.standard_normal(groups) / np.sqrt(w)
        off = (z - intercept[group] - effect[pupil] * true) ** 2
        total = own_vy + (grid[:, None] * spread_y) ** 2
        tall = drawn_from(grid * spread_y, -0.5 * (np.log(total) + off / total).sum(1) - grid**2 / 2, random)
        if n >= burn:
            kept.append((mean, between))
    return np.array(kept)


def compare(name, found, draws):
    """Each number within five standard errors of the sampler (batch means) and two hundredths of a standard deviation for the grid."""
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


def carry(delivery, handed):
    line = [PROGRAM, "strike", "--json", "--handed", handed]
    for option, key, unit in (("club-speed", "club_speed_mps", "m/s"), ("attack", "attack_deg", "deg"), ("dynamic-loft", "dynamic_loft_deg", "deg"),
                              ("path", "path_deg", "deg"), ("face", "face_deg", "deg"), ("toe", "toe_mm", "mm"), ("high", "high_mm", "mm")):
        line.append(f"--{option}={delivery[key]:.9f}{unit}")
    return json.loads(subprocess.run(line, capture_output=True, text=True, check=True).stdout)["flight"]["carry_m"]


def drive_variance(session, handed):
    _, cov = means_of(session)
    slope = []
    for key, step in (("attack_deg", 0.2), ("dynamic_loft_deg", 0.2), ("club_speed_mps", 0.15)):
        up, down = ({**session["delivery"], key: session["delivery"][key] + s} for s in (step, -step))
        slope.append((carry(up, handed) - carry(down, handed)) / (2 * step))
    return np.array(slope) @ cov @ np.array(slope)


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
    for j, b in enumerate(between):  # a narrow spread falls between the points of a grid: cells, by the error function
        below = 0.5 * (1 + erf((share[None, :] + step / 2 - mean[:, None]) / (b * math.sqrt(2))))
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
    done = subprocess.run([PROGRAM, "lessons", str(FOLDER), "--json", "--quiet"], capture_output=True, text=True, check=True)
    answer = json.loads(done.stdout)
    # Follow: 0.85, a triangle to 0.4 either way; speed cost: 0.15 mph a degree either way (advise's ErrorWidths).
    compare("follow", answer["follow"], gibbs(1, 0.85, 0.4 / math.sqrt(6), 4.0, 0.7))
    compare("speed", answer["speed_per_attack_mps_per_deg"], gibbs(2, 0.0, 0.15 * 0.44704, 4.0, 0.5))
    reached(answer["reached_share"])
    print("\n".join(failures) or "all alike")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
