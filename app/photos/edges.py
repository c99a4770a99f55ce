"""The edges of a card in a photograph, found from rough taps on its corners.

A card's corners are rounded, so no corner is tapped exactly: along each side the brightness is read across the edge,
a straight line is laid through the steepest places, and neighbouring lines are made to meet.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from PIL import Image, ImageFilter

from inspection_rules.measures.plane import Point

READ_FROM, READ_TO = 0.14, 0.86  # of a side: the rounded corners are left out
PLACES = 48  # along a side
REACH, LEAST_REACH = 0.09, 10.0  # across the edge, of the shorter side, and in pixels
LEAST_STEP = 6.0  # grey levels a pixel
NEAR = 1.5  # px: a place farther from the line than this is no place of it
LEAST_SHARE = 0.5  # of the places that must lie on the line
LEAST_U = 0.15  # px: what blur and the pixels themselves leave open


@dataclass(frozen=True, slots=True)
class Fitted:
    """The card's corners where its edges meet, pixels, and the standard uncertainty of each coordinate."""

    corners: tuple[Point, ...]
    u_px: float


@dataclass(frozen=True, slots=True)
class _Line:
    """A point on it, its direction, and the scatter of the places that lie on it."""

    at: Point
    along: Point
    scatter: float
    places: int


@dataclass(frozen=True, slots=True)
class _Grey:
    """A part of the picture in grey, row by row, and where its upper left corner lies in the whole."""

    levels: bytes
    width: int
    height: int
    left: int
    top: int


class NoEdgeError(ValueError):
    """No straight edge lies near one of the sides; the message says which."""


def fit_card(picture: Image.Image, rough: Sequence[Point]) -> Fitted:
    """Return the corners of the card whose corners were tapped roughly, in the same order.

    Raises:
        NoEdgeError: along one side the brightness shows no straight edge: too little contrast, a tap on another thing,
            or something lies over the edge.
    """
    if len(rough) != 4:
        raise NoEdgeError("tap all four corners of the card")
    grey = _around(picture, rough)
    corners = [(x - grey.left, y - grey.top) for x, y in rough]
    shortest = min(math.dist(corners[k], corners[(k + 1) % 4]) for k in range(4))
    reach = max(LEAST_REACH, REACH * shortest)
    lines = []
    for side in range(4):
        line = _edge(grey, corners[side], corners[(side + 1) % 4], reach)
        lines.append(_edge(grey, *_between(line, corners[side], corners[(side + 1) % 4]), reach / 3))
    met = [_meet(lines[side - 1], lines[side]) for side in range(4)]
    for (x, y), (a, b) in zip(met, corners, strict=True):
        if math.hypot(x - a, y - b) > 2 * reach:
            raise NoEdgeError("the edges found do not meet near the corners that were tapped: tap them again")
    # A line's end is known less well than its middle: for places spread evenly, twice as badly.
    u = max(2 * line.scatter / math.sqrt(line.places) for line in lines)
    return Fitted(tuple((x + grey.left, y + grey.top) for x, y in met), math.hypot(u, LEAST_U))


def _around(picture: Image.Image, rough: Sequence[Point]) -> _Grey:
    """Return the part of the picture round the card, a little smoothed."""
    wide = 0.2 * max(math.dist(a, b) for a in rough for b in rough) + 2 * LEAST_REACH
    left, top = max(0, int(min(x for x, _ in rough) - wide)), max(0, int(min(y for _, y in rough) - wide))
    right = min(picture.width, math.ceil(max(x for x, _ in rough) + wide))
    bottom = min(picture.height, math.ceil(max(y for _, y in rough) + wide))
    if right - left < 4 or bottom - top < 4:
        raise NoEdgeError("the corners lie outside the picture: tap them again")
    grey = picture.crop((left, top, right, bottom)).convert("L").filter(ImageFilter.GaussianBlur(1.0))
    return _Grey(grey.tobytes(), grey.width, grey.height, left, top)


def _edge(grey: _Grey, one: Point, other: Point, reach: float) -> _Line:
    """Lay a line through the steepest places between two points."""
    length = math.dist(one, other)
    if length < 4 * LEAST_REACH:
        raise NoEdgeError("the card is too small in the picture: go nearer")
    along = (other[0] - one[0]) / length, (other[1] - one[1]) / length
    across = -along[1], along[0]
    found = []
    for place in range(PLACES):
        share = READ_FROM + (READ_TO - READ_FROM) * place / (PLACES - 1)
        middle = one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])
        found += _steepest(grey, middle, across, reach)
    return _laid(found, along)


