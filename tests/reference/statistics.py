"""What SciPy gives for the statistics that Reglet has of its own.

Usage: statistics.py inverse N    N years and N counts and one count, as 64-bit floats: the slope, the mean count, the year at
                                  which the line reaches the count, and the two years at which the count stands on an edge of
                                  the 95 percent band of prediction of the line (found by bisection on the band, not by
                                  Fieller's formula; NaN where there is none)
       statistics.py tau N        N and N numbers: Kendall's tau-b, by scipy.stats.kendalltau
Answers are little-endian 64-bit floats.
"""

import sys

import numpy as np
from scipy import optimize, stats


def inverse(n: int) -> list[float]:
    numbers = np.frombuffer(sys.stdin.buffer.read(), "<f8")
    years, counts, count = numbers[:n], numbers[n : 2 * n], numbers[2 * n]
    fit = stats.linregress(years, counts)
    middle = years.mean()
    left = counts - (fit.intercept + fit.slope * years)
    s = np.sqrt((left**2).sum() / (n - 2))
    sxx = ((years - middle) ** 2).sum()
    t = stats.t.ppf(0.975, n - 2)

    def off(year: float, side: float) -> float:
        line = counts.mean() + fit.slope * (year - middle)
        return line + side * t * s * np.sqrt(1 + 1 / n + (year - middle) ** 2 / sxx) - count

    year = (count - fit.intercept) / fit.slope
    edges = []
    for side in (1.0, -1.0):
        # Outwards until the edge has crossed the count: the lower bound is where the upper edge does, on a rising line.
        way = -np.sign(fit.slope) * side
        far = 1.0
        while off(year, side) * off(year + way * far, side) > 0 and far < 1e6:
            far *= 2
        found = far < 1e6
        edges.append(optimize.brentq(off, year, year + way * far, args=(side,), xtol=1e-10) if found else np.nan)
    return [fit.slope, counts.mean(), year, min(edges), max(edges)]


def tau(n: int) -> list[float]:
    numbers = np.frombuffer(sys.stdin.buffer.read(), "<f8")
    return [stats.kendalltau(numbers[:n], numbers[n:], variant="b").statistic]


if __name__ == "__main__":
    answer = {"inverse": inverse, "tau": tau}[sys.argv[1]](int(sys.argv[2]))
    sys.stdout.buffer.write(np.asarray(answer, "<f8").tobytes())
