"""Holds the library's statistics against SciPy, live. Usage: scipy_check.py PROBE. Exit 77: SciPy is not installed."""
import functools
import json
import os
import subprocess
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # matrices of a few rows: a second thread only waits
try:
    import numpy as np
    import scipy
    from scipy import optimize, special, stats
except ImportError:
    print("SciPy is not installed: nothing was checked")
    sys.exit(77)

random = np.random.default_rng(20261104)
questions, expected = [], []  # expected by key, or one alone: (value, relative tolerance, absolute tolerance, what of the answer is held, if not all)


def ask(what, wanted, **question):
    questions.append({"what": what, **question})
    expected.append(wanted)


def exact(value, absolute=1e-12):
    """Two implementations in double precision: rounding only."""
    return value, 1e-12, absolute


def two_samples():
    n = random.integers(2, 40, 2)
    scale = 10.0 ** random.uniform(-3, 3)
    before = scale * (random.uniform(-3, 3) + random.uniform(0.1, 2) * random.standard_normal(n[0]))
    after = scale * (random.uniform(-3, 3) + random.uniform(0.1, 2) * random.standard_normal(n[1]))
    return before, after, scale


def satterthwaite(before, after):
    v = [before.var(ddof=1) / before.size, after.var(ddof=1) / after.size]
    return sum(v) ** 2 / (v[0] ** 2 / (before.size - 1) + v[1] ** 2 / (after.size - 1)), np.sqrt(sum(v))


def t_quantile(tail, df):
    """Where the upper tail is `tail`. SciPy's own stdtrit stops at about 1e-8 here, its tail is exact to rounding: solve that."""
    guess = -special.stdtrit(df, tail)
    return optimize.brentq(lambda t: special.stdtr(df, -t) - tail, 0.999 * guess, 1.001 * guess, xtol=1e-300, rtol=1e-14)


for _ in range(100):
    before, after, scale = two_samples()
    share, confidence = random.uniform(), random.choice([0.5, 0.8, 0.95, 0.99])
    samples = {"before": before.tolist(), "after": after.tolist()}
    tiny = 1e-13 * scale
    ask("summary", {"mean": exact(np.mean(before), tiny), "sd": exact(np.std(before, ddof=1), tiny),
                    "standard_error": exact(stats.sem(before), tiny), "median": exact(np.median(before), tiny),
                    "robust_sd": exact(stats.median_abs_deviation(before, scale="normal"), tiny),
                    "quantile": exact(np.quantile(before, share), tiny)}, share=share, **samples)

    n = min(before.size, after.size)
    x, y = before[:n], after[:n]
    ask("together", {"covariance": exact(np.cov(x, y)[0, 1], tiny * scale), "correlation": exact(np.corrcoef(x, y)[0, 1])},
        before=x.tolist(), after=y.tolist())

    if n > 2:
        line = stats.linregress(x, y)
        half = t_quantile(0.5 - confidence / 2, n - 2) * line.stderr
        steep = 1e-13 * np.std(y) / np.std(x)
        ask("trend", {"slope": exact(line.slope, steep), "intercept": exact(line.intercept, tiny),
                      "standard_error": exact(line.stderr, steep), "low": exact(line.slope - half, steep),
                      "high": exact(line.slope + half, steep)},
            before=x.tolist(), after=y.tolist(), confidence=confidence)

    test = stats.ttest_ind(after, before, equal_var=False)
    df, error = satterthwaite(before, after)
    difference = after.mean() - before.mean()
    half = t_quantile(0.5 - confidence / 2, df) * error
    ask("welch", {"difference": exact(difference, tiny), "standard_error": exact(error, tiny), "df": exact(df),
                  "t": exact(test.statistic), "p": exact(test.pvalue), "low": exact(difference - half, tiny),
                  "high": exact(difference + half, tiny)}, confidence=confidence, **samples)

    freedom = before.size + after.size - 2
    pooled = np.sqrt(((before.size - 1) * before.var(ddof=1) + (after.size - 1) * after.var(ddof=1)) / freedom)
    correction = np.exp(special.gammaln(freedom / 2) - special.gammaln((freedom - 1) / 2)) / np.sqrt(freedom / 2)
    ask("hedges", exact(correction * difference / pooled), **samples)

    # Power from SciPy's noncentral t, a separate series.
    truth = error * random.uniform(0, 6)
    critical = t_quantile(0.5 - confidence / 2, df)
    power = stats.nct.sf(critical, df, truth / error) + stats.nct.cdf(-critical, df, truth / error)
    ask("power", exact(power), difference=truth, confidence=confidence, **samples)

