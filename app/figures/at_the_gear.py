"""Figures of chafe gear over an eye, of the lock at a throat, and of the thread a splice is sewn with."""

from app.figures.rope import hidden, ring_mark, rope, tapered
from app.figures.shapes import Circle, Figure, Ink, Line, Polygon, Shape, arc, arrow, curve, dashed, lying, placed
from app.figures.tools import drawn, finger, label, lens, pointer, turning


def eye_under_gear() -> Figure:
    """Chafe gear slid aside, and the rope that lay under it."""
    x = 0.36
    back = arc(x, 0.36, 0.2, -10, 190)
    leg = curve(back[-1], (x - 0.2, 0.2), (x - 0.12, 0.1), (x - 0.07, 0.02), 12)
    other = curve(back[0], (x + 0.2, 0.2), (x + 0.12, 0.1), (x + 0.07, 0.02), 12)
    slid = back[22:]
    return drawn(
        "eye_under_gear",
        [Circle(x, 0.34, 0.1, Ink.METAL, Ink.INK, 0.01)],
        rope((*reversed(other), *back, *leg[1:]), 0.12),
        _sleeve((*slid, *leg[1:5]), 0.155),
        arrow(arc(x, 0.36, 0.31, 120, 172), width=0.012, head=0.042),
        [Line(arc(x, 0.36, 0.14, 25, 120), Ink.MARK, 0.02, "flat")],
        label("slid aside", 0.02, 0.66),
        label("under it, inside\nand outside", 0.98, 0.6, "right"),
        dashed(((0.72, 0.52), (0.5, 0.46))),
        label("do not cut it", 0.98, 0.1, "right"),
    )


def chafe_gear() -> Figure:
    """Thumbs along the chafe gear: it gives alike all the way."""
    back = arc(0.34, 0.34, 0.23, -10, 190)
    leg = curve(back[-1], (0.11, 0.18), (0.2, 0.12), (0.26, 0.05), 12)
    other = curve(back[0], (0.57, 0.18), (0.48, 0.12), (0.42, 0.05), 12)
    return drawn(
        "chafe_gear",
        rope((*reversed(other), *back, *leg[1:]), 0.13),
        _sleeve(back[3:-3], 0.17),
        [Polygon(arc(0.52, 0.5, 0.04, 0, 360, 0.8)[:-1], Ink.INK)],
        finger((0.06, 0.66), (0.19, 0.56), 0.09),
        finger((0.34, 0.32), (0.32, 0.48), 0.09),
        label("worn through?", 0.98, 0.62, "right"),
        pointer((0.74, 0.57), (0.57, 0.52)),
        label("gives alike\nall the way", 0.98, 0.34, "right"),
        label("bears here?", 0.98, 0.08, "right"),
    )


def lock_seated() -> Figure:
    """The throat of a locked eye, where its legs pass through each other, flexed."""
    tail = curve((0.12, 0.68), (0.18, 0.52), (0.34, 0.5), (0.4, 0.34), 20)
    standing = curve((0.52, 0.68), (0.48, 0.52), (0.34, 0.5), (0.28, 0.34), 20)
    return drawn(
        "lock_seated",
        rope((*standing, (0.34, 0.22), (0.34, 0.01)), 0.14),
        [Circle(0.335, 0.475, 0.075, Ink.INK)],
        rope((*tail, (0.35, 0.24)), 0.12),
        _strand_over(0.34, 0.43),
        hidden(((0.34, 0.2), (0.34, 0.02)), 0.07),
        lens(0.335, 0.44, 0.16),
        finger((0.03, 0.4), (0.13, 0.33), 0.085),
        finger((0.64, 0.4), (0.55, 0.33), 0.085),
        label("flex it:\nnothing opens\nor works", 0.98, 0.57, "right"),
        label("locked\nthrough\neach other", 0.98, 0.2, "right"),
        dashed(((0.68, 0.26), (0.48, 0.38))),
    )


