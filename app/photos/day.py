"""The day a stored photograph was taken, as its own bytes say it.

A record names those bytes by their hash, so that the day cannot be changed without its being seen.
"""

import io
from datetime import date, datetime

from PIL import Image, UnidentifiedImageError

from app.photos.exif import taken_at_of


def taken_day(jpeg: bytes) -> date | None:
    """Return the day by the camera's own clock; None where the file gives none or cannot be read."""
    try:
        taken = taken_at(jpeg)
    except ValueError:
        return None
    return datetime.fromisoformat(taken).date() if taken else None


def taken_at(jpeg: bytes) -> str | None:
    """Return when a stored photograph was taken, as `Photo.taken_at` says it; None where the file gives none.

    Raises:
        ValueError: it is no picture that can be read.
    """
    try:
        with Image.open(io.BytesIO(jpeg)) as picture:
            return taken_at_of(picture.getexif())
    except (UnidentifiedImageError, OSError, SyntaxError, Image.DecompressionBombError) as error:
        raise ValueError from error
