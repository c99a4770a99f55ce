"""Figures of the rope between its splices, and of what happened since the last look."""

from app.figures.rope import ring_mark, rope, tapered
from app.figures.shapes import (
    Circle,
    Figure,
    Ink,
    Line,
    Point,
    Polygon,
    Shape,
    arc,
    arrow,
    curve,
    dashed,
    lying,
    mirrored,
    placed,
    span,
)
from app.figures.tools import drawn, finger, label, pointer

_AXIS = 0.4


def body_surface() -> Figure:
    """The whole length through a gloved hand against the light: strands herniated, pulled, glazed or cut."""
    hernia = curve((0.36, _AXIS + 0.07), (0.34, 0.58), (0.46, 0.58), (0.44, _AXIS + 0.07), 12)
    pulled = curve((0.5, _AXIS + 0.08), (0.48, 0.66), (0.6, 0.66), (0.58, _AXIS + 0.08), 14)
    glazed = [Line(((0.63 + 0.05 * n, 0.34), (0.66 + 0.05 * n, 0.46)), Ink.PAPER, 0.018) for n in range(3)]
    return drawn(
        "body_surface",
        [Line(pulled, Ink.ROPE_EDGE, 0.034), Line(pulled, Ink.ROPE, 0.018)],
        rope(((0.02, _AXIS), (0.98, _AXIS)), 0.17, strands=2),
        [Line(hernia, Ink.ROPE_EDGE, 0.082), Line(hernia, Ink.ROPE, 0.06)],
        [Polygon(((0.62, 0.325), (0.83, 0.325), (0.83, 0.475), (0.62, 0.475)), Ink.ROPE)],
        glazed,
        _cut_strand(0.9, _AXIS + 0.06),
        grip(0.17, _AXIS),
        arrow(((0.1, 0.23), (0.36, 0.23)), width=0.014, head=0.048),
        label("herniated", 0.3, 0.64, "centre"),
        label("pulled", 0.61, 0.63),
        label("cut", 0.98, 0.56, "right"),
        label("glazed, stiff", 0.73, 0.25, "centre"),
        label("gloved, all of it, all round", 0.02, 0.15),
        label("against the light", 0.02, 0.06),
    )


def body_inside() -> Figure:
    """Rope pushed together from both sides until the strands open, and what may lie inside."""
    opened: list[Shape] = [Polygon(_leaf(0.5, _AXIS, 0.15, 0.1), Ink.INK)]
    yarns = [
        Line(
            curve((0.37, _AXIS + dy * 0.2), (0.45, _AXIS + dy), (0.55, _AXIS + dy), (0.63, _AXIS + dy * 0.2), 10),
            Ink.ROPE,
            0.014,
        )
        for dy in (-0.06, -0.02, 0.02, 0.06)
    ]
    sides = [
        Line(curve((0.33, _AXIS), (0.43, _AXIS + side), (0.57, _AXIS + side), (0.67, _AXIS), 14), ink, wide)
        for side in (0.13, -0.13)
        for ink, wide in ((Ink.ROPE_EDGE, 0.062), (Ink.ROPE, 0.042))
    ]
    return drawn(
        "body_inside",
        rope(((0.02, _AXIS), (0.36, _AXIS)), 0.17, strands=2),
        rope(((0.98, _AXIS), (0.64, _AXIS)), 0.17, strands=2),
        opened,
        yarns,
        sides,
        grip(0.17, _AXIS),
        grip(0.83, _AXIS),
        arrow(((0.06, 0.17), (0.3, 0.17)), width=0.014, head=0.048),
        arrow(((0.94, 0.17), (0.7, 0.17)), width=0.014, head=0.048),
        label("push\ntogether", 0.5, 0.15, "centre"),
        label("powder, grit, broken fibre", 0.5, 0.64, "centre"),
        pointer((0.5, 0.6), (0.5, 0.44)),
    )


def girth_worst() -> Figure:
    """The tape once round the worst place."""
    worn = _waist(0.27, 0.57, _AXIS, 0.18, 0.125)
    return drawn(
        "girth_worst",
        _fuzz(0.29, 0.55, _AXIS, 0.075),
        rope(((0.02, _AXIS), (0.28, _AXIS)), 0.18, strands=2),
        rope(((0.56, _AXIS), (0.98, _AXIS)), 0.18, strands=2),
        worn,
        _tape_round(0.42, _AXIS, 0.125),
        label("worst place", 0.42, 0.64, "centre", bold=True),
        label("once round,\nlight touch", 0.98, 0.14, "right"),
        label("3 times", 0.06, 0.14),
    )


def girth_sound() -> Figure:
    """The tape once round a sound place, away from the splice."""
    return drawn(
        "girth_sound",
        rope(((0.24, _AXIS), (0.98, _AXIS)), 0.13),
        placed(lying(tapered((0, 0), (0, -0.24), 0.19, 0.13)), x=0.02, y=_AXIS),
        [ring_mark((0.26, _AXIS), (1, 0), 0.14, 0.034)],
        _tape_round(0.76, _AXIS, 0.13),
        dashed(((0.26, 0.32), (0.26, 0.12))),
        span((0.26, 0.2), (0.74, 0.2)),
        label("at least 1 m", 0.5, 0.12, "centre"),
        label("splice", 0.12, 0.56, "centre"),
        label("sound place", 0.74, 0.64, "centre", bold=True),
    )


