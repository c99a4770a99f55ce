"""A length taken from a photograph, with its error: perspective removed by a flat thing of known size in the picture.

A photograph alone never removes an item (`rulings/photographed.py`): its lengths are readings of the method
"photograph", with the u given here. The error of every click is carried to the length by first-order propagation; what
clicks do not show (the lens, the card's own tolerance, that the rope lies nearer than the card) stands in the budget as
parts of the length.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from inspection_rules.measures.photo_height import (
    SHORTEST_FOCAL,
    TOO_DOUBTFUL,
    Distance,
    Nearer,
    PhotoRefusedError,
    distance_of,
    is_reading,
)
from inspection_rules.measures.photo_height import across as corrected_across
from inspection_rules.measures.photo_height import along as corrected_along
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
FOCAL_RANGE = (0.6, 1.25)  # focal length over the picture's long side: wide-angle to moderate telephone cameras
STEP_PX = 0.25
U_CORNER_PX, U_POINT_PX = 0.5, 1.0  # where nobody says better: of a corner and of a point, each coordinate
MOST_OVER_CARD = 3.0  # times the card's long side: what is farther away than that rests on its corners' last dots


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
    """A length, its standard uncertainty, both mm, and what the person should know.

    Attributes:
        reading: whether it is known well enough to be recorded as a reading; the warnings say why not.
    """

    length_mm: float
    u_mm: float
    warnings: tuple[str, ...]
    reading: bool = True


def recorded_u(u_mm: float) -> float:
    """Return a standard uncertainty as it is recorded: tenths of a mm, never rounded down."""
    return max(math.ceil(u_mm * 10), 1) / 10


def photo_length(
    photo: Photo,
    card: Sequence[Point],
    card_mm: tuple[float, float],
    path: Sequence[Point],
    *,
    u_card_px: float = U_CORNER_PX,
    u_path_px: float = U_POINT_PX,
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
        rope_mm: diameter of the rope that lies on the card's plane: the length is corrected for lying nearer to the
            camera than the card. None where it is not known, 0 for what lies flat on the card's own plane.
        camera_mm: distance of the camera from that plane; without it, it is reckoned from the focal length. Where
            neither it nor the diameter is known, what is possible stands in the doubt; see `photo_height`.
        across: whether the path goes across the rope, from outline to outline, instead of along its top.

    Raises:
        PhotoRefusedError: the card is too small, too tilted, no such card, or the path has no length.
    """
    if len(path) < 2 or all(point == path[0] for point in path):
        raise PhotoRefusedError("the path has no length: give two or more points along the rope")
    h, seen, warnings = _seen(photo, card, card_mm)
    raw = length(h, path)
    u = _u(length, raw, card, card_mm, path, u_card_px, u_path_px)
    distance = _distance(h, photo, seen, camera_mm)
    nearer = corrected_across(distance, rope_mm, raw) if across else corrected_along(distance, rope_mm, seen)
    if raw > MOST_OVER_CARD * max(card_mm):
        times = f"{raw / max(card_mm):.1f}"
        warnings = (
            *warnings,
            f"The path is {times} times as long as the card: beyond {MOST_OVER_CARD:.0f} times it is extrapolated, and "
            "may be less certain than stated. Lay something larger of known size beside it, or measure in pieces.",
        )
    return _corrected(raw, u, nearer, warnings)


def photo_offset(
    photo: Photo,
    card: Sequence[Point],
    card_mm: tuple[float, float],
    marks: Sequence[Point],
    along: Sequence[Point],
    *,
    u_card_px: float = U_CORNER_PX,
    u_path_px: float = U_POINT_PX,
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
    return _corrected(raw, u, corrected_along(_distance(h, photo, seen, camera_mm), rope_mm, seen), warnings)


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


def _distance(h: Homography, photo: Photo, seen: View, camera_mm: float | None) -> Distance:
    try:
        least = view(h, SHORTEST_FOCAL * max(photo.width, photo.height), photo.centre).height
    except PlaneError as error:
        raise PhotoRefusedError(f"{error}; tap the card's corners again, one way round") from None
    return distance_of(seen.height if photo.focal_px else None, least, camera_mm)


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


def _corrected(raw: float, u: float, nearer: Nearer, warnings: tuple[str, ...]) -> PhotoLength:
    true = raw * nearer.factor
    known = is_reading(nearer, true)
    said = (*warnings, *nearer.warnings, *(() if known else (TOO_DOUBTFUL,)))
    return PhotoLength(true, math.hypot(u * nearer.factor, true * nearer.share), said, known)
