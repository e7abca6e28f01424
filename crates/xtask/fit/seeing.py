"""Networks that see small pictures and are told what was measured of them, as the program has them (evidence::eye)."""

import time

import numpy as np
import torch
from torch import nn
from torch.nn.utils.fusion import fuse_conv_bn_eval

# Samples of a side, planes after each layer of convolutions, values between the full layers.
SIDE, SEES, HIDDEN = 32, [16, 24, 32], 48
# Pictures at a time, and the largest step.
BATCH, STEP = 256, 1.5e-3


class Net(nn.Module):
    def __init__(self, planes, signs):
        super().__init__()
        pairs = list(zip([planes, *SEES], SEES))
        self.convolutions = nn.ModuleList(nn.Conv2d(i, o, 3, padding=1) for i, o in pairs)
        self.evened = nn.ModuleList(nn.BatchNorm2d(o) for _, o in pairs)
        self.full = nn.Linear(SEES[-1] * (SIDE // 8) ** 2 + signs, HIDDEN)
        self.last = nn.Linear(HIDDEN, 1)
        self.dropped = nn.Dropout(0.25)

    def forward(self, x, signs):
        for layer, evened in zip(self.convolutions, self.evened):
            x = torch.relu(nn.functional.max_pool2d(evened(layer(x)), 2))
        x = torch.cat([x.flatten(1), signs], 1)
        return self.last(torch.relu(self.full(self.dropped(x))))[:, 0]


def turned(x):
    """The same pictures, each mirrored and turned at random."""
    n = len(x)
    for axis in (2, 3):
        which = torch.rand(n) < 0.5
        x[which] = x[which].flip(axis)
    which = torch.rand(n) < 0.5
    x[which] = x[which].transpose(2, 3)
    return x


def pictures(views, of, planes):
    chosen = np.ascontiguousarray(views[of]).reshape(-1, SIDE, SIDE, planes)
    return torch.from_numpy(chosen).permute(0, 3, 1, 2).float() / 255


def fitted(views, planes, signs, y, counts, varied, epochs, of_epoch=None):
    """To the pictures given; `of_epoch(chance)` tells which of them are gone through in one epoch (all, if it is not given)."""
    torch.manual_seed(1)
    np.random.seed(1)
    of_epoch = of_epoch or (lambda: np.arange(len(y)))
    net = Net(planes, signs.shape[1]).to(memory_format=torch.channels_last)
    optimiser = torch.optim.AdamW(net.parameters(), lr=STEP, weight_decay=0.02)
    steps = epochs * (len(of_epoch()) // BATCH)
    pace = torch.optim.lr_scheduler.OneCycleLR(optimiser, STEP, total_steps=steps, pct_start=0.15)
    signs, y, counts = (torch.from_numpy(v).float() for v in (signs, y, counts))
    began = time.time()
    for epoch in range(epochs):
        net.train()
        cost, weight = 0.0, 0.0
        order = np.random.permutation(of_epoch())
        for at in range(0, len(order) // BATCH * BATCH, BATCH):
            of = np.sort(order[at:at + BATCH])
            with torch.autocast("cpu", torch.bfloat16):
                seen = varied(turned(pictures(views, of, planes)))
                said = net(seen.contiguous(memory_format=torch.channels_last), signs[of])
            loss = nn.functional.binary_cross_entropy_with_logits(said.float(), y[of], counts[of])
            optimiser.zero_grad()
            loss.backward()
            optimiser.step()
            pace.step()
            cost, weight = cost + loss.item() * BATCH, weight + counts[of].sum().item()
        print(f"  {epoch + 1} of {epochs}: {cost / weight:.4f}, {time.time() - began:.0f} s", flush=True)
    return net.eval()


def log_odds(net, views, planes, signs):
    with torch.no_grad():
        out = [net(pictures(views, np.arange(a, min(a + 2048, len(signs))), planes), torch.from_numpy(signs[a:a + 2048]).float())
               for a in range(0, len(signs), 2048)]
    return torch.cat(out).numpy()


def write(net, middle, spread, path):
    """Layer by layer, first the weights by tap, by plane that goes in, by plane that comes out; the signs as they are measured."""
    parts = []
    for layer, evened in zip(net.convolutions, net.evened):
        layer = fuse_conv_bn_eval(layer, evened)
        parts += [layer.weight.detach().permute(2, 3, 1, 0), layer.bias.detach()]
    cells = SEES[-1] * (SIDE // 8) ** 2
    weight, bias = net.full.weight.detach(), net.full.bias.detach().clone()
    seen = weight[:, :cells].reshape(HIDDEN, SEES[-1], SIDE // 8, SIDE // 8).permute(2, 3, 1, 0)
    of_signs = weight[:, cells:] / torch.from_numpy(spread).float()
    bias -= of_signs @ torch.from_numpy(middle).float()
    parts += [seen, of_signs.T, bias, net.last.weight.detach()[0], net.last.bias.detach()]
    np.concatenate([p.contiguous().numpy().astype("<f4").ravel() for p in parts]).tofile(path)
