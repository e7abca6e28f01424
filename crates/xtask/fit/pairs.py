"""Pairs of impressions of cuts that were compared, simulated and real, as they are fitted to."""

import json
import pathlib

import numpy as np

# Left out of the real pairs are a composite that shares a piece (40) and look-alikes whose strokes lie on each other line for line
# (64, 65, 95). Pairs of neighbouring numbers are of one book.
DOUBTFUL, OF_A_BOOK = (40, 64, 65, 95), 8
# Real ink is more uneven than the press's: each real pair counts for so many simulated ones.
REAL_COUNTS = 3.0
KINDS = {"one block": True, "close copy": False, "same letter or subject": False, "drawn as it was": True, "drawn as a copy": False}


class Pairs:
    """Numbers of simulated pairs are their own; real ones stand from REAL on, those drawn anew from DRAWN on."""

    REAL, DRAWN = 100_000, 101_000

    def __init__(self, folder):
        self.folders = {0: folder, self.REAL: folder.parent / "blocks-real"}
        outcomes = json.loads((folder / "said.json").read_text())
        self.simulated = {o["kept"]["planned"]["number"]: o for o in outcomes}
        file = self.folders[self.REAL] / "said.json"
        listed = json.loads(file.read_text()) if file.exists() else []
        self.real = {self.REAL + o["id"]: o for o in listed if o["id"] % 1000 not in DOUBTFUL}
        self.relation = {n: o["kept"]["planned"]["pair"]["relation"]["is"] for n, o in self.simulated.items()}
        self.single = [n for n, o in self.simulated.items() if o["kept"]["planned"]["pair"]["cut"]["cut"] == "one"]
        # Composites, altered blocks and other designs are told otherwise.
        self.one = {n: self.relation[n] != "re-cut" for n in self.single
                    if self.relation[n] in ("same-block", "cast", "re-cut")}
        self.one |= {n: KINDS[o["kind"]] for n, o in self.real.items()}

    def sights(self, size):
        """What windows of both say, a row each: the pair, the place, log odds; and what is seen of them."""
        rows, views = [], []
        for first, folder in self.folders.items():
            if (folder / "sights.f32").exists():
                of = np.fromfile(folder / "sights.f32", "<f4").reshape(-1, 4).astype(float)
                of[:, 0] += first
                rows.append(of)
                views.append(np.fromfile(folder / "sights.u8", np.uint8).reshape(-1, size))
        return np.concatenate(rows), np.concatenate(views)

    def counts(self, n):
        return REAL_COUNTS if self.REAL <= n < self.DRAWN else 1.0

    def group(self, n):
        """Pairs that stay together in cross-validation."""
        return n if n < self.REAL else n % 1000 // OF_A_BOOK
