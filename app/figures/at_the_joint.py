"""Figures of joints in the body of a rope: the end-to-end splice of braids, the short splice of laid rope."""

from app.figures.rope import hidden, ring_mark, rope, tapered
from app.figures.shapes import (
    Circle,
    Figure,
    Ink,
    Line,
    Polygon,
    Shape,
    arrow,
    dashed,
    lying,
    mirrored,
    placed,
    span,
)
from app.figures.splices import short_splice
from app.figures.tools import drawn, finger, label, lens, number, pointer, tape

_X, _AXIS = 0.46, 0.42


def crossing() -> Figure:
    """Where two braids go into each other: their marks level, the braid closed."""
    half = placed(lying(tapered((0, 0), (0, -0.42), 0.21, 0.13, strands=2)), x=_X + 0.02, y=_AXIS)
    return drawn(
        "crossing",
        mirrored(half, _X),
        half,
        hidden(((0.08, _AXIS - 0.03), (0.84, _AXIS - 0.03)), 0.05),
        [Circle(_X, _AXIS, 0.036, Ink.INK)],
        _crossed(_X, _AXIS),
        [ring_mark((x, _AXIS), (1, 0), 0.22, 0.028) for x in (_X - 0.045, _X + 0.045)],
        lens(_X, _AXIS, 0.155),
        label("crossing:\nclosed, whole", 0.02, 0.63),
        label("two marks:\nlevel within\na finger", 0.98, 0.14, "right"),
        dashed(((0.68, 0.2), (0.51, 0.3))),
        finger((0.3, 0.08), (0.4, 0.2), 0.09),
    )


def splice_middle() -> Figure:
    """The middle of a short splice bent: no gap may open where the two ropes marry."""
    return drawn(
        "splice_middle",
        placed(lying(short_splice(0.32, 0.12)), x=0.5, y=0.4),
        lens(0.5, 0.4, 0.12),
        lens(0.06, 0.4, 0.07),
        lens(0.94, 0.4, 0.07),
        label("no gap in the middle", 0.5, 0.62, "centre"),
        dashed(((0.5, 0.585), (0.5, 0.52))),
        label("no hockle past either end", 0.5, 0.1, "centre"),
        pointer((0.3, 0.14), (0.1, 0.32)),
        pointer((0.7, 0.14), (0.9, 0.32)),
    )


def tucks_one_side() -> Figure:
    """Full tucks counted from the middle of a short splice to one side."""
    return _counted("tucks_one_side", one=True)


def tucks_other_side() -> Figure:
    """Full tucks counted from the middle of a short splice to its other side."""
    return _counted("tucks_other_side", one=False)


def other_bury() -> Figure:
    """The other rope's tail laid out before burying, from the crossing to its tip."""
    taper: list[Shape] = [
        Polygon(((0.29, 0.53), (0.08, 0.487), (0.08, 0.463), (0.29, 0.42)), Ink.ROPE, Ink.ROPE_EDGE, 0.01),
        Line(((0.24, 0.49), (0.1, 0.475)), Ink.ROPE_EDGE, 0.006),
    ]
    return drawn(
        "other_bury",
        rope(((0.98, 0.475), (0.28, 0.475)), 0.12),
        taper,
        [ring_mark((0.8, 0.475), (1, 0), 0.13, 0.034)],
        tape(((0.8, 0.34), (0.03, 0.34)), 0.07, side=-1),
        dashed(((0.8, 0.54), (0.8, 0.12))),
        dashed(((0.08, 0.51), (0.08, 0.12))),
        span((0.08, 0.16), (0.8, 0.16)),
        label("crossing", 0.8, 0.6, "centre"),
        label("tip", 0.08, 0.59, "centre"),
        label("the other rope", 0.44, 0.61, "centre", bold=True),
        label("before burying", 0.44, 0.08, "centre"),
    )


def _counted(name: str, *, one: bool) -> Figure:
    side = -1 if one else 1
    start, half = 0.5, 0.34
    places = [start + side * half * (0.08 + 0.23 * (n + 0.5)) for n in range(4)]
    return drawn(
        name,
        placed(lying(short_splice(half, 0.12)), x=0.5, y=0.36),
        dashed(((start, 0.22), (start, 0.6))),
        *(number(str(n + 1), x, 0.54) for n, x in enumerate(places)),
        arrow(((start, 0.2), (start + side * half, 0.2)), width=0.014, head=0.048),
        label("middle", start, 0.64, "centre"),
        label(
            "one side" if one else "the other side", 0.02 if one else 0.98, 0.1, "left" if one else "right", bold=True
        ),
        label("the strand with\nthe fewest", 0.98 if one else 0.02, 0.13, "right" if one else "left"),
    )


def _crossed(x: float, y: float) -> list[Shape]:
    """The strands of both ropes where they pass through each other."""
    found: list[Shape] = []
    for sign in (1, -1):
        path = ((x - 0.09, y + sign * 0.07), (x, y + sign * 0.01), (x + 0.09, y - sign * 0.07))
        found += [Line(path, Ink.ROPE_EDGE, 0.05), Line(path, Ink.ROPE, 0.034)]
    return found
