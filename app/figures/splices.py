"""Whole terminations seen from the front, their eye up: what the spine and the figures share.

Each is drawn about the rope's axis at x = 0 between heights the caller gives, so that places can be kept
apart for the thumb on the spine and to scale in a figure.
"""

from dataclasses import dataclass

from app.figures.rope import Make, hidden, ring_mark, rope, stitches, tapered, thimble
from app.figures.shapes import Ink, Line, Point, Polygon, Shape, arc, curve, placed


@dataclass(frozen=True, slots=True)
class Heights:
    """Where the places of a termination lie, downwards from the eye.

    Attributes:
        eye: the middle of the round of the eye.
        marks, throat, stitch, bury, tip: places of a buried eye.
        end: where the standing part is cut off in this drawing.
    """

    eye: float
    marks: float
    throat: float
    stitch: float
    bury: float
    tip: float
    end: float


@dataclass(frozen=True, slots=True)
class Sizes:
    """Widths of a termination: half the eye's width to the rope's middle, the leg, the rope over the tail."""

    eye: float = 0.2
    leg: float = 0.13
    bury: float = 0.21


def legs(heights: Heights, sizes: Sizes, gap: float = 0.4) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """Return the middle lines of the tail leg (left) and the standing leg, from the back of the eye down.

    They end beside each other at the throat, each `gap` leg widths from the axis.
    """
    back = arc(0, heights.eye, sizes.eye, 90, 180)
    high = (heights.eye - heights.throat) * 0.5
    close = sizes.leg * gap
    down = curve(
        (-sizes.eye, heights.eye), (-sizes.eye, heights.eye - high),
        (-close, heights.throat + high * 0.9), (-close, heights.throat), 16,
    )  # fmt: skip
    tail = (*back, *down[1:])
    return tail, tuple((-x, y) for x, y in tail)


def buried_eye(
    heights: Heights,
    sizes: Sizes,
    *,
    in_eye: bool = False,
    stitched: bool = False,
    marked: bool = True,
    strands: int = 1,
) -> list[Shape]:
    """Return a buried eye: both legs, the rope over the tail, its tip mark, and what is sewn and marked on it.

    Args:
        in_eye: a thimble lies in the eye.
        marked: marks on both legs and over the tail's end.
        strands: chevrons side by side, more for rope with a cover.
    """
    tail, standing = legs(heights, sizes)
    found: list[Shape] = []
    if in_eye:
        found += thimble(_inside(heights, sizes), sizes.leg * 0.3)
    found += rope(tail, sizes.leg, strands=strands)
    found += rope(tuple(reversed(standing)), sizes.leg, strands=strands)
    if marked:
        for leg in (tail, standing):
            found.append(_mark_at(leg, heights.marks, sizes.leg))
    found += rope(((0, heights.tip), (0, heights.end)), sizes.leg, strands=strands)
    found += tapered((0, heights.throat), (0, heights.tip), sizes.bury, sizes.leg * 1.04, strands=strands)
    found += hidden(((-0.012, heights.throat - 0.03), (0, heights.tip + 0.03)), sizes.leg * 0.45)
    if stitched:
        reach = min((heights.throat - heights.bury) * 0.42, sizes.bury * 1.5)
        found += stitches(0, heights.stitch + reach / 2, heights.stitch - reach / 2, sizes.bury)
    if marked:
        found.append(ring_mark((0, heights.tip), (0, -1), sizes.leg * 1.06))
    return found


TUCKS, MOST_TUCKS = 4, 6  # drawn where the record counts none; the most that can be told apart


def chafe_gear(heights: Heights, sizes: Sizes) -> list[Shape]:
    """Return the sleeve over the back of an eye."""
    back = arc(0, heights.eye, sizes.eye, 35, 145)
    return [Line(back, Ink.INK, sizes.leg * 1.5, "flat"), Line(back, Ink.PAPER, sizes.leg * 1.5 - 0.024, "flat")]


def passes(heights: Heights, sizes: Sizes) -> list[Shape]:
    """Return the tail's passes through the rope below the throat, before it goes down the centre."""
    found: list[Shape] = []
    pitch = min(sizes.leg * 0.75, (heights.throat - heights.tip) * 0.12)
    for index, side in enumerate((1, -1)):
        y = heights.throat - pitch * (index + 0.5)
        over = ((side * sizes.bury * 0.52, y + pitch * 0.4), (-side * sizes.bury * 0.05, y - pitch * 0.4))
        found += [
            Line(over, Ink.ROPE_EDGE, sizes.leg * 0.5, "round"),
            Line(over, Ink.ROPE, sizes.leg * 0.34, "round"),
        ]
    return found