def lock_thread() -> Figure:
    """The cord a splice is sewn with, held beside one strand."""
    return drawn(
        "lock_thread",
        placed(lying([Line(((0, 0), (0, -0.6)), Ink.ROPE_EDGE, 0.2, "flat"),
                      Line(((0, 0), (0, -0.6)), Ink.ROPE, 0.18, "flat")]), x=0.02, y=0.5),
        [Line(((0.06 + 0.09 * n, 0.43), (0.12 + 0.09 * n, 0.57)), Ink.ROPE_EDGE, 0.007) for n in range(6)],
        rope(((0.02, 0.24), (0.56, 0.24)), 0.08),
        finger((0.3, 0.03), (0.35, 0.17), 0.09),
        label("one strand", 0.98, 0.5, "right"),
        label("cord, braided\nnylon: 1/3 to\n1/2 of it", 0.98, 0.22, "right"),
    )  # fmt: skip


def tip_mark() -> Figure:
    """The step where the tail ends, felt under its tip mark."""
    axis = 0.4
    return drawn(
        "tip_mark",
        placed(lying(tapered((0, 0), (0, -0.62), 0.2, 0.135, strands=2)), x=0.02, y=axis),
        rope(((0.64, axis), (0.98, axis)), 0.13),
        hidden(((0.04, axis), (0.62, axis)), 0.08),
        [ring_mark((0.64, axis), (1, 0), 0.145, 0.034)],
        finger((0.5, 0.66), (0.58, 0.53), 0.1),
        finger((0.52, 0.13), (0.6, 0.27), 0.1),
        arrow(((0.12, 0.2), (0.42, 0.2)), width=0.014, head=0.048),
        label("tip mark", 0.98, 0.58, "right"),
        dashed(((0.74, 0.54), (0.655, 0.48))),
        label("the tail ends\nunder it", 0.98, 0.16, "right"),
        label("feel for the step", 0.06, 0.08),
    )


def double_braid_throat() -> Figure:
    """A double braid's throat bent: no core and no crossover may show."""
    left = curve((0.06, 0.66), (0.12, 0.46), (0.26, 0.46), (0.28, 0.26), 20)
    right = tuple((0.64 - x, y) for x, y in left)
    shown = arc(0.32, 0.27, 0.06, 0, 360, 0.7)[:-1]
    return drawn(
        "double-braid throat",
        rope(((0.32, 0.3), (0.32, 0.01)), 0.19, strands=3),
        rope(left, 0.13, strands=2),
        rope(tuple(reversed(right)), 0.13, strands=2),
        [ring_mark((0.165, 0.47), (0.75, -0.66), 0.14, 0.03), ring_mark((0.475, 0.47), (-0.75, -0.66), 0.14, 0.03)],
        [Polygon(shown, Ink.INK)],
        [Line(((0.275, 0.27 + dy), (0.365, 0.27 + dy)), Ink.PAPER, 0.016, "flat") for dy in (-0.015, 0.015)],
        lens(0.32, 0.27, 0.13),
        turning(0.32, 0.08, 0.17),
        label("marks level", 0.98, 0.6, "right"),
        dashed(((0.66, 0.58), (0.54, 0.5))),
        label("bend it: core or\ncrossover seen?", 0.98, 0.36, "right"),
        label("cover slack?", 0.98, 0.08, "right"),
    )


def _sleeve(path: tuple[tuple[float, float], ...], width: float) -> list[Shape]:
    return [Line(path, Ink.INK, width, "flat"), Line(path, Ink.PAPER, width - 0.024, "flat")]


def _strand_over(x: float, y: float) -> list[Shape]:
    """The strands of one leg that lie over the other."""
    over = curve((x - 0.1, y - 0.1), (x - 0.05, y), (x + 0.03, y + 0.06), (x + 0.1, y + 0.08), 12)
    return [Line(over, Ink.ROPE_EDGE, 0.07), Line(over, Ink.ROPE, 0.05)]