def _steepest(grey: _Grey, middle: Point, across: Point, reach: float) -> list[tuple[Point, float]]:
    """Return the steepest place across an edge, between two pixels, with its step; nothing where there is none."""
    steps = math.ceil(reach)
    values = [_level(grey, middle[0] + k * across[0], middle[1] + k * across[1]) for k in range(-steps, steps + 1)]
    slopes = [
        abs(b - a) / 2 if a is not None and b is not None else 0.0 for a, b in zip(values, values[2:], strict=False)
    ]
    # A frame has an inner edge too, and a table its planks: of edges as steep, the one nearest to the taps is meant.
    best = max(range(len(slopes)), key=lambda k: slopes[k] * math.exp(-2 * ((k + 1 - steps) / steps) ** 2))
    if slopes[best] < LEAST_STEP or not 0 < best < len(slopes) - 1:
        return []
    # The middle of the slope, not its highest pixel: weighted by how steep each pixel of it is.
    near = range(max(0, best - 3), min(len(slopes), best + 4))
    floor = slopes[best] * 0.25
    weights = {k: max(slopes[k] - floor, 0.0) for k in near}
    place = sum(k * w for k, w in weights.items()) / sum(weights.values()) + 1 - steps
    return [((middle[0] + place * across[0], middle[1] + place * across[1]), slopes[best])]


def _level(grey: _Grey, x: float, y: float) -> float | None:
    """Read the brightness between four pixels; None outside."""
    # Coordinates count from the picture's corner, pixels from their middles.
    x, y = x - 0.5, y - 0.5
    left, top = math.floor(x), math.floor(y)
    if left < 0 or top < 0 or left + 1 >= grey.width or top + 1 >= grey.height:
        return None
    at, dx, dy = top * grey.width + left, x - left, y - top
    upper = grey.levels[at] * (1 - dx) + grey.levels[at + 1] * dx
    lower = grey.levels[at + grey.width] * (1 - dx) + grey.levels[at + grey.width + 1] * dx
    return upper * (1 - dy) + lower * dy


def _laid(places: Sequence[tuple[Point, float]], along: Point) -> _Line:
    """Lay a straight line through places of which some are none of it."""
    if len(places) < LEAST_SHARE * PLACES:
        raise NoEdgeError(
            "along one side no edge stands out: lay the card on a darker or lighter ground, and tap again"
        )
    points = [point for point, _ in places]
    best, most = None, 0
    for k in range(len(points)):  # the pair of places that most others agree with
        for n in range(k + len(points) // 3, len(points), 3):
            line = _through(points[k], points[n])
            agree = [p for p in points if abs(_off(line, p)) <= NEAR]
            if len(agree) > most:
                best, most = agree, len(agree)
    if best is None or most < LEAST_SHARE * PLACES:
        raise NoEdgeError("along one side no straight edge stands out: something may lie over it; tap again")
    mx, my = sum(x for x, _ in best) / most, sum(y for _, y in best) / most
    sxx, syy = sum((x - mx) ** 2 for x, _ in best), sum((y - my) ** 2 for _, y in best)
    sxy = sum((x - mx) * (y - my) for x, y in best)
    angle = 0.5 * math.atan2(2 * sxy, sxx - syy)
    direction = math.cos(angle), math.sin(angle)
    if direction[0] * along[0] + direction[1] * along[1] < 0:
        direction = -direction[0], -direction[1]
    line = (mx, my), direction
    scatter = math.sqrt(sum(_off(line, p) ** 2 for p in best) / max(most - 2, 1))
    return _Line((mx, my), direction, scatter, most)


def _through(one: Point, other: Point) -> tuple[Point, Point]:
    length = math.dist(one, other) or 1.0
    return one, ((other[0] - one[0]) / length, (other[1] - one[1]) / length)


def _off(line: tuple[Point, Point], point: Point) -> float:
    (x, y), (dx, dy) = line
    return (point[0] - x) * -dy + (point[1] - y) * dx


def _between(line: _Line, one: Point, other: Point) -> tuple[Point, Point]:
    """Return the points of a line nearest to two others."""
    found = []
    for point in (one, other):
        share = (point[0] - line.at[0]) * line.along[0] + (point[1] - line.at[1]) * line.along[1]
        found.append((line.at[0] + share * line.along[0], line.at[1] + share * line.along[1]))
    return found[0], found[1]


def _meet(one: _Line, other: _Line) -> Point:
    cross = one.along[0] * other.along[1] - one.along[1] * other.along[0]
    if abs(cross) < 0.1:
        raise NoEdgeError("two neighbouring sides run the same way: tap the corners in order, one way round")
    dx, dy = other.at[0] - one.at[0], other.at[1] - one.at[1]
    share = (dx * other.along[1] - dy * other.along[0]) / cross
    return one.at[0] + share * one.along[0], one.at[1] + share * one.along[1]
