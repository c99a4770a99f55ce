"""A length taken from a photograph, with its error: perspective removed by a flat thing of known size in the picture.

A photograph alone never removes an item (`rulings/photographed.py`): its lengths are readings of the method
"photograph", with the u given here. The error of every click is carried to the length by first-order propagation; what
clicks do not show (the lens, the card's own tolerance, whether rope and card lie on one plane) stands in the budget as
parts of the length.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from inspection_rules.measures.plane import (
    Homography,
    PlaneError,
    Point,
    View,
    homography,
    length,
    to_plane,
    view,
)

ID1_MM = (85.60, 53.98)
"""A blank ID-1 card: ISO/IEC 7810 (secondary). Its corners are rounded: edges are fitted and made to meet."""
MOST_TILT = 45.0
LEAST_LONG_SIDE_PX = 300.0
MOST_STRETCH = 0.02
LEAST_ALONG_MM = 20.0
# Judgement without a source, from rendered scenes: what the lens still bends within the middle of a phone's picture.
U_LENS = 0.0015
U_CARD = 0.0008  # ISO/IEC 7810 tolerances as quoted (secondary): 85.47 to 85.72 mm
U_HEIGHT = 0.10  # the camera's distance, where a person says it
U_HEIGHT_SEEN = 0.04  # the same, reckoned from the focal length that the camera wrote down
FOCAL_RANGE = (0.6, 1.25)  # focal length over the picture's long side: wide-angle to moderate telephone cameras
STEP_PX = 0.25
UNCORRECTED = (
    "Not corrected for the rope lying nearer to the camera than the card: give its diameter, and the camera's distance "
    "where the picture does not tell the focal length."
)


class PhotoRefusedError(ValueError):
    """No length can be taken from this photograph like this; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Photo:
    """What is known of the picture: its size, and its focal length in pixels where the camera wrote it down."""

    width: int
    height: int
    focal_px: float | None = None

    @property
    def centre(self) -> Point:
        """The middle of the picture, where the optical axis is taken to meet it."""
        return self.width / 2, self.height / 2


@dataclass(frozen=True, slots=True)
class PhotoLength:
    """A length on the card's plane, its standard uncertainty, both mm, and what the person should know."""

    length_mm: float
    u_mm: float
    warnings: tuple[str, ...]


def photo_length(
    photo: Photo,
    card: Sequence[Point],
    card_mm: tuple[float, float],
    path: Sequence[Point],
    *,
    u_card_px: float = 0.5,
    u_path_px: float = 1.0,
    camera_mm: float | None = None,
    rope_mm: float | None = None,
    across: bool = False,
) -> PhotoLength:
    """Return the length of a path in a photograph of a rope beside a card.

    Args:
        photo: the picture.
        card: the four corners in pixels, in order round, the first two along the card's first side; of a card with
            rounded corners, where its fitted edges meet.
        card_mm: the two sides.
        path: two or more pixels along the rope.
        u_card_px, u_path_px: standard uncertainty of a corner and of a point of the path, each coordinate.
        rope_mm: diameter of the rope that lies on the card's plane: with it, the length is corrected for lying nearer
            to the camera than the card.
        camera_mm: distance of the camera from that plane; without it, it is reckoned from the focal length.
        across: whether the path goes across the rope, from outline to outline, instead of along its top.

    Raises:
        PhotoRefusedError: the card is too small, too tilted, no such card, or the path has no length.
    """
    if len(path) < 2 or all(point == path[0] for point in path):
        raise PhotoRefusedError("the path has no length: give two or more points along the rope")
    h, seen, warnings = _seen(photo, card, card_mm)
    raw = length(h, path)
    u = _u(length, raw, card, card_mm, path, u_card_px, u_path_px)
    camera_mm, u_height = _height(photo, seen, camera_mm)
    if camera_mm is None or rope_mm is None:
        return PhotoLength(raw, u, (*warnings, UNCORRECTED))
    _check_height(camera_mm, rope_mm)
    if across:
        return _corrected(raw, u, across_the_rope(raw, camera_mm), rope_mm / camera_mm * u_height / 2, warnings)
    low = lower_than_the_top(seen.tilt)
    share = rope_mm / camera_mm * math.hypot(u_height, low)
    return _corrected(raw, u, along_the_top(raw, rope_mm, camera_mm), share, warnings)


def photo_offset(
    photo: Photo,
    card: Sequence[Point],
    card_mm: tuple[float, float],
    marks: Sequence[Point],
    along: Sequence[Point],
    *,
    u_card_px: float = 0.5,
    u_path_px: float = 1.0,
    camera_mm: float | None = None,
    rope_mm: float | None = None,
) -> PhotoLength:
    """Return how much farther along two legs laid together one mark lies than the other, signed.

    The legs lie side by side, so the straight line between their marks is longer than the offset: what counts is its
    part along the legs.

    Args:
        marks: the tail leg's mark and the standing leg's, pixels; plus means that the tail leg's is farther.
        along: two pixels that give the way the legs run, the one nearer to the throat first.

    Raises:
        PhotoRefusedError: as with `photo_length`; or the two points along the legs are too near to give a direction.
    """
    if len(marks) != 2 or len(along) != 2 or along[0] == along[1]:
        raise PhotoRefusedError("give two marks, and two points along the legs, the one nearer to the throat first")
    h, seen, warnings = _seen(photo, card, card_mm)
    if length(h, along) < LEAST_ALONG_MM:
        raise PhotoRefusedError(
            f"the two points along the legs are less than {LEAST_ALONG_MM:.0f} mm apart: tap them farther apart"
        )
    points = (*marks, *along)
    raw = _offset(h, points)
    u = _u(_offset, max(abs(raw), length(h, marks)), card, card_mm, points, u_card_px, u_path_px)
    camera_mm, u_height = _height(photo, seen, camera_mm)
    if camera_mm is None or rope_mm is None:
        return PhotoLength(raw, u, (*warnings, UNCORRECTED))
    _check_height(camera_mm, rope_mm)
    nearer = along_the_top(1.0, rope_mm, camera_mm)
    share = rope_mm / camera_mm * math.hypot(u_height, lower_than_the_top(seen.tilt))
    return PhotoLength(raw * nearer, math.hypot(u * nearer, raw * nearer * share), warnings)


