"""Figures of what is measured or estimated on webbing: wear, damaged yarns, edge cuts."""

from itertools import pairwise

from app.figures.shapes import Figure, Ink, Line, Polygon, Shape, arc, box, curve, dashed, span
from app.figures.tools import drawn, label, number, pointer, tape
from app.figures.webbing import face, nick

_AXIS, _WIDE = 0.38, 0.36
_LOW, _HIGH = _AXIS - _WIDE / 2, _AXIS + _WIDE / 2


def web_abrasion_a() -> Figure:
    """The web from its edge: how deep face A is worn, of the whole thickness."""
    return _section("web_abrasion_a", upper=True)


def web_abrasion_b() -> Figure:
    """The web from its edge: how deep face B is worn, of the whole thickness."""
    return _section("web_abrasion_b", upper=False)


def warp_width() -> Figure:
    """The rule across the web over damaged long yarns."""
    return drawn(
        "warp_width",
        face(0.02, 0.66, _AXIS, _WIDE),
        _broken(0.3, 0.31, 0.47),
        tape(((0.5, 0.31), (0.5, 0.56)), 0.07, spacing=0.024, side=-1),
        dashed(((0.34, 0.31), (0.72, 0.31))),
        dashed(((0.34, 0.47), (0.72, 0.47))),
        span((0.74, 0.31), (0.74, 0.47)),
        label("how\nwide", 0.79, 0.39),
        label("long yarns broken", 0.34, 0.64, "centre"),
        label("across the web, each place", 0.06, 0.09),
    )


def warp_edge() -> Figure:
    """The rule from the nearer edge to the nearest damaged yarn."""
    return drawn(
        "warp_edge",
        face(0.02, 0.66, _AXIS, _WIDE),
        _broken(0.3, 0.31, 0.47),
        tape(((0.5, _LOW), (0.5, 0.46)), 0.07, spacing=0.024, side=-1),
        dashed(((0.34, 0.31), (0.72, 0.31))),
        dashed(((0.66, _LOW), (0.72, _LOW))),
        span((0.74, _LOW), (0.74, 0.31)),
        label("how\nfar in", 0.79, 0.255),
        label("long yarns broken", 0.34, 0.64, "centre"),
        label("from the nearer edge", 0.06, 0.09),
    )


def warp_depth() -> Figure:
    """The web from its edge: how deep the long yarns are damaged."""
    return drawn(
        "warp_depth",
        _plies(0.04, 0.62, 0.38, 0.26),
        [Polygon(((0.26, 0.52), (0.42, 0.52), (0.34, 0.36)), Ink.INK)],
        span((0.7, 0.36), (0.7, 0.51)),
        dashed(((0.36, 0.36), (0.68, 0.36))),
        label("how\ndeep", 0.75, 0.44),
        label("of all plies; through is 100 %", 0.06, 0.17),
        label("seen from the edge", 0.06, 0.64),
        label("by eye", 0.06, 0.08),
    )


def weft_width() -> Figure:
    """The rule across the web, where long yarns part because the cross yarns are gone."""
    return drawn(
        "weft_width",
        face(0.02, 0.66, _AXIS, _WIDE),
        _parted(0.27, 0.4, 0.16, 0.1),
        tape(((0.53, 0.3), (0.53, 0.55)), 0.07, spacing=0.024, side=-1),
        dashed(((0.29, 0.3), (0.72, 0.3))),
        dashed(((0.29, 0.5), (0.72, 0.5))),
        span((0.74, 0.3), (0.74, 0.5)),
        label("width", 0.79, 0.4),
        label("cross yarns gone", 0.34, 0.64, "centre"),
        label("both faces, each place", 0.06, 0.09),
    )


def weft_length() -> Figure:
    """The rule along the web, where long yarns part because the cross yarns are gone."""
    return drawn(
        "weft_length",
        face(0.02, 0.98, 0.44, 0.3),
        _parted(0.46, 0.46, 0.24, 0.085),
        tape(((0.22, 0.24), (0.76, 0.24)), 0.06),
        dashed(((0.22, 0.42), (0.22, 0.12))),
        dashed(((0.7, 0.42), (0.7, 0.12))),
        span((0.22, 0.15), (0.7, 0.15)),
        label("length", 0.46, 0.08, "centre"),
        label("cross yarns gone", 0.46, 0.65, "centre"),
    )


