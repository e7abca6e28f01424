"""Fits the two regressions that weigh places which differ, and writes them as tables of the program.

    places.py SET [FOLDER]

The folder SET holds pairs.json, and places.jsonl of its pairs of one setting (cargo xtask bench fit writes it). How well a fit does is told by cross-validation: six times over, five parts of the pairs tell of the
sixth. With FOLDER the fit on all of them is written there.
"""

import json
import sys
import warnings

import numpy as np
from sklearn.linear_model import LogisticRegression

# What is done to single sorts; whole lines and words that moved are told otherwise.
SORTS = {"letter changed", "letter turned", "word changed", "point added", "point removed", "sort lost", "sort shifted"}
# Knees of the broken line by which a sign enters.
KNEES = {
    "greater": [-3.5, -2.5, -1.5],
    "lesser": [-4, -3],
    "noise": [],
    "quiet": [],
    "above_noise": [1.5],
    "whole": [0.3, 0.6, 0.85, 0.95],
    "tone": [0.6, 0.7, 0.8],
    "beside": [0.05],
    "alike": [0.3, 0.6],
    "about": [0, 0.1],
    "about_other": [0, 0.1],
    "ink_about": [1],
    "over_and_under": [0, 0.1],
    "height": [-0.7, 0],
    "breadth": [-0.7, 0],
    "likeness": [-0.2, 0],
    "least_part": [-0.5, -0.2],
    "own_letter": [-3.4, -1.5],
    "own_letters": [1],
    "rather_there": [-0.5, 0, 0.5, 1],
    "rather_here": [-0.5, 0, 0.5, 1],
    "rather_there_by_own_box": [-0.5, 0, 0.5, 1],
    "rather_here_by_own_box": [-0.5, 0, 0.5, 1],
    "other_there": [1, 2],
    "other_here": [1, 2],
    "cross": [-2, -1],
    "turned": [1, 2],
    "turned_kin": [1, 2],
    "letter_greater": [0.2, 0.4],
    "letter_lesser": [0.1, 0.2],
    "gain": [0.1],
    "aside": [0.1],
    "up_or_down": [0.1],
    "usual_letter": [],
    "next_letter": [-1.5],
    "next_letters": [-1.5],
    "neighbours": [],
    "like": [0.7, 0.9],
    "no_sign": [],
    "part_sign": [],
    "fill": [0.3, 0.5, 0.7],
    "foot": [-0.5, 0, 0.2],
    "top": [0.3, 0.9, 1.2],
    "gap": [0.1, 0.3],
    "in_line": [2, 4, 6],
    "in_line_above": [1, 3],
    "in_line_usual": [2, 3, 5],
    "crease": [0.7, 1.5, 3],
    "fold": [0.7, 1.5, 3],
    "pixels": [3],
}
# The penalty on the sum of the coefficients (scikit-learn's C), chosen among 0.03, 0.1, 0.3 and 1 by the same
# cross-validation.
C = 0.3
FOLDS = 6
# A place of a page without differences is said to be one on so many sides.
SIDES_TO_A_FALSE_PLACE = 50
# A place of a change counts as seen if it has this share of the change's heaviest: the rest are scraps of it.
SCRAP = 0.5


class Weighed:
    """Places of one kind: the terms of each, a row each, whether it is one of a change, and its score."""

    def __init__(self, told):
        self.told = told
        self.terms = [(sign, knee) for sign, knees in KNEES.items() for knee in [None, *knees]]
        signs = {sign: np.array([t["signs"][sign] for t in self.told], dtype=float) for sign in KNEES}
        x = [signs[s] if k is None else np.maximum(signs[s] - k, 0) for s, k in self.terms]
        x = np.array(x).T
        self.mean, self.spread = x.mean(0), x.std(0) + 1e-9
        self.x = (x - self.mean) / self.spread
        self.y = labels(self.told)
        self.score = np.zeros(len(self.told))

    def cross_validate(self, fold_of):
        fold = np.array([fold_of[t["pair"]] for t in self.told])
        for k in range(FOLDS):
            train, rest = (fold != k) & (self.y >= 0), fold == k
            self.score[rest] = regression(self.x[train], self.y[train]).decision_function(self.x[rest])

    def fit(self, sure):
        """The constant and the weights of the terms, so that the log odds of `sure` are even; and the counts."""
        train = self.y >= 0
        fit = regression(self.x[train], self.y[train])
        weights = fit.coef_[0] / self.spread
        constant = fit.intercept_[0] - (weights * self.mean).sum() - sure
        kept = [(t, w) for t, w in zip(self.terms, weights) if abs(w) >= 0.0005]
        return constant, kept, (train.sum(), (self.y == 1).sum())


