"""Figures of rope with a cover: the cover itself, the bend test, heat; and a soft shackle's eye and knot."""

from app.figures.rope import rope
from app.figures.shapes import Circle, Figure, Ink, Line, Point, Polygon, Shape, arc, arrow, curve, dashed, placed
from app.figures.tools import drawn, finger, label, lens, pointer, turning_along

_AXIS = 0.4


def cover() -> Figure:
    """The cover pushed along by hand, and where the core shows through."""
    return drawn(
        "cover",
        rope(((0.02, _AXIS), (0.98, _AXIS)), 0.17, strands=3),
        _bunch(0.34, _AXIS),
        _grip(0.18, _AXIS),
        [*_gap(0.62, _AXIS)],
        arrow(((0.08, 0.17), (0.36, 0.17)), width=0.014, head=0.048),
        turning_along(0.9, _AXIS, 0.16),
        label("push it: it must not slide", 0.04, 0.08),
        label("bunched", 0.34, 0.62, "centre"),
        label("core shows", 0.68, 0.62, "centre"),
        dashed(((0.62, 0.585), (0.62, 0.47))),
    )


def core_feel() -> Figure:
    """The same tight bend at every arm-span: both legs alike, no flat, no empty place."""
    sound = _bend(0.18, 0.28, 0.11)
    flat = ((0.46, 0.03), (0.46, 0.34), (0.55, 0.43), (0.64, 0.34), (0.64, 0.03))
    return drawn(
        "core_feel",
        rope(sound, 0.11, strands=2),
        finger((0.01, 0.05), (0.07, 0.14), 0.075),
        finger((0.35, 0.05), (0.29, 0.14), 0.075),
        rope(flat, 0.11, strands=2),
        lens(0.55, 0.41, 0.11),
        label("even", 0.18, 0.56, "centre"),
        label("kinks: hollow", 0.55, 0.62, "centre"),
        label("at every\narm-span", 0.98, 0.14, "right"),
    )


def body_fibre() -> Figure:
    """Bent and rubbed, beside a piece of the new rope that was kept; heat, sun, a chemical."""
    bend = _bend(0.16, 0.4, 0.1)
    return drawn(
        "body_fibre",
        rope(bend, 0.1, strands=2),
        finger((0.33, 0.62), (0.24, 0.54), 0.075),
        rope(((0.41, 0.5), (0.41, 0.14)), 0.12, strands=2),
        [Line(((0.35, y), (0.47, y)), Ink.THREAD, 0.014, "flat") for y in (0.475, 0.455, 0.185, 0.165)],
        label("kept new piece:", 0.42, 0.64),
        label("colour, hand, girth", 0.98, 0.56, "right"),
        *(placed(one(0, 0), x=0.56, y=y, scale=0.62) for one, y in ((_sun, 0.44), (_flame, 0.21), (_drop, 0.06))),
        label("sun: faded", 0.65, 0.44),
        label("heat: glazed", 0.65, 0.27),
        label("chemical", 0.65, 0.09),
    )


def shackle_eye() -> Figure:
    """A soft shackle's eye drawn shut round the neck of its knot."""
    left = curve((0.26, 0.66), (0.0, 0.5), (0.02, 0.2), (0.23, 0.2), 20)
    right = tuple((0.52 - x, y) for x, y in left)
    return drawn(
        "shackle_eye",
        rope(left, 0.08),
        rope(tuple(reversed(right)), 0.08),
        _knot(0.26, 0.11, 0.085),
        rope(arc(0.26, 0.24, 0.07, 0, 360, 0.5), 0.06),
        lens(0.26, 0.22, 0.14),
        label("draws shut round\nthe knot's neck", 0.98, 0.29, "right"),
        label("inside of\nthe eye", 0.98, 0.6, "right"),
        dashed(((0.68, 0.58), (0.34, 0.5))),
        label("pull", 0.98, 0.08, "right"),
        arrow(((0.4, 0.08), (0.78, 0.08)), width=0.012, head=0.042),
    )