def locked_eye(heights: Heights, sizes: Sizes) -> list[Shape]:
    """Return what a locked eye shows at its throat: its legs passed through each other."""
    wide, high = sizes.bury * 0.5, sizes.leg * 0.5
    found: list[Shape] = []
    for side in (1, -1):
        over = ((-side * wide, heights.throat - high), (side * wide, heights.throat + high))
        found += [
            Line(over, Ink.ROPE_EDGE, sizes.leg * 0.52, "round"),
            Line(over, Ink.ROPE, sizes.leg * 0.34, "round"),
        ]
    return found


def adjustable_eye(heights: Heights, sizes: Sizes, *, in_eye: bool = False, strands: int = 1) -> list[Shape]:
    """Return an eye whose tail slides through its bury and stands out below it, stopped at its end."""
    reach = (heights.throat - heights.tip) * 0.6
    out = ((sizes.leg * 0.4, heights.tip + reach * 0.3), (sizes.leg * 1.1, heights.tip - reach * 0.4))
    return [
        *rope(out, sizes.leg * 0.7),
        Line(((out[1][0] - 0.06, out[1][1] + 0.02), (out[1][0] + 0.06, out[1][1] + 0.04)), Ink.THREAD, 0.03, "flat"),
        *buried_eye(heights, sizes, in_eye=in_eye, marked=False, strands=strands),
    ]


def tucked_eye(
    heights: Heights, sizes: Sizes, *, in_eye: bool = False, count: int = TUCKS, tails_out: bool = True
) -> list[Shape]:
    """Return a tucked eye of laid rope: `count` tucks from `throat` to `tip`, the strand tails out or buried."""
    tail, standing = legs(heights, sizes)
    found: list[Shape] = []
    if in_eye:
        found += thimble(_inside(heights, sizes), sizes.leg * 0.3)
    found += [*rope(tail, sizes.leg, "laid"), *rope(tuple(reversed(standing)), sizes.leg, "laid")]
    if tails_out:
        found += strand_tails(heights.tip, sizes.leg)
    found += rope(((0, heights.throat + sizes.leg * 0.3), (0, heights.end)), sizes.leg, "laid")
    found += tucks(heights.throat, heights.tip, sizes.leg, count=count)
    return found


def tucks(throat: float, last: float, leg: float, x: float = 0, count: int = 4) -> list[Shape]:
    """Return tucked strands: pairs that cross the lay, one pair a tuck, from the throat to the last."""
    found: list[Shape] = []
    pitch = (throat - last) / count
    thick = min(leg * 0.62, pitch * 0.8)
    rise = min(pitch * 0.22, leg * 0.4)
    for index in range(count):
        y = throat - pitch * (index + 0.5)
        for side in (1, -1):
            ends = ((x + side * leg * 0.62, y + rise), (x + side * leg * 0.1, y - rise))
            found += [
                Line(ends, Ink.ROPE_EDGE, thick, "round"),
                Line(ends, Ink.ROPE, thick - min(0.018, leg * 0.15), "round"),
            ]
    return found


def strand_tails(y: float, leg: float, x: float = 0) -> list[Shape]:
    """Return the three strand tails that stand out below the last tuck."""
    found: list[Shape] = []
    thick = leg * 0.36
    for dx, dy in ((-1.15, -0.75), (1.2, -0.6), (1.0, -1.45)):
        start = (x + (0.3 if dx > 0 else -0.3) * leg, y + 0.1 * leg + (0.45 + dy * 0.3) * leg)
        end = (x + dx * leg, y + dy * leg)
        found += [
            Line((start, end), Ink.ROPE_EDGE, thick, "flat"),
            Line((start, _short(start, end, 0.012)), Ink.ROPE, thick - min(0.016, thick * 0.4), "flat"),
        ]
    return found


def short_splice(half: float, leg: float, reach: float = 1.4) -> list[Shape]:
    """Return a short splice upright about the origin: two laid ropes married, each tucked into the other.

    Args:
        half: from its middle to the last tuck of one side.
        reach: how far the rope is drawn, in `half`.
    """
    found: list[Shape] = [*rope(((0, half * reach), (0, -half * reach)), leg, "laid")]
    found += tucks(half, half * 0.08, leg)
    found += tucks(-half * 0.08, -half, leg)
    return [*strand_tails(-half, leg), *placed(strand_tails(-half, leg), flip=True), *found]


def end_to_end(half: float, leg: float, wide: float, reach: float = 1.4) -> list[Shape]:
    """Return an end-to-end splice upright about the origin: two braids, each buried in the other, tip marks on.

    Args:
        half: from its crossing to one tip.
        wide: at the crossing.
        reach: how far the rope is drawn, in `half`.
    """
    below = [
        *(rope(((0, -half), (0, -half * reach)), leg) if reach > 1 else []),
        *tapered((0, 0), (0, -half), wide, leg * 1.04),
        *hidden(((0, -half * 0.1), (0, -half * 0.94)), leg * 0.5),
        ring_mark((0, -half), (0, -1), leg * 1.06),
    ]
    high = leg * 0.5
    crossing = [
        Line(((-wide * 0.5 * side, high), (wide * 0.5 * side, -high)), ink, leg * thick)
        for side in (-1, 1)
        for ink, thick in ((Ink.ROPE_EDGE, 0.44), (Ink.ROPE, 0.28))
    ]
    return [*below, *placed(below, flip=True), *crossing]


