"""What SciPy and statsmodels give for the laws of how many copies are left.

Usage: survival.py poisson 0             lambda, log-likelihood, all items, the interval of the whole likelihood, Pearson's
                                         statistic and its chance (NaN where too few are left to compare)
       survival.py negative-binomial 0   r, log-likelihood, all items, the interval (inf where there is no upper bound)
       survival.py binomial EDITION      p, log-likelihood, all items
Input: pairs of copies and items, little-endian 64-bit floats. Answers likewise.
"""

import sys

import numpy as np
from scipy import optimize, special, stats
from statsmodels.discrete.truncated_model import TruncatedLFNegativeBinomialP, TruncatedLFPoisson

HALF = stats.chi2.ppf(0.95, 1) / 2


def read() -> tuple[np.ndarray, np.ndarray]:
    pairs = np.frombuffer(sys.stdin.buffer.read(), "<f8").reshape(-1, 2)
    return pairs[:, 0], pairs[:, 1]


def interval(copies: np.ndarray, items: np.ndarray, best_given) -> list[float]:
    """The profile over the number of all items; `best_given(all)` is the best log-likelihood of the counts and the zeros."""
    known = items.sum()

    def worth(unseen: float) -> float:
        everything = known + unseen
        whole = special.gammaln(everything + 1) - special.gammaln(unseen + 1)
        return whole + best_given(everything)

    tried = np.geomspace(1e-3, known * 1e4, 25)
    at = max(range(len(tried)), key=lambda i: worth(tried[i]))
    around = (np.log(tried[max(at - 1, 0)]), np.log(tried[min(at + 1, len(tried) - 1)]))
    best = np.exp(optimize.minimize_scalar(lambda u: -worth(np.exp(u)), bounds=around, method="bounded").x)
    top = worth(best)

    def off(u: float) -> float:
        return top - worth(np.exp(u)) - HALF

    low = known if off(np.log(1e-6)) < 0 else known + np.exp(optimize.brentq(off, np.log(1e-6), np.log(best)))
    far = np.log(known * 1e4)
    high = np.inf if off(far) < 0 else known + np.exp(optimize.brentq(off, np.log(best), far))
    return [low, high]


def pearson(copies: np.ndarray, items: np.ndarray, pmf) -> list[float]:
    everything = items.sum()
    by = dict(zip(copies.astype(int), items))
    observed, expected = [], []
    left, left_expected = everything, everything
    for k in range(1, int(copies.max()) + 1):
        e = everything * pmf(k)
        if e < 5 or left_expected - e < 5:
            break
        observed.append(by.get(k, 0.0))
        expected.append(e)
        left -= by.get(k, 0.0)
        left_expected -= e
    observed.append(left)
    expected.append(left_expected)
    if len(observed) < 3:
        return [np.nan, np.nan]
    told = stats.chisquare(observed, expected, ddof=1)
    return [told.statistic, told.pvalue]


def poisson() -> list[float]:
    copies, items = read()
    each = np.repeat(copies, items.astype(int))
    fit = TruncatedLFPoisson(each, np.ones(len(each))).fit(disp=0, method="newton", maxiter=200)
    rate = float(np.exp(fit.params[0]))

    def best(everything: float) -> float:
        mean = (copies * items).sum() / everything
        return (items * stats.poisson.logpmf(copies, mean)).sum() - (everything - items.sum()) * mean

    seen = -np.expm1(-rate)
    chi = pearson(copies, items, lambda k: stats.poisson.pmf(k, rate) / seen)
    return [rate, fit.llf, items.sum() / seen, *interval(copies, items, best), *chi]


def negative_binomial() -> list[float]:
    copies, items = read()
    each = np.repeat(copies, items.astype(int))

    def lost(ln: np.ndarray) -> float:
        r, mean = np.exp(ln)
        p = r / (r + mean)
        seen = -np.expm1(stats.nbinom.logpmf(0, r, p))
        return -(items * (stats.nbinom.logpmf(copies, r, p) - np.log(seen))).sum()

    starts = [np.array([np.log(r), np.log(m)]) for r, m in ((0.1, 0.3), (1.0, 1.0), (20.0, 2.0))]
    settings = {"xatol": 1e-8, "fatol": 1e-11, "maxiter": 1500, "maxfev": 1500}
    fit = min((optimize.minimize(lost, s, method="Nelder-Mead", options=settings) for s in starts), key=lambda f: f.fun)
    # The likelihood that was climbed is that of statsmodels, whose own fit loses itself where r is large.
    # Where r is next to nothing it subtracts from 1 what is nearly 1, and has no digits left.
    model = TruncatedLFNegativeBinomialP(each, np.ones(len(each)))
    theirs = model.loglike(np.array([fit.x[1], np.exp(-fit.x[0])]))
    assert fit.x[0] < -7 or abs(-fit.fun - theirs) < 1e-4 * abs(theirs), (fit.fun, theirs)
    r, mean = np.exp(fit.x)
    seen = -np.expm1(stats.nbinom.logpmf(0, r, r / (r + mean)))

    def best(everything: float) -> float:
        mean = (copies * items).sum() / everything

        def worse(ln_r: float) -> float:
            r = np.exp(ln_r)
            p = r / (r + mean)
            zeros = (everything - items.sum()) * stats.nbinom.logpmf(0, r, p)
            return -((items * stats.nbinom.logpmf(copies, r, p)).sum() + zeros)

        tried = np.linspace(-16, 12, 15)
        at = min(tried, key=worse)
        return -min(optimize.minimize_scalar(worse, bounds=(at - 2, at + 2), method="bounded").fun, worse(at))

    return [r, -fit.fun, items.sum() / seen, *interval(copies, items, best)]


def binomial(edition: int) -> list[float]:
    copies, items = read()

    def lost(p: float) -> float:
        seen = -np.expm1(stats.binom.logpmf(0, edition, p))
        return -(items * (stats.binom.logpmf(copies, edition, p) - np.log(seen))).sum()

    p = optimize.minimize_scalar(lost, bounds=(1e-9, 1 - 1e-9), method="bounded", options={"xatol": 1e-13}).x
    return [p, -lost(p), items.sum() / -np.expm1(stats.binom.logpmf(0, edition, p))]


if __name__ == "__main__":
    what, edition = sys.argv[1], int(sys.argv[2])
    answer = {"poisson": poisson, "negative-binomial": negative_binomial}.get(what, lambda: binomial(edition))()
    sys.stdout.buffer.write(np.asarray(answer, "<f8").tobytes())
