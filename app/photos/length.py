"""A length from a photograph file: its size and focal length are read, its points are those of the upright picture."""

import math
import warnings
from collections.abc import Sequence
from pathlib import Path

from PIL import Image, UnidentifiedImageError

from app.photos.exif import focal_35_of, turn_of
from app.photos.intake import PhotoRefused, formats_for
from inspection_rules.measures.photo_height import PhotoRefusedError
from inspection_rules.measures.photo_length import ID1_MM, Photo, PhotoLength, photo_length
from inspection_rules.measures.plane import Point

HEAD = 16  # bytes that tell the kind of a file
SIDEWAYS = (
    Image.Transpose.ROTATE_90,
    Image.Transpose.ROTATE_270,
    Image.Transpose.TRANSPOSE,
    Image.Transpose.TRANSVERSE,
)
# A 35 mm frame is 36 × 24 mm; a camera states its equivalent focal length by the diagonal (CIPA DCG-001, from memory).
FRAME_DIAGONAL = math.hypot(36, 24)


def length_in_file(
    file: Path,
    card: Sequence[Point],
    path: Sequence[Point],
    *,
    card_mm: tuple[float, float] = ID1_MM,
    camera_mm: float | None = None,
    rope_mm: float | None = None,
) -> PhotoLength:
    """Return the length of a path in a photograph file; see `photo_length` for the arguments.

    Points are pixels of the picture as it is seen, upright, from its upper left corner.

    Raises:
        PhotoRefusedError: the file is no photograph that can be read, a point lies outside the picture, or no length
            can be taken like this; the message says why.
    """
    photo = photo_of(file)
    for x, y in (*card, *path):
        if not (0 <= x <= photo.width and 0 <= y <= photo.height):
            size = f"{photo.width} × {photo.height} pixels upright"
            raise PhotoRefusedError(f"the point {x:g},{y:g} lies outside the picture, which is {size}")
    return photo_length(photo, card, card_mm, path, camera_mm=camera_mm, rope_mm=rope_mm)


def photo_of(file: Path) -> Photo:
    """Return a photograph's upright size, and its focal length in pixels where the camera wrote it down.

    Only the head of the file is read.

    Raises:
        PhotoRefusedError: it cannot be read.
    """
    try:
        with file.open("rb") as opened:
            formats = formats_for(opened.read(HEAD), str(file))
        with warnings.catch_warnings(action="ignore"), Image.open(file, formats=formats) as image:
            width, height = image.size
            exif = image.getexif()
    except PhotoRefused as refused:
        raise PhotoRefusedError(str(refused)) from None
    except UnidentifiedImageError:
        raise PhotoRefusedError(
            f"{file}: it is not a photograph of a kind this program reads; use a JPEG file"
        ) from None
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        raise PhotoRefusedError(f"{file}: cannot be read ({getattr(error, 'strerror', None) or error})") from None
    if turn_of(exif) in SIDEWAYS:
        width, height = height, width
    focal = focal_35_of(exif)
    return Photo(width, height, focal * math.hypot(width, height) / FRAME_DIAGONAL if focal else None)
