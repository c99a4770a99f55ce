"""Figures of the throat, the lock stitching, the bury, its tip, and the tucks of a laid eye."""

from itertools import pairwise

from app.figures.rope import hidden, ring_mark, rope, stitches, tapered
from app.figures.shapes import Circle, Figure, Ink, Line, Point, Polygon, Shape, arrow, curve, dashed, placed, span
from app.figures.splices import strand_tails, tucks
from app.figures.tools import drawn, finger, label, lens, number, pointer, tape, turning

_X = 0.34


def throat_entry() -> Figure:
    """The hole where the tail goes into the standing part."""
    tail = curve((0.1, 0.68), (0.14, 0.5), (0.22, 0.44), (0.365, 0.28), 20)
    standing = (*curve((0.63, 0.655), (0.6, 0.52), (0.45, 0.48), (0.43, 0.28), 20), (0.43, 0.01))
    # The strand of the standing part that the tail goes under: the edge of the hole.
    edge = curve((0.315, 0.17), (0.4, 0.18), (0.47, 0.27), (0.475, 0.37), 16)
    return drawn(
        "throat_entry",
        rope(standing, 0.24, strands=2),
        [Circle(0.375, 0.28, 0.092, Ink.INK)],
        rope(tail, 0.14),
        [Line(edge, Ink.ROPE_EDGE, 0.085), Line(edge, Ink.ROPE, 0.064)],
        [Line((at, (at[0] - 0.03, at[1] + 0.026)), Ink.ROPE_EDGE, 0.009) for at in edge[3:15:3]],
        lens(0.39, 0.27, 0.175),
        label("hole tight,\nits edge\nwhole", 0.98, 0.3, "right"),
        dashed(((0.57, 0.27), (0.66, 0.27))),
        label("powder, grit?", 0.98, 0.07, "right"),
        [Circle(x, y, 0.011, Ink.INK) for x, y in ((0.5, 0.06), (0.54, 0.09), (0.57, 0.05))],
        label("tail leg", 0.015, 0.3),
    )


def lock_stitching() -> Figure:
    """Stitches square across the rope, stitches that lean, and a broken one; both faces."""
    sound, leans, broken = 0.16, 0.5, 0.83
    ends = ((broken - 0.09, 0.46), (broken - 0.02, 0.435)), ((broken + 0.03, 0.49), (broken + 0.09, 0.46))
    return drawn(
        "lock_stitching",
        *(rope(((x, 0.69), (x, 0.24)), 0.18, strands=2) for x in (sound, leans, broken)),
        stitches(sound, 0.68, 0.28, 0.18),
        stitches(leans, 0.68, 0.28, 0.18, lean=0.7),
        [Line(((broken - 0.09, y), (broken + 0.09, y)), Ink.THREAD, 0.016) for y in (0.61, 0.35)],
        [Line(end, Ink.THREAD, 0.016) for end in ends],
        lens(broken, 0.47, 0.11),
        turning(sound, 0.3, 0.13),
        label("square,\nboth faces", sound, 0.13, "centre"),
        label("lean:\nmoved", leans, 0.13, "centre"),
        label("broken", broken, 0.165, "centre"),
    )


def bury_feel() -> Figure:
    """The bury looked at untouched, felt with finger and thumb, then smoothed away from the eye; what may be found."""
    return drawn(
        "bury_feel",
        _bury_in_hand(),
        arrow(((0.43, 0.34), (0.43, 0.08)), width=0.016, head=0.05),
        number("3", 0.36, 0.22),
        label("eye", 0.42, 0.655),
        _profiles(),
    )


def bury_stitched() -> Figure:
    """The bury of a lock-stitched splice: looked at untouched and felt, never smoothed."""
    shaft = ((0.43, 0.34), (0.43, 0.1))
    return drawn(
        "bury_feel stitched",
        _bury_in_hand(),
        stitches(0.25, 0.56, 0.5, 0.165, count=2),
        arrow(shaft, width=0.016, head=0.05),
        [Line(((0.37, 0.14 + dy), (0.49, 0.3 - dy)), Ink.MARK, 0.024) for dy in (0.0, 0.16)],
        label("eye", 0.42, 0.655),
        label("never", 0.43, 0.045, "centre"),
        _profiles(),
    )


