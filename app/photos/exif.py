"""The little of a photograph's EXIF data that is read, and the less that is kept.

Tag numbers are those of the Exif standard (CIPA DC-008), sections 4.6.5 and 4.6.6.
"""

import math
from collections.abc import Sequence
from datetime import datetime

from PIL import Image
from PIL.TiffImagePlugin import IFDRational

EXIF_IFD, GPS_IFD = 0x8769, 0x8825
DATE_TIME_ORIGINAL, DATE_TIME, ORIENTATION = 0x9003, 0x0132, 0x0112
FOCAL_35 = 0xA405
LATITUDE_REF, LATITUDE, LONGITUDE_REF, LONGITUDE = 1, 2, 3, 4
TURNS = {  # how to turn the stored picture so that it stands upright
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
LONGEST_FOCAL_35 = 2000  # mm
SECOND_PARTS = 10_000  # a ten-thousandth of a second of arc is 3 mm on the ground


def turn_of(exif: Image.Exif) -> Image.Transpose | None:
    """Return the turn that makes the picture stand upright; None when it does, or nothing is said."""
    said = exif.get(ORIENTATION)
    return TURNS.get(said) if isinstance(said, int) else None


def taken_at_of(exif: Image.Exif) -> str | None:
    """Return when the camera says it took the picture, as ISO text without a zone, or None.

    A date that is blank, impossible or not in the standard's form counts as none.
    """
    for written in (_ifd(exif, EXIF_IFD).get(DATE_TIME_ORIGINAL), exif.get(DATE_TIME)):
        try:
            return datetime.strptime(str(written).strip("\0 "), "%Y:%m:%d %H:%M:%S").isoformat()
        except ValueError:
            continue
    return None


def place_of(exif: Image.Exif) -> tuple[float, float] | None:
    """Return (latitude, longitude) in degrees, south and west negative, or None when not readable."""
    gps = _ifd(exif, GPS_IFD)
    latitude = _degrees(gps.get(LATITUDE), gps.get(LATITUDE_REF), "N", "S", 90)
    longitude = _degrees(gps.get(LONGITUDE), gps.get(LONGITUDE_REF), "E", "W", 180)
    if latitude is None or longitude is None:
        return None
    return latitude, longitude


def focal_35_of(exif: Image.Exif) -> int | None:
    """Return the focal length that shows as much on 35 mm film, in mm; None when it is not said (0 means unknown)."""
    said = _ifd(exif, EXIF_IFD).get(FOCAL_35)
    return said if isinstance(said, int) and 0 < said <= LONGEST_FOCAL_35 else None


def chosen_exif(taken_at: str | None, place: tuple[float, float] | None, focal_35: int | None = None) -> Image.Exif:
    """Return fresh EXIF data that holds the given date, place and focal length and nothing else."""
    exif = Image.Exif()
    if focal_35:
        exif.get_ifd(EXIF_IFD)[FOCAL_35] = focal_35
    if taken_at:
        written = datetime.fromisoformat(taken_at).strftime("%Y:%m:%d %H:%M:%S")
        exif.get_ifd(EXIF_IFD)[DATE_TIME_ORIGINAL] = written
    if place:
        latitude, longitude = place
        exif.get_ifd(GPS_IFD).update(
            {
                LATITUDE_REF: "N" if latitude >= 0 else "S",
                LATITUDE: _sexagesimal(latitude),
                LONGITUDE_REF: "E" if longitude >= 0 else "W",
                LONGITUDE: _sexagesimal(longitude),
            }
        )
    return exif


def _ifd(exif: Image.Exif, tag: int) -> dict[int, object]:
    """Return one directory of tags; a damaged one is as good as none."""
    try:
        return dict(exif.get_ifd(tag))
    except Exception:  # the parser fails in as many ways as there are damaged directories
        return {}


def _degrees(parts: object, reference: object, plus: str, minus: str, limit: int) -> float | None:
    if not isinstance(parts, Sequence) or len(parts) != 3 or reference not in (plus, minus):
        return None
    try:
        degrees, minutes, seconds = (float(part) for part in parts)
    except (TypeError, ValueError, ZeroDivisionError):
        return None
    value = degrees + minutes / 60 + seconds / 3600
    if not math.isfinite(value) or min(degrees, minutes, seconds) < 0 or value > limit:
        return None
    return value if reference == plus else -value


def _sexagesimal(value: float) -> tuple[IFDRational, IFDRational, IFDRational]:
    parts = round(abs(value) * 3600 * SECOND_PARTS)
    minutes, seconds = divmod(parts, 60 * SECOND_PARTS)
    degrees, minutes = divmod(minutes, 60)
    return IFDRational(degrees, 1), IFDRational(minutes, 1), IFDRational(seconds, SECOND_PARTS)
