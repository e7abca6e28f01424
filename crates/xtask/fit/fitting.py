"""Logistic regressions on broken lines, fitted to what was weighed and written as tables of the program.

How well a fit does is told by cross-validation: six times over, five parts of the pairs tell of the sixth.
"""

import json
import warnings

import numpy as np
from sklearn.linear_model import LogisticRegression

# The penalty on the sum of the coefficients (scikit-learn's C), chosen among 0.03, 0.1, 0.3 and 1 by the same
# cross-validation.
C = 0.3
FOLDS = 6
# What lies on a change counts as seen if it has this share of what most of it lies on: the rest are scraps of it.
SCRAP = 0.5
# A page is clean if nine in ten of its words have less ink in one only than e to this power, square x-heights: about a
# full point and a half.
CLEAN = -2.5


class Weighed:
    """What was weighed: the terms of each, a row each, whether it is one of a change, and its score.

    `knees` are those of the broken line by which each sign enters, `classes` the changes that are looked for.
    """

    def __init__(self, told, knees, classes):
        self.told = told
        self.terms = [(sign, knee) for sign, knees in knees.items() for knee in [None, *knees]]
        signs = {sign: np.array([t["signs"][sign] for t in self.told], dtype=float) for sign in knees}
        x = [signs[s] if k is None else np.maximum(signs[s] - k, 0) for s, k in self.terms]
        x = np.array(x).T
        self.mean, self.spread = x.mean(0), x.std(0) + 1e-9
        self.x = (x - self.mean) / self.spread
        self.y = labels(self.told, classes)
        self.score = np.zeros(len(self.told))

    def cross_validate(self, fold_of):
        fold = np.array([fold_of[t["pair"]] for t in self.told])
        for k in range(FOLDS):
            train, rest = (fold != k) & (self.y >= 0), fold == k
            self.score[rest] = regression(self.x[train], self.y[train]).decision_function(self.x[rest])

    def fit(self):
        """The constant and the weights of the terms; and the counts."""
        train = self.y >= 0
        fit = regression(self.x[train], self.y[train])
        weights = fit.coef_[0] / self.spread
        constant = fit.intercept_[0] - (weights * self.mean).sum()
        kept = [(t, w) for t, w in zip(self.terms, weights) if abs(w) >= 0.0005]
        return constant, kept, (train.sum(), (self.y == 1).sum())


def labels(told, classes):
    """1 for what lies on a change of these classes, 0 where nothing was done, -1 where it cannot be said."""
    heaviest = {}
    for p in told:
        if p["own"]:
            key = p["pair"], p["change"]
            heaviest[key] = max(heaviest.get(key, 0), p["mass"])

    def label(p):
        if p["change"] is None:
            return 0
        is_seen = p["own"] and p["judgeable"] and p["class"] in classes
        return 1 if is_seen and p["mass"] >= SCRAP * heaviest[p["pair"], p["change"]] else -1

    return np.array([label(p) for p in told])


def regression(x, y):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return LogisticRegression(penalty="l1", C=C, solver="liblinear", tol=1e-3).fit(x, y)


def groups(told, kinds):
    """Of each that was weighed its kind by `kinds`, and whether its page is clean: on a clean page less is false."""
    clean = np.array([t["signs"]["noise"] < CLEAN for t in told])
    return {(kind, c): mask & (clean == (c == 0)) for kind, mask in kinds.items() for c in (0, 1)}


