"""Fits the network that sees a window of strokes in both impressions: `blocks_sight.py FOLDER [FOLDER OF fitted.f32]`.

FOLDER holds said.json, sights.f32 and sights.u8 of `cargo xtask bench blocks --set fit`; beside it, if `--set real` was run, stand the
same of the real pairs, and of these with the second impression drawn anew as it was or as a copy.

The network is fitted to windows of pairs of one block and of pairs cut again. What it says of pairs that it was not fitted to goes into
FOLDER/sights.json, unless that is newer than the windows, for blocks.py to weigh: by pair, mean and lower fifth of its log odds.
"""

import json
import pathlib
import sys

import numpy as np
import torch

from pairs import Pairs
from seeing import SIDE, fitted, log_odds, write

# Planes of a picture, as in the program (evidence::block::sight::view).
PLANES = 4
# Times that the pairs are gone through, each time so many windows of each, and parts of cross-validation.
EPOCHS, WINDOWS, FOLDS = 8, 80, 5


def varied(x):
    """The same windows as they might have been as well: the two exchanged, more or less ink, the second a shade aside."""
    n = len(x)
    which = torch.rand(n) < 0.5
    x[which] = x[which][:, [1, 0, 3, 2]]
    gain = torch.ones(n, PLANES, 1, 1)
    gain[:, 2:] = (1 + 0.12 * torch.randn(n, 2, 1, 1)).clamp(0.6, 1.4)
    return (x * gain).clamp(0, 1)


def main():
    folder = pathlib.Path(sys.argv[1])
    pairs = Pairs(folder)
    rows, views = pairs.sights(SIDE * SIDE * PLANES)
    ends = np.flatnonzero(np.diff(rows[:, 0])) + 1
    windows = {int(of[0]): of[1:] for of in ([rows[w[0], 0], *w] for w in np.split(np.arange(len(rows)), ends))}
    windows = {n: np.array(w, int) for n, w in windows.items() if n in pairs.one}
    known = np.array(sorted(windows))
    one = np.array([pairs.one[n] for n in known])
    counts = np.array([pairs.counts(n) for n in known])
    for kind in (True, False):
        counts[one == kind] *= counts.sum() / 2 / counts[one == kind].sum()
    counts /= counts.mean()
    y, weight = np.zeros(len(rows)), np.zeros(len(rows))
    for n, o, c in zip(known, one, counts):
        y[windows[n]] = o
        weight[windows[n]] = c * WINDOWS / min(len(windows[n]), WINDOWS)
    none = np.zeros((len(rows), 0), np.float32)

    def net(of):
        chance = np.random.default_rng(1)
        taken = lambda: np.concatenate([chance.permutation(windows[n])[:WINDOWS] for n in of])
        return fitted(views, PLANES, none, y, weight, varied, EPOCHS, taken)

    print(f"{len(known)} pairs, {one.sum()} of one block; {sum(len(w) for w in windows.values())} windows", flush=True)
    if len(sys.argv) > 2:
        write(net(known), np.zeros(0), np.zeros(0), pathlib.Path(sys.argv[2], "sight", "fitted.f32"))
    file = folder / "sights.json"
    if file.exists() and file.stat().st_mtime > (folder / "sights.u8").stat().st_mtime:
        return
    fold = np.array([pairs.group(n) % FOLDS for n in known])
    said = {}
    for k in range(FOLDS):
        fit = net(known[fold != k])
        for n in known[fold == k]:
            w = windows[n]
            odds = log_odds(fit, views[w], PLANES, none[w])
            said[int(n)] = [float(odds.mean()), float(np.quantile(odds, 0.2))]
    file.write_text(json.dumps(said))
    mean = np.array([said[int(n)][0] for n in known])
    for name, of in (("simulated", known < pairs.REAL), ("real", (known >= pairs.REAL) & (known < pairs.DRAWN)),
                     ("drawn anew", known >= pairs.DRAWN)):
        a, b = mean[of & one], mean[of & ~one]
        parts = (a[:, None] > b).mean() + (a[:, None] == b).mean() / 2 if len(a) and len(b) else float("nan")
        print(f"{name}: {len(a)} of one block {np.median(a):.2f}, {len(b)} cut again {np.median(b):.2f}; the mean parts {parts:.4f}")


main()
