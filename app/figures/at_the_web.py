"""Figures of webbing: its faces, its edges, burns and knots, its sewn eyes, and the roundsling."""

from itertools import pairwise

from app.figures.rope import rope
from app.figures.shapes import Circle, Figure, Ink, Line, Point, Polygon, Shape, arc, arrow, box, curve, dashed
from app.figures.tools import drawn, finger, label, lens, number, pointer, turning_along
from app.figures.webbing import face, hole, melted, nick, seam, strap, worn

_AXIS, _WIDE = 0.36, 0.3
_LOW, _HIGH = _AXIS - _WIDE / 2, _AXIS + _WIDE / 2


def webbing() -> Figure:
    """Webbing through the hand, an arm-span at a time, its edge bent so that a cut opens."""
    over = (*curve((0.02, 0.46), (0.2, 0.56), (0.4, 0.56), (0.52, 0.4), 16), (0.6, 0.2), (0.64, 0.02))
    return drawn(
        "webbing",
        strap(over, 0.13),
        finger((0.28, 0.2), (0.33, 0.4), 0.085),
        finger((0.38, 0.2), (0.42, 0.37), 0.085),
        [Polygon(((0.36, 0.572), (0.42, 0.56), (0.38, 0.5)), Ink.INK)],
        label("bend it:\na cut opens", 0.62, 0.6),
        pointer((0.6, 0.6), (0.42, 0.56)),
        label("both faces,\nboth edges", 0.98, 0.3, "right"),
        label("every arm-span", 0.06, 0.08),
    )


def web_face_a() -> Figure:
    """One face of the web from end to end, under its label too."""
    return drawn(
        "web_face_a",
        face(0.02, 0.98, _AXIS, _WIDE),
        dashed((*box(0.08, _LOW + 0.05, 0.24, _HIGH - 0.05), (0.08, _LOW + 0.05))),
        hole(0.16, _AXIS - 0.01, 0.04),
        [Polygon(((0.08, _HIGH - 0.05), (0.24, _HIGH - 0.05), (0.27, 0.62), (0.11, 0.62)), Ink.PAPER, Ink.INK, 0.01)],
        finger((0.4, 0.66), (0.27, 0.59), 0.08),
        hole(0.48, _AXIS, 0.06),
        worn(0.68, _AXIS, 0.055),
        number("A", 0.9, _AXIS),
        arrow(((0.34, 0.13), (0.74, 0.13)), width=0.014, head=0.048),
        label("against the light", 0.98, 0.06, "right"),
        label("under the\nlabel too", 0.04, 0.12),
        label("cut", 0.48, 0.58, "centre"),
        label("wear", 0.68, 0.58, "centre"),
    )


def web_face_b() -> Figure:
    """The web turned over: the other face, its cross yarns pushed with a finger."""
    return drawn(
        "web_face_b",
        face(0.02, 0.98, 0.33, 0.26),
        _ladder(0.5, 0.33, 0.12, 0.09),
        finger((0.66, 0.16), (0.55, 0.29), 0.085),
        number("B", 0.9, 0.33),
        turning_along(0.17, 0.33, 0.21),
        label("turn it over", 0.04, 0.64),
        label("push: do the cross\nyarns move?", 0.98, 0.6, "right"),
        arrow(((0.58, 0.07), (0.92, 0.07)), width=0.014, head=0.048),
        label("against the light", 0.06, 0.07),
    )


def web_edges() -> Figure:
    """Each edge between finger and thumb; bent, a cut opens."""
    return drawn(
        "web_edges",
        face(0.02, 0.98, 0.44, 0.26),
        finger((0.3, 0.06), (0.36, 0.27), 0.095),
        finger((0.42, 0.62), (0.44, 0.36), 0.095, nail=False),
        nick(0.66, 0.31, 0.075, 0.06),
        arrow(((0.12, 0.2), (0.28, 0.2)), width=0.014, head=0.048),
        arrow(((0.48, 0.2), (0.6, 0.2)), width=0.014, head=0.048),
        label("cut: bend\nit open", 0.98, 0.1, "right"),
        pointer((0.76, 0.16), (0.68, 0.29)),
        label("both edges", 0.98, 0.64, "right"),
        label("finger,\nthumb", 0.04, 0.08),
    )


def web_hurt() -> Figure:
    """Burns, chemical marks and knots on a web."""
    return _hurt("web_hurt", [*face(0.02, 0.98, 0.44, 0.26), *_strap_knot(0.8, 0.16)])


