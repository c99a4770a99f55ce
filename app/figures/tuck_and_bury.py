"""Figures of how a tuck-and-bury eye was laid out, and of a double braid's core before it is buried."""

from app.figures.rope import ring_mark, rope
from app.figures.shapes import Circle, Figure, Ink, Line, Polygon, Shape, arrow, curve, dashed, span
from app.figures.tools import drawn, label, number, pointer, tape

_AXIS = 0.44


def laid_out() -> Figure:
    """The tape along straight rope from its end to the mark where the first pass goes in."""
    return drawn(
        "laid_out",
        rope(((0.08, 0.475), (0.98, 0.475)), 0.12),
        [Line(((0.08, 0.41), (0.08, 0.54)), Ink.ROPE_EDGE, 0.014, "flat")],
        [ring_mark((0.8, 0.475), (1, 0), 0.13, 0.034)],
        tape(((0.08, 0.34), (0.86, 0.34)), 0.07),
        dashed(((0.08, 0.41), (0.08, 0.12))),
        dashed(((0.8, 0.4), (0.8, 0.12))),
        span((0.08, 0.16), (0.8, 0.16)),
        label("its end", 0.08, 0.6, "left"),
        label("first pass\ngoes in", 0.8, 0.62, "centre"),
        label("straight, hand-taut", 0.44, 0.08, "centre"),
    )


def strands_ended() -> Figure:
    """The strands that end on the tapered tail, left and right in turn."""
    ends = [(0.3, 1), (0.42, -1), (0.54, 1), (0.66, -1), (0.76, 1)]
    outline = ((0.02, 0.53), (0.25, 0.53), (0.9, 0.475), (0.9, 0.405), (0.25, 0.35), (0.02, 0.35))
    found: list[Shape] = [
        Polygon(outline[:2] + outline[4:], Ink.ROPE),
        Polygon(outline[1:5], Ink.ROPE),
        Line(outline[:3], Ink.ROPE_EDGE, 0.011, "flat"),
        Line(outline[3:], Ink.ROPE_EDGE, 0.011, "flat"),
        *(Line(((0.06 + 0.07 * n, 0.5 - 0.002 * n), (0.1 + 0.07 * n, 0.44), (0.06 + 0.07 * n, 0.38 + 0.002 * n)),
               Ink.ROPE_EDGE, 0.007) for n in range(11)),
    ]  # fmt: skip
    for x, side in ends:
        y = 0.44 + side * (0.09 - max(0.0, x - 0.25) * 0.085)
        found += [
            Line(((x - 0.05, y - side * 0.03), (x, y + side * 0.035)), Ink.ROPE_EDGE, 0.036),
            Line(((x - 0.05, y - side * 0.03), (x, y + side * 0.035)), Ink.ROPE, 0.022),
        ]
    return drawn(
        "strands_ended",
        found,
        *(number(str(n + 1), x + 0.03, 0.44 + side * 0.2) for n, (x, side) in enumerate(ends)),
        label("tip", 0.95, 0.34, "centre"),
        label("count the ends", 0.06, 0.1),
    )


def passes() -> Figure:
    """How often the tail goes through the rope before it goes down its centre."""
    wave = (
        (0.06, 0.66), *curve((0.06, 0.66), (0.12, 0.4), (0.18, 0.34), (0.26, 0.28), 8)[1:],
        *curve((0.26, 0.28), (0.33, 0.24), (0.37, 0.34), (0.42, 0.44), 8)[1:],
        *curve((0.42, 0.44), (0.47, 0.56), (0.53, 0.6), (0.58, 0.48), 8)[1:],
        *curve((0.58, 0.48), (0.62, 0.4), (0.68, 0.42), (0.74, 0.42), 8)[1:],
    )  # fmt: skip
    return drawn(
        "passes",
        rope(((0.02, _AXIS - 0.02), (0.98, _AXIS - 0.02)), 0.2, strands=2),
        rope(wave[:10], 0.075),
        rope(wave[10:16], 0.075)[:2],
        dashed(wave[9:18]),
        rope(wave[18:26], 0.075),
        dashed((*wave[26:], (0.96, 0.42))),
        [Circle(x, y, 0.02, Ink.INK) for x, y in ((0.15, 0.49), (0.41, 0.45), (0.57, 0.47))],
        number("1", 0.22, 0.6),
        number("2", 0.38, 0.6),
        number("3", 0.64, 0.6),
        label("then down the centre", 0.98, 0.18, "right"),
        pointer((0.8, 0.23), (0.84, 0.39)),
        label("tail", 0.02, 0.3),
        label("count the passes", 0.06, 0.08),
    )