def labels(told):
    """1 for the place of a change of sorts, 0 where nothing was done, -1 where it cannot be said."""
    heaviest = {}
    for p in told:
        if p["own"]:
            key = p["pair"], p["change"]
            heaviest[key] = max(heaviest.get(key, 0), p["mass"])

    def label(p):
        if p["change"] is None:
            return 0
        is_seen = p["own"] and p["judgeable"] and p["class"] in SORTS
        return 1 if is_seen and p["mass"] >= SCRAP * heaviest[p["pair"], p["change"]] else -1

    return np.array([label(p) for p in told])


def regression(x, y):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return LogisticRegression(penalty="l1", C=C, solver="liblinear", tol=1e-3).fit(x, y)


def found(told, score, sides, wanted):
    """Score at which so many sides have one false place, and the changes found by it."""
    false = np.sort(score[np.array([t["change"] is None for t in told])])[::-1]
    threshold = false[min(int(sides / wanted), len(false) - 1)]
    best = {}
    for t, s in zip(told, score):
        if t["change"] is not None and t["judgeable"] and t["class"] in SORTS:
            key = t["pair"], t["change"]
            best[key] = max(best.get(key, -np.inf), s)
    return threshold, sum(b > threshold for b in best.values()), len(best)


def write(folder, name, fit, sides):
    constant, kept, (count, changed) = fit
    lines = [
        f"//! Fitted by `cargo xtask bench fit` to {count} places of {sides} simulated pairs of one setting, of which "
        f"{changed} were changed.",
        "//! Not to be edited by hand.",
        "",
        "use super::{Regression, knee, line};",
        "",
        f"pub(super) const {name.upper()}: Regression = Regression {{",
        f"    constant: {constant:.3f},",
        "    terms: &[",
    ]
    for (sign, k), w in kept:
        call = f"line(|s| s.{sign}, " if k is None else f"knee(|s| s.{sign}, {float(k)}, "
        lines.append(f"        {call}{w:.3f}),")
    lines += ["    ],", "};", ""]
    with open(f"{folder}/{name}.rs", "w", encoding="utf-8") as out:
        out.write("\n".join(lines))


def main():
    folder = sys.argv[1]
    one_setting = {"same-setting", "same-setting-with-differences"}
    with open(f"{folder}/pairs.json", encoding="utf-8") as pairs:
        numbers = [p["number"] for p in json.load(pairs) if p["verdict"] in one_setting]
    fold_of = {n: i % FOLDS for i, n in enumerate(np.random.default_rng(1).permutation(numbers))}
    with open(f"{folder}/places.jsonl", encoding="utf-8") as lines:
        told = [json.loads(line) for line in lines]
    tables = {
        "exchanged": Weighed([t for t in told if t["signs"]["two_sided"]]),
        "taken": Weighed([t for t in told if not t["signs"]["two_sided"]]),
    }
    told = sum((table.told for table in tables.values()), [])
    for table in tables.values():
        table.cross_validate(fold_of)
    score = np.concatenate([table.score for table in tables.values()])
    was = np.array([t["score"] for t in told])
    for name, s in (("the program as it is", was), ("the fit, cross-validated", score)):
        for wanted in (SIDES_TO_A_FALSE_PLACE, 20, 10):
            threshold, n, of = found(told, s, len(numbers), wanted)
            print(f"{name}: {n} of {of} changes, one false place on {wanted} sides ({threshold:.3f})")
    if len(sys.argv) < 3:
        return
    sure, _, _ = found(told, score, len(numbers), SIDES_TO_A_FALSE_PLACE)
    for name, table in tables.items():
        fit = table.fit(sure)
        print(f"{name}: {len(fit[1])} of {len(table.terms)} terms")
        write(sys.argv[2], name, fit, len(numbers))


main()
