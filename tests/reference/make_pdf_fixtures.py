"""Makes the small PDFs of crates/sheet/tests/fixtures/decode from the pictures that make_fixtures.py put
there, and beside each the brightness of its page picture as NAME.pgm. Whole documents come from img2pdf and
reportlab, odd pictures are put in with pikepdf, which also reads every one back for the expected brightness.

Usage: make_pdf_fixtures.py FOLDER"""

import io
import sys
import zlib
from pathlib import Path

import img2pdf
import numpy as np
import pikepdf
from pikepdf import Array, Dictionary, Name, Stream
from PIL import Image
from reportlab.pdfgen import canvas

OUT = Path(sys.argv[1])
GREY = Image.open(OUT / "rgb.png").convert("L")
RGB = Image.open(OUT / "rgb.png")
BITS = Image.open(OUT / "bits-plain.tif.pgm")
W, H = GREY.size
POINTS = (W * 72 / 300, H * 72 / 300)  # placed at 300 ppi


def keep(name: str, expected: Image.Image) -> None:
    expected.convert("L").save(OUT / f"{name}.pgm")


def from_img2pdf(name: str, source: str) -> None:
    layout = img2pdf.get_fixed_dpi_layout_fun((300, 300))
    (OUT / name).write_bytes(img2pdf.convert(str(OUT / source), layout_fun=layout, nodate=True))
    keep(name, Image.open(OUT / f"{source}.pgm"))


def document(*pages: tuple[Stream | None, str], rotate: int = 0, **objects) -> bytes:
    """A PDF with one picture a page, drawn by the content given (or at 300 ppi)."""
    pdf = pikepdf.new()
    for picture, content in pages:
        resources = Dictionary()
        if picture is not None:
            named = {"P": picture, **objects}
            resources.XObject = Dictionary({f"/{k}": pdf.make_indirect(make(pdf)) for k, make in named.items()})
        page = Dictionary(Type=Name.Page, MediaBox=Array([0, 0, 100, 100]), Resources=resources, Rotate=rotate,
                          Contents=pdf.make_stream(content.encode()))
        pdf.pages.append(pikepdf.Page(pdf.make_indirect(page)))
    out = io.BytesIO()
    pdf.save(out, deterministic_id=True, static_id=False)
    return out.getvalue()


PLACE = f"q {POINTS[0]} 0 0 {POINTS[1]} 10 10 cm /P Do Q"


def image(data: bytes, **entries):
    def make(pdf):
        given = dict(Type=Name.XObject, Subtype=Name.Image, Width=W, Height=H, BitsPerComponent=8)
        return Stream(pdf, data, **{**given, **entries})
    return make


def put(name: str, content: bytes, expected: Image.Image) -> None:
    (OUT / name).write_bytes(content)
    keep(name, expected)


from_img2pdf("jpeg.pdf", "420.jpg")
from_img2pdf("cmyk-jpeg.pdf", "cmyk-adobe.jpg")
from_img2pdf("jp2.pdf", "lossless.jp2")
from_img2pdf("group4.pdf", "group4.tif")
from_img2pdf("flate.pdf", "rgb.png")
from_img2pdf("palette.pdf", "palette-4.png")

stream = io.BytesIO()
page = canvas.Canvas(stream, pagesize=POINTS, invariant=True)
# reportlab writes ASCII85 over Flate.
page.drawImage(str(OUT / "rgb.png"), 0, 0, *POINTS)
page.save()
put("ascii85.pdf", stream.getvalue(), RGB)

grey = zlib.compress(GREY.tobytes())
put("reversed.pdf", document((image(zlib.compress(bytes(255 - np.asarray(GREY))), Filter=Name.FlateDecode,
    ColorSpace=Name.DeviceGray, Decode=Array([1, 0])), PLACE)), GREY)
put("one-ink.pdf", document((image(zlib.compress(bytes(255 - np.asarray(GREY))), Filter=Name.FlateDecode,
    ColorSpace=Array([Name.Separation, Name.Black, Name.DeviceGray,
                      Dictionary(FunctionType=2, Domain=Array([0, 1]), C0=Array([1]), C1=Array([0]), N=1)])), PLACE)), GREY)
deep = (np.asarray(GREY).astype(">u2") * 257).tobytes()
put("deep.pdf", document((image(zlib.compress(deep), Filter=Name.FlateDecode, ColorSpace=Name.DeviceGray,
    BitsPerComponent=16), PLACE)), GREY)
bits = np.packbits(np.asarray(BITS) > 0, axis=1).tobytes()
put("stencil.pdf", document((image(bits, ImageMask=True, BitsPerComponent=1), PLACE)), BITS)
fax = io.BytesIO()
BITS.convert("1").save(fax, format="TIFF", compression="group4")
with Image.open(io.BytesIO(fax.getvalue())) as tif:
    offset, count, white = tif.tag_v2[273][0], tif.tag_v2[279][0], tif.tag_v2[262]
