"""Figures of the tag, the eye and the reference marks."""

from app.figures.rope import hidden, offset, ring_mark, rope, thimble
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
    mirrored,
    placed,
    span,
)
from app.figures.tools import drawn, finger, label, number, pointer, tape, turning_along

_THROAT = 0.2
_LEG = 0.12
_MARKS = 0.45


def tag() -> Figure:
    """The tag on the eye's back: its number, and the lines to be read."""
    card: tuple[Point, ...] = ((0.3, 0.1), (0.94, 0.1), (0.94, 0.58), (0.3, 0.58), (0.21, 0.46), (0.21, 0.22))
    lines = [Line(((0.36, y), (right, y)), Ink.INK, 0.014) for y, right in ((0.32, 0.86), (0.25, 0.78), (0.18, 0.66))]
    return drawn(
        "tag",
        rope(curve((0.09, 0.02), (0.0, 0.3), (0.02, 0.5), (0.15, 0.68), 24), 0.13),
        [Polygon(card, Ink.PAPER, Ink.INK, 0.014), Circle(0.275, 0.34, 0.026, Ink.ROPE, Ink.INK, 0.012)],
        [Line(curve((0.275, 0.34), (0.2, 0.42), (0.12, 0.42), (0.06, 0.36)), Ink.THREAD, 0.014)],
        lines,
        label("number", 0.36, 0.46, bold=True),
    )


def tag_content() -> Figure:
    """The tag read line by line against what it must say; one line is missing."""
    rows = ("who made it", "what it carries", "fibre, size", "serial number")
    lines: list[Shape] = []
    for row, text in enumerate(rows):
        y = 0.55 - 0.135 * row
        lines += label(text, 0.2, y)
        if row < 3:
            lines.append(Line(((0.08, y), (0.105, y - 0.03), (0.15, y + 0.035)), Ink.INK, 0.014))
        else:
            lines.append(Circle(0.115, y, 0.03, ink=Ink.INK, width=0.012))
    return drawn(
        "tag_content",
        [Polygon(((0.02, 0.06), (0.68, 0.06), (0.68, 0.64), (0.02, 0.64)), Ink.PAPER, Ink.INK, 0.014)],
        lines,
        finger((0.86, 0.04), (0.66, 0.11), 0.09),
        label("line by\nline", 0.98, 0.53, "right"),
        label("one\nmissing?", 0.98, 0.28, "right"),
    )


def eye_bearing() -> Figure:
    """The inside of the eye's back, where it bore on its pin or bitt."""
    back = arc(0.36, 0.3, 0.25, -20, 200)
    worn = arc(0.36, 0.3, 0.178, 25, 155)
    return drawn(
        "eye_bearing",
        [Circle(0.36, 0.27, 0.13, Ink.METAL, Ink.INK, 0.01)],
        rope((*reversed(_down(back[0])), *back, *_down(back[-1])), 0.15),
        [Line(worn, Ink.MARK, 0.022, "flat")],
        pointer((0.36, 0.3), (0.36, 0.455)),
        turning_along(0.117, 0.24, 0.11),
        label("inside,\nwhere it\nbears", 0.71, 0.5),
        dashed(((0.7, 0.5), (0.5, 0.43))),
    )


def eye_length() -> Figure:
    """The eye laid flat, the tape from the throat to the far inside."""
    upper = _flat_leg(1)
    lower = _flat_leg(-1)
    return drawn(
        "eye_length",
        rope(lower, 0.09),
        rope(upper, 0.09),
        rope(((0.03, 0.4), (0.24, 0.4)), 0.14),
        tape(((0.25, 0.4), (0.845, 0.4)), 0.05, spacing=0.028),
        span((0.25, 0.13), (0.845, 0.13)),
        dashed(((0.25, 0.1), (0.25, 0.36))),
        dashed(((0.845, 0.1), (0.845, 0.36))),
        label("throat", 0.25, 0.05, "centre"),
        label("far inside", 0.82, 0.05, "centre"),
    )


