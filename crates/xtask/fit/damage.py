"""Fits the network that says whether wood is gone at a place: `damage.py FOLDER [FOLDER OF net.rs]`.

FOLDER holds the cells of `cargo xtask bench damage --set fit`: places at which an impression lacks ink that others show, with what
was measured of them in an impression, and what is true. How it does on histories that it was not fitted to is told by thirds of the
set. What it finds likely enough is then looked at (damage_view.py).
"""

import json
import pathlib
import sys

import numpy as np
from sklearn.model_selection import GroupKFold
from sklearn.neural_network import MLPClassifier

# Values of the hidden layer, and the penalty on its weights.
HIDDEN = 32
PENALTY = 0.3
# Places where nothing is gone are so many that one in so many tells as much.
ONE_IN = 5


def read(folder):
    """Of every cell its signs, whether the wood is gone, for how many it counts, its history, whether it is of the impression that
    lacks ink, whether it was looked at, how likely the program had it, and the number of its damage or -1."""
    files = [columns(f) for f in sorted((folder / "cells").glob("*.jsonl")) if f.stat().st_size]
    return {name: np.concatenate([of[name] for of in files]) for name in files[0]}


def columns(file):
    """Of one history."""
    with file.open(encoding="utf-8") as lines:
        cells = [json.loads(line) for line in lines]
    of = {name: np.array([c[name] for c in cells], int) for name in ("counts", "history")}
    of |= {name: np.array([c[name] for c in cells], bool) for name in ("gone", "likely")}
    of["own"] = np.array([c["impression"] == c["by"] for c in cells], bool)
    of["chance"] = np.array([c["chances"][c["impression"]] or 0.0 for c in cells], float)
    of["signs"] = np.array([c["signs"] for c in cells], float)
    of["damage"] = np.array([-1 if c["damage"] is None else c["damage"] for c in cells], int)
    return of


def told(of, chance):
    """How chances do."""
    y, own = of["gone"], of["own"]
    loss = -np.average(np.where(y, np.log(chance + 1e-9), np.log(1 - chance + 1e-9)), weights=of["counts"])
    print(f"log loss {loss:.4f}")
    there = set(zip(of["history"][y], of["damage"][y]))
    for enough in (0.3, 0.5, 0.75, 0.9):
        # A damage may lack several pieces: it counts once.
        is_told = own & (chance >= enough)
        found = set(zip(of["history"][is_told & y], of["damage"][is_told & y]))
        print(f"  from {enough}: {len(found)} of {len(there)} damages with a piece, {of['counts'][is_told & ~y].sum()} false pieces; "
              f"cells of others: {(~own & y & (chance < 1 - enough)).sum()} of {(~own & y).sum()} gone told "
              f"whole, {(~own & ~y & (chance > enough)).sum()} of {(~own & ~y).sum()} whole told gone")


def fitted(x, y, counts, seed=1):
    """The network; of what is not gone one in ONE_IN is gone through, and its odds are brought back by as much."""
    chosen = y | (np.random.default_rng(seed).random(len(y)) < counts / ONE_IN)
    net = MLPClassifier((HIDDEN,), alpha=PENALTY, max_iter=30, random_state=seed, learning_rate_init=4e-3,
                        batch_size=1024).fit(x[chosen], y[chosen])
    net.intercepts_[-1] = net.intercepts_[-1] - np.log(ONE_IN)
    return net


def main():
    folder = pathlib.Path(sys.argv[1])
    of = read(folder)
    x, y = of["signs"], of["gone"]
    middle, spread = x.mean(axis=0), x.std(axis=0) + 1e-6
    z = (x - middle) / spread
    print(f"{len(y)} cells, {y.sum()} of them gone; {of['own'].sum()} of impressions that lack ink, {(y & of['own']).sum()} gone")
    if len(sys.argv) < 3:
        chance = np.zeros(len(y))
        for fit, held in GroupKFold(3).split(z, y, of["history"]):
            chance[held] = fitted(z[fit], y[fit], of["counts"][fit]).predict_proba(z[held])[:, 1]
        told(of, chance)
    else:
        net = fitted(z, y, of["counts"])
        first, last = net.coefs_
        weights = (first / spread[:, None]).T
        offsets = net.intercepts_[0] - weights @ middle
        row = lambda v: "[" + ", ".join(f"{w:.4f}" for w in v) + "]"
        rows = ",\n    ".join(row(w) for w in weights)
        pathlib.Path(sys.argv[2], "net.rs").write_text("\n".join([
            "//! Fitted by `cargo xtask bench fit damage`. Not to be edited by hand.",
            "#![allow(clippy::approx_constant, reason = \"a fitted weight may look like one\")]",
            "",
            "/// Weights of the hidden layer, in the order of `signs`.",
            f"pub(super) const HIDDEN: [[f32; {len(middle)}]; {HIDDEN}] = [\n    {rows},\n];",
            f"pub(super) const HIDDEN_OFFSETS: [f32; {HIDDEN}] = {row(offsets)};",
            f"pub(super) const LAST: [f32; {HIDDEN}] = {row(last[:, 0])};",
            f"pub(super) const LAST_OFFSET: f32 = {net.intercepts_[1][0]:.4f};",
            "",
        ]))


if __name__ == "__main__":
    main()