def shock() -> Figure:
    """A load that fell and was caught by the rope, heat, a chemical."""
    x = 0.22
    weight: tuple[Point, ...] = ((x - 0.1, 0.05), (x + 0.1, 0.05), (x + 0.075, 0.2), (x - 0.075, 0.2))
    ghost: tuple[Point, ...] = tuple((px, py + 0.24) for px, py in weight)
    bursts = [
        Line(((x + side * 0.14, y), (x + side * 0.2, y + dy)), Ink.INK, 0.014)
        for side in (-1, 1)
        for y, dy in ((0.2, 0.04), (0.13, 0.0), (0.06, -0.04))
    ]
    flame = curve((0.64, 0.38), (0.56, 0.48), (0.67, 0.54), (0.65, 0.67), 12)
    flame_back = curve((0.65, 0.67), (0.79, 0.54), (0.77, 0.45), (0.7, 0.38), 12)
    return drawn(
        "shock",
        [Line(((0.06, 0.66), (0.38, 0.66)), Ink.INK, 0.022, "flat")],
        rope(((x, 0.655), (x, 0.2)), 0.07),
        dashed((*ghost, ghost[0])),
        [Polygon(weight, Ink.METAL, Ink.INK, 0.012)],
        bursts,
        [Line((*flame, *flame_back[1:]), Ink.INK, 0.014)],
        [Line(curve((0.67, 0.39), (0.64, 0.44), (0.69, 0.48), (0.68, 0.53), 8), Ink.INK, 0.01)],
        _drop(0.65, 0.13),
        label("shock,\noverload", 0.3, 0.5),
        label("heat", 0.79, 0.5),
        label("chemical", 0.98, 0.13, "right"),
    )


def grip(x: float, axis: float) -> list[Shape]:
    """Thumb and fingers of a hand closed round rope that lies across the figure."""
    fingers: list[Shape] = []
    for index in range(3):
        at = x - 0.055 + 0.06 * index
        fingers += finger((at, axis + 0.12), (at, axis - 0.07), 0.066)
    return fingers


def _cut_strand(x: float, y: float) -> list[Shape]:
    return [
        Polygon(((x - 0.03, y + 0.03), (x + 0.03, y + 0.03), (x, y - 0.05)), Ink.INK),
        *(Line(((x + dx * 0.5, y), (x + dx, y + 0.065)), Ink.ROPE_EDGE, 0.01) for dx in (-0.05, -0.03, 0.035, 0.055)),
    ]


def _fuzz(left: float, right: float, axis: float, half: float) -> list[Shape]:
    count = round((right - left) / 0.016)
    found: list[Shape] = []
    for index in range(count):
        x = left + (right - left) * index / count
        lean = 0.012 * (1 if index % 3 else -1)
        long = 0.026 + 0.012 * (index % 2)
        for side in (1, -1):
            found.append(
                Line(((x, axis + side * half * 0.9), (x + lean, axis + side * (half + long))), Ink.ROPE_EDGE, 0.007)
            )
    return found


def _leaf(x: float, y: float, wide: float, high: float) -> tuple[Point, ...]:
    upper = curve((x - wide, y), (x - wide * 0.4, y + high * 1.2), (x + wide * 0.4, y + high * 1.2), (x + wide, y), 14)
    return (*reversed(upper), *tuple((px, 2 * y - py) for px, py in upper[1:-1]))


def _waist(left: float, right: float, axis: float, wide: float, narrow: float) -> list[Shape]:
    """Rope across the figure that is thinner in the middle."""
    half = (right - left) / 2
    down = placed(lying(tapered((0, 0), (0, -half), wide, narrow, strands=2)), x=left, y=axis)
    return [*down, *mirrored(down, left + half)]


def _tape_round(x: float, axis: float, width: float) -> list[Shape]:
    """A narrow tape once round rope that lies across the figure; its two ends meet and go off below."""
    half = width / 2
    band = arc(x, axis, half + 0.018, 90, 270, 1)
    front = tuple((x + (px - x) * 0.28, py) for px, py in band)
    end = (*front, (x + 0.03, axis - half - 0.06), (x + 0.1, axis - half - 0.13))
    found: list[Shape] = [Line(end, Ink.INK, 0.074, "flat"), Line(end, Ink.TAPE, 0.058, "flat")]
    for index in range(1, len(front) - 1, 3):
        px, py = front[index]
        found.append(Line(((px - 0.029, py), (px - 0.004, py)), Ink.INK, 0.006, "flat"))
    found.append(Line(((x - 0.028, axis - half - 0.008), (x + 0.03, axis - half - 0.008)), Ink.MARK, 0.012, "flat"))
    return found


def _drop(x: float, y: float) -> list[Shape]:
    outline = (
        *arc(x, y, 0.062, 150, 390),
        *curve((x + 0.0537, y + 0.031), (x + 0.03, y + 0.08), (x, y + 0.1), (x, y + 0.14), 8)[1:],
        *curve((x, y + 0.14), (x, y + 0.1), (x - 0.03, y + 0.08), (x - 0.0537, y + 0.031), 8)[1:],
    )
    return [Line(outline, Ink.INK, 0.014), Circle(x - 0.018, y - 0.01, 0.012, Ink.INK)]
