"""Fits the network that sees both impressions about a place, and writes its weights as a part of the program.

    view.py SET [FOLDER]

The folder SET holds pairs.json, places.jsonl and views.u8 of its pairs of one setting (cargo xtask bench fit view
writes them). With FOLDER it is fitted to all, on from the weights net.f32 that are there, and written there; without,
anew, to five sixths of the pairs, and how well it does is told on the rest.
"""

import sys
import time

import numpy as np
import torch
from torch import nn
from torch.nn.utils.fusion import fuse_conv_bn_eval

from fitting import FOLDS, evens, found, labels, read
from places import SORTS

# Samples of a side of a picture, planes after each layer of convolutions (close by, and of what stands about), values
# between the full layers: as in the program (evidence::changes::view).
SIDE = 32
CLOSE = [2, 24, 48, 64]
ABOUT = [2, 16, 24, 32]
HIDDEN = 64
# Where one way round says so little, the other is not asked for, as in the program.
LITTLE = -5.0
# Times that the places are gone through, places at a time, and the largest step. It learns for long: docs/benchmarks.md
# says what fewer rounds came to.
EPOCHS = 22
BATCH = 256
STEP = 1e-3
# Of places where nothing was done and that it is so sure of, log odds, one in so many is gone through again, and counts
# for all.
SURE, ONE_IN = -4.0, 5
# Numbers of half the length are only the quicker where the processor reckons with them.
with open("/proc/cpuinfo", encoding="utf-8") as processor:
    HALF_AS_LONG = "avx512_bf16" in processor.read()
# A place that was changed counts so much less than another: on a page they are far rarer than in what is fitted to, and
# what matters is how well they are told from the few others that are most like them.
RARER = 0.25


class Eye(nn.Module):
    """The convolutions that one of the pictures goes through. After each layer the values of a plane are brought to one
    mean and spread; when written that is a part of the weights."""

    def __init__(self, planes):
        super().__init__()
        pairs = zip(planes, planes[1:])
        self.convolutions = nn.ModuleList(nn.Conv2d(i, o, 3, padding=1) for i, o in pairs)
        self.evened = nn.ModuleList(nn.BatchNorm2d(o) for o in planes[1:])

    def forward(self, x):
        for layer, evened in zip(self.convolutions, self.evened):
            x = torch.relu(nn.functional.max_pool2d(evened(layer(x)), 2))
        return x.flatten(1)


