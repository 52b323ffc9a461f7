"""Holds the library's statistics against SciPy, live. Usage: scipy_check.py PROBE. Exit 77: SciPy is not installed."""
import json
import subprocess
import sys

try:
    import numpy as np
    import scipy
    from scipy import optimize, special, stats
except ImportError:
    print("SciPy is not installed: nothing was checked")
    sys.exit(77)

random = np.random.default_rng(20261104)
questions, expected = [], []  # expected: (value, relative tolerance, absolute tolerance) by key, or one alone


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
    guess = stats.t.isf(tail, df)
    return optimize.brentq(lambda t: stats.t.sf(t, df) - tail, 0.999 * guess, 1.001 * guess, xtol=1e-300, rtol=1e-14)


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

def range_exceeded(chance, means, freedom):
    """SciPy's isf looks for this root from nowhere; it lies between Student's t and Bonferroni's."""
    low, high = (np.sqrt(2) * stats.t.isf(chance / 2 / n, freedom) for n in (1, means * (means - 1) / 2))
    return optimize.brentq(lambda q: stats.studentized_range.sf(q, means, freedom) - chance, 0.999 * low, 1.001 * high, xtol=1e-9, rtol=1e-9)


# The studentised range, by SciPy's own quadrature (good to some 1e-8) and, of the upper tail, by its root.
for _ in range(60):
    means, freedom, q = int(random.integers(2, 12)), float(random.uniform(1, 60)), random.uniform(0.5, 8.0)
    chance = float(random.choice([0.2, 0.05, 0.01]))
    ask("range", {"below": (stats.studentized_range.cdf(q, means, freedom), 0, 1e-7),
                  "exceeded": (range_exceeded(chance, means, freedom), 2e-6, 0)},
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
    k = len(samples)
    mean = np.array([s.mean() for s in samples])
    sd = np.array([s.std(ddof=1) * np.sqrt((s.size - 1) / random.chisquare(s.size - 1, draws)) for s in samples]).T
    spread = np.abs(between * stats.norm.ppf((random.permutation(draws) + 0.5) / draws))
    noise = errors * sd[:, :, None] * sd[:, None, :]
    inverse = np.linalg.inv(noise + spread[:, None, None] ** 2 * np.eye(k))
    ones = inverse.sum(axis=(1, 2))
    middle = (inverse @ mean).sum(axis=1) / ones
    off = mean - middle[:, None]
    weight = (0.5 * np.linalg.slogdet(inverse)[1] - 0.5 * np.log(ones) - 0.5 * np.einsum("di,dij,dj->d", off, inverse, off))
    # The posterior of the means, its covariance written out: that of means about a middle that is not known.
    t = spread[:, None, None] ** 2 * np.eye(k)
    cut = inverse - np.einsum("dij,dkl->dil", inverse.sum(axis=2, keepdims=True), inverse.sum(axis=1, keepdims=True)) / ones[:, None, None]
    centre = mean - np.einsum("dij,dj->di", noise @ cut, np.broadcast_to(mean, off.shape))
    covariance = noise - noise @ cut @ noise
    root = np.linalg.cholesky(covariance + 1e-12 * np.eye(k))
    truth = centre + np.einsum("dij,dj->di", root, random.standard_normal((draws, k)))
    weight = np.exp(weight - weight.max())
    return np.bincount(truth.argmax(axis=1), weight, k) / weight.sum()


for number in range(12):
    k = int(random.integers(2, 7))
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
            half = range_exceeded(1 - confidence, k, df) / np.sqrt(2) * error
            difference = samples[a].mean() - samples[b].mean()
            pairs.append([difference, error, df, difference - half, difference + half])
    share, errors = wandering(samples, order, runs)
    ask("several", {"pairs": (np.ravel(pairs), 5e-6, 1e-5), "share": exact(share, 1e-10), "errors": (np.ravel(errors), 1e-9, 1e-10),
                    "best": (best(samples, errors, between), 0, 0.012)},  # two draws of 200 000, weights unequal: six standard errors
        samples=[s.tolist() for s in samples], order=order, runs=runs, confidence=confidence, between=between)

answers = json.loads(subprocess.run([sys.argv[1]], input=json.dumps(questions), capture_output=True, text=True, check=True).stdout)
assert len(answers) == len(questions)
checked, wrong, worst = 0, 0, {}
for question, answer, wanted in zip(questions, answers, expected):
    pairs = {"": (answer, wanted)} if isinstance(wanted, tuple) else {k: (answer[k], wanted[k]) for k in wanted}
    for key, (got, (value, relative, absolute)) in pairs.items():
        for g, v in zip(np.ravel(got), np.ravel(value)):
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
