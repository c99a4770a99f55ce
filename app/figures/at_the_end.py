"""Figures of the tucks' buried tails, of adjustable eyes, plain ends, and the clear rope between two splices."""

from app.figures.rope import hidden, rope
from app.figures.shapes import Figure, Ink, Line, Point, Shape, arc, arrow, curve, dashed, lying, mirrored, placed, span
from app.figures.splices import tucks
from app.figures.tools import drawn, finger, label, lens, number, pointer, tape, turning

_X, _AXIS = 0.32, 0.44


def extra_tucks() -> Figure:
    """The tucks beyond the full ones, each thinner than the last."""
    found: list[Shape] = [*rope(((_X, 0.69), (_X, 0.02)), 0.15, "laid"), *tucks(0.68, 0.38, 0.17, _X, 2)]
    for index, leg in enumerate((0.13, 0.1)):
        high = 0.37 - 0.12 * index
        found += tucks(high, high - 0.11, leg, _X, 1)
    return drawn(
        "extra_tucks",
        found,
        dashed(((0.12, 0.375), (0.6, 0.375))),
        number("+1", 0.5, 0.305),
        number("+2", 0.5, 0.185),
        label("full tucks", 0.98, 0.54, "right"),
        label("more tucks,\ntapered", 0.98, 0.25, "right"),
        label("the fewest", 0.98, 0.06, "right"),
    )


def tails_covered() -> Figure:
    """Tapered tails that lie buried, and one whose end has worked out."""
    out: tuple[Point, ...] = ((0.36, 0.24), (0.44, 0.2), (0.47, 0.15))
    return drawn(
        "tails_covered",
        rope(((_X, 0.69), (_X, 0.02)), 0.15, "laid"),
        tucks(0.68, 0.38, 0.17, _X, 2),
        tucks(0.37, 0.26, 0.13, _X, 1),
        tucks(0.25, 0.15, 0.1, _X, 1),
        [Line(out, Ink.ROPE_EDGE, 0.045, "flat"), Line(out, Ink.ROPE, 0.026, "flat")],
        lens(0.43, 0.19, 0.085),
        finger((0.04, 0.3), (0.15, 0.26), 0.09),
        turning(_X, 0.07, 0.17),
        label("an end has\nworked out?", 0.98, 0.26, "right"),
        label("against\nthe light", 0.98, 0.57, "right"),
        label("turn it", 0.98, 0.07, "right"),
    )


def sliding_part() -> Figure:
    """The part that slides through the bury, run out and back."""
    return drawn(
        "sliding_part",
        _adjustable(0.3, 0.62),
        lens(0.3, _AXIS, 0.12),
        lens(0.62, _AXIS, 0.11),
        arrow(((0.7, 0.24), (0.94, 0.24)), width=0.014, head=0.048),
        arrow(((0.94, 0.17), (0.7, 0.17)), width=0.014, head=0.048),
        label("glazed where it goes in\nand where it comes out?", 0.98, 0.62, "right"),
        label("run it out\nand back", 0.06, 0.14),
    )


def tail_left() -> Figure:
    """The tail that stands out beyond the bury of an adjustable eye: more than a hand's width."""
    return drawn(
        "tail_left",
        _adjustable(0.22, 0.5),
        *(finger((x, 0.66), (x, 0.5), 0.075, nail=False) for x in (0.58, 0.655, 0.73, 0.805)),
        dashed(((0.5, 0.34), (0.5, 0.18))),
        dashed(((0.96, 0.36), (0.96, 0.18))),
        span((0.5, 0.22), (0.96, 0.22)),
        label("bury", 0.36, 0.62, "centre"),
        label("more than a hand's width", 0.98, 0.12, "right"),
    )


def free_tail() -> Figure:
    """The rule from where the tail comes out of an adjustable eye's bury to its end."""
    return drawn(
        "free_tail",
        _adjustable(0.22, 0.44),
        tape(((0.44, 0.31), (0.98, 0.31)), 0.065),
        dashed(((0.44, 0.4), (0.44, 0.12))),
        dashed(((0.96, 0.4), (0.96, 0.12))),
        span((0.44, 0.17), (0.96, 0.17)),
        label("comes out", 0.44, 0.6, "centre"),
        label("end or stop", 0.98, 0.6, "right"),
        label("at its longest", 0.7, 0.08, "centre"),
    )


def end_sound() -> Figure:
    """A plain end: its whipping or seal, a core that ends short, and where a knot lay."""
    return drawn(
        "end_sound",
        rope(((0.02, 0.42), (0.92, 0.42)), 0.15, strands=3),
        [Line(((x, 0.345), (x, 0.495)), Ink.THREAD, 0.014, "flat") for x in (0.76, 0.78, 0.8, 0.82)],
        [Line(((0.92, 0.345), (0.92, 0.495)), Ink.INK, 0.022)],
        hidden(((0.3, 0.42), (0.66, 0.42)), 0.09),
        [Line(((0.66, 0.375), (0.66, 0.465)), Ink.INK, 0.01, "flat")],
        finger((0.42, 0.14), (0.48, 0.29), 0.09),
        finger((0.42, 0.68), (0.48, 0.55), 0.09),
        label("whipped\nor sealed", 0.98, 0.61, "right"),
        label("core ends short?", 0.98, 0.16, "right"),
        pointer((0.7, 0.2), (0.665, 0.36)),
        label("where the\nknot lay", 0.02, 0.61),
        lens(0.16, 0.42, 0.1),
    )


