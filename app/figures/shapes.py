"""What a figure is made of: four primitives in a box one unit wide, y upwards, inks named by their role.

The screen and the report draw the same description; each resolves the inks to its own colours. Renderers
need to know nothing but this module.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise
from typing import Literal

Point = tuple[float, float]
Cap = Literal["round", "flat"]
Anchor = Literal["left", "centre", "right"]


class Ink(StrEnum):
    """What a colour is for; a theme or a printer decides how it looks."""

    INK = "ink"
    FAINT = "faint"
    PAPER = "paper"
    ROPE = "rope"
    ROPE_EDGE = "rope edge"
    MARK = "mark"
    THREAD = "thread"
    METAL = "metal"
    TAPE = "tape"
    HAND = "hand"
    SIGN_GREEN = "sign green"
    SIGN_YELLOW = "sign yellow"
    SIGN_BLUE = "sign blue"
    SIGN_RED = "sign red"
    SIGN_WHITE = "sign white"
    SIGN_BLACK = "sign black"


@dataclass(frozen=True, slots=True)
class Line:
    """A stroke through points; its joints are round.

    Attributes:
        width: of the stroke, in box widths.
        cap: how its two ends look.
    """

    points: tuple[Point, ...]
    ink: Ink = Ink.INK
    width: float = 0.009
    cap: Cap = "round"


@dataclass(frozen=True, slots=True)
class Polygon:
    """A convex area (a fan of triangles from its first point fills it), with or without an outline."""

    points: tuple[Point, ...]
    fill: Ink | None = None
    ink: Ink | None = None
    width: float = 0.009


@dataclass(frozen=True, slots=True)
class Circle:
    """A disc, a ring, or both."""

    x: float
    y: float
    radius: float
    fill: Ink | None = None
    ink: Ink | None = None
    width: float = 0.009


@dataclass(frozen=True, slots=True)
class Label:
    """A short text.

    Attributes:
        x, y: the middle of the text's height, at the side that `anchor` names.
        size: of the type, in box widths.
    """

    text: str
    x: float
    y: float
    anchor: Anchor = "left"
    size: float = 0.056
    bold: bool = False
    ink: Ink = Ink.INK


Shape = Line | Polygon | Circle | Label


@dataclass(frozen=True, slots=True)
class Figure:
    """Shapes in a box one unit wide.

    Attributes:
        height: of the box, in its widths.
        shapes: from the bottom-most to the top-most.
    """

    name: str
    height: float
    shapes: tuple[Shape, ...]


def placed(shapes: Iterable[Shape], *, x: float = 0, y: float = 0, scale: float = 1, flip: bool = False) -> list[Shape]:
    """Return shapes scaled about the origin, turned upside down if asked, then moved by (x, y).

    Labels are moved, never turned.
    """
    up = -scale if flip else scale

    def at(point: Point) -> Point:
        return x + scale * point[0], y + up * point[1]

    found: list[Shape] = []
    for shape in shapes:
        match shape:
            case Line() | Polygon():
                found.append(replace(shape, points=tuple(map(at, shape.points)), width=shape.width * scale))
            case Circle():
                cx, cy = at((shape.x, shape.y))
                found.append(replace(shape, x=cx, y=cy, radius=shape.radius * scale, width=shape.width * scale))
            case Label():
                cx, cy = at((shape.x, shape.y))
                found.append(replace(shape, x=cx, y=cy, size=shape.size * scale))
    return found


def lying(shapes: Iterable[Shape]) -> list[Shape]:
    """Return shapes turned by a quarter about the origin: what hung below it lies to its right.

    Labels are moved, never turned.
    """
    return _moved(shapes, lambda point: (-point[1], point[0]))


def mirrored(shapes: Iterable[Shape], about: float = 0) -> list[Shape]:
    """Return shapes with left and right exchanged about an upright line; labels are left out."""
    found = [shape for shape in shapes if not isinstance(shape, Label)]
    return _moved(found, lambda point: (2 * about - point[0], point[1]))


def _moved(shapes: Iterable[Shape], at: Callable[[Point], Point]) -> list[Shape]:
    found: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, Line | Polygon):
            found.append(replace(shape, points=tuple(map(at, shape.points))))
        else:
            x, y = at((shape.x, shape.y))
            found.append(replace(shape, x=x, y=y))
    return found


def arc(x: float, y: float, radius: float, start: float, end: float, flat: float = 1) -> tuple[Point, ...]:
    """Return points on an arc from one angle to another, in degrees counted from the right, anticlockwise.

    `flat` squeezes it upright: 0.4 looks like a ring seen from the side.
    """
    count = max(6, round(abs(end - start) / 6)) + 1
    angles = (math.radians(start + (end - start) * step / (count - 1)) for step in range(count))
    return tuple((x + radius * math.cos(a), y + flat * radius * math.sin(a)) for a in angles)


def curve(start: Point, first: Point, second: Point, end: Point, count: int = 20) -> tuple[Point, ...]:
    """Return points on the cubic Bézier curve with these two control points."""
    return tuple(_bezier((start, first, second, end), step / count) for step in range(count + 1))


def box(left: float, bottom: float, right: float, top: float) -> tuple[Point, ...]:
    """Return the corners of an upright rectangle."""
    return (left, bottom), (right, bottom), (right, top), (left, top)


def dashed(
    points: Sequence[Point], ink: Ink = Ink.INK, width: float = 0.008, dash: float = 0.022, gap: float = 0.018
) -> list[Shape]:
    """Return the strokes of a dashed line; only strokes, so that no renderer needs to know about dashes."""
    fine = _resampled(points, dash / 4)
    found: list[Shape] = []
    stroke: list[Point] = []
    for distance, point in fine:
        if distance % (dash + gap) <= dash:
            stroke.append(point)
        elif stroke:
            found.append(Line(tuple(stroke), ink, width, "flat"))
            stroke = []
    if len(stroke) > 1:
        found.append(Line(tuple(stroke), ink, width, "flat"))
    return [line for line in found if isinstance(line, Line) and len(line.points) > 1]


def arrow(points: Sequence[Point], ink: Ink = Ink.INK, width: float = 0.011, head: float = 0.036) -> list[Shape]:
    """Return a stroke that ends in a filled head at its last point."""
    (x0, y0), (x1, y1) = points[-2], points[-1]
    long = math.hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    bx, by = x1 - ux * head, y1 - uy * head
    side = head * 0.48
    return [
        Line((*points[:-1], (bx, by)), ink, width, "flat"),
        Polygon(((x1, y1), (bx - uy * side, by + ux * side), (bx + uy * side, by - ux * side)), ink),
    ]


def span(start: Point, end: Point, ink: Ink = Ink.INK, width: float = 0.008, head: float = 0.03) -> list[Shape]:
    """Return a dimension: a stroke with a head at either end and a cross bar where each points."""
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    long = math.hypot(end[0] - start[0], end[1] - start[1])
    nx, ny = (end[1] - start[1]) / long * 0.028, -(end[0] - start[0]) / long * 0.028
    bars: list[Shape] = [Line(((x - nx, y - ny), (x + nx, y + ny)), ink, width, "flat") for x, y in (start, end)]
    return [*bars, *arrow((middle, start), ink, width, head), *arrow((middle, end), ink, width, head)]


def ticks(path: Sequence[Point], spacing: float) -> Iterator[tuple[Point, Point]]:
    """Yield evenly spaced points along a path, each with the unit vector the path runs in there."""
    fine = _resampled(path, spacing)
    for (_, here), (_, there) in pairwise(fine):
        long = math.hypot(there[0] - here[0], there[1] - here[1])
        if long:
            yield here, ((there[0] - here[0]) / long, (there[1] - here[1]) / long)


def _bezier(points: tuple[Point, Point, Point, Point], t: float) -> Point:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
    return (
        sum(w * p[0] for w, p in zip(weights, points, strict=True)),
        sum(w * p[1] for w, p in zip(weights, points, strict=True)),
    )


def _resampled(path: Sequence[Point], spacing: float) -> list[tuple[float, Point]]:
    """Return points about `spacing` apart along the path, from its first to its last, with their distance."""
    lengths = [math.dist(a, b) for a, b in pairwise(path)]
    total = sum(lengths)
    count = max(1, round(total / spacing))
    found: list[tuple[float, Point]] = []
    index, passed = 0, 0.0
    for step in range(count + 1):
        target = total * step / count
        while index < len(lengths) - 1 and passed + lengths[index] < target:
            passed += lengths[index]
            index += 1
        part = (target - passed) / lengths[index] if lengths[index] else 0
        (x0, y0), (x1, y1) = path[index], path[index + 1]
        found.append((target, (x0 + (x1 - x0) * part, y0 + (y1 - y0) * part)))
    return found
