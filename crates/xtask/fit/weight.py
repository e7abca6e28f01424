"""Fits the weight of the evidence to what the lines of each pair say, and writes its constants as a part of the program.

    weight.py SET [FOLDER]

The folder SET holds weight.jsonl of its pairs of one setting and of two line for line (cargo xtask bench fit weight
writes it). With FOLDER the fit on all of them is written there. Its cost is told by cross-validation (Brummer & du Preez,
Computer Speech and Language 20 (2006), 230-275).
"""

import json
import sys

import numpy as np
from sklearn.linear_model import LogisticRegression

FOLDS = 5
# Lines that tell, from which a weight is given whole. Where fewer could be judged of a page, what they say may be bad
# paper's doing, and no pair that is fitted to had so few: each counts for its part.
TELLING_LINES = 5.0
# Manners in which a page may have been set again, as in the program (evidence::standing): steps of care, and how likely
# each step of unevenness of the sorts is.
STEPS_OF_CARE, CAST_SHARES = 9, (0.01, 0.27, 0.45, 0.27)
MANNER_SHARES = np.tile(CAST_SHARES, STEPS_OF_CARE) / STEPS_OF_CARE
# Share of lines that look set again in one setting (corrected, or spoilt by the paper), and that look as if they stood
# where all were set again: no line says more than they are rare. The cost hardly hangs on them: 0.016 to 0.017 for 0.01
# to 0.1 by 0.003 to 0.03, unpenalised.
LIKE_SET_AGAIN, LIKE_STANDING = 0.03, 0.01
# The penalty (scikit-learn's C). The two kinds can all but be parted, and without one the weight would grow faster than the
# likelihoods themselves do; with this one it grows as fast as they where the kinds part. The cost hardly hangs on it:
# 0.023 to 0.027 for 1 to 30.
C = 3


def raw_sums(lines):
    """What the lines of each pair say together, as in the program (evidence::setting::weight)."""

    def together(of_lines):
        ratio = 10 ** np.clip(of_lines, -30, 30)
        in_one = (1 - LIKE_SET_AGAIN) * ratio + LIKE_SET_AGAIN
        in_two = LIKE_STANDING * ratio + 1 - LIKE_STANDING
        sums = np.log10(in_one / in_two).sum(0)
        return sums.min() - np.log10(MANNER_SHARES @ 10 ** (sums.min() - sums))

    return np.array([together(t) for t in lines])


def fitted(raw, one_setting):
    """Slope and offset of the logarithm (to 10) of the odds over asinh of the raw sum, both kinds counted alike."""
    fit = LogisticRegression(C=C, class_weight="balanced").fit(np.arcsinh(raw)[:, None], one_setting)
    return fit.coef_[0][0] / np.log(10), fit.intercept_[0] / np.log(10)


def weights(raw, lines, slope, offset, rarer):
    largest = np.log10(rarer + 1)
    return np.clip(slope * np.arcsinh(raw) + offset, -largest, largest) * np.minimum(lines / TELLING_LINES, 1)


def cost(weight, one_setting):
    """The log-likelihood-ratio cost, in bits."""
    of_one, of_two = weight[one_setting], weight[~one_setting]
    return 0.5 * (np.log2(1 + 10**-of_one).mean() + np.log2(1 + 10**of_two).mean())


def main():
    with open(f"{sys.argv[1]}/weight.jsonl", encoding="utf-8") as lines:
        told = [json.loads(line) for line in lines]
    lines = [np.array(t["lines"]).reshape(-1, len(MANNER_SHARES)) for t in told]
    judged = np.array([t["judged_lines"] for t in told], dtype=float)
    one = np.array([t["one_setting"] for t in told])
    rarer = int(min(one.sum(), (~one).sum()))
    whole = judged >= TELLING_LINES
    fold = np.random.default_rng(1).permutation(len(told)) % FOLDS
    by_others = np.zeros(len(told))
    raw = raw_sums(lines)
    for k in range(FOLDS):
        slope, offset = fitted(raw[whole & (fold != k)], one[whole & (fold != k)])
        by_others[fold == k] = weights(raw, judged, slope, offset, rarer)[fold == k]
    print(f"cost {cost(by_others, one):.4f}, cross-validated; {one.sum()} of one setting, {(~one).sum()} of two")
    slope, offset = fitted(raw[whole], one[whole])
    print(f"slope {slope:.3f}, offset {offset:.3f}")
    if len(sys.argv) < 3:
        return
    with open(f"{sys.argv[2]}/calibration.rs", "w", encoding="utf-8") as out:
        out.write(
            f"""//! Fitted by `cargo xtask bench fit weight`. Not to be edited by hand.

/// Weight (log10) = `SLOPE` * asinh(raw sum of the lines) + `OFFSET`.
pub(super) const SLOPE: f64 = {slope:.3f};
pub(super) const OFFSET: f64 = {offset:.3f};
/// Share of lines that look set again in one setting, and that look as if they stood where all were.
pub(super) const LIKE_SET_AGAIN: f64 = {LIKE_SET_AGAIN};
pub(super) const LIKE_STANDING: f64 = {LIKE_STANDING};
/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.
pub(super) const PAIRS: usize = {len(told)};
pub(super) const OF_THE_RARER_KIND: usize = {rarer};
/// Lines that tell, from which a weight is given whole; it was fitted to pairs that have so many.
pub(super) const TELLING_LINES: f64 = {TELLING_LINES};
"""
        )


main()
