"""The yardstick: what a competent user of OpenCV would write for the same job, and no more.

SIFT points and a robust plane view; a grid of 3 mm patches by normalised cross-correlation with
parabolic sub-pixel peaks; the paper's smooth motion; each patch's leave-one-out residual against its
neighbours; a verdict by fixed thresholds; differences by comparing the aligned inks.
"""

import time

import cv2
import numpy as np

import changes
import ink
import motion
import place

# Thresholds of the verdict. They were set once, from the trials told of in the project's design paper
# (one setting 0.05-0.08 mm at whole pixels, a resetting 0.17 mm and more), not fitted to a set.
AGREE_SCORE = 0.6  # a patch agrees when it is found at least so well ...
AGREE_MM = 0.1  # ... and moves with its neighbours to within this
SAME_SHARE = 0.85  # share of agreeing patches from which a sheet is one setting
PART_SHARE = 0.45  # share from which part of it is
SAME_TEXT_SCORE = 0.62  # median score from which the words are the same, set again
FEWEST_PATCHES = 30
UNKNOWN_PPI = 300.0


def _read(path: str) -> np.ndarray:
    grey = cv2.imread(path, cv2.IMREAD_GRAYSCALE)
    if grey is None:
        raise ValueError(f"{path}: not a picture that OpenCV can read")
    return grey


def compare(path_a: str, path_b: str, ppi_a=None, ppi_b=None, points=()) -> dict:
    """Everything the yardstick says of a pair; `points` are places on A whose places on B are wanted."""
    start = time.perf_counter()
    a, b = _read(path_a), _read(path_b)
    decoded = time.perf_counter() - start
    known = ppi_a is not None
    ppi_a, ppi_b = ppi_a or UNKNOWN_PPI, ppi_b or ppi_a or UNKNOWN_PPI
    said = _compare(a, b, ppi_a, ppi_b, np.array(points, np.float32).reshape(-1, 2), known)
    said["decode_seconds"] = decoded
    return said


def _compare(a, b, ppi_a, ppi_b, points, known) -> dict:
    h, at_a, at_b, count_a, count_b = place.plane_view(a, b, ppi_a, ppi_b)
    if h is None:
        # Plenty of points on both and none that agree: other words. Few points: nothing can be said.
        plenty = min(count_a, count_b) >= 1500
        return {"verdict": "different-text" if plenty else "undetermined", "why": "too few points agree"}
    mm = ppi_a / 25.4

    # The agreeing points already tell how the paper lies; then the patches tell it finer.
    flat = cv2.perspectiveTransform(at_b[:, None], np.linalg.inv(h))[:, 0]
    field = motion.smooth_fit(at_a, flat - at_a, 3 if len(at_a) >= 60 else 1)
    ink_a, ink_b = ink.darkness(a, ppi_a), ink.darkness(b, ppi_b)
    nodes, grid_shape = _grid(a.shape)
    on_b = _onto_a(b.shape, h, a.shape, nodes, grid_shape, field(nodes))
    shrink = _shrink(h, a.shape)
    if shrink > 1.3:
        # B is much finer than A: blur it first, or its letters break up.
        ink_b = cv2.GaussianBlur(ink_b, (0, 0), 0.5 * np.sqrt(shrink**2 - 1))
    laid_b = cv2.remap(ink_b, on_b[..., 0], on_b[..., 1], cv2.INTER_LINEAR)
    places, shifts, scores = motion.patches(ink_a, laid_b, ppi_a)
    if len(places) < FEWEST_PATCHES:
        return {"verdict": "undetermined", "why": "too few patches of print"}
    residual = np.linalg.norm(shifts - motion.local_fit(places, shifts, places, True), axis=1)

    trusted = scores >= motion.SCORE_LEAST
    if trusted.sum() >= FEWEST_PATCHES:
        fine = motion.local_fit(places[trusted], shifts[trusted], nodes, False)
        total = field(nodes) + fine
        on_b = _onto_a(b.shape, h, a.shape, nodes, grid_shape, total)
        laid_b = cv2.remap(ink_b, on_b[..., 0], on_b[..., 1], cv2.INTER_LINEAR)
        at_points = field(points) + motion.local_fit(places[trusted], shifts[trusted], points, False) if len(points) else points
    else:
        at_points = field(points) if len(points) else points

    agree = float(((scores >= AGREE_SCORE) & (residual <= AGREE_MM * mm)).mean())
    seen = ((on_b[..., 0] > 1) & (on_b[..., 0] < b.shape[1] - 2) & (on_b[..., 1] > 1) & (on_b[..., 1] < b.shape[0] - 2)).astype(np.uint8)
    odd = changes.places(ink_a, laid_b, seen, ppi_a)
    verdict = _verdict(agree, float(np.median(scores)), bool(odd))
    median = float(np.median(residual))
    to_b = cv2.perspectiveTransform((points + at_points).astype(np.float32)[:, None], h)[:, 0] if len(points) else points
    return {
        "verdict": verdict,
        # Larger when one setting is likelier. No likelihood ratio: it has never been calibrated.
        "score": -float(np.log10(median / mm + 1e-3)),
        "residual": {"median_mm": median / mm if known else None, "median_px": median},
        "changes": [_change(s, box, on_b) for s, box in odd] if verdict in ONE_SETTING else [],
        "points": [[float(x), float(y)] for x, y in to_b],
        "patches": len(places),
        "agree": agree,
        "median_score": float(np.median(scores)),
    }