def bury() -> Figure:
    """The tail laid out beside the tape before it is buried, from the throat mark to the tip."""
    tip = ((0.03, 0.475), (0.72, 0.475))
    taper: list[Shape] = [
        Polygon(((0.71, 0.53), (0.92, 0.487), (0.92, 0.463), (0.71, 0.42)), Ink.ROPE, Ink.ROPE_EDGE, 0.01),
        Line(((0.76, 0.49), (0.9, 0.475)), Ink.ROPE_EDGE, 0.006),
    ]
    return drawn(
        "bury",
        rope(tip, 0.12),
        taper,
        [ring_mark((0.2, 0.475), (1, 0), 0.13, 0.034)],
        tape(((0.2, 0.34), (0.97, 0.34)), 0.07),
        dashed(((0.2, 0.54), (0.2, 0.12))),
        dashed(((0.92, 0.51), (0.92, 0.12))),
        span((0.2, 0.16), (0.92, 0.16)),
        label("throat\nmark", 0.2, 0.62, "centre"),
        label("tip", 0.92, 0.59, "centre"),
        label("before burying", 0.56, 0.08, "centre"),
    )


def tip_step() -> Figure:
    """The finger on the step where the tail ends, the tape from the throat to it."""
    axis = 0.45
    return drawn(
        "tip_step",
        [Polygon(_sideways(((0.2, 0.085), (0.7, 0.085), (0.7, -0.085), (0.2, -0.085)), axis), Ink.ROPE)],
        rope(((0.12, axis), (0.72, axis)), 0.17),
        rope(((0.72, axis), (0.97, axis)), 0.115),
        _eye_stub(axis),
        hidden(((0.16, axis), (0.71, axis)), 0.085),
        [ring_mark((0.8, axis), (1, 0), 0.125, 0.034)],
        finger((0.6, 0.645), (0.7, 0.56), 0.1),
        tape(((0.16, 0.3), (0.76, 0.3)), 0.07),
        dashed(((0.16, 0.37), (0.16, 0.12))),
        dashed(((0.72, 0.37), (0.72, 0.12))),
        span((0.16, 0.16), (0.72, 0.16)),
        label("throat", 0.16, 0.07, "centre"),
        label("step", 0.72, 0.07, "centre"),
        label("tip mark", 0.98, 0.63, "right"),
        dashed(((0.83, 0.59), (0.805, 0.52))),
    )


def throat_lay() -> Figure:
    """The lay at the throat of a tucked eye, and just below the splice."""
    left = curve((0.1, 0.68), (0.15, 0.52), (0.27, 0.5), (0.3, 0.4), 20)
    right = tuple((2 * _X - x, y) for x, y in left)
    return drawn(
        "throat_lay",
        rope(left, 0.11, "laid"),
        rope(tuple(reversed(right)), 0.11, "laid"),
        rope(((_X, 0.43), (_X, 0.02)), 0.12, "laid"),
        tucks(0.36, 0.17, 0.13, _X, 2),
        lens(_X, 0.44, 0.11),
        lens(_X, 0.09, 0.085),
        label("lay closed\nat the\nthroat", 0.64, 0.44),
        dashed(((_X + 0.11, 0.44), (0.62, 0.44))),
        label("no hockle\nbelow", 0.64, 0.09),
        dashed(((_X + 0.085, 0.09), (0.62, 0.09))),
    )


def count_tucks() -> Figure:
    """Full tucks counted from the throat on the strand with the fewest."""
    return drawn(
        "tucks",
        strand_tails(0.2, 0.14, _X),
        rope(((_X, 0.69), (_X, 0.02)), 0.15, "laid"),
        tucks(0.64, 0.14, 0.17, _X, 4),
        *(number(str(index + 1), 0.56, 0.58 - 0.125 * index) for index in range(4)),
        *(dashed(((0.45, 0.58 - 0.125 * index), (0.52, 0.58 - 0.125 * index))) for index in range(4)),
        label("throat", 0.02, 0.65),
        dashed(((0.19, 0.65), (0.26, 0.65))),
        label("count the\nstrand with\nthe fewest", 0.66, 0.37),
    )


def tail() -> Figure:
    """The rule along the shortest strand tail, from the last full tuck to its end."""
    start, end = (0.42, 0.41), (0.62, 0.22)
    shift = 0.085
    side = (shift * 0.69, shift * 0.72)
    rule = ((start[0] + side[0], start[1] + side[1]), (end[0] + side[0] * 1.0 + 0.05, end[1] + side[1] - 0.0475))
    return drawn(
        "tail",
        placed(_one_tail((-0.1, 0.39), (-0.26, 0.17)), x=_X),
        rope(((_X, 0.69), (_X, 0.02)), 0.17, "laid"),
        tucks(0.68, 0.4, 0.19, _X, 2),
        _one_tail(start, end),
        tape(rule, 0.062, spacing=0.024, side=1),
        label("last full\ntuck", 0.66, 0.56),
        pointer((0.64, 0.56), (0.455, 0.44)),
        label("end of the\nshortest tail", 0.98, 0.09, "right"),
        pointer((0.72, 0.15), (0.64, 0.205)),
    )