mmr = fax.getvalue()[offset:offset + count]
parameters = Dictionary(K=-1, Columns=W, Rows=H, BlackIs1=True)
# The TIFF calls sample 1 (the fax's black) white; with BlackIs1 the PDF does too.
put("group4-black-is-1.pdf", document((image(mmr, Filter=Name.CCITTFaxDecode, ColorSpace=Name.DeviceGray,
    BitsPerComponent=1, DecodeParms=parameters), PLACE)), BITS)


def segment(number: int, kind: int, body: bytes) -> bytes:
    """A JBIG2 segment of page 1 (ITU-T T.88, 7.2)."""
    return number.to_bytes(4, "big") + bytes([kind, 0, 1]) + len(body).to_bytes(4, "big") + body


side = W.to_bytes(4, "big") + H.to_bytes(4, "big")
sheet = segment(0, 48, side + bytes(8) + bytes([0]) + bytes(2))
# An immediate generic region in MMR coding, which is that of Group 4; its black is 1, drawn with OR.
region = segment(1, 38, side + bytes(8) + bytes([0]) + bytes([1]) + mmr)
put("jbig2.pdf", document((image(sheet + region, Filter=Name.JBIG2Decode, ColorSpace=Name.DeviceGray,
    BitsPerComponent=1), PLACE)), BITS.point(lambda v: 255 - v))

plain = image(grey, Filter=Name.FlateDecode, ColorSpace=Name.DeviceGray)
put("turned-page.pdf", document((plain, PLACE), rotate=90), GREY.transpose(Image.Transpose.ROTATE_270))
put("turned-picture.pdf", document((plain, f"q 0 {POINTS[0]} {-POINTS[1]} 0 50 10 cm /P Do Q")),
    GREY.transpose(Image.Transpose.ROTATE_90))
put("mirrored-picture.pdf", document((plain, f"q {-POINTS[0]} 0 0 {POINTS[1]} 50 10 cm /P Do Q")),
    GREY.transpose(Image.Transpose.FLIP_LEFT_RIGHT))
put("with-stamp.pdf", document((plain, PLACE + " q 1 0 0 1 80 80 cm /S Do Q"), S=plain), GREY)


def form(pdf):
    inner = pdf.make_indirect(plain(pdf))
    return Stream(pdf, b"q 1 0 0 1 0 0 cm /Inner Do Q", Type=Name.XObject, Subtype=Name.Form,
                  BBox=Array([0, 0, 1, 1]), Resources=Dictionary(XObject=Dictionary(Inner=inner)))


put("form.pdf", document((form, PLACE)), GREY)

# Without an expected brightness: refused.
(OUT / "pages-2.pdf").write_bytes(document((plain, PLACE), (image(bits, ColorSpace=Name.DeviceGray, BitsPerComponent=1), PLACE)))
(OUT / "lines-only.pdf").write_bytes(document((None, "10 10 m 50 50 l S")))
(OUT / "layers.pdf").write_bytes(document((plain, PLACE + " " + PLACE.replace("/P", "/S")), S=plain))
letterhead = PLACE + " BT /F 12 Tf 10 50 Td (In the matter of the sheet) Tj ET"
(OUT / "letterhead.pdf").write_bytes(document((plain, letterhead)))
bomb = image(bits, ColorSpace=Name.DeviceGray, BitsPerComponent=1, Width=30000, Height=30000)
(OUT / "bomb.pdf").write_bytes(document((bomb, PLACE)))
with pikepdf.open(OUT / "flate.pdf") as pdf:
    pdf.save(OUT / "locked.pdf", encryption=pikepdf.Encryption(owner="o", user="u", R=4))
    pdf.save(OUT / "unprintable.pdf", encryption=pikepdf.Encryption(owner="o", user="", R=4))

# What pikepdf itself makes of each, where it can: a check on the expectations above.
for path in sorted(OUT.glob("*.pdf")):
    expected = path.with_suffix(".pdf.pgm")
    if expected.exists():
        with pikepdf.open(path) as pdf:
            images = pdf.pages[0].get_images()
            for raw in images.values():
                try:
                    read = pikepdf.PdfImage(raw).as_pil_image().convert("L")
                except Exception as problem:
                    print(path.name, "not read by pikepdf:", repr(problem)[:70])
                    continue
                there = np.asarray(Image.open(expected)).astype(int)
                if read.size == there.shape[::-1]:
                    print(path.name, "mean difference of pikepdf", abs(np.asarray(read) - there).mean().round(3))