ONE_SETTING = ("same-setting", "same-setting-with-differences", "partly-reset")


def _verdict(agree: float, median_score: float, differs: bool) -> str:
    if agree >= SAME_SHARE:
        return "same-setting-with-differences" if differs else "same-setting"
    if agree >= PART_SHARE:
        return "partly-reset"
    return "different-setting" if median_score >= SAME_TEXT_SCORE else "different-text"


def _grid(shape, step: int = 16):
    """Places every `step` pixels over A, and the grid's shape."""
    ys, xs = np.arange(0, shape[0] + step, step), np.arange(0, shape[1] + step, step)
    gx, gy = np.meshgrid(xs, ys)
    return np.stack([gx.ravel(), gy.ravel()], 1).astype(np.float32), gx.shape


def _onto_a(shape_b, h, shape_a, nodes, grid_shape, shifts):
    """For every pixel of A its place on B, as OpenCV counts pixels (a centre is a whole number)."""
    to_b = cv2.perspectiveTransform((nodes + shifts).astype(np.float32)[:, None], h)[:, 0]
    grid = to_b.reshape(grid_shape + (2,)).astype(np.float32)
    height, width = shape_a
    step = 16.0
    xs = np.broadcast_to((np.arange(width, dtype=np.float32) + 0.5) / step, (height, width))
    ys = np.broadcast_to(((np.arange(height, dtype=np.float32) + 0.5) / step)[:, None], (height, width))
    return cv2.remap(grid, np.ascontiguousarray(xs), np.ascontiguousarray(ys), cv2.INTER_LINEAR) - 0.5


def _shrink(h, shape) -> float:
    """Pixels of B to one of A in the middle of A."""
    x, y = shape[1] / 2, shape[0] / 2
    p = cv2.perspectiveTransform(np.float32([[[x, y]], [[x + 1, y]], [[x, y + 1]]]), h)[:, 0]
    u, v = p[1] - p[0], p[2] - p[0]
    return float(np.sqrt(abs(u[0] * v[1] - u[1] * v[0])))


def _change(score, box, on_b) -> dict:
    x, y, w, h = box
    corners = on_b[[y, y, y + h - 1, y + h - 1], [x, x + w - 1, x, x + w - 1]]
    low, high = corners.min(0), corners.max(0)
    return {
        "score": score,
        "box_a_px": [x, y, w, h],
        "box_b_px": [float(v) for v in (*low, *(high - low))],
    }
