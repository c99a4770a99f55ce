"""Picture files that the tests make for themselves."""

import io
import random
import struct
import zlib

from PIL import Image


def encoded(image: Image.Image, kind: str = "JPEG", **options: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def decoded(data: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


def textured(size: tuple[int, int] = (640, 480)) -> Image.Image:
    """A picture with detail everywhere, so that every byte of its JPEG matters."""
    width, height = size[0] // 4, size[1] // 4
    grain = Image.frombytes("RGB", (width, height), random.Random(1).randbytes(width * height * 3))
    return grain.resize(size, Image.Resampling.BICUBIC)


def png(width: int, height: int, bits: int, grey_rows: bytes) -> bytes:
    """A grey PNG from its raw filtered rows, written without an imaging library."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, bits, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(grey_rows, 9))
        + chunk(b"IEND", b"")
    )
