"""Makes files that mean harm, for the corpus of the decoding fuzz target: bombs, loops, numbers too large.
Each is small. Usage: make_hostile.py FIXTURES CORPUS"""

import io
import struct
import sys
import zlib
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name, Stream

FIXTURES, OUT = Path(sys.argv[1]), Path(sys.argv[2])
OUT.mkdir(parents=True, exist_ok=True)


def write(name: str, content: bytes) -> None:
    (OUT / name).write_bytes(content)


def chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def tiff(entries: list[tuple[int, int, int, int]], after: int = 0, body: bytes = b"") -> bytes:
    """A little-endian TIFF of one directory, the body after it."""
    packed = b"".join(struct.pack("<HHII", *e) for e in sorted(entries))
    return struct.pack("<2sHIH", b"II", 42, 8, len(entries)) + packed + struct.pack("<I", after) + body


PLAIN = [(256, 3, 1, 8), (257, 3, 1, 8), (258, 3, 1, 8), (259, 3, 1, 1), (262, 3, 1, 1), (273, 4, 1, 8),
         (277, 3, 1, 1), (278, 3, 1, 8), (279, 4, 1, 64)]
# Once made the decoder ask for 137 GB.
write("tiff-tag-of-four-thousand-million-values.tif", tiff(PLAIN + [(296, 3, 0xFFFFFFFF, 8)], body=bytes(64)))
write("tiff-directory-that-follows-itself.tif", tiff(PLAIN, after=8, body=bytes(64)))
write("tiff-tiles-of-a-gigapixel.tif", tiff([e for e in PLAIN if e[0] not in (273, 278, 279)] + [
    (322, 4, 1, 1 << 20), (323, 4, 1, 1 << 20), (324, 4, 1, 8), (325, 4, 1, 64)], body=bytes(64)))
jpeg = bytearray((FIXTURES / "420.jpg").read_bytes())
frame = jpeg.find(b"\xff\xc0")
jpeg[frame + 5:frame + 9] = b"\xff\xff\xff\xff"
strip = [e for e in PLAIN if e[0] not in (259, 273, 279)] + [(259, 3, 1, 7), (279, 4, 1, len(jpeg))]
write("tiff-strip-that-is-a-jpeg-of-four-gigapixels.tif", tiff(strip + [(273, 4, 1, 14 + 12 * 9)], body=bytes(jpeg)))

head = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 8, 8, 8, 0, 0, 0, 0))
rows = chunk(b"IDAT", zlib.compress(bytes(9 * 8))) + chunk(b"IEND", b"")
bomb = zlib.compress(zlib.compress(bytes(1 << 26), 9), 9)
flat = zlib.compress(bytes(1 << 22), 9)
write("png-profile-that-is-a-bomb.png", head + chunk(b"iCCP", b"x\0\0" + flat) + rows)
write("png-text-that-is-a-bomb.png", head + chunk(b"zTXt", b"x\0\0" + flat) + rows)
write("png-more-rows-than-it-says.png", head + chunk(b"IDAT", flat) + chunk(b"IEND", b""))
write("png-chunk-longer-than-the-file.png", head + struct.pack(">I", 0x7FFFFFFF) + b"IDATxx")

W = H = 8


def pdf(picture=None, content: str = "8 0 0 8 0 0 cm /P Do", **more) -> bytes:
    document = pikepdf.new()
    named = {"/P": picture, **{f"/{k}": v for k, v in more.items()}}
    objects = Dictionary({k: document.make_indirect(make(document)) for k, make in named.items() if make})
    page = Dictionary(Type=Name.Page, MediaBox=Array([0, 0, 9, 9]), Resources=Dictionary(XObject=objects),
                      Contents=document.make_stream(content.encode()))
    document.pages.append(pikepdf.Page(document.make_indirect(page)))
    out = io.BytesIO()
    document.save(out, deterministic_id=True)
    return out.getvalue()


def image(data: bytes, **entries):
    def make(document):
        given = dict(Type=Name.XObject, Subtype=Name.Image, Width=W, Height=H, BitsPerComponent=8,
                     ColorSpace=Name.DeviceGray)
        return Stream(document, data, **{**given, **entries})
    return make


def own_form(document):
    form = Stream(document, b"/F Do /F Do /F Do", Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 1, 1]))
    form = document.make_indirect(form)
    form.Resources = Dictionary(XObject=Dictionary(F=form))
    return form


write("pdf-form-that-draws-itself.pdf", pdf(own_form, "/P Do"))
twice = Array([Name.FlateDecode, Name.FlateDecode])
write("pdf-picture-that-is-a-bomb.pdf", pdf(image(bomb, Filter=twice)))
write("pdf-index-beyond-its-table.pdf", pdf(image(bytes([255] * 64), ColorSpace=Array(
    [Name.Indexed, Name.DeviceRGB, 1, pikepdf.String(b"\0\0\0\xff\xff\xff")]))))
write("pdf-fax-of-rubbish.pdf", pdf(image(bytes(range(256)), Filter=Name.CCITTFaxDecode, BitsPerComponent=1,
    DecodeParms=Dictionary(K=-1, Columns=8, Rows=8))))


def segment(number: int, kind: int, body: bytes) -> bytes:
    return number.to_bytes(4, "big") + bytes([kind, 0, 1]) + len(body).to_bytes(4, "big") + body


def jbig2(*segments: bytes) -> bytes:
    return pdf(image(b"".join(segments), Filter=Name.JBIG2Decode, BitsPerComponent=1))


side = (8).to_bytes(4, "big") * 2
sheet = segment(0, 48, side + bytes(11))
huge = (0x0000FFFF).to_bytes(4, "big") * 2
write("pdf-jbig2-of-unknown-height.pdf", jbig2(segment(0, 48, side[:4] + b"\xff" * 4 + bytes(9) + b"\xff\xff")))
write("pdf-jbig2-region-of-four-gigapixels.pdf", jbig2(sheet, segment(1, 38, huge + bytes(9) + b"\1" + bytes(20))))
write("pdf-jbig2-arithmetic-region-of-four-gigapixels.pdf", jbig2(sheet, segment(1, 38, huge + bytes(9) + b"\0" + b"\3\xff\xfd\xff\2\xfe\xfe\xfe" + bytes(20))))

size = struct.pack(">8IH", 8, 8, 0, 0, 1, 1, 0, 0, 1) + b"\7\1\1"
soc = b"\xff\x4f\xff\x51" + struct.pack(">HH", len(size) + 4, 0)
big = struct.pack(">8IH", 900, 900, 0, 0, 1, 1, 0, 0, 1) + b"\7\1\1"
write("jp2-a-tile-for-every-pixel.j2k", soc + big + b"\xff\xd9")
many = struct.pack(">8IH", 900, 900, 0, 0, 900, 900, 0, 0, 4000) + b"\7\1\1" * 4000
write("jp2-four-thousand-components.j2k", b"\xff\x4f\xff\x51" + struct.pack(">HH", len(many) + 4, 0) + many + b"\xff\xd9")