def round_cover() -> Figure:
    """A roundsling turned through the hands, its cover looked at all round."""
    ring = arc(0.36, 0.36, 0.27, 0, 360, 0.9)
    return drawn(
        "round_cover",
        [Line(ring, Ink.ROPE_EDGE, 0.12), Line(ring, Ink.ROPE, 0.1)],
        [Line(arc(0.36, 0.36, 0.235, 0, 360, 0.9), Ink.ROPE_EDGE, 0.008)],
        [Polygon(arc(0.575, 0.45, 0.05, 0, 360, 0.8)[:-1], Ink.INK)],
        [Line(((0.545, 0.44 + dy), (0.605, 0.455 + dy)), Ink.PAPER, 0.014, "flat") for dy in (-0.014, 0.014)],
        finger((0.02, 0.2), (0.13, 0.28), 0.085),
        finger((0.04, 0.1), (0.16, 0.2), 0.085),
        arrow(arc(0.36, 0.36, 0.15, 150, 40, 0.9), width=0.013, head=0.046),
        label("hole: is the\ncore seen?", 0.98, 0.6, "right"),
        pointer((0.72, 0.53), (0.63, 0.47)),
        label("seam\nopen?", 0.98, 0.2, "right"),
        label("under the\nlabel too", 0.36, 0.31, "centre"),
    )


def round_core() -> Figure:
    """The core rolled under the thumbs, once fully round: firm, a lump, thin."""
    return drawn(
        "round_core",
        [Line(((0.22, 0.69), (0.22, 0.02)), Ink.ROPE_EDGE, 0.18, "flat"),
         Line(((0.22, 0.69), (0.22, 0.02)), Ink.ROPE, 0.16, "flat")],
        [Line(((0.275, 0.69), (0.275, 0.02)), Ink.ROPE_EDGE, 0.008, "flat")],
        *(dashed(((0.19 + 0.03 * n, 0.67), (0.19 + 0.03 * n, 0.04))) for n in range(3)),
        finger((0.03, 0.4), (0.12, 0.44), 0.09),
        finger((0.46, 0.4), (0.34, 0.44), 0.09),
        arrow(((0.45, 0.3), (0.45, 0.08)), width=0.012, head=0.042),
        _profiles(),
    )  # fmt: skip


def round_hurt() -> Figure:
    """Heat, chemical marks and knots on a roundsling."""
    tube: list[Shape] = [
        Line(((0.02, 0.44), (0.98, 0.44)), Ink.ROPE_EDGE, 0.17, "flat"),
        Line(((0.02, 0.44), (0.98, 0.44)), Ink.ROPE, 0.15, "flat"),
        Line(((0.02, 0.39), (0.98, 0.39)), Ink.ROPE_EDGE, 0.008, "flat"),
    ]
    return _hurt("round_hurt", [*tube, *_strap_knot(0.8, 0.16)])


def sewn_eye() -> Figure:
    """A sewn eye opened, its inside turned to the light where it bears."""
    back = arc(0.32, 0.42, 0.19, -12, 192)
    down = curve(back[0], (0.5, 0.3), (0.37, 0.26), (0.355, 0.16), 12)
    left = tuple((0.64 - x, y) for x, y in down)
    return drawn(
        "sewn_eye",
        [Circle(0.32, 0.4, 0.095, Ink.METAL, Ink.INK, 0.01)],
        strap((*reversed(down), *back[1:], *left[1:], (0.285, 0.02)), 0.06),
        strap((down[-1], (0.355, 0.02)), 0.06),
        [Line(((0.27, y), (0.37, y - 0.016)), Ink.THREAD, 0.014) for y in (0.14, 0.1, 0.06)],
        [Line(arc(0.32, 0.42, 0.155, 30, 150), Ink.MARK, 0.02, "flat")],
        pointer((0.32, 0.42), (0.32, 0.55)),
        label("inside, where\nit bears", 0.98, 0.55, "right"),
        dashed(((0.6, 0.56), (0.46, 0.53))),
        label("worn, glazed,\ncut, melted", 0.98, 0.22, "right"),
    )


def stitching() -> Figure:
    """Every stitch from first to last, both faces; the sewn-down end must not lift."""
    return drawn(
        "stitching",
        face(0.02, 0.98, 0.38, 0.24),
        [Line(((0.3, 0.26), (0.3, 0.5)), Ink.ROPE_EDGE, 0.02, "flat")],
        [Polygon(((0.3, 0.42), (0.3, 0.5), (0.25, 0.56), (0.22, 0.52)), Ink.ROPE, Ink.ROPE_EDGE, 0.012)],
        seam(0.34, 0.5, 0.28, 0.48, 5),
        seam(0.74, 0.86, 0.28, 0.48, 5),
        [Line(((x, 0.36), (x + 0.016, 0.4)), Ink.THREAD, 0.013) for x in (0.55, 0.59, 0.63, 0.67)],
        [Line(((x, 0.31), (x + 0.016, 0.35)), Ink.THREAD, 0.013) for x in (0.55, 0.67)],
        [
            Line(((0.595, 0.33), (0.6, 0.345)), Ink.THREAD, 0.013),
            Line(((0.64, 0.305), (0.648, 0.32)), Ink.THREAD, 0.013),
        ],
        [Line(((x, 0.42), (x + 0.016, 0.46)), Ink.THREAD, 0.013) for x in (0.57, 0.62, 0.66)],
        lens(0.62, 0.38, 0.11),
        label("lean?\nbroken?", 0.62, 0.18, "centre"),
        finger((0.08, 0.63), (0.2, 0.56), 0.085),
        turning_along(0.93, 0.38, 0.19),
        label("does the end lift?", 0.32, 0.63),
        label("first to last", 0.06, 0.16),
        arrow(((0.1, 0.07), (0.38, 0.07)), width=0.014, head=0.048),
        label("both faces", 0.98, 0.06, "right"),
    )