def shackle_knot() -> Figure:
    """A soft shackle's knot pressed from all sides, and the tails that leave it."""
    return drawn(
        "shackle_knot",
        rope(((0.27, 0.69), (0.27, 0.4)), 0.09),
        rope(((0.37, 0.69), (0.37, 0.4)), 0.09),
        rope(((0.28, 0.26), (0.22, 0.05)), 0.075),
        rope(((0.36, 0.26), (0.43, 0.05)), 0.075),
        _knot(0.32, 0.33, 0.15),
        finger((0.02, 0.33), (0.13, 0.33), 0.09),
        finger((0.62, 0.33), (0.51, 0.33), 0.09),
        label("hard all round", 0.98, 0.55, "right"),
        label("tails as long\nas made", 0.98, 0.12, "right"),
        pointer((0.6, 0.11), (0.47, 0.09)),
    )


def _bend(x: float, y: float, radius: float) -> tuple[Point, ...]:
    return ((x - radius, 0.03), *arc(x, y, radius, 180, 0), (x + radius, 0.03))


def _grip(x: float, axis: float) -> list[Shape]:
    fingers: list[Shape] = []
    for index in range(3):
        at = x - 0.055 + 0.06 * index
        fingers += finger((at, axis + 0.12), (at, axis - 0.07), 0.066)
    return fingers


def _bunch(x: float, axis: float) -> list[Shape]:
    """Folds of a cover that was pushed ahead of the hand."""
    found: list[Shape] = []
    for index in range(3):
        fold = arc(x - 0.02 + index * 0.045, axis, 0.035, 90, -90, 3.1)
        found += [Line(fold, Ink.ROPE_EDGE, 0.03), Line(fold, Ink.ROPE, 0.014)]
    return found


def _gap(x: float, axis: float) -> list[Shape]:
    """A worn-through place with the core in it."""
    leaf = curve((x - 0.09, axis), (x - 0.04, axis + 0.085), (x + 0.04, axis + 0.085), (x + 0.09, axis), 10)
    outline = (*reversed(leaf), *((px, 2 * axis - py) for px, py in leaf[1:-1]))
    core = [Line(((x - 0.07, axis + dy), (x + 0.07, axis + dy)), Ink.PAPER, 0.022, "flat") for dy in (-0.02, 0.02)]
    return [Polygon(outline, Ink.INK), *core]


def _knot(x: float, y: float, size: float) -> list[Shape]:
    """A round knot: strands that cross."""
    found: list[Shape] = [Circle(x, y, size, Ink.ROPE, Ink.ROPE_EDGE, 0.014)]
    for turn in (-0.55, 0.0, 0.55):
        spots = ((-0.9, 0.25), (-0.3, 0.45), (0.3, -0.45), (0.9, -0.25))
        corners = [(x + size * dx, y + size * (turn + dy)) for dx, dy in spots]
        found.append(Line(curve(corners[0], corners[1], corners[2], corners[3], 10), Ink.ROPE_EDGE, 0.012))
    return found


def _sun(x: float, y: float) -> list[Shape]:
    rays = [
        Line((arc(x, y, 0.062, angle, angle + 1)[0], arc(x, y, 0.092, angle, angle + 1)[0]), Ink.INK, 0.012, "round")
        for angle in range(0, 360, 45)
    ]
    return [Circle(x, y, 0.04, Ink.PAPER, Ink.INK, 0.013), *rays]


def _flame(x: float, y: float) -> list[Shape]:
    left = curve((x - 0.015, y - 0.04), (x - 0.09, y + 0.05), (x + 0.01, y + 0.08), (x - 0.005, y + 0.18), 12)
    right = curve((x - 0.005, y + 0.18), (x + 0.1, y + 0.08), (x + 0.09, y), (x + 0.035, y - 0.04), 12)
    return [Line((*left, *right[1:]), Ink.INK, 0.014)]


def _drop(x: float, y: float) -> list[Shape]:
    outline = (*arc(x, y, 0.045, 150, 390), (x, y + 0.11), arc(x, y, 0.045, 150, 151)[0])
    return [Line(outline, Ink.INK, 0.014)]
