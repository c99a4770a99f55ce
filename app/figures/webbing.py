"""Webbing as it looks: a strap from its face and from its edge, seams, and what may be wrong with it."""

from collections.abc import Sequence

from app.figures.shapes import Circle, Ink, Line, Point, Polygon, Shape, box, curve

_EDGE = 0.014


def face(left: float, right: float, axis: float, width: float) -> list[Shape]:
    """Return a strap that lies across the figure, seen from its face."""
    low, high = axis - width / 2, axis + width / 2
    found: list[Shape] = [Polygon(box(left, low, right, high), Ink.ROPE)]
    count = max(3, round(width / 0.045))
    for row in range(1, count):
        y = low + width * row / count
        found.append(Line(((left, y), (right, y)), Ink.ROPE_EDGE, 0.006, "flat"))
    found += [Line(((left, y), (right, y)), Ink.ROPE_EDGE, _EDGE, "flat") for y in (low, high)]
    return found


def strap(path: Sequence[Point], width: float) -> list[Shape]:
    """Return a strap seen from its edge."""
    return [Line(tuple(path), Ink.ROPE_EDGE, width, "flat"), Line(tuple(path), Ink.ROPE, width - 0.016, "flat")]


def seam(left: float, right: float, low: float, high: float, rows: int = 4) -> list[Shape]:
    """Return a sewn seam: rows of stitches along the strap, joined by a lacing."""
    found: list[Shape] = []
    for row in range(rows):
        y = low + (high - low) * (row + 0.5) / rows
        count = max(3, round((right - left) / 0.035))
        for index in range(count):
            x = left + (right - left) * index / count
            found.append(Line(((x, y), (x + (right - left) / count * 0.62, y)), Ink.THREAD, 0.013, "flat"))
    return found


def nick(x: float, edge: float, deep: float, wide: float = 0.05) -> list[Shape]:
    """Return a cut that runs in from an edge of the strap; `deep` is signed: into the strap."""
    return [
        Polygon(((x - wide / 2, edge + (0.016 if deep < 0 else -0.016)),
                 (x + wide / 2, edge + (0.016 if deep < 0 else -0.016)), (x, edge + deep)), Ink.INK),
    ]  # fmt: skip


def hole(x: float, y: float, size: float) -> list[Shape]:
    """Return a cut or tear in the face, its broken threads standing out."""
    leaf = curve((x - size, y), (x - size * 0.4, y + size * 0.7), (x + size * 0.4, y + size * 0.7), (x + size, y), 10)
    lower = tuple((px, 2 * y - py) for px, py in leaf[1:-1])
    threads = [
        Line(((x + dx * size, y - size * 0.4), (x + dx * size * 0.8, y + size * 0.25)), Ink.ROPE, 0.012, "flat")
        for dx in (-0.5, -0.1, 0.35)
    ]
    return [Polygon((*reversed(leaf), *lower), Ink.INK), *threads]


def worn(x: float, y: float, size: float) -> list[Shape]:
    """Return a worn patch: short broken fibres."""
    found: list[Shape] = []
    for index in range(11):
        dx = (index * 37 % 11 / 11 - 0.5) * 2 * size
        dy = (index * 53 % 11 / 11 - 0.5) * 1.2 * size
        found.append(Line(((x + dx, y + dy), (x + dx + 0.014, y + dy + 0.026)), Ink.INK, 0.008))
    return found


def melted(x: float, y: float, size: float) -> list[Shape]:
    """Return a melted or charred spot: a hard crust with a shining rim."""
    bumps = ((-0.6, 0.1, 0.5), (-0.1, 0.35, 0.52), (0.5, 0.15, 0.48), (0.25, -0.3, 0.5), (-0.35, -0.3, 0.46))
    found: list[Shape] = [Circle(x + dx * size, y + dy * size, r * size, Ink.INK) for dx, dy, r in bumps]
    return [*found, Line(curve((x - size * 0.5, y), (x - size * 0.3, y + size * 0.3), (x, y + size * 0.4),
                               (x + size * 0.3, y + size * 0.25), 8), Ink.PAPER, 0.01)]  # fmt: skip
