"""Figures of how rope is opened to look inside, where its construction opens otherwise than a hollow braid."""

from app.figures.on_the_body import grip
from app.figures.rope import rope
from app.figures.shapes import Circle, Figure, Ink, Line, Polygon, Shape, arc, arrow, box, curve
from app.figures.tools import drawn, finger, label, pointer

_AXIS = 0.4
_FOUND = "powder, grit, broken fibre"


def lay_opened() -> Figure:
    """Laid rope turned against its lay with both hands until its strands part."""
    strands = [
        Line(curve((0.34, _AXIS + low), (0.44, _AXIS + high), (0.56, _AXIS + high), (0.66, _AXIS - low), 14), ink, wide)
        for low, high in ((0.04, 0.14), (-0.04, -0.14), (0.0, 0.015))
        for ink, wide in ((Ink.ROPE_EDGE, 0.082), (Ink.ROPE, 0.06))
    ]
    return drawn(
        "body_inside laid",
        rope(((0.02, _AXIS), (0.38, _AXIS)), 0.17, "laid"),
        rope(((0.98, _AXIS), (0.62, _AXIS)), 0.17, "laid"),
        [Polygon(box(0.38, _AXIS - 0.06, 0.62, _AXIS + 0.06), Ink.INK)],
        strands,
        grip(0.17, _AXIS),
        grip(0.83, _AXIS),
        arrow(arc(0.17, 0.2, 0.1, 200, 340, 0.6), width=0.014, head=0.048),
        arrow(tuple(reversed(arc(0.83, 0.2, 0.1, 200, 340, 0.6))), width=0.014, head=0.048),
        label("turn against\nthe lay", 0.5, 0.13, "centre"),
        label(_FOUND, 0.5, 0.64, "centre"),
        pointer((0.5, 0.6), (0.5, 0.46)),
    )


def cover_parted() -> Figure:
    """A double braid's cover parted with a blunt fid, the core seen below it."""
    slit = curve((0.36, _AXIS), (0.42, _AXIS + 0.09), (0.56, _AXIS + 0.09), (0.62, _AXIS), 12)
    low = tuple((x, 2 * _AXIS - y) for x, y in slit)
    core: list[Shape] = [
        Line(((0.41 + 0.04 * n, _AXIS - 0.045), (0.45 + 0.04 * n, _AXIS + 0.045)), Ink.ROPE, 0.016) for n in range(4)
    ]
    fid = ((0.66, 0.11), (0.71, 0.15), (0.545, 0.385), (0.53, 0.375))
    return drawn(
        "body_inside cover",
        rope(((0.02, _AXIS), (0.98, _AXIS)), 0.2, strands=3),
        [Polygon((*slit, *reversed(low[1:-1])), Ink.INK)],
        core,
        [Line(side, Ink.ROPE_EDGE, 0.018) for side in (slit, low)],
        [Polygon(fid, Ink.METAL, Ink.INK, 0.01)],
        finger((0.86, 0.04), (0.71, 0.12), 0.09),
        grip(0.17, _AXIS),
        label("slack; a blunt fid\nparts the cover", 0.02, 0.14),
        label(_FOUND, 0.5, 0.64, "centre"),
        pointer((0.49, 0.6), (0.49, 0.45)),
    )


def end_looked_into() -> Figure:
    """The open end of a rope whose sheath stays shut: the core inside it."""
    x, radius = 0.3, 0.24
    core = [(0.0, 0.0), *((0.11 * dx, 0.11 * dy) for dx, dy in ((1, 0), (0.5, 0.87), (-0.5, 0.87), (-1, 0)))]
    core += [(-0.055, -0.095), (0.055, -0.095)]
    return drawn(
        "body_inside end",
        [Circle(x, 0.34, radius, Ink.ROPE, Ink.ROPE_EDGE, 0.02), Circle(x, 0.34, 0.185, Ink.PAPER, Ink.INK, 0.01)],
        [Circle(x + dx, 0.34 + dy, 0.052, Ink.ROPE, Ink.ROPE_EDGE, 0.012) for dx, dy in core],
        [Circle(x + dx, 0.34 + dy, 0.012, Ink.INK) for dx, dy in ((0.07, 0.02), (0.02, 0.075), (-0.06, 0.03))],
        label("an open end:\nits core", 0.98, 0.6, "right"),
        pointer((0.64, 0.58), (0.4, 0.43)),
        label("powder, grit,\nbroken fibre", 0.98, 0.36, "right"),
        label("sealed or sewn:\nhidden by design", 0.98, 0.1, "right"),
    )
