"""Fits the weight of two impressions of a cut: `blocks.py FOLDER [FOLDER OF calibration.rs]`.

FOLDER holds said.json of `cargo xtask bench blocks --set fit`. A logistic regression tells impressions of one block (worn,
or cast in metal) from those of a design cut again; its log odds less those of the set are the weight. Beside it is printed
how it does on pairs that it was not fitted to, by tenths of the set.
"""

import json
import pathlib
import sys

import numpy as np
from sklearn.linear_model import LogisticRegression
from sklearn.model_selection import StratifiedKFold, cross_val_predict

# What is weighed, as crates/evidence/src/block/weight.rs reckons it. A sign that could not be measured stands at what
# says nothing either way.
NO_SD, NO_DRIFT = 3.0, 0.18
NAMES = ["likeness", "poorest", "wandering, px", "wandering, sd", "drift, px", "shown", "found"]


def features(signs):
    sd = signs["wandering_sd"] if signs["wandering_sd"] is not None else NO_SD
    drift = signs["drift_px"] if signs["drift_px"] is not None else NO_DRIFT
    return [
        signs["likeness"],
        signs["poorest"],
        np.log(signs["wandering_px"] + 0.05),
        np.log(sd + 0.2),
        np.log(drift + 0.02),
        signs["shown"],
        signs["found"],
    ]


def cost(log_odds, one):
    """Log-likelihood-ratio cost (Cllr; Brümmer and du Preez, Computer Speech and Language 20, 2006)."""
    of_one, of_two = np.log2(1 + np.exp(-log_odds[one])).mean(), np.log2(1 + np.exp(log_odds[~one])).mean()
    return (of_one + of_two) / 2


def main():
    folder = pathlib.Path(sys.argv[1])
    rows, one, sound = [], [], []
    for outcome in json.loads((folder / "said.json").read_text()):
        pair, signs = outcome["planned"]["pair"], outcome["said"]["signs"]
        relation = pair["relation"]["is"]
        # Composites, altered blocks and other designs are told otherwise.
        if signs is None or pair["cut"]["cut"] != "one" or relation not in ("same-block", "cast", "re-cut"):
            continue
        rows.append(features(signs))
        one.append(relation != "re-cut")
        sound.append(min(pair["ppi_a"], pair["ppi_b"]) >= 200 and pair["level"] <= 2)
    rows, one, sound = np.array(rows), np.array(one), np.array(sound)
    # On one scale, so that no sign is held back more than another.
    middle, spread = rows.mean(axis=0), rows.std(axis=0)
    scaled = (rows - middle) / spread
    model = LogisticRegression(C=1.0, max_iter=5000)
    folds = StratifiedKFold(10, shuffle=True, random_state=1)
    chance = cross_val_predict(model, scaled, one, cv=folds, method="predict_proba")[:, 1].clip(1e-6, 1 - 1e-6)
    of_set = np.log(one.mean() / (1 - one.mean()))
    log_odds = np.log(chance / (1 - chance)) - of_set
    print(f"{len(rows)} pairs, {one.sum()} of one block; Cllr {cost(log_odds, one):.3f}")
    for enough in (0.5, 0.7, 1.0):
        weight = log_odds / np.log(10)
        told = lambda mask: (int((weight > enough)[mask & ~one].sum()), int((weight < -enough)[mask & one].sum()),
                             int((abs(weight) <= enough)[mask & one].sum()), int((abs(weight) <= enough)[mask & ~one].sum()))
        for name, mask in (("all", np.ones_like(one)), ("sound", sound)):
            a, b, c, d = told(mask)
            print(f"  weight {enough}, {name}: cut again called one {a}, one called cut again {b}, undetermined {c} of "
                  f"{int((mask & one).sum())} of one and {d} of {int((mask & ~one).sum())} cut again")
    model.fit(scaled, one)
    slopes = model.coef_[0] / spread / np.log(10)
    offset = (model.intercept_[0] - of_set) / np.log(10) - (slopes * middle).sum()
    for name, slope in zip(NAMES, slopes):
        print(f"  {name}: {slope:.3f}")
    if len(sys.argv) > 2:
        lines = [
            "//! Fitted by `cargo xtask bench fit blocks`. Not to be edited by hand.",
            "",
            "/// What each sign adds to the weight (log10), in the order of `weight::told`; and what is added to all.",
            f"pub(super) const SLOPES: [f64; {len(slopes)}] =",
            "    [" + ", ".join(f"{s:.4f}" for s in slopes) + "];",
            f"pub(super) const OFFSET: f64 = {offset:.4f};",
            "/// Simulated pairs that it was fitted to, and those of them that are of the rarer kind.",
            f"pub(super) const PAIRS: usize = {len(rows)};",
            f"pub(super) const OF_THE_RARER_KIND: usize = {min(one.sum(), (~one).sum())};",
        ]
        pathlib.Path(sys.argv[2], "calibration.rs").write_text("\n".join(lines) + "\n")


main()
