"""Writes the brightness of a picture as Pillow reads it: width and height as two little-endian 32-bit
numbers, then one byte a pixel. Usage: luminance.py PICTURE...; the pictures follow one another."""

import struct
import sys

import numpy as np
from PIL import Image, ImageOps

Image.MAX_IMAGE_PIXELS = None


def luminance(path: str) -> Image.Image:
    """The picture as turned by its EXIF orientation, on white paper, in mode L."""
    picture = ImageOps.exif_transpose(Image.open(path))
    if picture.mode.startswith("I;16"):
        # Pillow clips 16-bit grey at 255 where it converts it; take the nearest of 256 equal steps.
        values = np.asarray(picture).astype(np.float64)
        return Image.fromarray(np.round(values / 257).astype(np.uint8))
    if picture.mode in ("LA", "RGBA", "PA") or "transparency" in picture.info:
        picture = picture.convert("RGBA")
        white = Image.new("RGBA", picture.size, "white")
        picture = Image.alpha_composite(white, picture).convert("RGB")
    return picture.convert("L")


if __name__ == "__main__":
    for name in sys.argv[1:]:
        grey = luminance(name)
        sys.stdout.buffer.write(struct.pack("<II", *grey.size) + grey.tobytes())
