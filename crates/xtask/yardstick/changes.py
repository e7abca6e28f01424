"""What differs after alignment: ink on one side only, beyond the spread of ink."""

import cv2
import numpy as np

# Ink darker than this share is print; both sides are first brought to one blur of this many millimetres.
PRINT_SHARE = 0.35
BLUR_MM = 0.06
# Ink may be fatter, or lie off, by this much without being a difference.
SPREAD_MM = 0.2
# What is left after an opening of this width, and is at least this large, is a difference.
OPENING_MM = 0.25
AREA_MM2 = 0.25
# Neither may be finer than this many pixels: a coarse photograph shows no more.
FINEST_PX = 3
# Differences nearer to each other than this are one place.
JOIN_MM = 0.8


def places(ink_a: np.ndarray, ink_b: np.ndarray, seen: np.ndarray, ppi: float):
    """Boxes (x, y, w, h in pixels of A) with a score 0 to 1, of ink on one side only.

    `ink_b` and `seen` (where B was photographed at all) lie on A's pixels.
    """
    mm = ppi / 25.4

    def disk(width_mm):
        size = max(FINEST_PX, 2 * round(width_mm * mm / 2) + 1)
        return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))

    blur = max(0.3, BLUR_MM * mm)
    a = (cv2.GaussianBlur(ink_a, (0, 0), blur) > PRINT_SHARE).astype(np.uint8)
    b = (cv2.GaussianBlur(ink_b, (0, 0), blur) > PRINT_SHARE).astype(np.uint8)
    wide = disk(2 * SPREAD_MM)
    only_a = a & ~cv2.dilate(b, wide) & seen
    only_b = b & ~cv2.dilate(a, wide) & seen
    odd = cv2.morphologyEx(only_a | only_b, cv2.MORPH_OPEN, disk(OPENING_MM))
    joined = cv2.dilate(odd, disk(JOIN_MM))
    count, labels, stats, _ = cv2.connectedComponentsWithStats(joined)
    area = np.bincount(labels.ravel(), weights=odd.ravel(), minlength=count)
    found = []
    for i in range(1, count):
        size = area[i] / mm**2
        if size >= AREA_MM2:
            x, y, w, h = (int(v) for v in stats[i, :4])
            found.append((float(1 - np.exp(-size / 0.5)), (x, y, w, h)))
    return sorted(found, key=lambda f: -f[0])
