"""Fits the network that sees a place at which ink is lacking: `damage_view.py FOLDER [FOLDER OF seen.f32]`.

FOLDER holds the cells of `cargo xtask bench damage --set fit`. Only places are gone through that the program looks at: those that its
network of signs (damage.py) does not take for next to impossible. Without the second folder it is fitted to four fifths of the
histories, and how well it does is told on the rest.
"""

import pathlib
import sys

import numpy as np
import torch

from damage import read, told
from seeing import SIDE, fitted, log_odds, write

# Planes of a picture, as in the program (evidence::block::damage::view); times that the places are gone through.
PLANES, EPOCHS = 5, 6
# Of cells that are not gone, and that the program was so sure of when it wrote them, one in so many is gone through and counts for all.
SURE, ONE_IN = 0.03, 3
FOLDS = 5


def varied(x):
    """The same places as they might have been as well: a little aside, with more or less ink."""
    x = torch.roll(x, tuple(np.random.randint(-1, 2, 2)), (2, 3))
    gain = torch.ones(len(x), PLANES, 1, 1)
    gain[:, 0] = (1 + 0.1 * torch.randn(len(x), 1, 1)).clamp(0.7, 1.3)
    return x * gain


def views(folder, of):
    """What is seen of some cells, told by their numbers in order; all of them would fill a machine's memory."""
    parts, first = [], 0
    for file in sorted((folder / "cells").glob("*.u8")):
        if file.stat().st_size:
            cells = np.memmap(file, np.uint8, "r").reshape(-1, SIDE * SIDE * PLANES)
            from_here, beyond = np.searchsorted(of, [first, first + len(cells)])
            parts.append(cells[of[from_here:beyond] - first])
            first += len(cells)
    return np.concatenate(parts)


def main():
    folder = pathlib.Path(sys.argv[1])
    cells = read(folder)
    x, y, counts = cells["signs"], cells["gone"], cells["counts"]
    middle, spread = x.mean(axis=0), x.std(axis=0) + 1e-6
    z = (x - middle) / spread
    held = cells["history"] % FOLDS == 0
    if len(sys.argv) > 2:
        held[:] = False
    seen = cells["likely"]
    print(f"{len(y)} cells, {seen.sum()} looked at; of {y.sum()} gone {(y & seen).sum()}", flush=True)
    sure = ~y & (cells["chance"] < SURE)
    chosen = ~sure | (np.random.default_rng(1).random(len(y)) < 1 / ONE_IN)
    fit = np.flatnonzero(seen & ~held & chosen)
    print(f"fitted to {len(fit)}", flush=True)
    net = fitted(views(folder, fit), PLANES, z[fit], y[fit], np.where(sure, ONE_IN, 1.0)[fit] * counts[fit], varied, EPOCHS)
    if len(sys.argv) > 2:
        write(net, middle, spread, pathlib.Path(sys.argv[2], "seen.f32"))
        return
    rest = np.flatnonzero(seen & held)
    chance = 1 / (1 + np.exp(-log_odds(net, views(folder, rest), PLANES, z[rest])))
    told({k: v[rest] for k, v in cells.items()}, chance)


main()
