"""Makes the 8-megapixel JPEG of the decoding benchmark. Usage: make_bench_jpeg.py FILE"""

import sys
from pathlib import Path

import numpy as np
from PIL import Image, ImageFilter

W, H = 2448, 3264
seeded = np.random.default_rng(1605)
y, x = np.mgrid[0:H, 0:W]
ink = np.zeros((H, W))
for top in range(200, H - 200, 60):  # lines of type: upright strokes of uneven width and height
    left = 200
    while left < W - 220:
        width = int(seeded.integers(3, 9))
        ink[top:top + int(seeded.integers(18, 34)), left:left + width] = seeded.uniform(0.7, 1)
        left += width + int(seeded.integers(4, 14))
ink = np.asarray(Image.fromarray((ink * 255).astype(np.uint8)).filter(ImageFilter.GaussianBlur(1.2))) / 255
paper = np.stack([232 - x / 90, 222 - x / 90 - y / 300, 196 - x / 60], axis=-1)
grain = seeded.normal(0, 4, (H, W, 1)) + seeded.normal(0, 1.5, (H, W, 3))
page = (paper * (1 - 0.85 * ink[..., None]) + grain).clip(0, 255).astype(np.uint8)
out = Path(sys.argv[1])
out.parent.mkdir(parents=True, exist_ok=True)
Image.fromarray(page).save(out, quality=90, subsampling=2, dpi=(300, 300))
