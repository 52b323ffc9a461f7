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

answers = json.loads(subprocess.run([sys.argv[1]], input=json.dumps(questions), capture_output=True, text=True, check=True).stdout)
assert len(answers) == len(questions)
checked, wrong, worst = 0, 0, {}
for question, answer, wanted in zip(questions, answers, expected):
    pairs = {"": (answer, wanted)} if isinstance(wanted, tuple) else {k: (answer[k], wanted[k]) for k in wanted}
    for key, (got, (value, relative, absolute)) in pairs.items():
        for g, v in zip(np.atleast_1d(got), np.atleast_1d(value)):
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