def propagated(of: Callable[[Sequence[float]], float], values: Sequence[float], us: Sequence[float]) -> float:
    """Return the standard uncertainty of a function of independent values, to first order: √Σ(∂f/∂x · u)²."""
    total = 0.0
    for index, u in enumerate(us):
        if u == 0:
            continue
        moved = list(values)
        moved[index] = values[index] + STEP_PX
        above = of(moved)
        moved[index] = values[index] - STEP_PX
        total += ((above - of(moved)) / (2 * STEP_PX) * u) ** 2
    return math.sqrt(total)


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


def _offset(h: Homography, points: Sequence[Point]) -> float:
    (ax, ay), (bx, by), (x0, y0), (x1, y1) = (to_plane(h, point) for point in points)
    return ((ax - bx) * (x1 - x0) + (ay - by) * (y1 - y0)) / math.hypot(x1 - x0, y1 - y0)


def _seen(
    photo: Photo, card: Sequence[Point], card_mm: tuple[float, float]
) -> tuple[Homography, View, tuple[str, ...]]:
    try:
        h = homography(card, _corners(card_mm))
        return h, *_check(photo, card, h)
    except PlaneError as error:
        raise PhotoRefusedError(f"{error}; tap the card's corners again, one way round") from None


def _u(
    measure: Callable[[Homography, Sequence[Point]], float],
    raw: float,
    card: Sequence[Point],
    card_mm: tuple[float, float],
    path: Sequence[Point],
    u_card_px: float,
    u_path_px: float,
) -> float:
    """The clicks carried to the length, and what they do not show as parts of `raw`."""

    def of(values: Sequence[float]) -> float:
        points = [(values[k], values[k + 1]) for k in range(0, len(values), 2)]
        return measure(homography(points[:4], _corners(card_mm)), points[4:])

    flat = [value for point in (*card, *path) for value in point]
    us = [u_card_px] * 8 + [u_path_px] * (2 * len(path))
    return math.hypot(propagated(of, flat, us), raw * U_LENS, raw * U_CARD)


def _height(photo: Photo, seen: View, camera_mm: float | None) -> tuple[float | None, float]:
    """The camera's distance, and its standard uncertainty in parts of it."""
    if camera_mm is None and photo.focal_px:
        return seen.height, U_HEIGHT_SEEN
    return camera_mm, U_HEIGHT


def _check_height(camera_mm: float, rope_mm: float) -> None:
    if rope_mm <= 0 or camera_mm <= 2 * rope_mm:
        raise PhotoRefusedError("the camera is nearer than two rope diameters, or the diameter is zero: check both")


def _corners(card_mm: tuple[float, float]) -> tuple[Point, ...]:
    width, height = card_mm
    return (0.0, 0.0), (width, 0.0), (width, height), (0.0, height)


def _check(photo: Photo, card: Sequence[Point], h: tuple[float, ...]) -> tuple[View, tuple[str, ...]]:
    sides = [math.dist(card[k], card[(k + 1) % 4]) for k in range(4)]
    if max(sides) < LEAST_LONG_SIDE_PX:
        raise PhotoRefusedError(
            f"the card is only {max(sides):.0f} pixels long; {LEAST_LONG_SIDE_PX:.0f} are needed: go nearer"
        )
    long_side = max(photo.width, photo.height)
    focals = [photo.focal_px] if photo.focal_px else [long_side * k / 100 for k in range(*_percent(FOCAL_RANGE), 2)]
    views = [view(h, focal, photo.centre) for focal in focals if focal]
    best = min(views, key=lambda one: abs(one.stretch))
    if best.tilt > MOST_TILT:
        raise PhotoRefusedError(
            f"the card is tilted by about {best.tilt:.0f}°, and {MOST_TILT:.0f}° is the most: hold the camera above it"
        )
    if abs(best.stretch) > MOST_STRETCH:
        raise PhotoRefusedError(
            f"the card's own sides disagree by {abs(best.stretch) * 100:.1f} % once they are taken out of perspective: "
            "another size of card, a bent card, or corners tapped wrong"
        )
    warnings = []
    if best.tilt > 30:
        warnings.append(f"The card is tilted by about {best.tilt:.0f}°; below 30° is better.")
    return best, tuple(warnings)


def _percent(pair: tuple[float, float]) -> tuple[int, int]:
    return round(pair[0] * 100), round(pair[1] * 100) + 1


def _corrected(raw: float, u: float, true: float, share: float, warnings: tuple[str, ...]) -> PhotoLength:
    return PhotoLength(true, math.hypot(u * true / raw, true * share), warnings)
