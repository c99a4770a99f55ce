"""A rope lies nearer to the camera than the card beside it: by what its length is corrected, and what is left in doubt.

With the camera's distance Z and the diameter d, a length along the top is the card's plane's times (Z - d) / Z. Where
one of them is not known, the length is corrected by the middle of what is possible, and half of what is possible
stands in its u as a rectangular contribution: half-width / √3 (GUM 4.3.7).
"""

import math
from dataclasses import dataclass

from inspection_rules.measures.plane import View


class PhotoRefusedError(ValueError):
    """No length can be taken from this photograph like this; the message says why and what to do."""


U_HEIGHT = 0.10
"""Of the camera's distance: where a person says it, and where it is reckoned from the focal length that the camera
wrote down, which a crop or a zoom may have made wrong. Judgement, no source."""
SHORTEST_FOCAL = 0.36
"""Focal length over the picture's long side of the widest camera to be expected, about 13 mm of a 35 mm frame: with
the card's size in the picture it gives the shortest distance that is possible."""
LARGEST_ROPE_MM = 80.0  # what is taken as possible where nobody says the diameter
MOST_AGREEING, MOST_APART = 0.15, 2.0  # a stated distance against the picture's: parts, and times
MOST_SHARE = 0.5  # of the diameter in the distance: nearer than two diameters nobody photographs
MOST_U, LEAST_U_MM = 0.10, 1.0  # of the length, and mm: beyond both the correction's doubt leaves no reading
TOO_DOUBTFUL = "That is too uncertain for a reading: keep it in the picture only."


@dataclass(frozen=True, slots=True)
class Distance:
    """The camera's distance from the card's plane, mm.

    Attributes:
        mm: None where it is not known. least: the shortest that is possible.
        share: its standard uncertainty, in parts of it.
    """

    mm: float | None
    least: float
    share: float
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Nearer:
    """What a length on the card's plane is multiplied by, and the standard uncertainty of that, in parts of it."""

    factor: float
    share: float
    warnings: tuple[str, ...] = ()


AS_SEEN = Nearer(1.0, 0.0)


def distance_of(seen: float | None, least: float, stated: float | None) -> Distance:
    """Return the camera's distance.

    Args:
        seen: reckoned from the focal length and the card's size; None without a focal length. least: the shortest.
        stated: what a person says it is. Where the picture says otherwise, the difference counts as doubt.

    Raises:
        PhotoRefusedError: what is stated and what the picture says are too far apart.
    """
    if stated is None:
        return Distance(seen, least, U_HEIGHT)
    says = seen if seen is not None else max(stated, least)
    apart = max(stated, says) / min(stated, says)
    if apart <= 1 + MOST_AGREEING:
        return Distance(stated, least, U_HEIGHT)
    known = "" if seen is not None else "at least "
    if apart > MOST_APART:
        raise PhotoRefusedError(
            f"the camera's distance is given as {stated:.0f} mm, and the picture and the card's size say "
            f"{known}{says:.0f} mm: measure the distance again, or leave it out"
        )
    warning = (
        f"The camera's distance is given as {stated:.0f} mm, and the picture and the card's size say "
        f"{known}{says:.0f} mm: one of them is wrong. The difference is counted as doubt; measure the distance again."
    )
    if seen is None:  # nearer than is possible: then it is not known, and may be anything from there on
        return Distance(None, stated, U_HEIGHT, (warning,))
    # Of d / Z, which the correction takes off: d / stated × this is |d / stated - d / says|, the whole difference.
    return Distance(stated, least, math.hypot(U_HEIGHT, abs(stated - says) / says), (warning,))


def along(distance: Distance, rope_mm: float | None, seen: View) -> Nearer:
    """Return the correction of a length along the top of a rope; 0 mm of rope lies on the card's own plane.

    Raises:
        PhotoRefusedError: the camera is nearer than two diameters, or the diameter is less than zero.
    """
    if rope_mm == 0:
        return AS_SEEN
    check(distance, rope_mm)
    low = lower_than_the_top(seen.tilt)
    if distance.mm is not None and rope_mm is not None:
        part = rope_mm / distance.mm
        return Nearer(
            along_the_top(1.0, rope_mm, distance.mm), part * math.hypot(distance.share, low), distance.warnings
        )
    largest = LARGEST_ROPE_MM if rope_mm is None else rope_mm
    most = min(largest / (distance.mm or distance.least), MOST_SHARE)
    known = distance.share if distance.mm is not None else 0.0  # else all that is possible stands in the half-width
    return _middle(1 - most, most / 2 * math.hypot(known, low), distance, rope_mm)