def evens(told, score, y, kinds, false_in_all):
    """For each group the score at which a change is as likely as not, so that most changes are found and so many are
    false in all."""
    false = np.array([t["change"] is None for t in told])
    best, chosen = np.zeros(false_in_all + 1), [{} for _ in range(false_in_all + 1)]
    for group, mask in groups(told, kinds).items():
        wrong = np.sort(score[mask & false])[::-1]
        changes = {}
        for i in np.where(mask & (y == 1))[0]:
            key = told[i]["pair"], told[i]["change"]
            changes[key] = max(changes.get(key, -np.inf), score[i])
        right = np.array(list(changes.values()))
        at = [wrong[min(f, len(wrong) - 1)] if len(wrong) else 0.0 for f in range(false_in_all + 1)]
        n = np.array([(right > a).sum() for a in at])
        shares = [max(range(f + 1), key=lambda k: (n[k] + best[f - k], -k)) for f in range(false_in_all + 1)]
        chosen = [{**chosen[f - k], group: at[k]} for f, k in enumerate(shares)]
        best = np.array([n[k] + best[f - k] for f, k in enumerate(shares)])
    return chosen[false_in_all]


def found(told, score, classes, kinds, even):
    """How many changes are said, of how many that were weighed, and how many false ones."""
    above = score.copy()
    for group, mask in groups(told, kinds).items():
        above[mask] -= even[group]
    best, false = {}, 0
    for t, s in zip(told, above):
        if t["change"] is None:
            false += s > 0
        elif t["judgeable"] and t["class"] in classes:
            key = t["pair"], t["change"]
            best[key] = max(best.get(key, -np.inf), s)
    return sum(b > 0 for b in best.values()), len(best), false


def write(folder, name, fit, what, signs, sides, even):
    """Writes a fit as a table of the program: `what` was fitted, by signs of the type `signs` from the path `use`.

    `even` names constants, and gives for each the log odds at which a change is as likely as not: on a clean page, and
    on others.
    """
    use, signs = signs
    constant, kept, (count, changed) = fit
    lines = [
        f"//! Fitted by `cargo xtask bench fit changes` to {count} {what} of {sides} simulated pairs of one setting, of which "
        f"{changed} were changed.",
        "//! Not to be edited by hand.",
        "",
        "use super::regression::{Regression, knee, line};",
        f"use crate::changes::{use}::{signs};",
        "",
    ]
    lines += [f"pub(super) const {key}: [f64; 2] = [{v[0]:.3f}, {v[1]:.3f}];" for key, v in even.items()]
    lines += [
        "",
        f"pub(super) const {name.upper()}: Regression<{signs}> = Regression {{",
        f"    constant: {constant:.3f},",
        "    terms: &[",
    ]
    for (sign, k), w in kept:
        call = f"line(|s| s.{sign}, " if k is None else f"knee(|s| s.{sign}, {float(k)}, "
        lines.append(f"        {call}{w:.3f}),")
    lines += ["    ],", "};", ""]
    with open(f"{folder}/{name}.rs", "w", encoding="utf-8") as out:
        out.write("\n".join(lines))


def read(folder, what):
    """The pairs of one setting as numbers, the part of the cross-validation that each is in, and what was weighed."""
    one_setting = {"same-setting", "same-setting-with-differences"}
    with open(f"{folder}/pairs.json", encoding="utf-8") as pairs:
        numbers = [p["number"] for p in json.load(pairs) if p["verdict"] in one_setting]
    fold_of = {n: i % FOLDS for i, n in enumerate(np.random.default_rng(1).permutation(numbers))}
    with open(f"{folder}/{what}.jsonl", encoding="utf-8") as lines:
        return numbers, fold_of, [json.loads(line) for line in lines]


def report(told, score, y, classes, kinds, sides, wanted):
    """Prints how many changes the program finds as it is, and how many by the scores of the fit; gives the evens at
    the first of the wanted shares of false ones."""
    was = np.array([t["score"] for t in told])
    for name, s in (("the program as it is", was), ("the fit, cross-validated", score)):
        of_wanted = [evens(told, s, y, kinds, round(sides / w)) for w in wanted]
        for w, even in zip(wanted, of_wanted):
            n, of, false = found(told, s, classes, kinds, even)
            print(f"{name}: {n} of {of} changes, {false} false on {sides} sides, one on {w} wanted")
    return of_wanted[0]