def other_end() -> Figure:
    """The far end of a line whose record names one end only: a plain end, or an eye that nothing was asked of."""
    upper = curve((0.55, 0.21), (0.66, 0.22), (0.7, 0.28), (0.82, 0.28), 14)
    eye = (*upper, *arc(0.82, 0.2, 0.08, 90, -90)[1:], *((x, 0.4 - y) for x, y in reversed(upper[:-1])))
    return drawn(
        "other_end",
        rope(((0.02, 0.53), (0.86, 0.53)), 0.12, strands=2),
        [Line(((x, 0.47), (x, 0.59)), Ink.THREAD, 0.014, "flat") for x in (0.72, 0.74, 0.76, 0.78)],
        [Line(((0.86, 0.475), (0.86, 0.585)), Ink.INK, 0.022)],
        label("plain end:", 0.02, 0.65),
        label("sealed or whipped", 0.98, 0.65, "right"),
        rope(eye, 0.075),
        rope(((0.02, 0.2), (0.56, 0.2)), 0.12, strands=2),
        label("an eye or a splice:", 0.02, 0.33),
        label("put it on the record first", 0.98, 0.05, "right"),
        dashed(((0.0, 0.41), (1.0, 0.41))),
    )


def clear_rope() -> Figure:
    """Ten rope widths of clear rope between the last tucks of two eyes."""
    widths = [Line(((0.32 + 0.036 * n, 0.29), (0.32 + 0.036 * n, 0.25)), Ink.INK, 0.008, "flat") for n in range(11)]
    return drawn(
        "clear_rope",
        _two_eyes(),
        widths,
        [Line(((0.32, 0.27), (0.68, 0.27)), Ink.INK, 0.008, "flat")],
        label("10 rope widths at least", 0.5, 0.17, "centre"),
        label("last tuck", 0.24, 0.64, "centre"),
        label("last tuck", 0.76, 0.64, "centre"),
        dashed(((0.27, 0.6), (0.31, 0.52))),
        dashed(((0.73, 0.6), (0.69, 0.52))),
    )


def clear_length() -> Figure:
    """The tape from the last tuck of one eye to the last tuck of the other."""
    return drawn(
        "clear_length",
        _two_eyes(),
        tape(((0.32, 0.3), (0.73, 0.3)), 0.065),
        dashed(((0.32, 0.42), (0.32, 0.13))),
        dashed(((0.68, 0.42), (0.68, 0.13))),
        span((0.32, 0.17), (0.68, 0.17)),
        label("clear rope", 0.5, 0.08, "centre"),
        label("last tuck", 0.24, 0.64, "centre"),
        label("last tuck", 0.76, 0.64, "centre"),
        dashed(((0.27, 0.6), (0.31, 0.52))),
        dashed(((0.73, 0.6), (0.69, 0.52))),
    )


def _adjustable(start: float, end: float) -> list[Shape]:
    """An eye to the left whose tail slides through the bury between two places and stands out to the right."""
    upper = curve((0.0, _AXIS + 0.13), (0.06, _AXIS + 0.13), (start - 0.12, _AXIS + 0.05), (start, _AXIS + 0.03), 12)
    lower = tuple((x, 2 * _AXIS - y) for x, y in upper)
    return [
        *rope(lower, 0.075),
        *rope(upper, 0.075),
        *rope(((end, _AXIS + 0.02), (0.96, _AXIS + 0.02)), 0.075),
        Line(((0.96, _AXIS - 0.025), (0.96, _AXIS + 0.065)), Ink.THREAD, 0.02, "flat"),
        *rope(((start, _AXIS), (end, _AXIS)), 0.15, strands=2),
        *hidden(((start, _AXIS + 0.01), (end, _AXIS + 0.015)), 0.07),
    ]


def _two_eyes() -> list[Shape]:
    """A short sling of laid rope with a tucked eye at either end."""
    tucked = placed(lying(tucks(0, -0.14, 0.12)), x=0.18, y=0.46)
    eye = curve((0.2, 0.49), (0.12, 0.56), (0.06, 0.56), (0.03, 0.52), 10)
    low = tuple((x, 0.92 - y) for x, y in reversed(eye))
    half: list[Shape] = [*rope((*eye, *low), 0.075, "laid"), *tucked]
    return [*rope(((0.18, 0.46), (0.82, 0.46)), 0.09, "laid"), *half, *mirrored(half, 0.5)]
