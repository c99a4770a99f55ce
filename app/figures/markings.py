"""What was laid over a photograph, as a figure to draw over it: on the screen and in the report alike."""

import math
from collections.abc import Sequence

from app.figures.shapes import Circle, Figure, Ink, Label, Line, Point, Polygon, Shape, arrow, box
from inspection_rules.pictures import WHOLE, Marking, Spot
from inspection_rules.words import MarkingKind

STROKE, UNDER = (
    0.006,
    0.013,
)  # of the picture's width: the stroke, and the light one under it that parts it from the rope
TYPE = 0.042
BAR = 0.018
MOST_LETTERS = 40


def over_picture(markings: Sequence[Marking], width: int, height: int) -> Figure:
    """Return the markings as a figure of the picture's own proportions."""
    shapes: list[Shape] = []
    for marking in markings:
        points = [_at(spot, width, height) for spot in marking.points]
        shapes += _DRAWN[marking.kind](points)
        shapes += _said(marking, points)
    return Figure("over a picture", height / width, tuple(shapes))


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


def _said(marking: Marking, points: Sequence[Point]) -> list[Shape]:
    words = marking.text
    if marking.measured is not None:
        minus = "−" if marking.measured.minus else ""
        words = " ".join(one for one in (f"{minus}{marking.measured.length.text}", words) if one)
    if not words:
        return []
    words = words if len(words) <= MOST_LETTERS else f"{words[: MOST_LETTERS - 1]}…"
    x, y = points[len(points) // 2] if marking.kind is MarkingKind.FREEHAND else points[0]
    if marking.kind is MarkingKind.LENGTH:
        x, y = (points[0][0] + points[-1][0]) / 2, (points[0][1] + points[-1][1]) / 2
    wide = TYPE * 0.6 * len(words) + 0.02
    left = min(max(x + 0.02, 0.0), max(0.0, 1 - wide))
    ground = box(left, y + 0.012, left + wide, y + 0.012 + TYPE * 1.4)
    return [
        Polygon(ground, Ink.PAPER),
        Label(words, left + 0.01, y + 0.012 + TYPE * 0.7, size=TYPE, bold=True, ink=Ink.MARK),
    ]


_DRAWN = {
    MarkingKind.ARROW: _arrow,
    MarkingKind.RING: _ring,
    MarkingKind.FREEHAND: _stroke,
    MarkingKind.LENGTH: _length,
    MarkingKind.TEXT: _text,
}
