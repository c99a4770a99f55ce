"""The signs of the four answers, and of a station nobody has answered yet.

The geometry follows ISO 3864-1 (proportions from memory): safe condition a square, warning a triangle,
mandatory action a disc, prohibition a ring with a bar. Each has a shape of its own, so that they are told
apart without colour.
"""

import math

from app.figures.shapes import Circle, Figure, Ink, Line, Point, Polygon, Shape, arc, box
from inspection_rules.words import Answer

_RING = 0.1
_BAR = 0.08


def sign(answer: Answer) -> Figure:
    """Return the sign of an answer in a square box."""
    shapes = {
        Answer.SERVICEABLE: _square,
        Answer.WATCH: _triangle,
        Answer.HOLD: _disc,
        Answer.REMOVE: _prohibition,
    }[answer]()
    return Figure(answer.value, 1, tuple(shapes))


def not_yet() -> Figure:
    """Return the outlined station that waits for its answer, in a square box."""
    outline = [Line(arc(0.5, 0.5, 0.4, start, start + 22), Ink.INK, 0.06, "flat") for start in range(0, 360, 36)]
    return Figure("not yet", 1, (Circle(0.5, 0.5, 0.4, fill=Ink.PAPER), *outline))


def _square() -> list[Shape]:
    return [
        _rounded(box(0.04, 0.04, 0.96, 0.96), 0.08, Ink.SIGN_WHITE),
        _rounded(box(0.08, 0.08, 0.92, 0.92), 0.06, Ink.SIGN_GREEN),
        Line(((0.27, 0.5), (0.44, 0.33), (0.75, 0.69)), Ink.SIGN_WHITE, 0.11),
    ]


def _triangle() -> list[Shape]:
    outer = ((-0.05, 0.05), (1.05, 0.05), (0.5, 0.05 + 1.1 * math.sqrt(3) / 2))
    return [
        _rounded(outer, 0.09, Ink.SIGN_BLACK),
        _rounded(_shrunk(outer, 0.76), 0.04, Ink.SIGN_YELLOW),
        Polygon(((0.44, 0.66), (0.56, 0.66), (0.53, 0.36), (0.47, 0.36)), Ink.SIGN_BLACK),
        Circle(0.5, 0.26, 0.06, Ink.SIGN_BLACK),
    ]


def _disc() -> list[Shape]:
    return [
        Circle(0.5, 0.5, 0.48, Ink.SIGN_WHITE),
        Circle(0.5, 0.5, 0.45, Ink.SIGN_BLUE),
        Polygon(((0.435, 0.78), (0.565, 0.78), (0.535, 0.41), (0.465, 0.41)), Ink.SIGN_WHITE),
        Circle(0.5, 0.28, 0.068, Ink.SIGN_WHITE),
    ]


def _prohibition() -> list[Shape]:
    ring = 0.46 - _RING / 2
    reach = ring * math.sqrt(0.5)
    bar = ((0.5 - reach, 0.5 + reach), (0.5 + reach, 0.5 - reach))
    return [
        Circle(0.5, 0.5, 0.48, Ink.SIGN_WHITE),
        Line(bar, Ink.SIGN_RED, _BAR, "flat"),
        Circle(0.5, 0.5, ring, ink=Ink.SIGN_RED, width=_RING),
    ]


def _shrunk(points: tuple[Point, ...], scale: float) -> tuple[Point, ...]:
    cx, cy = (sum(axis) / len(points) for axis in zip(*points, strict=True))
    return tuple((cx + (x - cx) * scale, cy + (y - cy) * scale) for x, y in points)


def _rounded(corners: tuple[Point, ...], radius: float, fill: Ink) -> Polygon:
    """A convex polygon, given anticlockwise, with its corners rounded."""
    found: list[Point] = []
    for index, (x, y) in enumerate(corners):
        before, after = corners[index - 1], corners[(index + 1) % len(corners)]
        coming = math.atan2(y - before[1], x - before[0])
        leaving = math.atan2(after[1] - y, after[0] - x)
        turn = (leaving - coming) % math.tau
        back = radius * math.tan(turn / 2)
        cx = x - back * math.cos(coming) - radius * math.sin(coming)
        cy = y - back * math.sin(coming) + radius * math.cos(coming)
        first = math.degrees(coming) - 90
        found += arc(cx, cy, radius, first, first + math.degrees(turn))
    return Polygon(tuple(found), fill)