for n in (1, 2, 7, 30):
    p = random.uniform(size=n) ** 3
    order = np.argsort(p)
    adjusted = np.empty(n)
    adjusted[order] = np.minimum(1, np.maximum.accumulate(p[order] * np.arange(n, 0, -1)))
    ask("holm", exact(adjusted.tolist()), p=p.tolist())

for n, m in ((2, 2), (3, 9), (12, 5), (12, 40), (1000, 1000)):
    confidence = random.choice([0.5, 0.8, 0.95, 0.99])
    quantile, least = t_quantile(0.5 - confidence / 2, n + m - 2), min(n, m)
    ask("tail", exact(stats.norm.cdf(-quantile * np.sqrt(least / (least - 1)))), confidence=confidence, counts=[n, m])

# Resamples differ, so ends agree to the noise of 100 000 of them: the standard error of a 2.5 % quantile is
# sqrt(q (1-q) / N) / density = 0.0085 standard errors of the difference each; 5 of the two together are 0.06.
for _ in range(8):
    n = random.integers(8, 40, 2)
    before, after = random.exponential(1.0, n[0]), 2.0 * random.exponential(1.0, n[1])
    _, error = satterthwaite(before, after)
    wanted = {}
    for method, keys in (("BCa", ("low", "high")), ("percentile", ("percentile_low", "percentile_high"))):
        interval = stats.bootstrap((before, after), lambda x, y, axis: y.mean(axis=axis) - x.mean(axis=axis), n_resamples=100000,
                                   batch=5000, vectorized=True, method=method, random_state=random).confidence_interval
        wanted.update(zip(keys, ((end, 0, 0.06 * error) for end in interval)))
    ask("bootstrap", wanted, before=before.tolist(), after=after.tolist(), resamples=100000, seed=9)


def beyond(q, means, freedom):
    """Held to be the chance that q was asked for with, which spares looking for SciPy's q. A chance to 1e-7 is a q to 1.1e-7: by a
    share of q it changes 0.94 times as much for two means, one degree of freedom and a chance of 0.2, and more in thinner tails."""
    return stats.studentized_range.sf(q, means, freedom)


# The studentised range, by SciPy's own quadrature (good to some 1e-8).
for _ in range(60):
    means, freedom, q = int(random.integers(2, 12)), float(random.uniform(1, 60)), random.uniform(0.5, 8.0)
    chance = float(random.choice([0.2, 0.05, 0.01]))
    ask("range", {"below": (stats.studentized_range.cdf(q, means, freedom), 0, 1e-7),
                  "exceeded": (chance, 1e-7, 0, functools.partial(beyond, means=means, freedom=freedom))},
        q=q, means=means, freedom=freedom, chance=chance)

# Games and Howell's intervals, and with equal counts beside equal scatter SciPy's Tukey test as a limit; wandering with
# whole matrices where the library goes through a filter; probabilities to be the best by importance sampling over a
# grid of the spread between, where the library draws it.
SHARES, MEMORIES = (0.15, 0.3, 0.5, 0.7), (0.5, 0.7, 0.85, 0.95)


def wandering(samples, order, runs):
    k, n = len(samples), len(order)
    place = {i: iter(s) for i, s in enumerate(samples)}
    y = np.array([(next(place[i]) - samples[i].mean()) / samples[i].std(ddof=1) for i in order])
    x = np.eye(k)[order]
    run = np.array([runs[i] for i in order])
    apart = np.abs(np.subtract.outer(np.arange(n), np.arange(n)))
    weights, errors, shares = [], [], []
    for share, memory, odds in [(0.0, 0.5, 0.5)] + [(s, m, 0.5 / 16) for s in SHARES for m in MEMORIES]:
        v = (1 - share) * np.eye(n) + share * memory ** apart * (run[:, None] == run[None, :])
        inverse = np.linalg.inv(v)
        information = x.T @ inverse @ x
        residual = y - x @ np.linalg.solve(information, x.T @ inverse @ y)
        weights.append(np.log(odds) - 0.5 * np.linalg.slogdet(v)[1] - 0.5 * np.linalg.slogdet(information)[1]
                       - 0.5 * (n - k) * np.log(residual @ inverse @ residual))
        average = x / x.sum(axis=0)
        of_means, count = average.T @ v @ average, x.sum(axis=0)
        shown = np.sqrt(count * (1 - np.diag(of_means)) / (count - 1))
        errors.append(of_means / np.outer(shown, shown))
        shares.append(share)
    weights = np.exp(np.array(weights) - max(weights))
    weights /= weights.sum()
    return weights @ shares, np.tensordot(weights, errors, 1)


