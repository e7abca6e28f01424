"""What scikit-image and SciPy give for the kernels that Reglet has of its own.

Usage: kernels.py ncc W H X Y SIDE       a grey plane on standard input, one byte a sample, row by row: the normalised
                                         cross-correlation of its SIDE x SIDE window at (X, Y) with the whole plane
       kernels.py gaussian W H SIGMA     a plane of 32-bit floats: blurred, the edge repeated, cut off at 3 sigma
       kernels.py surface N WIDTH        N rows of x, y, dx, dy, weight as 64-bit floats: the robust quadratic surface
                                         through (dx, dy) at the origin, by scipy.optimize.least_squares (Cauchy)
       kernels.py spectrum W H           a plane of complex numbers of two 32-bit floats: its discrete Fourier
                                         transform, by scipy.fft
       kernels.py slope W H MOST         a grey plane of ink, one byte a sample: the degrees, MOST at most to either side, by which
                                         its lines fall to the right, where the projection of skimage.transform.radon is
                                         sharpest
Answers are little-endian 32-bit floats.
"""

import sys

import numpy as np


def ncc(w: int, h: int, x: int, y: int, side: int) -> np.ndarray:
    from skimage.feature import match_template

    plane = np.frombuffer(sys.stdin.buffer.read(), np.uint8).reshape(h, w).astype(np.float64)
    return match_template(plane, plane[y : y + side, x : x + side])


def gaussian(w: int, h: int, sigma: float) -> np.ndarray:
    from scipy.ndimage import gaussian_filter

    plane = np.frombuffer(sys.stdin.buffer.read(), "<f4").reshape(h, w).astype(np.float64)
    return gaussian_filter(plane, sigma, mode="nearest", radius=int(np.ceil(3 * sigma)))


def surface(n: int, width: float) -> np.ndarray:
    from scipy.optimize import least_squares

    x, y, dx, dy, weight = np.frombuffer(sys.stdin.buffer.read(), "<f8").reshape(n, 5).T
    u, v = x / width, y / width
    basis = np.stack([np.ones(n), u, v, u * u, u * v, v * v], 1)
    root = np.sqrt(weight * np.exp(-0.5 * (u * u + v * v)))
    shifts = np.stack([dx, dy], 1)
    # The Cauchy loss at the scale of the errors of the sound samples, found by a first fit to the median.
    start = np.linalg.lstsq(basis * root[:, None], shifts * root[:, None], rcond=None)[0]

    def off(flat, robust_scale):
        left = shifts - basis @ flat.reshape(6, 2)
        length = np.hypot(left[:, 0], left[:, 1]) / robust_scale
        # least_squares sums rho(f^2); weights by distance go inside as the square root of the loss does.
        return root * np.sqrt(np.log1p(length**2))

    flat = start.ravel()
    for _ in range(8):
        left = shifts - basis @ flat.reshape(6, 2)
        scale = 2.385 * np.median(np.hypot(left[:, 0], left[:, 1])) / 1.1774
        flat = least_squares(off, flat, args=(scale,)).x
    return flat.reshape(6, 2)[0]


def slope(w: int, h: int, most: float) -> np.ndarray:
    from skimage.transform import radon

    plane = np.frombuffer(sys.stdin.buffer.read(), np.uint8).reshape(h, w).astype(np.float64)
    step = 0.05
    falls = np.arange(-most, most + step / 2, step)
    # Columns of the turned plane are added up; rows lie along them at a quarter turn.
    shadows = radon(plane, theta=90 - falls, circle=False)
    sharp = (np.diff(shadows, axis=0) ** 2).sum(axis=0)
    k = int(np.clip(sharp.argmax(), 1, len(sharp) - 2))
    before, here, after = sharp[k - 1 : k + 2]
    return np.array([falls[k] + step * (before - after) / (2 * (before - 2 * here + after))])


def spectrum(w: int, h: int) -> np.ndarray:
    from scipy.fft import fft2

    plane = np.frombuffer(sys.stdin.buffer.read(), "<c8").reshape(h, w)
    return fft2(plane.astype(np.complex128)).astype("<c8").view("<f4")


if __name__ == "__main__":
    kernels = {"ncc": ncc, "gaussian": gaussian, "surface": surface, "spectrum": spectrum, "slope": slope}
    kernel = kernels[sys.argv[1]]
    numbers = [float(n) if "." in n else int(n) for n in sys.argv[2:]]
    sys.stdout.buffer.write(np.ascontiguousarray(kernel(*numbers), "<f4").tobytes())