def pairs_beside() -> Figure:
    """Strand pairs counted on either side of a pass's hole; the poorer side is given."""
    x = 0.3
    found: list[Shape] = [*rope(((x, 0.69), (x, 0.01)), 0.4)[:2]]
    for column, left in enumerate((0.125, 0.215, 0.375, 0.465)):
        for row in range(7):
            y = 0.06 + row * 0.1
            lean = 0.03 if column % 2 else -0.03
            found.append(Line(((left, y - 0.03), (left + lean, y + 0.04)), Ink.ROPE_EDGE, 0.03))
            found.append(Line(((left, y - 0.03), (left + lean, y + 0.04)), Ink.ROPE, 0.016))
    return drawn(
        "pairs_beside",
        found,
        [Polygon(((x - 0.045, 0.36), (x, 0.27), (x + 0.045, 0.36), (x, 0.45)), Ink.INK)],
        number("2", 0.145, 0.36),
        number("1", 0.455, 0.36),
        label("pairs on\nboth sides\nof each hole", 0.98, 0.54, "right"),
        label("give the\nsmallest", 0.98, 0.18, "right", bold=True),
    )


def picks_between() -> Figure:
    """Picks counted along one line of the braid from hole to hole."""
    holes = (0.14, 0.66)
    return drawn(
        "picks_between",
        rope(((0.02, _AXIS), (0.98, _AXIS)), 0.26, strands=2),
        [Polygon(((x - 0.03, _AXIS), (x, _AXIS - 0.04), (x + 0.03, _AXIS), (x, _AXIS + 0.04)), Ink.INK) for x in holes],
        *(number(str(n + 1), 0.235 + 0.11 * n, _AXIS) for n in range(4)),
        dashed(((holes[0], 0.28), (holes[0], 0.18))),
        dashed(((holes[1], 0.28), (holes[1], 0.18))),
        arrow(((holes[0] + 0.02, 0.22), (holes[1] - 0.02, 0.22)), width=0.012, head=0.042),
        label("one line of the braid", 0.06, 0.63),
        label("from hole to hole", 0.06, 0.09),
    )


def core_bury() -> Figure:
    """A double braid's core beside the tape before it is buried, from the crossover to its tip."""
    return drawn(
        "core_bury",
        rope(((0.02, 0.53), (0.2, 0.53)), 0.17, strands=3),
        [Circle(0.2, 0.49, 0.05, Ink.INK)],
        [Line(((0.2, 0.47), (0.72, 0.47)), Ink.ROPE_EDGE, 0.1, "flat"),
         Line(((0.2, 0.47), (0.72, 0.47)), Ink.PAPER, 0.08, "flat")],
        [Line(((0.24 + 0.06 * n, 0.44), (0.27 + 0.06 * n, 0.5)), Ink.ROPE_EDGE, 0.007) for n in range(8)],
        [Polygon(((0.71, 0.52), (0.92, 0.485), (0.92, 0.455), (0.71, 0.42)), Ink.PAPER, Ink.ROPE_EDGE, 0.01)],
        [ring_mark((0.22, 0.47), (1, 0), 0.11, 0.03)],
        tape(((0.22, 0.34), (0.97, 0.34)), 0.07),
        dashed(((0.22, 0.41), (0.22, 0.12))),
        dashed(((0.92, 0.45), (0.92, 0.12))),
        span((0.22, 0.16), (0.92, 0.16)),
        label("cover", 0.1, 0.66, "centre"),
        label("core", 0.5, 0.6, "centre", bold=True),
        label("tip", 0.92, 0.59, "centre"),
        label("from the crossover, before burying", 0.52, 0.07, "centre"),
    )  # fmt: skip
