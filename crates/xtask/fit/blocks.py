"""Fits what two impressions of a cut are weighed by: `blocks.py FOLDER [FOLDER OF calibration.rs]`.

FOLDER holds said.json and strokes.f32 of `cargo xtask bench blocks --set fit`, and sights.json of blocks_sight.py. Three things are
fitted:

1. a network of one layer that says of a window of strokes, by itself, whether one block printed it twice: it tells where a cut
   falls into parts;
2. a logistic regression that tells impressions of one block (worn, or cast in metal) from those of a design cut again, by the
   signs of the whole; its log odds less those of the set are the weight;
3. another that tells designs cut again from other designs, by their masses.

How each does is told by cross-validation in five parts of the pairs.
"""

import json
import pathlib
import sys
import warnings

import numpy as np
from sklearn.linear_model import LogisticRegression
from sklearn.model_selection import GroupKFold, StratifiedKFold
from sklearn.neural_network import MLPClassifier

from pairs import Pairs

# As crates/evidence/src/block reckons it: strokes.rs, signs.rs, weight.rs and design.rs.
TOLD = 11
# A sign that could not be measured stands at what says nothing either way.
NO_DRIFT, NO_DRIFT_SD = 0.18, 4.0
NAMES = ["drift, px", "drift, sd", "longer side, px", "sight", "sight, poorest"]
DESIGN = ["composition", "masses 12", "masses 24", "masses 48", "masses 96", "aspect", "found", "likeness", "laid", "grey",
          "longer side, px"]
# Units of the network, its penalty, how many windows of a pair it is shown, and how many networks are tried of which the mean
# is taken in cross-validation (one is written): common practice, no source.
UNITS, PENALTY, SHOWN = 10, 0.3, 80
C_BLOCK, C_DESIGN = 0.3, 1.0
FOLDS = 5

def signs_of(said, longer_px, sights):
    s = said["signs"]
    other = lambda value, instead: instead if value is None else value
    return [
        np.log(other(s["drift_px"], NO_DRIFT) + 0.02),
        np.log(other(s["drift_sd"], NO_DRIFT_SD) + 0.2),
        np.log(longer_px),
        *sights,
    ]


def design_of(said):
    d, s = said["design"], said["signs"]
    of_strokes = (s["found"], s["likeness"], 1.0) if s else (0.0, 0.0, 0.0)
    return [d["composition"], *d["masses"], min(d["aspect"], 0.3), *of_strokes, d["grey"], np.log(d["longer_px"])]


def cost(log_odds, one):
    """Log-likelihood-ratio cost (Cllr; Brümmer and du Preez, Computer Speech and Language 20, 2006)."""
    of_one, of_two = np.log2(1 + np.exp(-log_odds[one])).mean(), np.log2(1 + np.exp(log_odds[~one])).mean()
    return (of_one + of_two) / 2


def scaled(rows):
    middle, spread = rows.mean(axis=0), rows.std(axis=0) + 1e-9
    return (rows - middle) / spread, middle, spread


def network(windows, one, pairs, seed=1):
    """Fitted to so many windows of each of `pairs`, both kinds alike in number."""
    chance = np.random.default_rng(seed)
    per = {True: SHOWN, False: SHOWN}
    kinds = [sum(one[p] for p in pairs), sum(not one[p] for p in pairs)]
    per[kinds[0] < kinds[1]] = round(SHOWN * max(kinds) / max(min(kinds), 1))
    rows, of = [], []
    for p in pairs:
        w = windows[p][:, 6:]
        take = chance.permutation(len(w))[: per[bool(one[p])]]
        rows.append(w[take])
        of.extend([one[p]] * len(take))
    x, middle, spread = scaled(np.concatenate(rows))
    net = MLPClassifier((UNITS,), activation="relu", alpha=PENALTY, batch_size=256, max_iter=40, random_state=seed)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        net.fit(x, np.array(of))
    return net, middle, spread


def says(fitted, windows):
    net, middle, spread = fitted
    x = (windows[:, 6:] - middle) / spread
    return np.maximum(x @ net.coefs_[0] + net.intercepts_[0], 0) @ net.coefs_[1][:, 0] + net.intercepts_[1][0]


