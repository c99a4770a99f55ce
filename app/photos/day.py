"""The day a stored photograph was taken, as its own bytes say it, and how that lies to the day of an inspection.

The bytes are what the record names by their hash, so that day cannot be changed without it being seen.
"""

import io
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

MANY_DAYS, MANY_MONTHS = 60, 24
DAYS_A_MONTH, DAYS_A_YEAR = 30.44, 365.2425


@dataclass(frozen=True, slots=True)
class Before:
    """How long before an inspection a picture was taken, in whole units, rounded down."""

    count: int
    unit: Literal["day", "month", "year"]


def taken_day(jpeg: bytes) -> date | None:
    """Return the day by the camera's own clock; None where the file gives none or cannot be read."""
    from PIL import Image, UnidentifiedImageError

    from app.photos.exif import taken_at_of

    try:
        with Image.open(io.BytesIO(jpeg)) as picture:
            taken = taken_at_of(picture.getexif())
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        return None
    return datetime.fromisoformat(taken).date() if taken else None


def told_apart(taken: date | None, on: date) -> Before | Literal["after"] | None:
    """Return what is to be said where a picture was not taken when the inspection was made; None where nothing is.

    The day before counts as the inspection's own: a camera's clock knows no time zone.
    """
    if taken is None:
        return None
    if taken > on:
        return "after"
    days = (on - taken).days
    if days <= 1:
        return None
    if days <= MANY_DAYS:
        return Before(days, "day")
    months = int(days / DAYS_A_MONTH)
    return Before(months, "month") if months < MANY_MONTHS else Before(int(days / DAYS_A_YEAR), "year")
