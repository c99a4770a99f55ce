"""Time taking in a photograph: `pip install pyvips-binary pyvips simplejpeg; python tests/benchmarks/bench_photos.py`.

Against libvips doing the same (shrunk to the same size, upright, JPEG of the same quality, a thumbnail of 320 pixels,
one thread), and against the floor: a turbo-JPEG decoder that only decodes at the same scale. They take turns.
"""

import hashlib
import io
import os
import random
import statistics
import time
from collections.abc import Callable

os.environ["VIPS_CONCURRENCY"] = "1"

import pyvips
import simplejpeg
from PIL import Image

from app.photos import intake
from app.photos.intake import LONG_SIDE, QUALITY, THUMBNAIL_SIDE

SIZES = {"12 megapixels": (4032, 3024), "48 megapixels": (8064, 6048)}
TIMES = 9


def photograph(size: tuple[int, int]) -> bytes:
    """A picture with texture and grain, held upright by its metadata, as a phone writes it."""
    rng = random.Random(7)
    small = Image.frombytes("RGB", (size[0] // 8, size[1] // 8), rng.randbytes(size[0] // 8 * (size[1] // 8) * 3))
    grain = Image.frombytes("L", (1024, 1024), rng.randbytes(1024 * 1024))
    picture = small.resize(size, Image.Resampling.BICUBIC)
    for x in range(0, size[0], 1024):
        for y in range(0, size[1], 1024):
            box = (x, y, min(x + 1024, size[0]), min(y + 1024, size[1]))
            part = grain.crop((0, 0, box[2] - x, box[3] - y)).convert("RGB")
            picture.paste(Image.blend(picture.crop(box), part, 0.06), box)
    exif = Image.Exif()
    exif[0x0112] = 6
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=92, exif=exif)
    return out.getvalue()


def by_vips(data: bytes) -> None:
    """Do the same with libvips, hashing the original and the copy as well."""
    hashlib.sha256(data).hexdigest()
    image = pyvips.Image.thumbnail_buffer(data, LONG_SIDE, height=LONG_SIDE, size="down")
    jpeg = image.jpegsave_buffer(Q=QUALITY, strip=True)
    hashlib.sha256(jpeg).hexdigest()
    pyvips.Image.thumbnail_buffer(jpeg, THUMBNAIL_SIDE).jpegsave_buffer(Q=QUALITY, strip=True)


def floor(data: bytes) -> None:
    """Decode at the same scale, and nothing else."""
    simplejpeg.decode_jpeg(data, "RGB", min_width=LONG_SIDE, min_height=LONG_SIDE * 3 // 4, fastdct=False)


def ours(data: bytes) -> None:
    """Take it in."""
    intake(data, "deck.jpg")


def milliseconds(work: Callable[[bytes], object], data: bytes) -> float:
    """Time one call."""
    began = time.perf_counter()
    work(data)
    return (time.perf_counter() - began) * 1000


if __name__ == "__main__":
    for name, size in SIZES.items():
        picture = photograph(size)
        took: dict[Callable[[bytes], None], list[float]] = {ours: [], by_vips: [], floor: []}
        for _ in range(TIMES):
            for work, times in took.items():
                times.append(milliseconds(work, picture))
        mine, vips, least = (statistics.median(times) for times in took.values())
        print(
            f"{name}, {len(picture) / 1e6:.1f} MB: {mine:.0f} ms; libvips {vips:.0f} ms, ratio {mine / vips:.2f} "
            f"(goal 1.3); decoder alone {least:.0f} ms, ratio {mine / least:.2f}"
        )