def tails() -> Figure:
    """Every strand tail, all round, against how it was made."""
    return drawn(
        "strand_tails",
        rope(((_X, 0.69), (_X, 0.02)), 0.15, "laid"),
        tucks(0.69, 0.42, 0.17, _X, 2),
        _one_tail((0.26, 0.43), (0.13, 0.28)),
        _one_tail((0.42, 0.43), (0.56, 0.28)),
        _one_tail((0.36, 0.39), (0.44, 0.2)),
        number("1", 0.08, 0.22),
        number("2", 0.61, 0.22),
        number("3", 0.48, 0.14),
        turning(_X, 0.07, 0.17),
        label("each tail\nas long as\nmade", 0.7, 0.46),
        label("turn it", 0.7, 0.07),
    )


def _bury_in_hand() -> list[Shape]:
    """Upright, its eye above: the legs, the rope over the tail, finger and thumb at its end, the first two steps."""
    x, throat = 0.25, 0.56
    leg = curve((x - 0.13, 0.69), (x - 0.1, 0.64), (x - 0.045, 0.63), (x - 0.045, throat - 0.02), 8)
    return [
        *rope(leg, 0.08),
        *rope(tuple((2 * x - px, y) for px, y in leg), 0.08),
        *rope(((x, 0.16), (x, 0.01)), 0.11),
        *tapered((x, throat), (x, 0.14), 0.17, 0.115),
        *hidden(((x, throat - 0.02), (x, 0.17)), 0.07),
        ring_mark((x, 0.14), (0, 1), 0.12),
        *finger((0.05, 0.38), (0.135, 0.4), 0.09),
        *finger((0.46, 0.43), (0.365, 0.4), 0.09),
        *_eye_that_looks(0.06, 0.57),
        *number("1", 0.06, 0.49),
        *number("2", 0.47, 0.53),
    ]


def _eye_that_looks(x: float, y: float) -> list[Shape]:
    """An eye: look, do not touch."""
    lid = curve((x - 0.055, y), (x - 0.02, y + 0.045), (x + 0.02, y + 0.045), (x + 0.055, y), 8)
    return [
        Line((*lid, *((px, 2 * y - py) for px, py in reversed(lid))), Ink.INK, 0.01),
        Circle(x, y, 0.018, Ink.INK),
    ]


def _profiles() -> list[Shape]:
    """Three lengths of bury side by side: sound, hollow, bunched."""
    found: list[Shape] = []
    for index, (name, swell) in enumerate((("firm", 0.0), ("hollow", -0.03), ("bunched", 0.028))):
        y = 0.625 - 0.225 * index
        upper = curve((0.58, y + 0.045), (0.69, y + 0.045), (0.66, y + 0.045 + swell), (0.775, y + 0.045 + swell), 8)
        back = tuple((1.55 - x, py) for x, py in reversed(upper[:-1]))
        top = (*upper, *back)
        for (x0, y0), (x1, y1) in pairwise(top):
            found.append(Polygon(((x0, y0), (x1, y1), (x1, 2 * y - y1), (x0, 2 * y - y0)), Ink.ROPE))
        found += [
            Line(top, Ink.ROPE_EDGE, 0.012),
            Line(tuple((x, 2 * y - py) for x, py in top), Ink.ROPE_EDGE, 0.012),
        ]
        found += label(name, 0.775, y - 0.11, "centre")
        if index == 1:
            found += dashed(((0.6, y), (0.69, y)))
            found += dashed(((0.83, y), (0.92, y)))
    return found


def _sideways(points: tuple[Point, ...], axis: float) -> tuple[Point, ...]:
    return tuple((x, axis + dy) for x, dy in points)


def _eye_stub(axis: float) -> list[Shape]:
    """The two legs of an eye that leave the throat to the left."""
    upper = curve((0.03, axis + 0.12), (0.06, axis + 0.1), (0.1, axis + 0.045), (0.17, axis + 0.045), 10)
    return [*rope(upper, 0.085), *rope(tuple((x, 2 * axis - y) for x, y in upper), 0.085)]


def _one_tail(start: Point, end: Point) -> list[Shape]:
    inner = (start[0] + (end[0] - start[0]) * 0.95, start[1] + (end[1] - start[1]) * 0.95)
    return [
        Line((start, end), Ink.ROPE_EDGE, 0.075, "flat"),
        Line((start, inner), Ink.ROPE, 0.055, "flat"),
        Circle(*start, 0.0275, Ink.ROPE),
    ]
