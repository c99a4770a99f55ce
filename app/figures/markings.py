"""What was laid over a photograph, as a figure to draw over it: on the screen and in the report alike."""

import math
from collections.abc import Sequence

from app.figures.shapes import Circle, Figure, Ink, Label, Line, Point, Polygon, Shape, arrow, box
from inspection_rules.pictures import WHOLE, Marking, Measured, Spot
from inspection_rules.rulings.numbers import good
from inspection_rules.words import MarkingKind

STROKE, UNDER = (
    0.006,
    0.013,
)  # of the picture's width: the stroke, and the light one under it that parts it from the rope
TYPE = 0.042
BAR = 0.018
GAP = 0.03  # between a length's line and its words: clear of the bars at its ends
MOST_LETTERS = 40


def over_picture(markings: Sequence[Marking], width: int, height: int) -> Figure:
    """Return the markings as a figure of the picture's own proportions."""
    shapes: list[Shape] = []
    for marking in markings:
        points = [_at(spot, width, height) for spot in marking.points]
        shapes += _DRAWN[marking.kind](points)
        shapes += _said(marking, points, (width, height))
    return Figure("over a picture", height / width, tuple(shapes))


def measured_words(measured: Measured) -> str:
    """Write a length that was measured in a picture with how far it is good, as it stands beside its line."""
    minus = "−" if measured.minus else ""
    return f"{minus}{measured.length.text} ± {good(float(measured.u.to('mm')))} mm"


def _at(spot: Spot, width: int, height: int) -> Point:
    unit = max(width, height) / WHOLE / width
    return spot[0] * unit, height / width - spot[1] * unit


def _stroke(points: Sequence[Point]) -> list[Shape]:
    return [Line(tuple(points), Ink.PAPER, UNDER), Line(tuple(points), Ink.MARK, STROKE)]


def _arrow(points: Sequence[Point]) -> list[Shape]:
    if math.dist(points[-2], points[-1]) < 1e-6:
        return _text(points)
    return [*arrow(points, Ink.PAPER, UNDER, 0.05), *arrow(points, Ink.MARK, STROKE, 0.042)]


def _ring(points: Sequence[Point]) -> list[Shape]:
    (x, y), radius = points[0], max(math.dist(points[0], points[1]), 0.01)
    return [Circle(x, y, radius, ink=Ink.PAPER, width=UNDER), Circle(x, y, radius, ink=Ink.MARK, width=STROKE)]


def _length(points: Sequence[Point]) -> list[Shape]:
    shapes = _stroke(points)
    for here, there in ((points[0], points[1]), (points[-1], points[-2])):
        long = math.dist(here, there)
        if long < 1e-6:
            continue
        nx, ny = (there[1] - here[1]) / long * BAR, (here[0] - there[0]) / long * BAR
        shapes += _stroke([(here[0] - nx, here[1] - ny), (here[0] + nx, here[1] + ny)])
    return shapes


def _text(points: Sequence[Point]) -> list[Shape]:
    x, y = points[0]
    return [Circle(x, y, 0.009, fill=Ink.PAPER), Circle(x, y, 0.006, fill=Ink.MARK)]


def _said(marking: Marking, points: Sequence[Point], size: tuple[int, int]) -> list[Shape]:
    words = marking.text
    if marking.measured is not None:
        words = " ".join(one for one in (measured_words(marking.measured), words) if one)
    if not words:
        return []
    words = words if len(words) <= MOST_LETTERS else f"{words[: MOST_LETTERS - 1]}…"
    x, y = points[len(points) // 2] if marking.kind is MarkingKind.FREEHAND else points[0]
    wide, high = TYPE * 0.6 * len(words) + 0.02, TYPE * 1.4
    left, low = min(max(x + 0.02, 0.0), max(0.0, 1 - wide)), y + 0.012
    if marking.measured is not None:
        card = [_at(spot, *size) for spot in marking.measured.card]
        left, low = _beside(points, card, (wide, high), size[1] / size[0])
    return [
        Polygon(box(left, low, left + wide, low + high), Ink.PAPER),
        Label(words, left + 0.01, low + TYPE * 0.7, size=TYPE, bold=True, ink=Ink.MARK),
    ]


def _beside(path: Sequence[Point], card: Sequence[Point], size: tuple[float, float], top: float) -> tuple[float, float]:
    """The lower left corner of a length's words: off its line, and off the card too where there is room.

    The first of some places that lies over neither: above and below the line, then beyond both, then beside them.
    """
    (wide, high), middle = size, (path[0][0] + path[-1][0]) / 2
    left = min(max(middle - wide / 2, 0.0), max(0.0, 1 - wide))
    above, below = max(y for _, y in path) + GAP, min(y for _, y in path) - GAP - high
    beyond = [max(y for _, y in (*path, *card)) + GAP, min(y for _, y in (*path, *card)) - GAP - high]
    right, other = max(x for x, _ in (*path, *card)) + GAP, min(x for x, _ in (*path, *card)) - GAP - wide
    places = [(left, low) for low in (above, below, *beyond)] + [(x, path[0][1]) for x in (right, other)]
    inside = [(x, y) for x, y in places if 0 <= x <= 1 - wide and 0 <= y <= top - high]
    free = [one for one in inside if not _covers(one, size, card) and not _covers(one, size, path)]
    return next(iter(free or inside), (left, min(max(above, 0.0), max(0.0, top - high))))


def _covers(corner: Point, size: tuple[float, float], points: Sequence[Point]) -> bool:
    """Whether a box meets the rectangle round some points."""
    (x, y), (wide, high) = corner, size
    apart_x = x > max(a for a, _ in points) or x + wide < min(a for a, _ in points)
    apart_y = y > max(b for _, b in points) or y + high < min(b for _, b in points)
    return not (apart_x or apart_y)


_DRAWN = {
    MarkingKind.ARROW: _arrow,
    MarkingKind.RING: _ring,
    MarkingKind.FREEHAND: _stroke,
    MarkingKind.LENGTH: _length,
    MarkingKind.TEXT: _text,
}