def regression(rows, kind, c, counts=None):
    """Both kinds weigh alike, so that its log odds are a likelihood ratio."""
    x, middle, spread = scaled(rows)
    counts = np.ones(len(kind)) if counts is None else counts.copy()
    for one in (True, False):
        counts[kind == one] *= len(kind) / 2 / counts[kind == one].sum()
    model = LogisticRegression(C=c, max_iter=5000).fit(x, kind, sample_weight=counts)
    slopes = model.coef_[0] / spread
    return slopes, model.intercept_[0] - (slopes * middle).sum()


def cross_validated(rows, kind, c, counts=None, books=None):
    out = np.zeros(len(rows))
    books = np.arange(len(rows)) if books is None else books
    for fit, rest in GroupKFold(2 * FOLDS).split(rows, kind, books):
        slopes, offset = regression(rows[fit], kind[fit], c, None if counts is None else counts[fit])
        out[rest] = rows[rest] @ slopes + offset
    return out


def told(name, log_odds, kind, sound, enoughs, words):
    print(f"{name}: {len(kind)} pairs, {kind.sum()} {words[0]}; Cllr {cost(log_odds, kind):.3f}, "
          f"of {sound.sum()} sound ones {cost(log_odds[sound], kind[sound]):.3f}")
    weight = log_odds / np.log(10)
    for enough in enoughs:
        for which, mask in (("all", np.ones_like(kind)), ("sound", sound)):
            n = lambda m: int((m & mask).sum())
            print(f"  weight {enough}, {which}: {words[1]} told {words[0]} {n((weight > enough) & ~kind)}, {words[0]} told "
                  f"{words[1]} {n((weight < -enough) & kind)}; undetermined {n((abs(weight) <= enough) & kind)} of {n(kind)} "
                  f"{words[0]} and {n((abs(weight) <= enough) & ~kind)} of {n(~kind)} {words[1]}")