def across(distance: Distance, rope_mm: float | None, raw: float) -> Nearer:
    """Return the correction of a width across a rope, `raw` mm on the card's plane.

    Raises:
        PhotoRefusedError: as with `along`.
    """
    if rope_mm == 0:
        return AS_SEEN
    check(distance, rope_mm)
    wide = raw if rope_mm is None else rope_mm
    if distance.mm is not None:
        true = across_the_rope(raw, distance.mm)
        return Nearer(true / raw, wide / distance.mm * distance.share / 2, distance.warnings)
    return _middle(across_the_rope(raw, distance.least) / raw, 0.0, distance, wide)


def check(distance: Distance, rope_mm: float | None) -> None:
    """Refuse a diameter below zero, and one that the camera's distance has no room for.

    Raises:
        PhotoRefusedError: it is so.
    """
    too_near = rope_mm is not None and distance.mm is not None and distance.mm <= 2 * rope_mm
    if too_near or (rope_mm is not None and rope_mm < 0):
        raise PhotoRefusedError(
            "the camera is nearer than two rope diameters, or the diameter is less than zero: check both"
        )


def is_reading(nearer: Nearer, length_mm: float) -> bool:
    """Whether the correction is known well enough for the length to be a reading."""
    return nearer.share <= MOST_U or nearer.share * abs(length_mm) <= LEAST_U_MM


def along_the_top(apparent: float, rope: float, camera: float) -> float:
    """Return the true length along the top of a rope that lies on the card's plane: apparent × (Z - d) / Z.

    Exact for every tilt, with Z at right angles to the plane: the top lies in a plane of its own, and seen from the
    camera the two are similar.
    """
    return apparent * (camera - rope) / camera


def lower_than_the_top(tilt: float) -> float:
    """Return how far below the top, in diameters, a tap may lie on a rope that is seen at a tilt in degrees.

    A person taps the middle between both outlines. Seen at an angle a from straight above across the rope, that is
    (1 - cos a) / 2 diameters lower than the top, about a² / 4. How much of the tilt is across the rope is not known: on
    average half of its square. It counts as doubt, not as a correction.
    """
    return math.radians(tilt) ** 2 / 8


def across_the_rope(apparent: float, camera: float) -> float:
    """Return the true diameter of a rope that lies on the card's plane, seen from above: w Z / (Z + w / 2)."""
    return apparent * camera / (camera + apparent / 2)


def apparent_width(rope: float, camera: float) -> float:
    """Return how wide a rope on the card's plane looks from above, exact: 2 Z tan asin((d / 2) / (Z - d / 2))."""
    return 2 * camera * math.tan(math.asin((rope / 2) / (camera - rope / 2)))


def _middle(least: float, further: float, distance: Distance, rope_mm: float | None) -> Nearer:
    """Between a correction by `least` and none: the middle, with half the width as a rectangular contribution."""
    factor, half = (1 + least) / 2, (1 - least) / 2
    warning = _unknown(round((1 / least - 1) * 100), distance, rope_mm)
    return Nearer(factor, math.hypot(half / math.sqrt(3), further) / factor, (*distance.warnings, warning))


def _unknown(percent: int, distance: Distance, rope_mm: float | None) -> str:
    if rope_mm is not None:
        return (
            f"The camera's distance is not known: taken as seen, the rope would read up to {percent} % long. It is "
            "corrected by the middle of what is possible, and the rest is counted as doubt. Give the distance, or take "
            "a picture that keeps its focal length."
        )
    if distance.mm is not None:
        return (
            f"The rope's diameter is not known: taken as seen, a rope of up to {LARGEST_ROPE_MM:.0f} mm would read up "
            f"to {percent} % long. It is corrected by the middle of what is possible, and the rest is counted as "
            "doubt. Give the diameter."
        )
    return (
        f"Neither the rope's diameter nor the camera's distance is known: taken as seen, a rope of up to "
        f"{LARGEST_ROPE_MM:.0f} mm would read up to {percent} % long. It is corrected by the middle of what is "
        "possible, and the rest is counted as doubt. Give the diameter, and the distance or a picture that keeps its "
        "focal length."
    )
