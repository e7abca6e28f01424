"""Makes the small pictures of crates/sheet/tests/fixtures/decode and, beside each, the brightness that
Pillow reads from it as NAME.pgm. Not run by the tests: the files are kept in the repository.

Usage: make_fixtures.py FOLDER"""

import io
import struct
import subprocess
import sys
from pathlib import Path

import imagecodecs
import numpy as np
import png
import tifffile
from PIL import Image, ImageDraw
from luminance import luminance

OUT = Path(sys.argv[1])
OUT.mkdir(parents=True, exist_ok=True)
W, H = 29, 19  # odd, and no multiple of a JPEG block


def page() -> Image.Image:
    """Warm paper with a shadow, two black lines, a red initial, a blue stamp."""
    y, x = np.mgrid[0:H, 0:W]
    paper = np.stack([235 - 2 * x, 225 - 2 * x - y, 195 - 3 * x], axis=-1)
    picture = Image.fromarray(paper.clip(0, 255).astype(np.uint8))
    draw = ImageDraw.Draw(picture)
    draw.rectangle((10, 3, 25, 5), fill=(30, 25, 20))
    draw.rectangle((10, 9, 22, 11), fill=(42, 38, 35))
    draw.rectangle((2, 2, 7, 8), fill=(170, 40, 30))
    draw.rectangle((18, 13, 24, 16), fill=(40, 60, 140))
    return picture


RGB = page()
GREY = RGB.convert("L")
BITS = GREY.point(lambda v: 255 if v > 110 else 0).convert("1")
CMYK = RGB.convert("CMYK")
DEEP = (np.asarray(GREY).astype(np.uint16) * 257) + np.arange(W, dtype=np.uint16) * 3
DEEP_RGB = np.asarray(RGB).astype(np.uint16) * 256 + 77
ALPHA = Image.fromarray((np.mgrid[0:H, 0:W][1] * 9).clip(0, 255).astype(np.uint8))
CLEAR = RGB.copy()
CLEAR.putalpha(ALPHA)


def keep(name: str, expected: Image.Image | None = None) -> None:
    """Writes the brightness beside a file that now stands in OUT."""
    grey = expected if expected is not None else luminance(str(OUT / name))
    grey.convert("L").save(OUT / f"{name}.pgm")


def pillow(name: str, picture: Image.Image, expected: Image.Image | None = None, **options) -> None:
    picture.save(OUT / name, **options)
    keep(name, expected)


def data(name: str, content: bytes, expected: Image.Image | None = None) -> None:
    (OUT / name).write_bytes(content)
    keep(name, expected)


def narrowed(values: np.ndarray) -> Image.Image:
    """16-bit values as the nearest of 256 equal steps."""
    return Image.fromarray(np.round(values / 257).astype(np.uint8))


# JPEG
pillow("grey.jpg", GREY, quality=90, dpi=(300, 300))
pillow("444.jpg", RGB, quality=90, subsampling=0)
pillow("422.jpg", RGB, quality=90, subsampling=1)
pillow("420.jpg", RGB, quality=90, subsampling=2, dpi=(400, 400))
pillow("progressive.jpg", RGB, quality=90, progressive=True)
pillow("progressive-grey.jpg", GREY, quality=90, progressive=True)
pillow("restarts.jpg", RGB, quality=90, restart_marker_blocks=1)
pillow("rgb-adobe.jpg", RGB, quality=90, keep_rgb=True)
pillow("cmyk-adobe.jpg", CMYK, quality=90)
pixels = np.ascontiguousarray(np.asarray(RGB))
for sampling in ("411", "440"):
    data(f"{sampling}.jpg", imagecodecs.jpeg8_encode(pixels, level=90, subsampling=sampling))
inks = np.ascontiguousarray(255 - np.asarray(CMYK))  # Adobe counts light
data("ycck-adobe.jpg", imagecodecs.jpeg8_encode(inks, level=90, colorspace="CMYK", outcolorspace="YCCK"))
# Every component in a scan of its own, by libjpeg-turbo's jpegtran (Debian: libjpeg-turbo-progs); of two with
# colour coarse down the columns no picture is expected.
(OUT / "scans.txt").write_text("0;\n1;\n2;\n")
for sampling in ("444", "422", "420", "440"):
    name = f"apart-{sampling}.jpg"
    subprocess.run(["jpegtran", "-scans", OUT / "scans.txt", "-outfile", OUT / name, OUT / f"{sampling}.jpg"], check=True)
    if sampling in ("444", "422"):
        keep(name)
(OUT / "scans.txt").unlink()
for turn in range(1, 9):
    exif = Image.Exif()
    exif[0x0112] = turn
    exif[0x011A], exif[0x011B], exif[0x0128] = 118.11, 236.22, 3
    pillow(f"turned-{turn}.jpg", RGB, quality=90, exif=exif)