def main():
    folder = pathlib.Path(sys.argv[1])
    all_pairs = Pairs(folder)
    outcomes = all_pairs.simulated
    sights = {int(n): of for n, of in json.loads((folder / "sights.json").read_text()).items()}
    strokes = np.fromfile(folder / "strokes.f32", dtype="<f4").reshape(-1, 6 + TOLD).astype(float)
    ends = np.flatnonzero(np.diff(strokes[:, 0])) + 1
    windows = {int(w[0, 0]): w for w in np.split(strokes, ends) if len(w)}
    is_sound = {n: min(o["kept"]["planned"]["pair"][p] for p in ("ppi_a", "ppi_b")) >= 200
                and o["kept"]["planned"]["pair"]["level"] <= 2 for n, o in outcomes.items()}
    one = all_pairs.one
    pairs = [n for n in one if n in windows and outcomes[n]["said"]["signs"]]
    kind, sound = np.array([one[n] for n in pairs]), np.array([is_sound[n] for n in pairs])

    of_windows = {}
    for fit, rest in StratifiedKFold(FOLDS, shuffle=True, random_state=1).split(pairs, kind):
        net = network(windows, one, [pairs[i] for i in fit])
        of_windows.update({pairs[i]: says(net, windows[pairs[i]]).mean() for i in rest})
    mean = np.array([of_windows[n] for n in pairs])
    rows = np.array([signs_of(outcomes[n]["said"], outcomes[n]["least_px"], sights.get(n, (0, 0))) for n in pairs])
    for name, column in [*zip(NAMES, rows.T), ("what windows say (not weighed), mean", mean)]:
        order = np.argsort(np.argsort(column))
        auc = (order[kind].mean() - (kind.sum() - 1) / 2) / (~kind).sum()
        print(f"  {name} by itself parts {max(auc, 1 - auc):.3f}")
    # Real pairs, and real ink drawn anew, stand beside the simulated ones in the fit of one block against cut again.
    beside = [n for n, o in all_pairs.real.items() if o["said"]["signs"]]
    drawn = np.array([n >= all_pairs.DRAWN for n in beside], bool)
    real = np.array([signs_of(all_pairs.real[n]["said"], all_pairs.real[n]["said"]["signs"]["longer_px"], sights.get(n, (0, 0)))
                     for n in beside]).reshape(-1, len(NAMES))
    of_one = np.array([all_pairs.one[n] for n in beside], bool)
    both, kinds = np.concatenate([rows, real]), np.concatenate([kind, of_one])
    counts = np.array([all_pairs.counts(n) for n in [*pairs, *beside]])
    books = np.array([all_pairs.group(n) + (0 if n < all_pairs.REAL else len(outcomes)) for n in [*pairs, *beside]])
    odds, words = cross_validated(both, kinds, C_BLOCK, counts, books), ("of one", "cut again")
    told("one block or cut again, simulated", odds[: len(rows)], kind, sound, (0.5, 0.7, 1.0), words)
    odds = odds[len(rows) :]
    for name, which in (("real", ~drawn), ("drawn anew", drawn)):
        if which.any():
            told("the same, " + name, odds[which], of_one[which], np.ones(which.sum(), bool), (0.5, 0.7, 1.0), words)
    slopes, offset = (v / np.log(10) for v in regression(both, kinds, C_BLOCK, counts))
    for name, slope in zip(NAMES, slopes):
        print(f"  {name}: {slope:.3f}")
    net, middle, spread = network(windows, one, pairs)

    two = [n for n in all_pairs.single if all_pairs.relation[n] in ("re-cut", "other-design", "unrelated")]
    masses = np.array([design_of(outcomes[n]["said"]) for n in two])
    again = np.array([all_pairs.relation[n] == "re-cut" for n in two])
    told("cut again or another design", cross_validated(masses, again, C_DESIGN), again,
         np.array([is_sound[n] for n in two]), (0.3, 0.4, 0.5, 0.7), ("cut again", "other design"))
    of_design, design_offset = (v / np.log(10) for v in regression(masses, again, C_DESIGN))
    for name, slope in zip(DESIGN, of_design):
        print(f"  {name}: {slope:.3f}")

    if len(sys.argv) > 2:
        numbers = lambda values: "[" + ", ".join(f"{v:.4f}" for v in values) + "]"
        layers = ",\n    ".join(numbers(w) for w in net.coefs_[0].T)
        lines = [
            "//! Fitted by `cargo xtask bench fit blocks`. Not to be edited by hand.",
            "",
            "/// What each sign adds to the weight (log10), in the order of `weight::told`; and what is added to all.",
            f"pub(super) const SLOPES: [f64; {len(slopes)}] = {numbers(slopes)};",
            f"pub(super) const OFFSET: f64 = {offset:.4f};",
            "/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.",
            f"pub(super) const PAIRS: usize = {len(rows)};",
            "/// Real pairs that stand beside them.",
            f"pub(super) const REAL_PAIRS: usize = {(~drawn).sum()};",
            f"pub(super) const OF_THE_RARER_KIND: usize = {min(kind.sum(), (~kind).sum())};",
            "/// The network of windows: its units; what is taken from each input and what it is divided by; the weights of each",
            "/// unit and what is added; the weights of the units, and last what is added.",
            f"pub(super) const HIDDEN: usize = {UNITS};",
            f"pub(super) const MIDDLE: [f64; {TOLD}] = {numbers(middle)};",
            f"pub(super) const SPREAD: [f64; {TOLD}] = {numbers(spread)};",
            f"pub(super) const WEIGHTS: [[f64; {TOLD}]; {UNITS}] = [\n    {layers},\n];",
            f"pub(super) const BIAS: [f64; {UNITS}] = {numbers(net.intercepts_[0])};",
            f"pub(super) const OUT: [f64; {UNITS + 1}] = {numbers([*net.coefs_[1][:, 0], net.intercepts_[1][0]])};",
            "/// What each sign of the masses adds to the weight (log10) of one design against two, in the order of `design::told`.",
            f"pub(super) const DESIGN_SLOPES: [f64; {len(of_design)}] = {numbers(of_design)};",
            f"pub(super) const DESIGN_OFFSET: f64 = {design_offset:.4f};",
        ]
        pathlib.Path(sys.argv[2], "calibration.rs").write_text("\n".join(lines) + "\n")


main()