def plain_end(heights: Heights, leg: float, make: Make, *, strands: int = 1) -> list[Shape]:
    """Return an end without an eye: sealed at its very end, whipped below it."""
    top = heights.eye + leg * 1.6
    whipping = [
        Line(((-leg * 0.56, top - leg * (0.5 + 0.2 * turn)), (leg * 0.56, top - leg * (0.5 + 0.2 * turn))),
             Ink.THREAD, leg * 0.12, "flat") for turn in range(4)
    ]  # fmt: skip
    return [
        *rope(((0, top), (0, heights.end)), leg, make, strands=strands),
        Line(((-leg * 0.5, top), (leg * 0.5, top)), Ink.INK, leg * 0.24, "round"),
        *whipping,
    ]


def web_eye(heights: Heights, sizes: Sizes, width: float) -> list[Shape]:
    """Return the sewn eye of a web sling: the web folded to its eye, then both plies sewn together."""
    tail, standing = legs(heights, sizes)
    low = heights.bury
    found: list[Shape] = []
    for leg in (tail, standing):
        found += [Line(leg, Ink.ROPE_EDGE, sizes.leg * 0.7, "flat"), Line(leg, Ink.ROPE, sizes.leg * 0.54, "flat")]
    shoulder = heights.throat + (heights.eye - heights.throat) * 0.2
    corners = ((-sizes.leg * 0.62, shoulder), (-width / 2, heights.throat), (width / 2, heights.throat),
               (sizes.leg * 0.62, shoulder))  # fmt: skip
    found += [
        Polygon(corners, Ink.ROPE),
        Line(corners[:2], Ink.ROPE_EDGE, 0.012, "flat"),
        Line(corners[2:], Ink.ROPE_EDGE, 0.012, "flat"),
    ]
    found += rope(((0, heights.throat), (0, heights.end)), width, "web")
    found.append(Line(((-width / 2, low), (width / 2, low)), Ink.ROPE_EDGE, 0.018, "flat"))
    rows = 6
    for row in range(rows):
        y = heights.throat + (low - heights.throat) * (row + 0.5) / rows
        for column in range(4):
            x = width * (-0.36 + 0.24 * column)
            found.append(Line(((x - width * 0.07, y), (x + width * 0.07, y)), Ink.THREAD, 0.016, "flat"))
    return found


def sewn_eye(heights: Heights, sizes: Sizes) -> list[Shape]:
    """Return a rope's eye whose tail leg is sewn to its standing leg below the throat."""
    tail, standing = legs(heights, sizes)
    side = sizes.leg * 0.85
    tail = (*tail, (-side, heights.throat - sizes.leg * 0.6), (-side, heights.bury))
    standing = (*standing, (0.0, heights.throat - sizes.leg * 0.6), (0.0, heights.end))
    found = [*rope(tail, sizes.leg), *rope(standing, sizes.leg)]
    rows = 7
    for row in range(rows):
        y = heights.throat - sizes.leg * 0.5 + (heights.bury - heights.throat + sizes.leg * 0.5) * (row + 0.5) / rows
        found.append(Line(((-side - sizes.leg * 0.4, y), (sizes.leg * 0.4, y - sizes.leg * 0.18)), Ink.THREAD, 0.014))
    return found


def _inside(heights: Heights, sizes: Sizes) -> tuple[Point, ...]:
    """The outline a thimble has in this eye, closed."""
    radius = sizes.eye - sizes.leg * 0.78
    low = heights.eye - (heights.eye - heights.throat) * 0.62
    right = curve((radius, heights.eye), (radius, heights.eye - radius), (0.012, low + 0.08), (0.0, low), 14)
    left = tuple((-x, y) for x, y in reversed(right[:-1]))
    return (*arc(0, heights.eye, radius, 180, 0), *right[1:], *left)


def _mark_at(leg: tuple[Point, ...], y: float, width: float) -> Line:
    near = min(range(1, len(leg) - 1), key=lambda index: abs(leg[index][1] - y) + (0.5 if leg[index][0] == 0 else 0))
    (x0, y0), (x1, y1) = leg[near - 1], leg[near + 1]
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    part = 0.0 if y0 == y1 else min(1.0, max(0.0, (y - y0) / (y1 - y0)))
    return ring_mark((x0 + (x1 - x0) * part, y), ((x1 - x0) / long, (y1 - y0) / long), width * 1.06)


def _short(start: Point, end: Point, by: float) -> Point:
    long = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    return end[0] - (end[0] - start[0]) / long * by, end[1] - (end[1] - start[1]) / long * by
