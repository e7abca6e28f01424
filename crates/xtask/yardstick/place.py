"""Coarse placement: SIFT points of both photographs, matched, and the plane view they agree on."""

import cv2
import numpy as np

# Points are sought on both photographs at this resolution, so that letters have one size on both.
POINT_PPI = 110.0
POINTS = 8000
RATIO = 0.8
# How far, in millimetres, a point may lie from the plane view: cockled paper is not plane.
REACH_MM = 0.8
# Fewer agreeing points than this come about by chance between different texts in one fount.
FEWEST = 20


def _points(grey: np.ndarray, ppi: float, sift):
    k = min(1.0, POINT_PPI / ppi)
    small = cv2.resize(grey, None, fx=k, fy=k, interpolation=cv2.INTER_AREA)
    found, words = sift.detectAndCompute(small, None)
    # OpenCV puts a pixel's centre at a whole number; here it lies at one half.
    places = np.array([p.pt for p in found], np.float32).reshape(-1, 2) + 0.5
    scale = np.array([grey.shape[1] / small.shape[1], grey.shape[0] / small.shape[0]], np.float32)
    return places * scale, words


def plane_view(a: np.ndarray, b: np.ndarray, ppi_a: float, ppi_b: float):
    """(H, places on A, places on B, points on A, points on B); H is None where too few points agree.

    H takes pixels of A to pixels of B; the places are those of the agreeing points, N x 2 float32.
    """
    sift = cv2.SIFT_create(POINTS)
    pa, wa = _points(a, ppi_a, sift)
    pb, wb = _points(b, ppi_b, sift)
    none = np.zeros((0, 2), np.float32)
    if len(pa) < FEWEST or len(pb) < FEWEST:
        return None, none, none, len(pa), len(pb)
    near = cv2.FlannBasedMatcher({"algorithm": 1, "trees": 4}, {"checks": 48}).knnMatch(wa, wb, k=2)
    good = [m[0] for m in near if len(m) == 2 and m[0].distance < RATIO * m[1].distance]
    if len(good) < FEWEST:
        return None, none, none, len(pa), len(pb)
    p = pa[[m.queryIdx for m in good]]
    q = pb[[m.trainIdx for m in good]]
    cv2.setRNGSeed(1)
    h, agree = cv2.findHomography(p, q, cv2.USAC_MAGSAC, REACH_MM * ppi_b / 25.4, maxIters=5000, confidence=0.999)
    if h is None or int(agree.sum()) < FEWEST or not _sane(h, a.shape):
        return None, none, none, len(pa), len(pb)
    kept = agree.ravel() > 0
    return h, p[kept], q[kept], len(pa), len(pb)


def _sane(h: np.ndarray, shape) -> bool:
    """Whether the view keeps the corners of A in order and to within an eightfold change of area."""
    height, width = shape
    corners = np.float32([[0, 0], [width, 0], [width, height], [0, height]])[:, None]
    seen = cv2.perspectiveTransform(corners, h)[:, 0]
    edges = np.roll(seen, -1, 0) - seen
    turns = edges[:, 0] * np.roll(edges, -1, 0)[:, 1] - edges[:, 1] * np.roll(edges, -1, 0)[:, 0]
    area = cv2.contourArea(seen)
    return bool(np.all(turns > 0)) and width * height / 64 < area < width * height * 64