def eye_perimeter() -> Figure:
    """A short flexible tape along the inside of the eye, from the throat round to the throat."""
    left = curve((0.3, 0.12), (0.24, 0.2), (0.1, 0.26), (0.1, 0.42), 20)
    path = (*left, *arc(0.3, 0.42, 0.2, 180, 0)[1:], *((0.6 - x, y) for x, y in reversed(left[:-1])))
    inner = offset(path[1:-1], 0.085)
    return drawn(
        "eye_perimeter",
        rope(((0.3, 0.14), (0.3, 0.01)), 0.16),
        rope(path, 0.11),
        tape(inner[1:-1], 0.045, spacing=0.026, side=1),
        label("all the way round,\non the inside", 0.98, 0.56, "right"),
        pointer((0.6, 0.5), (0.42, 0.46)),
        label("throat to throat", 0.98, 0.2, "right"),
        dashed(((0.54, 0.2), (0.36, 0.17))),
        label("hand-taut", 0.98, 0.07, "right"),
    )


def in_the_eye() -> Figure:
    """The thimble: rock it, look at its points and its seat."""
    outline = (
        *arc(0.34, 0.4, 0.165, 180, 0),
        *curve((0.505, 0.4), (0.505, 0.24), (0.36, 0.16), (0.34, 0.1))[1:],
        *curve((0.34, 0.1), (0.32, 0.16), (0.175, 0.24), (0.175, 0.4))[1:],
    )
    left = curve((0.075, 0.4), (0.075, 0.22), (0.275, 0.14), (0.275, 0.01))
    right = tuple((0.68 - x, y) for x, y in left)
    turn = arc(0.34, 0.4, 0.085, 200, -20)
    return drawn(
        "thimble",
        rope((*reversed(left), *arc(0.34, 0.4, 0.265, 180, 0), *right), 0.13),
        thimble(outline, 0.045),
        arrow(turn, width=0.012, head=0.042),
        arrow(tuple(reversed(turn)), width=0.012, head=0.042),
        label("it turns?\ncheck the\nmarks", 0.98, 0.53, "right"),
        dashed(((0.7, 0.53), (0.44, 0.46))),
        label("points\nclosed,\nsharp?", 0.72, 0.19),
        pointer((0.7, 0.19), (0.4, 0.13)),
    )


def throat_marks() -> Figure:
    """The splice looked at untouched: is the braid bunched? Then both legs laid together, the two marks level."""
    x, throat = 0.16, 0.42
    leg = curve((x - 0.12, 0.69), (x - 0.1, 0.6), (x - 0.04, 0.56), (x - 0.04, throat), 8)
    bulge = ((x - 0.07, throat + 0.02), (x - 0.1, 0.34), (x - 0.1, 0.28), (x - 0.06, 0.2))
    sides = (*bulge, *((2 * x - px, y) for px, y in reversed(bulge)))
    folds = [
        Line(curve((x - 0.085, y), (x - 0.03, y - 0.03), (x + 0.03, y - 0.03), (x + 0.085, y), 8), Ink.ROPE_EDGE, 0.012)
        for y in (0.4, 0.365, 0.33, 0.295, 0.26)
    ]
    return drawn(
        "throat_marks",
        rope(leg, 0.075),
        rope(tuple((2 * x - px, y) for px, y in leg), 0.075),
        rope(((x, 0.22), (x, 0.14)), 0.11),
        [Polygon(sides, Ink.ROPE, Ink.ROPE_EDGE, 0.012)],
        folds,
        number("1", 0.33, 0.6),
        label("bunched?", x + 0.02, 0.08, "centre"),
        placed(_legs_together(_MARKS, _MARKS), x=0.08),
        finger((0.88, _MARKS), (0.71, _MARKS), 0.1),
        dashed(((0.3, _MARKS), (0.66, _MARKS))),
        number("2", 0.7, 0.62),
        label("level within\na finger", 0.98, 0.29, "right"),
        label("throat", 0.98, 0.1, "right"),
        dashed(((0.78, 0.11), (0.63, _THROAT))),
    )


def mark_offset() -> Figure:
    """Both legs laid together from the throat, the rule along both, the offset read between the two marks."""
    tail, standing = 0.5, 0.41
    return drawn(
        "mark_offset",
        _legs_together(tail, standing),
        tape(((0.6, 0.28), (0.6, 0.64)), 0.07, side=-1, spacing=0.025),
        dashed(((0.3, tail), (0.72, tail))),
        dashed(((0.5, standing), (0.72, standing))),
        arrow(((0.69, 0.6), (0.69, tail)), width=0.01, head=0.032),
        arrow(((0.69, 0.31), (0.69, standing)), width=0.01, head=0.032),
        label("offset", 0.77, (tail + standing) / 2),
        label("tail\nleg", 0.26, 0.6, "right"),
        label("standing\nleg", 0.98, 0.62, "right"),
        label("+ tail leg's\nmark farther", 0.98, 0.14, "right"),
        label("throat", 0.2, _THROAT, "right"),
        dashed(((0.22, _THROAT), (0.3, _THROAT))),
    )


