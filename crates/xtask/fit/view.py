"""Fits the network that sees both impressions about a place, and writes its weights as a part of the program.

    view.py SET [FOLDER]

The folder SET holds pairs.json, places.jsonl and views.u8 of its pairs of one setting (cargo xtask bench fit view
writes them). With FOLDER it is fitted to all, and written there; without, to five sixths of the pairs, and how well it
does is told on the rest.
"""

import sys

import numpy as np
import torch
from torch import nn
from torch.nn.utils.fusion import fuse_conv_bn_eval

from fitting import FOLDS, evens, found, labels, read
from places import SORTS

# Samples of a side of a view, planes after each layer of convolutions, values between the full layers: as in the
# program (evidence::changes::view).
SIDE = 32
PLANES = [2, 24, 48, 64]
HIDDEN = 64
# Where one way round says so little, the other is not asked for, as in the program.
LITTLE = -5.0
# Times that all places are gone through, places at a time, and the largest step. It learns for long: docs/benchmarks.md
# says what fewer rounds came to.
EPOCHS = 40
BATCH = 256
STEP = 2e-3
# A place that was changed counts so much less than another: on a page they are far rarer than in what is fitted to, and
# what matters is how well they are told from the few others that are most like them.
RARER = 0.25


class Net(nn.Module):
    """After each layer the values of a plane are brought to one mean and spread; when written that is a part of the
    weights."""

    def __init__(self):
        super().__init__()
        pairs = zip(PLANES, PLANES[1:])
        self.convolutions = nn.ModuleList(nn.Conv2d(i, o, 3, padding=1) for i, o in pairs)
        self.evened = nn.ModuleList(nn.BatchNorm2d(o) for o in PLANES[1:])
        self.full = nn.Linear(PLANES[-1] * (SIDE // 8) ** 2, HIDDEN)
        self.last = nn.Linear(HIDDEN, 1)
        self.dropped = nn.Dropout(0.2)

    def forward(self, x):
        for layer, evened in zip(self.convolutions, self.evened):
            x = torch.relu(nn.functional.max_pool2d(evened(layer(x)), 2))
        x = torch.relu(self.full(self.dropped(x.flatten(1))))
        return self.last(x)[:, 0]


def varied(x):
    """The same places as they might have been as well: the two exchanged, seen in a mirror, a little aside, with more
    or less ink, with noise."""
    n = len(x)
    for axis in (1, 2, 3):
        turned = torch.rand(n) < 0.5
        x[turned] = x[turned].flip(axis)
    x = torch.roll(x, tuple(np.random.randint(-2, 3, 2)), (2, 3))
    x = x * (1 + 0.15 * torch.randn(n, 2, 1, 1)).clamp(0.6, 1.4)
    return x + 0.02 * torch.rand(n, 1, 1, 1) * torch.randn_like(x)


def fitted(views, y):
    torch.manual_seed(1)
    np.random.seed(1)
    net = Net().to(memory_format=torch.channels_last)
    optimiser = torch.optim.AdamW(net.parameters(), lr=STEP, weight_decay=0.01)
    steps = EPOCHS * (len(y) // BATCH)
    schedule = torch.optim.lr_scheduler.OneCycleLR(optimiser, STEP, total_steps=steps)
    views, wanted, rarer = torch.from_numpy(views), torch.from_numpy(y).float(), torch.tensor(RARER)
    for _ in range(EPOCHS):
        for chosen in torch.randperm(len(y))[: len(y) // BATCH * BATCH].split(BATCH):
            x = varied(views[chosen].float() / 255).contiguous(memory_format=torch.channels_last)
            with torch.autocast("cpu", torch.bfloat16):
                told = net(x).float()
            loss = nn.functional.binary_cross_entropy_with_logits(told, wanted[chosen], pos_weight=rarer)
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            schedule.step()
    return net.eval()


def log_odds(net, views):
    """As the program gives them: the mean of the two taken either way round."""

    def both_ways(part):
        part = part.float() / 255
        told = net(part)
        asked = told > LITTLE
        told[asked] = (told[asked] + net(part[asked].flip(1))) / 2
        return told

    with torch.no_grad():
        return torch.cat([both_ways(part) for part in torch.from_numpy(views).split(2048)]).numpy()


def write(net, path):
    """Layer by layer the weights by tap (or sample), by plane that goes in, by plane that comes out; then the rest."""
    numbers = []
    for layer in map(fuse_conv_bn_eval, net.convolutions, net.evened):
        numbers += [layer.weight.permute(2, 3, 1, 0), layer.bias]
    full = net.full.weight.view(HIDDEN, PLANES[-1], SIDE // 8, SIDE // 8).permute(2, 3, 1, 0)
    numbers += [full, net.full.bias, net.last.weight, net.last.bias]
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
    views = np.fromfile(f"{folder}/views.u8", np.uint8).reshape(-1, 2, SIDE, SIDE)
    y = labels(told, SORTS)
    if len(sys.argv) < 3:
        how_well(views, y, told, fold_of, len(numbers))
        return
    net = fitted(views[y >= 0], y[y >= 0])
    write(net, f"{sys.argv[2]}/net.f32")
    y, x = np.indices((SIDE, SIDE))
    made_up = np.stack([(x // 6 + y // 9) % 2 * 220, (x // 7 + y // 5) % 2 * 180])
    made_up = torch.from_numpy(made_up).view(1, 2, SIDE, SIDE) / 255
    with torch.no_grad():
        print("for the test of the program:", net(made_up).item(), net(torch.zeros_like(made_up)).item())


if __name__ == "__main__":
    main()
