"""Fits the network that sees lines of type for what went wrong at press: `incidents.py FOLDER [FOLDER OF seen.f32]`.

FOLDER holds what `cargo xtask bench measure --set fit` wrote. Without the second folder it is fitted to four fifths of the sheets, and
how well it does is told on the rest.
"""

import pathlib
import sys
import time

import numpy as np
import torch
from torch import nn
from torch.nn.utils.fusion import fuse_conv_bn_eval

# As in the program (evidence::measure::incidents): rows of a strip, samples of a cell, planes after each layer, what is between the
# last two layers, what is told of every cell, and for each how far it reaches from the middle of the cell (left, right, top, foot).
ROWS, CELL, SEES, HIDDEN = 32, 8, [12, 20, 28], 40
KINDS = ["risen space"]
REACH = 4
# What a reach that is off by a cell counts for, against the odds of a cell that is told wrongly.
OFF = 0.3
# Cells of a stretch that is gone through as one, stretches at a time, times that all are gone through, the largest step.
STRETCH, BATCH, EPOCHS, STEP = 32, 48, 12, 3e-3
NOT_SEEN, FOLDS = 2, 5


class Net(nn.Module):
    def __init__(self):
        super().__init__()
        pairs = list(zip([1, *SEES], SEES))
        self.convolutions = nn.ModuleList(nn.Conv2d(i, o, 3, padding=1) for i, o in pairs)
        self.evened = nn.ModuleList(nn.BatchNorm2d(o) for _, o in pairs)
        self.full = nn.Conv2d(SEES[-1], HIDDEN, (ROWS // CELL, 3), padding=(0, 1))
        self.last = nn.Conv2d(HIDDEN, len(KINDS) * (1 + REACH), 1)
        self.dropped = nn.Dropout(0.15)

    def forward(self, x):
        for layer, evened in zip(self.convolutions, self.evened):
            x = torch.relu(nn.functional.max_pool2d(evened(layer(x)), 2))
        return self.last(torch.relu(self.full(self.dropped(x))))[:, :, 0]


def read(folder):
    """All stretches, what is told of their cells, how far that reaches, and the sheet of each."""
    samples = np.memmap(folder / "strips.u8", np.uint8, "r")
    told = np.fromfile(folder / "cells.u8", np.uint8)
    reach = np.fromfile(folder / "reach.f32", np.float32).reshape(len(told), REACH)
    x, y, reaches, sheets = [], [], [], []
    at = of = 0
    for row in (folder / "strips.csv").read_text().split():
        sheet, width = map(int, row.split(","))
        strip = samples[at:at + width * ROWS].reshape(ROWS, width)
        these = slice(of, of + width // CELL * len(KINDS))
        cells, far = told[these].reshape(-1, len(KINDS)), reach[these].reshape(-1, len(KINDS) * REACH)
        at, of = at + width * ROWS, of + width // CELL * len(KINDS)
        for first in range(0, len(cells), STRETCH - 4):
            part, seen = np.zeros((ROWS, STRETCH * CELL), np.uint8), np.full((STRETCH, len(KINDS)), NOT_SEEN, np.uint8)
            piece, says = strip[:, first * CELL:(first + STRETCH) * CELL], cells[first:first + STRETCH]
            part[:, :piece.shape[1]], seen[:len(says)] = piece, says
            reached = np.zeros((STRETCH, len(KINDS) * REACH), np.float32)
            reached[:len(says)] = far[first:first + STRETCH]
            x.append(part)
            y.append(seen)
            reaches.append(reached)
            sheets.append(sheet)
    return np.stack(x), np.stack(y), np.stack(reaches), np.array(sheets)


def varied(x):
    """The same lines as they might have been as well: a little higher or lower, with more or less ink, coarser."""
    shift = np.random.randint(-1, 2)
    x = torch.roll(x, shift, 2)
    gain = (1 + 0.15 * torch.randn(len(x), 1, 1, 1)).clamp(0.6, 1.5)
    x = (x * gain).clamp(0, 1)
    soft = nn.functional.avg_pool2d(x, 3, 1, 1)
    share = torch.rand(len(x), 1, 1, 1) * 0.5 * (torch.rand(len(x), 1, 1, 1) < 0.5)
    return x + share * (soft - x) + 0.02 * torch.randn_like(x)


def fitted(x, y, reaches):
    torch.manual_seed(1)
    np.random.seed(1)
    net = Net()
    optimiser = torch.optim.AdamW(net.parameters(), lr=STEP, weight_decay=0.01)
    steps = EPOCHS * (len(x) // BATCH)
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, STEP, total_steps=steps, pct_start=0.15)
    began = time.time()
    for epoch in range(EPOCHS):
        net.train()
        cost = 0.0
        order = np.random.permutation(len(x))
        for at in range(0, len(order) // BATCH * BATCH, BATCH):
            of = np.sort(order[at:at + BATCH])
            said = net(varied(torch.from_numpy(x[of]).float()[:, None] / 255)).transpose(1, 2)
            there = torch.from_numpy(y[of])
            known = (there != NOT_SEEN).float()
            odds, far = said[:, :, :len(KINDS)], said[:, :, len(KINDS):]
            loss = nn.functional.binary_cross_entropy_with_logits(odds, (there == 1).float(), known, reduction="sum")
            off = nn.functional.smooth_l1_loss(far, torch.from_numpy(reaches[of]), reduction="none", beta=0.2)
            loss = (loss + OFF * (off * (there == 1).float().repeat_interleave(REACH, 2)).sum()) / known.sum()
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            pace.step()
            cost += loss.item()
        print(f"  {epoch + 1} of {EPOCHS}: {cost / (len(x) // BATCH):.5f}, {time.time() - began:.0f} s", flush=True)
    return net.eval()


def log_odds(net, x):
    with torch.no_grad():
        out = [net(torch.from_numpy(x[a:a + 256]).float()[:, None] / 255) for a in range(0, len(x), 256)]
    return torch.cat(out).transpose(1, 2).numpy()


def write(net, path):
    """Layer by layer: the weights by tap, by plane that goes in, by plane that comes out, then one for each that comes out; the full
    layer by row, by column, by plane; the last."""
    parts = []
    for layer, evened in zip(net.convolutions, net.evened):
        layer = fuse_conv_bn_eval(layer, evened)
        parts += [layer.weight.permute(2, 3, 1, 0), layer.bias]
    parts += [net.full.weight.permute(2, 3, 1, 0), net.full.bias, net.last.weight[:, :, 0, 0].T, net.last.bias]
    np.concatenate([p.detach().numpy().astype("<f4").ravel() for p in parts]).tofile(path)


def main():
    folder = pathlib.Path(sys.argv[1])
    x, y, reaches, sheets = read(folder)
    held = sheets % FOLDS == 0
    print(f"{len(x)} stretches; " + ", ".join(f"{k}: {(y[:, :, i] == 1).sum()} cells" for i, k in enumerate(KINDS)), flush=True)
    if len(sys.argv) > 2:
        write(fitted(x, y, reaches), pathlib.Path(sys.argv[2], "seen.f32"))
        return
    net = fitted(x[~held], y[~held], reaches[~held])
    said, there = log_odds(net, x[held]), y[held]
    off = np.abs(said[:, :, len(KINDS):] - reaches[held])[(there == 1)[:, :, 0]]
    print("reach: off by " + ", ".join(f"{v:.2f}" for v in np.median(off, 0)) + " cells in the median")
    for i, kind in enumerate(KINDS):
        known = there[:, :, i] != NOT_SEEN
        odds, is_there = said[:, :, i][known], there[:, :, i][known] == 1
        order = np.argsort(-odds)
        right = np.cumsum(is_there[order])
        precision, recall = right / np.arange(1, len(right) + 1), right / is_there.sum()
        print(f"{kind}: {is_there.sum()} cells; recall at precision " + ", ".join(
            f"{p}: {recall[precision >= p].max(initial=0):.3f}" for p in (0.95, 0.9, 0.8, 0.5)))


main()