def mark_tail() -> Figure:
    """The tape from the throat along the tail leg to its mark."""
    return _mark("mark_tail", tail=True)


def mark_standing() -> Figure:
    """The tape from the throat along the standing leg to its mark."""
    return _mark("mark_standing", tail=False)


def _mark(name: str, *, tail: bool) -> Figure:
    # Drawn for the tail leg; the standing leg is its mirror image, but for the tail inside the rope.
    left, right = _leg(0.6), tuple((1.2 - x, y) for x, y in _leg(0.6))
    along = offset(_until(tuple(reversed(left)), _MARKS + 0.03), -0.105)
    inside = 0.575 if tail else 0.625
    shapes: list[Shape] = [
        *rope(((0.6, _THROAT + 0.02), (0.6, 0.01)), 0.2),
        *rope(left, _LEG),
        *rope(tuple(reversed(right)), _LEG),
        *(_marked(one, _MARKS) for one in (left, right)),
        *hidden(((inside, _THROAT - 0.01), (0.6, 0.02)), 0.06),
        *tape(along, 0.06, spacing=0.026),
    ]
    texts = [("read", 0.21, 0.42), ("0 at the\nthroat", 0.35, 0.16)]
    if tail:
        which = label("tail leg", 0.02, 0.58)
        return drawn(name, shapes, which, *(label(text, x, y, "right") for text, x, y in texts))
    which = label("standing\nleg", 0.98, 0.57, "right")
    return drawn(name, mirrored(shapes, 0.5), which, *(label(text, 1 - x, y) for text, x, y in texts))


def _down(start: Point) -> tuple[Point, ...]:
    """From one end of the eye's back toward the throat, to the figure's edge."""
    (x, y), middle = start, 0.36
    closing = [x + (middle - x) * part for part in (0.12, 0.2, 0.3)]
    return curve(start, (closing[0], y - 0.08), (closing[1], 0.1), (closing[2], 0.02))[1:]


def _flat_leg(side: int) -> tuple[Point, ...]:
    down = curve(
        (0.24, 0.4 + side * 0.035), (0.4, 0.4 + side * 0.04), (0.5, 0.4 + side * 0.2), (0.7, 0.4 + side * 0.19)
    )
    return (*down, *arc(0.7, 0.4, 0.19, 90 * side, 0))


def _leg(x: float) -> tuple[Point, ...]:
    """The tail leg from the figure's top to the throat, opened as an eye is."""
    points = curve((-0.3, 0.68), (-0.25, 0.5), (-0.065, 0.44), (-0.06, _THROAT), 24)
    return tuple((x + dx, y) for dx, y in points)


def _legs_together(tail: float, standing: float) -> list[Shape]:
    """Two legs side by side above the throat, with their marks."""
    left, right = 0.36, 0.36 + _LEG + 0.004
    middle = (left + right) / 2
    return [
        *rope(((middle, _THROAT + 0.02), (middle, 0.01)), 0.2),
        *rope(((left, 0.69), (left, _THROAT)), _LEG),
        *rope(((right, 0.69), (right, _THROAT)), _LEG),
        *hidden(((middle - 0.02, _THROAT - 0.01), (middle - 0.01, 0.02)), 0.06),
        ring_mark((left, tail), (0, 1), _LEG * 1.06, 0.034),
        ring_mark((right, standing), (0, 1), _LEG * 1.06, 0.034),
    ]


def _marked(leg: tuple[Point, ...], y: float) -> Line:
    index = min(range(1, len(leg) - 1), key=lambda i: abs(leg[i][1] - y))
    (x0, y0), (x1, y1) = leg[index - 1], leg[index + 1]
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    return ring_mark(leg[index], ((x1 - x0) / long, (y1 - y0) / long), _LEG * 1.06, 0.034)


def _until(path: tuple[Point, ...], y: float) -> tuple[Point, ...]:
    return tuple(point for point in path if point[1] <= y)