def edge_cut() -> Figure:
    """The rule from the edge to the end of the cut, the edge bent so that it opens."""
    return drawn(
        "edge_cut",
        face(0.02, 0.66, 0.46, 0.34),
        nick(0.28, 0.29, 0.15, 0.07),
        tape(((0.48, 0.29), (0.48, 0.58)), 0.075, spacing=0.024, side=-1),
        dashed(((0.28, 0.44), (0.72, 0.44))),
        dashed(((0.66, 0.29), (0.72, 0.29))),
        span((0.74, 0.29), (0.74, 0.44)),
        label("how\nfar in", 0.79, 0.37),
        label("0 at the edge", 0.98, 0.2, "right"),
        pointer((0.57, 0.2), (0.5, 0.27)),
        label("every cut,\nboth edges", 0.06, 0.14),
    )


def _section(name: str, *, upper: bool) -> Figure:
    """The web's thickness with one face worn hollow."""
    middle, half = 0.36, 0.13
    top, low = middle + half, middle - half
    deep = 0.05
    edge, sign = (top, -1) if upper else (low, 1)
    hollow = curve((0.16, edge - sign * 0.01), (0.26, edge), (0.28, edge + sign * deep), (0.36, edge + sign * deep), 10)
    whole = (*hollow, *((0.72 - x, y) for x, y in reversed(hollow[:-1])))
    fill: list[Shape] = [
        Polygon((a, b, (b[0], edge - sign * 0.03), (a[0], edge - sign * 0.03)), Ink.PAPER) for a, b in pairwise(whole)
    ]
    return drawn(
        name,
        _plies(0.04, 0.66, middle, 2 * half),
        fill,
        [Line(whole, Ink.ROPE_EDGE, 0.014)],
        dashed(((0.16, edge), (0.56, edge))),
        number("A" if upper else "B", 0.1, top + 0.08 if upper else low - 0.08),
        span((0.72, low), (0.72, top)),
        label("all\nplies", 0.77, middle),
        label("how deep is it worn?", 0.2, 0.62 if upper else 0.09),
        pointer((0.36, 0.57), (0.36, 0.46)) if upper else pointer((0.36, 0.15), (0.36, 0.26)),
        label("seen from the edge, by eye", 0.06, 0.09 if upper else 0.64),
    )


def _plies(left: float, right: float, axis: float, thick: float) -> list[Shape]:
    """Two plies of web seen from the edge."""
    low, high = axis - thick / 2, axis + thick / 2
    found: list[Shape] = [Polygon(box(left, low, right, high), Ink.ROPE)]
    for ply in range(2):
        base = low + ply * thick / 2
        count = round((right - left) / 0.06)
        for index in range(count):
            x = left + (right - left) * (index + 0.5) / count
            found.append(Line(arc(x, base + thick / 4, 0.026, 0, 360, 1.4), Ink.ROPE_EDGE, 0.007))
    found += [Line(((left, y), (right, y)), Ink.ROPE_EDGE, 0.014, "flat") for y in (low, axis, high)]
    return found


def _broken(x: float, low: float, high: float) -> list[Shape]:
    """Long yarns broken side by side: a gap across the web with ends standing out."""
    found: list[Shape] = [Polygon(box(x - 0.03, low, x + 0.03, high), Ink.INK)]
    rows = round((high - low) / 0.032)
    for row in range(rows):
        y = low + (high - low) * (row + 0.5) / rows
        for side in (-1, 1):
            found.append(Line(((x + side * 0.06, y), (x + side * 0.016, y + 0.008 * side)), Ink.ROPE_EDGE, 0.012))
    return found


def _parted(x: float, y: float, wide: float, high: float) -> list[Shape]:
    """Long yarns that part where the cross yarns are gone."""
    outline = arc(x, y, wide, 0, 360, high / wide)[:-1]
    yarns: list[Shape] = []
    for part in (-0.62, -0.2, 0.22, 0.64):
        path = curve((x - wide, y + part * high * 0.35), (x - wide * 0.3, y + part * high),
                     (x + wide * 0.3, y + part * high), (x + wide, y + part * high * 0.35), 10)  # fmt: skip
        yarns += [Line(path, Ink.ROPE_EDGE, 0.024), Line(path, Ink.ROPE, 0.014)]
    return [Polygon(outline, Ink.INK), *yarns]
