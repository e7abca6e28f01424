"""Fits the network that says whether wood is gone at a place: `damage.py FOLDER [FOLDER OF net.rs]`.

FOLDER holds weighed.jsonl of `cargo xtask bench damage --set fit`: every place at which an impression lacks ink that others
show, with what was measured of it in each impression, and what is true. Beside it is printed how it does on histories that it
was not fitted to, by thirds of the set.
"""

import json
import pathlib
import sys

import numpy as np
from sklearn.model_selection import GroupKFold
from sklearn.neural_network import MLPClassifier

# Values of the hidden layer; networks that are fitted from other beginnings, and put together.
HIDDEN = 32
PENALTY = 0.3
TOLD = {"present": 1, "absent": 0}


# Of damage that fills its box loosely a piece in one impression says little of another.
LOOSE = ("crack", "chip", "lost-corner")


def read(folder):
    """Signs, whether the wood is gone, the history, whether it is the impression that lacks ink, damage's number or -1."""
    signs, gone, group, own, damage = [], [], [], [], []
    with open(folder / "weighed.jsonl", encoding="utf-8") as lines:
        for text in lines:
            line = json.loads(text)
            by = line["by"]
            if line["altered"] or line["folded"]:
                continue
            # What one impression lacks where a damage is that it cannot have is want of ink, and no place to ask others of.
            is_damage = line["damage"] is not None and line["truly"][by] == "present"
            cells = range(len(line["signs"])) if is_damage and line["class"] not in LOOSE else [by]
            for i in cells:
                truly = line["truly"][i] if line["damage"] is not None else "absent"
                if line["signs"][i] is None or truly not in TOLD:
                    continue
                signs.append(line["signs"][i])
                gone.append(TOLD[truly])
                group.append(line["history"])
                own.append(i == by)
                damage.append(-1 if line["damage"] is None else line["damage"])
    return tuple(np.array(v) for v in (signs, gone, group, own, damage))


def fitted(x, y, seed=1):
    return MLPClassifier((HIDDEN,), alpha=PENALTY, max_iter=40, random_state=seed, learning_rate_init=4e-3,
                         batch_size=1024).fit(x, y)


def main():
    folder = pathlib.Path(sys.argv[1])
    x, y, group, own, damage = read(folder)
    middle, spread = x.mean(axis=0), x.std(axis=0) + 1e-6
    z = (x - middle) / spread
    print(f"{len(y)} cells, {y.sum()} of them gone; {own.sum()} of impressions that lack ink, {(y & own).sum()} gone")
    chance = np.zeros(len(y))
    for fit, held in GroupKFold(3).split(z, y, group):
        chance[held] = fitted(z[fit], y[fit]).predict_proba(z[held])[:, 1]
    loss = -np.mean(np.where(y == 1, np.log(chance + 1e-9), np.log(1 - chance + 1e-9)))
    print(f"log loss {loss:.4f}")
    for enough in (0.5, 0.75, 0.9):
        told = own & (chance >= enough)
        # A damage may lack several pieces: it counts once.
        found = {(g, d) for g, d, t, gone in zip(group, damage, told, y) if t and gone and d >= 0}
        there = {(g, d) for g, d, gone in zip(group, damage, y) if gone and d >= 0}
        print(f"  from {enough}: {len(found)} of {len(there)} damages with a piece, {(told & (y == 0)).sum()} false pieces; "
              f"cells of others: {(~own & (y == 1) & (chance < 1 - enough)).sum()} of {(~own & (y == 1)).sum()} gone told "
              f"whole, {(~own & (y == 0) & (chance > enough)).sum()} of {(~own & (y == 0)).sum()} whole told gone")
    if len(sys.argv) > 2:
        net = fitted(z, y)
        first, last = net.coefs_
        weights = (first / spread[:, None]).T
        offsets = net.intercepts_[0] - weights @ middle
        row = lambda v: "[" + ", ".join(f"{w:.4f}" for w in v) + "]"
        rows = ",\n    ".join(row(w) for w in weights)
        pathlib.Path(sys.argv[2], "net.rs").write_text("\n".join([
            "//! Fitted by `cargo xtask bench fit damage`. Not to be edited by hand.",
            "",
            "/// Weights of the hidden layer, in the order of `signs`.",
            f"pub(super) const HIDDEN: [[f32; {len(middle)}]; {HIDDEN}] = [\n    {rows},\n];",
            f"pub(super) const HIDDEN_OFFSETS: [f32; {HIDDEN}] = {row(offsets)};",
            f"pub(super) const LAST: [f32; {HIDDEN}] = {row(last[:, 0])};",
            f"pub(super) const LAST_OFFSET: f32 = {net.intercepts_[1][0]:.4f};",
            "",
        ]))


main()