class Net(nn.Module):
    def __init__(self):
        super().__init__()
        self.close, self.about = Eye(CLOSE), Eye(ABOUT)
        self.full = nn.Linear((CLOSE[-1] + ABOUT[-1]) * (SIDE // 8) ** 2, HIDDEN)
        self.last = nn.Linear(HIDDEN, 1)
        self.dropped = nn.Dropout(0.2)

    def forward(self, x):
        pictures = (x[:, k].contiguous(memory_format=torch.channels_last) for k in range(2))
        seen = [eye(picture) for eye, picture in zip((self.close, self.about), pictures)]
        x = torch.relu(self.full(self.dropped(torch.cat(seen, 1))))
        return self.last(x)[:, 0]


def varied(x):
    """The same places as they might have been as well: the two exchanged, seen in a mirror, a little aside, with more
    or less ink, with noise."""
    n = len(x)
    # Of each place: which picture, which impression, rows, columns.
    for axis in (2, 3, 4):
        turned = torch.rand(n) < 0.5
        x[turned] = x[turned].flip(axis)
    x[:, 0] = torch.roll(x[:, 0], tuple(np.random.randint(-2, 3, 2)), (2, 3))
    x[:, 1] = torch.roll(x[:, 1], tuple(np.random.randint(-1, 2, 2)), (2, 3))
    x = x * (1 + 0.15 * torch.randn(n, 1, 2, 1, 1)).clamp(0.6, 1.4)
    return x + 0.02 * torch.rand(n, 1, 1, 1, 1) * torch.randn_like(x)


def started(net, path, views):
    """The net with the weights that the program has. What brings the values of a plane to one mean and spread starts as
    what leaves them as they are."""
    rest = torch.from_numpy(np.fromfile(path, "<f4"))

    def read(*shape):
        nonlocal rest
        size = int(np.prod(shape))
        values, rest = rest[:size].view(shape), rest[size:]
        return values.clone()

    with torch.no_grad():
        for k, (eye, planes) in enumerate(((net.close, CLOSE), (net.about, ABOUT))):
            x = views[:, k].float() / 255
            for layer, evened, i, o in zip(eye.convolutions, eye.evened, planes, planes[1:]):
                layer.weight.copy_(read(3, 3, i, o).permute(3, 2, 0, 1))
                layer.bias.copy_(read(o))
                x = layer(x)
                evened.running_mean.copy_(x.mean((0, 2, 3)))
                evened.running_var.copy_(x.var((0, 2, 3)))
                evened.bias.copy_(evened.running_mean)
                evened.weight.copy_((evened.running_var + evened.eps).sqrt())
                x = torch.relu(nn.functional.max_pool2d(x, 2))
        side = SIDE // 8
        full = [read(side, side, planes[-1], HIDDEN).permute(3, 2, 0, 1).flatten(1) for planes in (CLOSE, ABOUT)]
        net.full.weight.copy_(torch.cat(full, 1))
        net.full.bias.copy_(read(HIDDEN))
        net.last.weight.copy_(read(1, HIDDEN))
        net.last.bias.copy_(read(1))
    assert len(rest) == 0, f"{path} holds more weights than the net has"
    return net


def fitted(views, y, start=None):
    torch.manual_seed(1)
    np.random.seed(1)
    views, y = torch.from_numpy(views), torch.from_numpy(y).float()
    net = Net()
    if start:
        net = started(net, start, views[torch.randperm(len(y))[:8192]])
    net = net.to(memory_format=torch.channels_last)
    optimiser = torch.optim.AdamW(net.parameters(), lr=STEP, weight_decay=0.01)
    said, counts = torch.zeros(len(y)), torch.ones(len(y))
    began = time.time()
    for epoch in range(EPOCHS):
        sure = (y == 0) & (said < SURE)
        again = ~sure | (torch.rand(len(y)) < 1 / ONE_IN)
        counts[:] = torch.where(sure, float(ONE_IN), torch.where(y > 0, RARER, 1.0))
        places = torch.where(again)[0]
        batches = places[torch.randperm(len(places))][: len(places) // BATCH * BATCH].split(BATCH)
        cost = 0.0
        for k, chosen in enumerate(batches):
            for group in optimiser.param_groups:
                group["lr"] = step_at((epoch + k / len(batches)) / EPOCHS)
            x = varied(views[chosen].float() / 255)
            with torch.autocast("cpu", torch.bfloat16, enabled=HALF_AS_LONG):
                told = net(x).float()
            losses = nn.functional.binary_cross_entropy_with_logits(told, y[chosen], reduction="none")
            loss = (losses * counts[chosen]).mean()
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            said[chosen] = told.detach()
            cost += loss.item()
        print(f"round {epoch + 1} of {EPOCHS}: {len(places)} places, cost {cost / len(batches):.4f}, "
              f"{time.time() - began:.0f} s", flush=True)
    return net.eval()


def step_at(share):
    """The step after a share of all rounds: it rises for a tenth of them, then falls as a cosine does."""
    rise = 0.1
    if share < rise:
        return STEP * (0.05 + 0.95 * share / rise)
    return STEP * (0.5 + 0.5 * np.cos(np.pi * (share - rise) / (1 - rise)))


def log_odds(net, views):
    """As the program gives them: the mean of the two taken either way round."""

    def both_ways(part):
        part = part.float() / 255
        told = net(part)
        asked = told > LITTLE
        told[asked] = (told[asked] + net(part[asked].flip(2))) / 2
        return told

    with torch.no_grad():
        return torch.cat([both_ways(part) for part in torch.from_numpy(views).split(2048)]).numpy()


def write(net, path):
    """Layer by layer the weights by tap (or sample), by plane that goes in, by plane that comes out; then the rest."""
    numbers = []
    for eye in (net.close, net.about):
        for layer in map(fuse_conv_bn_eval, eye.convolutions, eye.evened):
            numbers += [layer.weight.permute(2, 3, 1, 0), layer.bias]
    samples = (SIDE // 8) ** 2
    for full in net.full.weight.split([CLOSE[-1] * samples, ABOUT[-1] * samples], 1):
        numbers.append(full.view(HIDDEN, -1, SIDE // 8, SIDE // 8).permute(2, 3, 1, 0))
    numbers += [net.full.bias, net.last.weight, net.last.bias]
    torch.cat([n.detach().flatten() for n in numbers]).numpy().astype("<f4").tofile(path)


def how_well(views, y, told, fold_of, sides):
    """Prints how many changes it tells of a sixth of the pairs, fitted to the others."""
    held = np.array([fold_of[t["pair"]] == 0 for t in told])
    fit = ~held & (y >= 0)
    score = log_odds(fitted(views[fit], y[fit]), views[held])
    told = [t for t, h in zip(told, held) if h]
    kinds = {"all": np.ones(len(told), dtype=bool)}
    even = evens(told, score, y[held], kinds, round(sides / FOLDS / 20))
    n, of, false = found(told, score, SORTS, kinds, even)
    print(f"by the view alone, of pairs not fitted to: {n} of {of} changes, {false} false on {sides // FOLDS} sides")


def main():
    folder = sys.argv[1]
    numbers, fold_of, told = read(folder, "places")
    views = np.fromfile(f"{folder}/views.u8", np.uint8).reshape(-1, 2, 2, SIDE, SIDE)
    y = labels(told, SORTS)
    if len(sys.argv) < 3:
        how_well(views, y, told, fold_of, len(numbers))
        return
    path = f"{sys.argv[2]}/net.f32"
    net = fitted(views[y >= 0], y[y >= 0], path)
    write(net, path)
    y, x = np.indices((SIDE, SIDE))
    made_up = np.stack([(x // 6 + y // 9) % 2 * 220, (x // 7 + y // 5) % 2 * 180])
    made_up = torch.from_numpy(np.stack([made_up, made_up[::-1]])).view(1, 2, 2, SIDE, SIDE) / 255
    with torch.no_grad():
        print("for the test of the program:", net(made_up).item(), net(torch.zeros_like(made_up)).item())


if __name__ == "__main__":
    main()
