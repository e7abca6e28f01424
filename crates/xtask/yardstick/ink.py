"""From grey levels to ink: how dark a pixel is as a share of the paper about it."""

import cv2
import numpy as np

# The paper is looked for at this many pixels to the inch: print is finer, shadows and stains coarser.
PAPER_PPI = 40.0


def darkness(grey: np.ndarray, ppi: float) -> np.ndarray:
    """Ink darkness, 0 (paper) to 1 (black), float32, of the shape of `grey` (uint8)."""
    k = min(1.0, PAPER_PPI / ppi)
    small = cv2.resize(grey, None, fx=k, fy=k, interpolation=cv2.INTER_AREA)
    # A closing of about 5 mm swallows letters; what stays is paper, smoothed over 2.5 mm.
    paper = cv2.morphologyEx(small, cv2.MORPH_CLOSE, cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (9, 9)))
    paper = cv2.GaussianBlur(paper, (0, 0), 4.0)
    paper = cv2.resize(paper, (grey.shape[1], grey.shape[0]), interpolation=cv2.INTER_LINEAR)
    share = cv2.divide(grey, np.maximum(paper, 1), dtype=cv2.CV_32F)
    return np.clip(1.0 - share, 0.0, 1.0)
