"""Rope as it looks: braid, laid rope and webbing along a path, what is sewn and inked on it, what it bears on."""

from collections.abc import Sequence
from typing import Literal

from app.figures.shapes import Ink, Line, Point, Polygon, Shape, dashed, ticks

Make = Literal["braid", "laid", "web"]
_EDGE = 0.011


def rope(path: Sequence[Point], width: float, make: Make = "braid", *, strands: int = 1) -> list[Shape]:
    """Return rope of one width along a path.

    Args:
        strands: chevrons side by side, for braid drawn large.
    """
    if make == "laid":
        return _laid(path, width)
    band: list[Shape] = [
        Line(tuple(path), Ink.ROPE_EDGE, width, "flat"),
        Line(tuple(path), Ink.ROPE, width - 2 * _edge(width), "flat"),
    ]
    return band + (_webbing(path, width) if make == "web" else _chevrons(path, width, strands))


def tapered(top: Point, bottom: Point, width: float, end_width: float, *, strands: int = 1) -> list[Shape]:
    """Return upright braid that narrows from the wide end to the other, as it does over a tapered tail."""
    (x, y0), (_, y1) = top, bottom
    corners = ((x - width / 2, y0), (x - end_width / 2, y1), (x + end_width / 2, y1), (x + width / 2, y0))
    edge = _edge(width)
    found: list[Shape] = [
        Polygon(corners, Ink.ROPE),
        Line(corners[:2], Ink.ROPE_EDGE, edge, "flat"),
        Line(corners[2:], Ink.ROPE_EDGE, edge, "flat"),
    ]
    rows = max(1, round(abs(y1 - y0) / (width / strands * 0.55)))
    for row in range(1, rows):
        part = row / rows
        wide = width + (end_width - width) * part - 2 * edge
        found += _chevron((x, y0 + (y1 - y0) * part), (0, -1 if y1 < y0 else 1), wide, strands, edge)
    return found


def hidden(path: Sequence[Point], width: float) -> list[Shape]:
    """Return the dashed outline of a tail inside the rope."""
    sides: list[Shape] = []
    for side in (-width / 2, width / 2):
        sides += dashed(offset(path, side), Ink.INK, 0.006, 0.02, 0.016)
    return sides


def ring_mark(at: Point, along: Point, width: float, thick: float = 0.028) -> Line:
    """Return a mark inked across the rope at a point; `along` is the unit vector the rope runs in."""
    (x, y), (tx, ty) = at, along
    half = width / 2
    return Line(((x - ty * half, y + tx * half), (x + ty * half, y - tx * half)), Ink.MARK, thick, "flat")


def stitches(x: float, top: float, bottom: float, width: float, *, count: int = 3, lean: float = 0) -> list[Shape]:
    """Return lock stitching through upright rope: whole lines on this face, dashes for those on the other.

    Args:
        lean: how far each stitch leans over the rope's width, in pitches: those of a splice whose parts have moved.
    """
    found: list[Shape] = []
    pitch = (top - bottom) / count
    half = width / 2
    for index in range(count):
        y = top - pitch * (index + 0.5)
        over = pitch * lean / 2
        behind = ((x + half, y - over), (x - half, y - pitch + over))
        if index < count - 1:
            found += dashed(behind, Ink.THREAD, width * 0.05, width * 0.1, width * 0.1)
        found.append(Line(((x - half, y + over), (x + half, y - over)), Ink.THREAD, width * 0.085, "round"))
    return found


def thimble(path: Sequence[Point], width: float) -> list[Shape]:
    """Return a thimble's rim along the inside of an eye; `path` is its closed outline."""
    return [Line(tuple(path), Ink.INK, width * 1.5), Line(tuple(path), Ink.METAL, width)]


def offset(path: Sequence[Point], by: float) -> tuple[Point, ...]:
    """Return the path moved sideways, to its right when `by` is positive."""
    found: list[Point] = []
    for index, (x, y) in enumerate(path):
        x0, y0 = path[max(0, index - 1)]
        x1, y1 = path[min(len(path) - 1, index + 1)]
        long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        found.append((x + (y1 - y0) / long * by, y - (x1 - x0) / long * by))
    return tuple(found)


def _edge(width: float) -> float:
    return min(_EDGE, width * 0.09)


def _chevrons(path: Sequence[Point], width: float, strands: int) -> list[Shape]:
    edge = _edge(width)
    found: list[Shape] = []
    for at, along in ticks(path, width / strands * 0.55):
        found += _chevron(at, along, width - 2 * edge, strands, edge)
    return found


def _chevron(at: Point, along: Point, width: float, strands: int, thick: float) -> list[Shape]:
    (x, y), (tx, ty) = at, along
    points: list[Point] = []
    for step in range(2 * strands + 1):
        side = width * (step / (2 * strands) - 0.5)
        ahead = width / strands * (0.12 if step % 2 else -0.12)
        points.append((x + ty * side + tx * ahead, y - tx * side + ty * ahead))
    return [Line(tuple(points), Ink.ROPE_EDGE, thick * 0.6, "round")]


def _laid(path: Sequence[Point], width: float) -> list[Shape]:
    """Strands as short thick strokes across the rope, each lying over the one before."""
    thick = width * 0.46
    side, rise, edge = width * 0.27, width * 0.2, _edge(width)
    found: list[Shape] = []
    for (x, y), (tx, ty) in ticks(path, width * 0.36):
        ends = (
            (x - ty * side - tx * rise, y + tx * side - ty * rise),
            (x + ty * side + tx * rise, y - tx * side + ty * rise),
        )
        found += [Line(ends, Ink.ROPE_EDGE, thick, "round"), Line(ends, Ink.ROPE, thick - 1.6 * edge, "round")]
    return found


def _webbing(path: Sequence[Point], width: float) -> list[Shape]:
    return [Line(offset(path, side * width), Ink.ROPE_EDGE, width * 0.03, "flat") for side in (-0.3, -0.1, 0.1, 0.3)]
