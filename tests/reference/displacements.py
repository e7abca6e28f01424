"""Where OpenCV finds windows of one photograph on another, for the tests that lay Reglet beside it.

Usage: displacements.py A B, with JSON on standard input: {"side": pixels, "points": [[x, y], ...]}, the middles of
square windows of A. Writes a JSON list, for each window [x on B, y on B, score, best score elsewhere], or null where it
is not found.

SIFT and a robust plane view, then template matching of each window with a parabolic peak, twice over: the second
time about the first answer, so that the peak lies near a whole pixel, and with the paper sloping as the neighbours
say. A pixel's centre is at one half.
"""

import json
import sys

import cv2
import numpy as np

SEEN = 1500  # longer side at which points are sought
RATIO = 0.8
REACH = 0.7  # how far a window is sought about the plane view, in windows
NEAR = 4  # the second time, pixels
SURE, MARGIN = 0.8, 0.1  # a window so like, and nowhere else nearly so, tells how the paper slopes
NEIGHBOURS = 2.5  # so many windows about a place are asked for the slope
STEEPEST = 0.03
ELSEWHERE = 3  # a peak farther off than this is another, pixels


def plane_view(a: np.ndarray, b: np.ndarray) -> np.ndarray | None:
    """The homography from pixels of A to pixels of B on which SIFT points agree."""
    sift = cv2.SIFT_create(8000)
    places, words = [], []
    for grey in (a, b):
        k = min(1.0, SEEN / max(grey.shape))
        found, described = sift.detectAndCompute(cv2.resize(grey, None, fx=k, fy=k, interpolation=cv2.INTER_AREA), None)
        places.append((np.float32([p.pt for p in found]) + 0.5) / k)
        words.append(described)
    pairs = cv2.BFMatcher().knnMatch(words[0], words[1], k=2)
    good = [p[0] for p in pairs if p[0].distance < RATIO * p[1].distance]
    if len(good) < 20:
        return None
    cv2.setRNGSeed(1)
    p, q = (places[0][[m.queryIdx for m in good]], places[1][[m.trainIdx for m in good]])
    h, _ = cv2.findHomography(p, q, cv2.USAC_MAGSAC, 6.0, maxIters=5000, confidence=0.999)
    return h


def to_b(h: np.ndarray, x, y) -> np.ndarray:
    """Places of A on B, in the shape of x with two more columns."""
    points = np.stack([np.ravel(x), np.ravel(y)], 1).astype(np.float64)[:, None]
    return cv2.perspectiveTransform(points, h).reshape(np.shape(x) + (2,))


def match(window: np.ndarray, b: np.ndarray, h: np.ndarray, corner: np.ndarray, shift, slope, reach: int):
    """(dx, dy, score, best score elsewhere) of the window, its upper left corner at `corner` of A, looked for about
    `shift` with A's paper sloping as `slope` says; None where it falls off B or its best place is at the edge."""
    side = window.shape[0]
    span = np.arange(-reach, side + reach) + 0.5 - side / 2
    u, v = np.meshgrid(span, span)
    middle = corner + side / 2 + shift
    on_b = to_b(h, middle[0] + u + slope[0][0] * u + slope[0][1] * v, middle[1] + v + slope[1][0] * u + slope[1][1] * v)
    if on_b.min() < 1 or (on_b[..., 0] > b.shape[1] - 1).any() or (on_b[..., 1] > b.shape[0] - 1).any():
        return None
    maps = (on_b - 0.5).astype(np.float32)
    laid = cv2.remap(b, maps[..., 0], maps[..., 1], cv2.INTER_LINEAR)
    scores = cv2.matchTemplate(laid, window, cv2.TM_CCOEFF_NORMED)
    _, best, _, (i, j) = cv2.minMaxLoc(scores)
    if not (0 < i < scores.shape[1] - 1 and 0 < j < scores.shape[0] - 1):
        return None
    dx, dy = i - reach + peak(scores[j, i - 1 : i + 2]), j - reach + peak(scores[j - 1 : j + 2, i])
    scores[max(j - ELSEWHERE, 0) : j + ELSEWHERE + 1, max(i - ELSEWHERE, 0) : i + ELSEWHERE + 1] = -1
    return shift + np.array([dx, dy]), best, float(scores.max())


def peak(three: np.ndarray) -> float:
    """Offset of the top of the parabola through three values."""
    low, middle, high = (float(s) for s in three)
    bend = low - 2 * middle + high
    return 0.0 if bend >= 0 else 0.5 * (low - high) / bend


def slope_at(at: np.ndarray, places: np.ndarray, shifts: np.ndarray, width: float) -> np.ndarray:
    """How the shifts of the neighbours slope at a place: least squares, twice, the second time without the half that
    fits worst. [[dsx/dx, dsx/dy], [dsy/dx, dsy/dy]]."""
    d = (places - at) / width
    near = (np.abs(d) < 1).all(1)
    basis, told = np.c_[np.ones(near.sum()), d[near]], shifts[near]
    for _ in range(2):
        if len(told) < 6:
            return np.zeros((2, 2))
        fit = np.linalg.lstsq(basis, told, rcond=None)[0]
        left = np.hypot(*(told - basis @ fit).T)
        kept = left <= np.median(left)
        basis, told = basis[kept], told[kept]
    return np.clip(fit[1:].T / width, -STEEPEST, STEEPEST)


def main() -> None:
    a, b = (cv2.imread(name, cv2.IMREAD_GRAYSCALE) for name in sys.argv[1:3])
    asked = json.load(sys.stdin)
    h = plane_view(a, b)
    side = int(asked["side"])
    still = np.zeros((2, 2))
    points = np.array(asked["points"]).reshape(-1, 2)
    corners = np.round(points - side / 2).astype(int)
    found = {}
    for n, corner in enumerate(corners):
        window = a[corner[1] : corner[1] + side, corner[0] : corner[0] + side]
        if h is not None and window.shape == (side, side) and corner.min() >= 0:
            first = match(window, b, h, corner, np.zeros(2), still, int(REACH * side))
            if first:
                found[n] = (window, *first)
    sure = [n for n, (_, _, score, rival) in found.items() if score > SURE and score - rival > MARGIN]
    places, shifts = corners[sure] + side / 2, np.array([found[n][1] for n in sure]).reshape(-1, 2)
    answers: list[list[float] | None] = [None] * len(points)
    for n, (window, shift, _, rival) in found.items():
        slope = slope_at(corners[n] + side / 2, places, shifts, NEIGHBOURS * side)
        second = match(window, b, h, corners[n], shift, slope, NEAR)
        if second:
            # The window may lie a fraction of a pixel off the point asked for.
            on_b = to_b(h, *(points[n] + second[0]))
            answers[n] = [float(on_b[0]), float(on_b[1]), second[1], rival]
    json.dump(answers, sys.stdout)


if __name__ == "__main__":
    main()