grain = np.random.default_rng(1605).normal(150, 30, (240, 64)).clip(0, 255).astype(np.uint8)
tall = Image.fromarray(grain)
pillow("tall.jpg", tall, quality=20)
pillow("tall-progressive.jpg", tall, quality=20, progressive=True)

# PNG
for depth in (1, 2, 4, 8, 16):
    top = 2**depth - 1
    rows = np.round(np.asarray(GREY) / 255 * top).astype(int)
    for interlace in (False, True):
        stream = io.BytesIO()
        png.Writer(W, H, greyscale=True, bitdepth=depth, interlace=interlace).write(stream, rows.tolist())
        name = f"grey-{depth}{'-interlaced' if interlace else ''}.png"
        data(name, stream.getvalue(), Image.fromarray(np.round(rows * (255 / top)).astype(np.uint8)))
for bits in (1, 2, 4, 8):
    few = RGB.quantize(2**bits)
    pillow(f"palette-{bits}.png", few, bits=bits, dpi=(300, 300))
pillow("palette-clear.png", RGB.quantize(8), transparency=2)
pillow("rgb.png", RGB)
pillow("rgba.png", CLEAR)
pillow("grey-alpha.png", CLEAR.convert("LA"))
data("rgb-16.png", imagecodecs.png_encode(DEEP_RGB), Image.merge("RGB", [narrowed(DEEP_RGB[..., i]) for i in range(3)]))
stream = io.BytesIO()
png.Writer(W, H, greyscale=False, interlace=True).write(stream, np.asarray(RGB).reshape(H, -1).tolist())
data("rgb-interlaced.png", stream.getvalue())
exif = Image.Exif()
exif[0x0112] = 6
pillow("turned-6.png", RGB, exif=exif)
pillow("animated.png", RGB, save_all=True, append_images=[RGB.rotate(180)], expected=GREY)

# TIFF
pillow("plain.tif", GREY, dpi=(300, 300))
pillow("lzw.tif", RGB, compression="tiff_lzw", resolution_unit=3, x_resolution=118.0, y_resolution=118.0)
pillow("packbits.tif", RGB, compression="packbits")
pillow("deflate.tif", RGB, compression="tiff_adobe_deflate")
pillow("jpeg-ycbcr.tif", RGB, compression="jpeg", quality=90)
pillow("jpeg-grey.tif", GREY, compression="jpeg", quality=90)
pillow("cmyk.tif", CMYK, compression="tiff_lzw")
pillow("palette.tif", RGB.quantize(200), compression="tiff_lzw")
pillow("bits-plain.tif", BITS)
pillow("bits-packbits.tif", BITS, compression="packbits")
pillow("group4.tif", BITS, compression="group4")
pillow("group3.tif", BITS, compression="group3")
pillow("group3-2d.tif", BITS, compression="group3", tiffinfo={292: 1})
pillow("group4-reversed.tif", BITS, compression="group4", tiffinfo={266: 2})
pillow("fax-rows.tif", BITS, compression="tiff_ccitt")
pillow("turned-8.tif", RGB, tiffinfo={274: 8})


def tif(name: str, values: np.ndarray, expected: Image.Image | None = None, **options) -> None:
    tifffile.imwrite(OUT / name, values, metadata=None, **options)
    keep(name, expected)


tif("white-is-zero.tif", 255 - np.asarray(GREY), GREY, photometric="miniswhite")
bits = np.asarray(BITS)
tif("bits-white-is-zero.tif", ~bits, BITS, photometric="miniswhite", rowsperstrip=5)
tif("deep.tif", DEEP, narrowed(DEEP), compression="lzw", predictor=True, photometric="minisblack", resolution=(400, 400),
    resolutionunit=2)
tif("deep-big-endian.tif", DEEP, narrowed(DEEP), byteorder=">", photometric="minisblack")
deep_rgb = Image.merge("RGB", [narrowed(DEEP_RGB[..., i]) for i in range(3)])
tif("deep-rgb.tif", DEEP_RGB, deep_rgb, compression="zlib", predictor=True, photometric="rgb")
planes = np.moveaxis(np.asarray(RGB), -1, 0)
tif("planar.tif", np.ascontiguousarray(planes), GREY, photometric="rgb", planarconfig="separate", rowsperstrip=8)
tif("alpha.tif", np.asarray(CLEAR), photometric="rgb", extrasamples=["unassalpha"], compression="zlib")
ready = np.asarray(CLEAR).astype(float)
ready[..., :3] *= ready[..., 3:] / 255
tif("alpha-premultiplied.tif", np.round(ready).astype(np.uint8), luminance(str(OUT / "rgba.png")),
    photometric="rgb", extrasamples=["assocalpha"])
