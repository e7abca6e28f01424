"""Fits what tells the class of a damage by its shape: `damage_class.py FOLDER [FOLDER OF class_net.rs]`.

FOLDER holds told.json of `cargo xtask bench damage`: damages that were told, what was measured of the shape of each, and on which true
damage it lies. How it does on histories that it was not fitted to is told by fifths of the set.
"""

import json
import pathlib
import sys

import numpy as np
from sklearn.linear_model import LogisticRegression
from sklearn.model_selection import GroupKFold

# Classes in the order of the program (evidence::block::damage::class), and what of the press is each.
CLASSES = ["Break", "FrameNick", "Crack", "Wormhole", "LostEdge"]
OF = {"break": 0, "frame-break": 1, "crack": 2, "wormhole": 3, "chip": 4, "lost-corner": 4}
PENALTY = 1.0


def read(folder):
    rows, kinds, histories = [], [], []
    for o in json.loads((folder / "told.json").read_text()):
        for shapes, on in zip(o["shapes"], o["on"]):
            if on is not None:
                rows.append(shapes)
                kinds.append(OF[o["truth"][on]["class"]])
                histories.append(o["planned"]["number"])
    return np.array(rows), np.array(kinds), np.array(histories)


def spread_out(x):
    """Each measure, and each product of two."""
    i, j = np.triu_indices(x.shape[1])
    return np.hstack([x, x[:, i] * x[:, j]])


def fitted(x, y):
    return LogisticRegression(C=1 / PENALTY / 10, max_iter=5000).fit(x, y)


def main():
    folder = pathlib.Path(sys.argv[1])
    rows, kinds, histories = read(folder)
    middle, spread = rows.mean(axis=0), rows.std(axis=0) + 1e-6
    x = spread_out((rows - middle) / spread)
    told = np.zeros_like(kinds)
    for fit, held in GroupKFold(5).split(x, kinds, histories):
        told[held] = fitted(x[fit], kinds[fit]).predict(x[held])
    print(f"{len(kinds)} damages, {(told == kinds).mean():.3f} told rightly")
    for k, name in enumerate(CLASSES):
        print(f"  {name}:", " ".join(f"{(told[kinds == k] == j).sum()}" for j in range(len(CLASSES))))
    if len(sys.argv) > 2:
        model = fitted(x, kinds)
        row = lambda v: "[" + ", ".join(f"{w:.4f}" for w in v) + "]"
        rows = ",\n    ".join(row(w) for w in model.coef_)
        pathlib.Path(sys.argv[2], "class_net.rs").write_text("\n".join([
            "//! Fitted by `cargo xtask bench fit damage-class`. Not to be edited by hand.",
            "#![allow(clippy::approx_constant, reason = \"a fitted weight may look like one\")]",
            "",
            "/// Of each measure of the shape its mean and spread.",
            f"pub(super) const MIDDLE: [f32; {len(middle)}] = {row(middle)};",
            f"pub(super) const SPREAD: [f32; {len(middle)}] = {row(spread)};",
            "/// By class, in the order of `class`: weights of the measures, then of the products of every two, by rows of the upper half.",
            f"pub(super) const WEIGHTS: [[f32; {x.shape[1]}]; {len(CLASSES)}] = [\n    {rows},\n];",
            f"pub(super) const OFFSETS: [f32; {len(CLASSES)}] = {row(model.intercept_)};",
            "",
        ]))


main()