def stitching_feel() -> Figure:
    """Stitching under its sleeve: pressed along and bent."""
    return drawn(
        "stitching_feel",
        strap(((0.02, 0.4), (0.98, 0.4)), 0.13),
        [Polygon(box(0.26, 0.31, 0.72, 0.49), Ink.PAPER, Ink.INK, 0.012)],
        *(dashed(((0.32, y), (0.66, y))) for y in (0.36, 0.4, 0.44)),
        finger((0.36, 0.66), (0.4, 0.54), 0.09),
        finger((0.58, 0.14), (0.56, 0.26), 0.09),
        label("sleeve whole,\nnot moved", 0.98, 0.62, "right"),
        pointer((0.8, 0.55), (0.71, 0.48)),
        label("press and bend:\nfirm, even", 0.06, 0.15),
    )


def _hurt(name: str, sling: list[Shape]) -> Figure:
    flakes: list[Shape] = []
    for index in range(6):
        x, y = 0.46 + 0.03 * (index % 3), 0.48 - 0.05 * (index // 3)
        flakes.append(Line(((x, y), (x + 0.018, y + 0.03)), Ink.INK, 0.012))
    return drawn(
        name,
        sling,
        melted(0.2, 0.44, 0.06),
        flakes,
        finger((0.56, 0.2), (0.52, 0.39), 0.08),
        label("melted, charred", 0.04, 0.64),
        label("flakes: chemical", 0.98, 0.64, "right"),
        label("pluck", 0.42, 0.2, "right"),
        label("a knot", 0.98, 0.06, "right"),
    )


def _ladder(x: float, y: float, wide: float, high: float) -> list[Shape]:
    """Long yarns that part where the cross yarns are gone."""
    outline = (*arc(x, y, wide, 0, 180, high / wide), *arc(x, y, wide, 180, 360, high / wide)[1:-1])
    yarns: list[Shape] = []
    for part in (-0.6, -0.2, 0.2, 0.6):
        spread = curve((x - wide, y + part * high * 0.4), (x - wide * 0.3, y + part * high),
                       (x + wide * 0.3, y + part * high), (x + wide, y + part * high * 0.4), 10)  # fmt: skip
        yarns.append(Line(spread, Ink.ROPE, 0.02))
    return [Polygon(outline, Ink.INK), *yarns]


def _strap_knot(x: float, y: float) -> list[Shape]:
    """A strap with an overhand knot."""
    through: tuple[Point, ...] = ((x - 0.17, y - 0.02), (x - 0.04, y + 0.01), (x + 0.05, y + 0.05))
    loop = arc(x, y + 0.01, 0.065, 60, 330, 0.9)
    end: tuple[Point, ...] = ((x + 0.05, y - 0.03), (x - 0.02, y + 0.015), (x + 0.03, y + 0.0), (x + 0.17, y + 0.01))
    return [*rope(through, 0.05, "web"), *rope(loop, 0.05, "web"), *rope(end[2:], 0.05, "web")]


def _profiles() -> list[Shape]:
    """Three lengths of core by feel: even, a lump, thin."""
    found: list[Shape] = []
    for index, (name, swell) in enumerate((("even", 0.0), ("lump", 0.035), ("thin", -0.03))):
        y = 0.625 - 0.225 * index
        upper = curve((0.58, y + 0.045), (0.69, y + 0.045), (0.68, y + 0.045 + swell), (0.775, y + 0.045 + swell), 8)
        top = (*upper, *((1.55 - x, py) for x, py in reversed(upper[:-1])))
        for (x0, y0), (x1, y1) in pairwise(top):
            found.append(Polygon(((x0, y0), (x1, y1), (x1, 2 * y - y1), (x0, 2 * y - y0)), Ink.ROPE))
        found += [
            Line(top, Ink.ROPE_EDGE, 0.012),
            Line(tuple((x, 2 * y - py) for x, py in top), Ink.ROPE_EDGE, 0.012),
        ]
        found += label(name, 0.775, y - 0.11, "centre")
    return found