def best(samples, errors, between, draws=200_000):
    """Given spreads and the middle of the true means, these are drawn as Matheron does it (Journel & Huijbregts, Mining Geostatistics
    (1978), VII.A; from memory): a draw before the data, and what the data, less those it would show, add to it."""
    k = len(samples)
    mean = np.array([[s.mean()] for s in samples])
    sd = np.array([s.std(ddof=1) * np.sqrt((s.size - 1) / random.chisquare(s.size - 1, draws)) for s in samples])
    spread = np.abs(between * stats.norm.ppf((random.permutation(draws) + 0.5) / draws))
    apart = spread * random.standard_normal((k, draws))
    noise = sd * (np.linalg.cholesky(errors) @ random.standard_normal((k, draws)))
    # The covariance of what is seen and three right sides, for all draws at once by Gauss's elimination.
    rows = np.empty((k, k + 3, draws))
    rows[:, :k] = errors[:, :, None] * sd[:, None] * sd
    rows[range(k), range(k)] += spread**2
    rows[:, k], rows[:, k + 1], rows[:, k + 2] = 1.0, mean, apart + noise
    for i in range(k):
        for j in range(i + 1, k):
            rows[j, i + 1:] -= rows[j, i] / rows[i, i] * rows[i, i + 1:]
    determinant = rows[range(k), range(k)].prod(axis=0)
    for i in reversed(range(k)):
        rows[i, k:] /= rows[i, i]
        for j in range(i):
            rows[j, k:] -= rows[j, i] * rows[i, k:]
    one, seen, drawn = rows[:, k], rows[:, k + 1], rows[:, k + 2]
    ones = one.sum(axis=0)
    middle = seen.sum(axis=0) / ones
    weight = -0.5 * (np.log(determinant * ones) + ((mean - middle) * seen).sum(axis=0))
    centre = middle + random.standard_normal(draws) / np.sqrt(ones)
    truth = centre + apart + spread**2 * (seen - centre * one - drawn)
    weight = np.exp(weight - weight.max())
    return np.bincount(truth.argmax(axis=0), weight, k) / weight.sum()


def opened(pairs, k):
    """Intervals as their middles and the chances they leave outside; the rest as it is."""
    return [[difference, error, df, (low + high) / 2, beyond((high - low) / np.sqrt(2) / error, k, df)] for difference, error, df, low, high in pairs]


for number in range(14):
    k = 2 + number % 5
    counts = random.integers(3, 18, k)
    samples = [200 + 4 * random.standard_normal() + random.uniform(5, 15) * random.standard_normal(n) for n in counts]
    turns = number % 2 == 0
    order = [i for _, i in sorted((random.uniform(), i) for i in range(k) for _ in range(counts[i]))] if turns else \
        [i for i in range(k) for _ in range(counts[i])]
    runs = [0] * k if number % 3 else list(range(k)) if not turns else [0] * k
    confidence, between = float(random.choice([0.9, 0.95])), 4.0
    pairs = []
    for i in range(k):
        for j in range(i + 1, k):
            a, b = (i, j) if samples[i].mean() >= samples[j].mean() else (j, i)
            df, error = satterthwaite(samples[b], samples[a])
            difference = samples[a].mean() - samples[b].mean()
            pairs.append([difference, error, df, difference, 1 - confidence])
    share, errors = wandering(samples, order, runs)
    ask("several", {"pairs": (pairs, 1e-7, 1e-10, functools.partial(opened, k=k)), "share": exact(share, 1e-10), "errors": (errors, 1e-9, 1e-10),
                    "best": (best(samples, errors, between), 0, 0.012)},  # two draws of 200 000, weights unequal: six standard errors
        samples=[s.tolist() for s in samples], order=order, runs=runs, confidence=confidence, between=between)

answers = json.loads(subprocess.run([sys.argv[1]], input=json.dumps(questions), capture_output=True, text=True, check=True).stdout)
assert len(answers) == len(questions)
checked, wrong, worst = 0, 0, {}
for question, answer, wanted in zip(questions, answers, expected):
    pairs = {"": (answer, wanted)} if isinstance(wanted, tuple) else {k: (answer[k], wanted[k]) for k in wanted}
    for key, (got, (value, relative, absolute, *held)) in pairs.items():
        for g, v in zip(np.ravel(held[0](got) if held else got), np.ravel(value), strict=True):
            allowed = relative * abs(v) + absolute
            checked += 1
            name = f"{question['what']} {key}"
            worst[name] = max(worst.get(name, 0.0), abs(g - v) / allowed)
            if not abs(g - v) <= allowed:
                wrong += 1
                print(f"{name}: {g!r}, SciPy {v!r}, allowed difference {allowed:.3g}; question {json.dumps(question)[:400]}")
for name, share in worst.items():
    print(f"{name}: largest difference {share:.2g} of what is allowed")
print(f"{checked} numbers held against SciPy {scipy.__version__}, {wrong} wrong")
sys.exit(1 if wrong or checked < 1500 else 0)