tif("spare-sample.tif", np.asarray(CLEAR), GREY, photometric="rgb", extrasamples=["unspecified"])
tif("tiled.tif", np.asarray(RGB), photometric="rgb", tile=(16, 16), compression="zlib", predictor=True)
tif("tiled-jpeg.tif", np.asarray(RGB.convert("YCbCr")), photometric="ycbcr", tile=(16, 16), compression="jpeg",
    compressionargs={"level": 90}, subsampling=(2, 2))
tif("jpeg-rgb.tif", np.asarray(RGB), photometric="rgb", compression="jpeg", rowsperstrip=16,
    compressionargs={"level": 90, "outcolorspace": "rgb"})
tif("big.tif", np.asarray(RGB), photometric="rgb", bigtiff=True)
index = np.asarray(GREY) >> 4
ramp = (np.arange(16) * 17 * 256).astype(np.uint16)
colours = np.stack([ramp, ramp[::-1], ramp])
spread = np.stack([index * 17, 255 - index * 17, index * 17], axis=-1).astype(np.uint8)


def bare_tif(bits: int, rows: bytes, photometric: int, colours: np.ndarray | None = None) -> bytes:
    """A little-endian TIFF of one plain strip with samples of fewer than eight bits, which neither Pillow
    nor tifffile writes (Pillow reads them)."""
    tags = [(256, 3, 1, W), (257, 3, 1, H), (258, 3, 1, bits), (259, 3, 1, 1), (262, 3, 1, photometric),
            (273, 4, 1, 8), (277, 3, 1, 1), (278, 3, 1, H), (279, 4, 1, len(rows))]
    palette = b"" if colours is None else colours.astype("<u2").tobytes()
    if palette:
        tags.append((320, 3, len(palette) // 2, 8 + len(rows)))
    body = rows + palette + b"\0" * ((len(rows) + len(palette)) % 2)
    entries = b"".join(struct.pack("<HHII", *tag) for tag in tags)
    return struct.pack("<2sHI", b"II", 42, 8 + len(body)) + body + struct.pack("<H", len(tags)) + entries + b"\0" * 4


packed = imagecodecs.packints_encode(np.ascontiguousarray(index.astype(np.uint8)), 4, runlen=W)
data("palette-4-bits.tif", bare_tif(4, packed, 3, colours), Image.fromarray(spread))
data("grey-4-bits.tif", bare_tif(4, packed, 1), Image.fromarray((index * 17).astype(np.uint8)))
data("white-is-zero-4-bits.tif", bare_tif(4, packed, 0), Image.fromarray((255 - index * 17).astype(np.uint8)))

with tifffile.TiffWriter(OUT / "pyramid.tif") as levels:
    levels.write(np.asarray(RGB), photometric="rgb", tile=(16, 16), metadata=None)
    levels.write(np.asarray(RGB)[::2, ::2], photometric="rgb", tile=(16, 16), subfiletype=1, metadata=None)
keep("pyramid.tif", GREY)
with tifffile.TiffWriter(OUT / "pages.tif") as leaves:
    leaves.write(np.asarray(GREY)[:9, :9], photometric="minisblack", metadata=None)
    leaves.write(np.asarray(GREY), photometric="minisblack", metadata=None)
    leaves.write(np.asarray(GREY)[:7, :5], photometric="minisblack", metadata=None)
keep("pages.tif", GREY)

# WebP
pillow("lossy.webp", RGB, quality=90)
pillow("lossless.webp", RGB, lossless=True)
pillow("alpha.webp", CLEAR, lossless=True)
exif = Image.Exif()
exif[0x0112] = 3
pillow("turned-3.webp", RGB, lossless=True, exif=exif)
pillow("animated.webp", RGB, save_all=True, append_images=[RGB.rotate(180)], lossless=True, expected=GREY)

# JPEG 2000
pillow("grey.jp2", GREY)
pillow("lossless.jp2", RGB)
pillow("lossy.jp2", RGB, irreversible=True, quality_mode="dB", quality_layers=[42])
pillow("bare.j2k", RGB)
pillow("tiles.jp2", RGB, tile_size=(16, 16))
pillow("alpha.jp2", CLEAR)
Image.fromarray(DEEP).save(OUT / "deep.jp2")
keep("deep.jp2", narrowed(DEEP))

# A single pixel, and nothing but paper or ink
for kind in ("png", "jpg", "tif", "jp2", "webp"):
    RGB.crop((0, 0, 1, 1)).save(OUT / f"one-pixel.{kind}")
Image.new("L", (W, H), 255).save(OUT / "white.png")
Image.new("L", (W, H), 0).save(OUT / "black.jpg")

# What a camera's raw file looks like: a small preview, and the samples of the sensor in a directory within
with tifffile.TiffWriter(OUT / "camera-raw.tif") as raw:
    raw.write(np.asarray(RGB)[::2, ::2], photometric="rgb", subifds=1, metadata=None)
    raw.write(DEEP, photometric="cfa", metadata=None)
