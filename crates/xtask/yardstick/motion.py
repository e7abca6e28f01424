"""The paper's own motion after the plane view, over a grid of small patches, and what moves alone."""

import cv2
import numpy as np
from scipy.spatial import cKDTree

PATCH_MM = 3.0
STEP_MM = 2.0
REACH_MM = 1.0
# A patch must hold some ink and some paper to have a place at all.
INK_LEAST, INK_MOST, CONTRAST_LEAST = 0.03, 0.7, 0.1
NEIGHBOURS = 24
# Patches that match worse than this take no part in the paper's motion.
SCORE_LEAST = 0.6


def smooth_fit(places: np.ndarray, shifts: np.ndarray, degree: int):
    """A polynomial surface through scattered shifts, robustly; returns a function of places (N x 2)."""
    centre, spread = places.mean(0), places.std(0) * 2 + 1

    def terms(x):
        u = (x - centre) / spread
        return np.stack([u[:, 0] ** i * u[:, 1] ** j for i in range(degree + 1) for j in range(degree + 1 - i)], 1)

    rows, weight = terms(places), np.ones(len(places))
    for _ in range(10):
        fit = np.linalg.lstsq(rows * weight[:, None], shifts * weight[:, None], rcond=None)[0]
        off = np.linalg.norm(shifts - rows @ fit, axis=1)
        weight = 1 / (1 + (off / (2 * np.median(off) + 1e-6)) ** 2)
    return lambda x: terms(x) @ fit


def local_fit(places: np.ndarray, shifts: np.ndarray, at: np.ndarray, skip_first: bool):
    """Shift at each place `at` by a robust affine fit through the nearest `NEIGHBOURS` of `places`.

    With `skip_first` the nearest one (the place itself) is left out: leave-one-out.
    """
    count = min(NEIGHBOURS + int(skip_first), len(places))
    _, near = cKDTree(places).query(at, k=count)
    near = near.reshape(len(at), count)[:, int(skip_first):]
    d = (places[near] - at[:, None]).astype(np.float64)
    scale = np.abs(d).max(axis=(1, 2), keepdims=True) + 1e-9
    rows = np.concatenate([d / scale, np.ones(d.shape[:2] + (1,))], 2)
    goal = shifts[near].astype(np.float64)
    weight = np.ones(d.shape[:2])
    for _ in range(6):
        weighted = rows * weight[..., None]
        normal = np.einsum("nki,nkj->nij", weighted, rows) + 1e-6 * np.eye(3)
        fit = np.linalg.solve(normal, np.einsum("nki,nkj->nij", weighted, goal))
        off = np.linalg.norm(goal - rows @ fit, axis=2)
        weight = 1 / (1 + (off / (2 * np.median(off, axis=1, keepdims=True) + 0.05)) ** 2)
    return fit[:, 2]


def _peak(scores: np.ndarray):
    """Best score and its place (x, y) with a parabola through the neighbours in each direction."""
    _, best, _, (x, y) = cv2.minMaxLoc(scores)
    fx, fy = float(x), float(y)
    if 0 < x < scores.shape[1] - 1:
        l, m, r = scores[y, x - 1 : x + 2]
        bend = l - 2 * m + r
        fx += float(0.5 * (l - r) / bend) if bend < 0 else 0.0
    if 0 < y < scores.shape[0] - 1:
        t, m, b = scores[y - 1 : y + 2, x]
        bend = t - 2 * m + b
        fy += float(0.5 * (t - b) / bend) if bend < 0 else 0.0
    return best, fx, fy


def patches(ink_a: np.ndarray, ink_b: np.ndarray, ppi: float, reach_mm: float = REACH_MM):
    """(places, shifts, scores) of every patch of A that can be judged, in pixels of A.

    `ink_b` must already lie on A's pixels. A shift is where the patch is found, less where it is on A.
    """
    mm = ppi / 25.4
    half, step, reach = max(4, round(PATCH_MM * mm / 2)), max(4, round(STEP_MM * mm)), max(3, round(reach_mm * mm))
    height, width = ink_a.shape
    mean = cv2.blur(ink_a, (2 * half, 2 * half))
    square = cv2.blur(ink_a * ink_a, (2 * half, 2 * half))
    places, shifts, scores = [], [], []
    edge = half + reach
    for y in range(edge, height - edge, step):
        for x in range(edge, width - edge, step):
            m = mean[y, x]
            if not INK_LEAST < m < INK_MOST or square[y, x] - m * m < CONTRAST_LEAST**2:
                continue
            around = ink_b[y - edge : y + edge, x - edge : x + edge]
            if around.std() < 0.03:
                continue
            template = ink_a[y - half : y + half, x - half : x + half]
            best, fx, fy = _peak(cv2.matchTemplate(around, template, cv2.TM_CCOEFF_NORMED))
            places.append((x, y))
            shifts.append((fx - reach, fy - reach))
            scores.append(best)
    return (
        np.array(places, np.float32).reshape(-1, 2),
        np.array(shifts, np.float32).reshape(-1, 2),
        np.array(scores, np.float32),
    )
