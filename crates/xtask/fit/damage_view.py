"""Fits the network that sees a place at which ink is lacking: `damage_view.py FOLDER [FOLDER OF seen.f32]`.

FOLDER holds the cells of `cargo xtask bench damage --set fit`. Only places are gone through that the program looks at: those that its
network of signs (damage.py) does not take for next to impossible. Without the second folder it is fitted to four fifths of the
histories, and how well it does is told on the rest.
"""

import pathlib
import sys
import time

import numpy as np
import torch
from torch import nn
from torch.nn.utils.fusion import fuse_conv_bn_eval

from damage import read, told

# Samples of a side, planes of a picture and after each layer of convolutions, values between the full layers: as in the program
# (evidence::block::damage::view and seen).
SIDE, PLANES, HIDDEN = 32, [5, 16, 24, 32], 48
# Times that the places are gone through, places at a time, and the largest step.
EPOCHS, BATCH, STEP = 6, 256, 1.5e-3
# Of cells that are not gone, and that the program was so sure of when it wrote them, one in so many is gone through and counts for all.
SURE, ONE_IN = 0.03, 3
FOLDS = 5


class Net(nn.Module):
    def __init__(self, signs):
        super().__init__()
        pairs = list(zip(PLANES, PLANES[1:]))
        self.convolutions = nn.ModuleList(nn.Conv2d(i, o, 3, padding=1) for i, o in pairs)
        self.evened = nn.ModuleList(nn.BatchNorm2d(o) for _, o in pairs)
        self.full = nn.Linear(PLANES[-1] * (SIDE // 8) ** 2 + signs, HIDDEN)
        self.last = nn.Linear(HIDDEN, 1)
        self.dropped = nn.Dropout(0.25)

    def forward(self, x, signs):
        for layer, evened in zip(self.convolutions, self.evened):
            x = torch.relu(nn.functional.max_pool2d(evened(layer(x)), 2))
        x = torch.cat([x.flatten(1), signs], 1)
        return self.last(torch.relu(self.full(self.dropped(x))))[:, 0]


def varied(x):
    """The same places as they might have been as well: mirrored, turned, a little aside, with more or less ink."""
    n = len(x)
    for axis in (2, 3):
        turned = torch.rand(n) < 0.5
        x[turned] = x[turned].flip(axis)
    turned = torch.rand(n) < 0.5
    x[turned] = x[turned].transpose(2, 3)
    x = torch.roll(x, tuple(np.random.randint(-1, 2, 2)), (2, 3))
    gain = torch.ones(n, PLANES[0], 1, 1)
    gain[:, 0] = (1 + 0.1 * torch.randn(n, 1, 1)).clamp(0.7, 1.3)
    return x * gain


def pictures(views, of):
    return torch.from_numpy(np.ascontiguousarray(views[of]).reshape(-1, SIDE, SIDE, PLANES[0])).permute(0, 3, 1, 2).float() / 255


def fitted(views, signs, y, counts):
    """To the cells given, all of them."""
    torch.manual_seed(1)
    np.random.seed(1)
    net = Net(signs.shape[1]).to(memory_format=torch.channels_last)
    optimiser = torch.optim.AdamW(net.parameters(), lr=STEP, weight_decay=0.02)
    steps = EPOCHS * (len(y) // BATCH)
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, STEP, total_steps=steps, pct_start=0.15)
    signs, y, counts = (torch.from_numpy(v).float() for v in (signs, y, counts))
    began = time.time()
    for epoch in range(EPOCHS):
        net.train()
        cost = 0.0
        order = np.random.permutation(len(y))
        for at in range(0, len(y) // BATCH * BATCH, BATCH):
            of = np.sort(order[at:at + BATCH])
            with torch.autocast("cpu", torch.bfloat16):
                said = net(varied(pictures(views, of)).contiguous(memory_format=torch.channels_last), signs[of])
            loss = nn.functional.binary_cross_entropy_with_logits(said.float(), y[of], counts[of])
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            pace.step()
            cost += loss.item() * BATCH
        print(f"  {epoch + 1} of {EPOCHS}: {cost / len(y):.4f}, {time.time() - began:.0f} s", flush=True)
    return net.eval()


def says(net, views, signs):
    with torch.no_grad():
        out = [net(pictures(views, np.arange(a, min(a + 2048, len(signs)))), torch.from_numpy(signs[a:a + 2048]).float())
               for a in range(0, len(signs), 2048)]
    return torch.sigmoid(torch.cat(out)).numpy()


def write(net, middle, spread, path):
    """Layer by layer, first the weights by tap, by plane that goes in, by plane that comes out; the signs as they are measured."""
    parts = []
    for layer, evened in zip(net.convolutions, net.evened):
        layer = fuse_conv_bn_eval(layer, evened)
        parts += [layer.weight.detach().permute(2, 3, 1, 0), layer.bias.detach()]
    cells = PLANES[-1] * (SIDE // 8) ** 2
    weight, bias = net.full.weight.detach(), net.full.bias.detach().clone()
    seen = weight[:, :cells].reshape(HIDDEN, PLANES[-1], SIDE // 8, SIDE // 8).permute(2, 3, 1, 0)
    of_signs = weight[:, cells:] / torch.from_numpy(spread).float()
    bias -= of_signs @ torch.from_numpy(middle).float()
    parts += [seen, of_signs.T, bias, net.last.weight.detach()[0], net.last.bias.detach()]
    np.concatenate([p.contiguous().numpy().astype("<f4").ravel() for p in parts]).tofile(path)


def main():
    folder = pathlib.Path(sys.argv[1])
    cells = read(folder)
    views = np.concatenate([np.fromfile(f, np.uint8).reshape(-1, SIDE * SIDE * PLANES[0])
                            for f in sorted((folder / "cells").glob("*.u8"))])
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
    net = fitted(views[fit], z[fit], y[fit], np.where(sure, ONE_IN, 1.0)[fit] * counts[fit])
    if len(sys.argv) > 2:
        write(net, middle, spread, pathlib.Path(sys.argv[2], "seen.f32"))
        return
    rest = np.flatnonzero(seen & held)
    told({k: v[rest] for k, v in cells.items()}, says(net, views[rest], z[rest]))


main()
