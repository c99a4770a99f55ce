"""Figures of what is counted, estimated or measured on a rope's body, its drum, and in the test house."""

from app.figures.hardware import bar, caliper, ring, shackle
from app.figures.rope import ring_mark, rope
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
    box,
    curve,
    dashed,
    lying,
    mirrored,
    placed,
    span,
)
from app.figures.tools import drawn, label, number, pointer, tape

_AXIS = 0.4


def caliper_widest() -> Figure:
    """The caliper turned round the rope until it reads most."""
    return _across("caliper_widest", widest=True)


def caliper_narrowest() -> Figure:
    """The caliper turned until it reads least."""
    return _across("caliper_narrowest", widest=False)


def cut_strands() -> Figure:
    """What is cut within one metre counts as one place."""
    return drawn(
        "cut_strands",
        rope(((0.02, 0.44), (0.98, 0.44)), 0.17, strands=3),
        *(_cut(x, y) for x, y in ((0.34, 0.48), (0.46, 0.42), (0.58, 0.49))),
        number("1", 0.34, 0.59),
        number("2", 0.46, 0.59),
        number("3", 0.58, 0.59),
        dashed(((0.24, 0.34), (0.24, 0.16))),
        dashed(((0.68, 0.34), (0.68, 0.16))),
        span((0.24, 0.2), (0.68, 0.2)),
        label("1 m: one place", 0.46, 0.11, "centre"),
        label("end A", 0.02, 0.27),
    )


def fibre_strand() -> Figure:
    """How much of one strand's own fibre is gone."""
    return drawn(
        "fibre_strand",
        _bundle(0.3, 0.36, 0.24, lost=0.3),
        label("this strand only", 0.98, 0.6, "right"),
        label("gone: part of\nits own fibre", 0.98, 0.36, "right"),
        pointer((0.58, 0.36), (0.43, 0.42)),
        label("look inside too", 0.98, 0.1, "right"),
    )


def fibre_rope() -> Figure:
    """How much of all the rope's fibre is gone, strands counted as cut left out."""
    middle = (0.28, 0.36)
    strands: list[Shape] = [Circle(*middle, 0.26, Ink.PAPER, Ink.INK, 0.01)]
    for index in range(6):
        x, y = arc(*middle, 0.165, 60 * index + 30, 60 * index + 31)[0]
        strands += _bundle(x, y, 0.08, lost=0.45 if index == 0 else 0.0)
    strands += _bundle(*middle, 0.08, lost=0.0)
    return drawn(
        "fibre_rope",
        strands,
        label("all strands\ntogether", 0.98, 0.6, "right"),
        label("gone: part of\nall the fibre", 0.98, 0.32, "right"),
        pointer((0.59, 0.38), (0.47, 0.45)),
        label("cut strands\ncount apart", 0.98, 0.1, "right"),
    )


def gauge_length() -> Figure:
    """The tape from one gauge mark to the other under the reference tension."""
    return drawn(
        "gauge_length",
        rope(((0.02, 0.5), (0.74, 0.5)), 0.12),
        [ring_mark((x, 0.5), (1, 0), 0.13, 0.03) for x in (0.12, 0.62)],
        [Polygon(box(0.74, 0.44, 0.9, 0.56), Ink.PAPER, Ink.INK, 0.012)],
        bar(((0.9, 0.5), (0.98, 0.5)), 0.03, "flat"),
        tape(((0.12, 0.36), (0.66, 0.36)), 0.065),
        dashed(((0.12, 0.43), (0.12, 0.19))),
        dashed(((0.62, 0.43), (0.62, 0.19))),
        span((0.12, 0.22), (0.62, 0.22)),
        label("mark to mark", 0.37, 0.14, "centre"),
        label("stand clear of the line of pull", 0.5, 0.045, "centre"),
        label("load cell", 0.82, 0.64, "centre"),
        label("kN", 0.82, 0.5, "centre", bold=True),
    )


def break_test() -> Figure:
    """A piece of the line pulled until it breaks; the force on the test house's paper."""
    return drawn(
        "break_test",
        ring(0.1, 0.5, 0.06, 0.04),
        ring(0.66, 0.5, 0.06, 0.04),
        rope(((0.15, 0.5), (0.35, 0.5)), 0.09),
        rope(((0.61, 0.5), (0.41, 0.5)), 0.09),
        [Line(((0.35 + sign * 0.0, 0.5 + dy), (0.385, 0.5 + dy * 1.7)), Ink.ROPE_EDGE, 0.01) for sign in (1,)
         for dy in (-0.03, 0.0, 0.03)],
        [Line(((0.41, 0.5 + dy), (0.38, 0.5 + dy * 1.9)), Ink.ROPE_EDGE, 0.01) for dy in (-0.035, -0.012, 0.02)],
        arrow(((0.72, 0.5), (0.95, 0.5)), width=0.016, head=0.05),
        [Polygon(box(0.24, 0.04, 0.74, 0.33), Ink.PAPER, Ink.INK, 0.012)],
        label("force at break", 0.49, 0.25, "centre"),
        label("kN", 0.64, 0.13, "centre", bold=True),
        [Line(((0.3, 0.13), (0.56, 0.13)), Ink.INK, 0.012)],
        label("every piece", 0.98, 0.63, "right"),
    )  # fmt: skip


def drum_layers() -> Figure:
    """The layers on a drum, and a turn that was pulled into the layer below."""
    found: list[Shape] = [Polygon(box(0.08, 0.06, 0.52, 0.14), Ink.METAL, Ink.INK, 0.012)]
    for left in (0.02, 0.52):
        found.append(Polygon(box(left, 0.03, left + 0.06, 0.6), Ink.METAL, Ink.INK, 0.012))
    for row, (count, shift) in enumerate(((6, 0.0), (5, 0.036), (6, 0.0))):
        for index in range(count):
            x, y = 0.118 + shift + index * 0.073, 0.18 + row * 0.064
            if row == 2 and index == 3:
                y -= 0.045
            elif row == 1 and index in (2, 3):
                x += -0.014 if index == 2 else 0.014
            found += [Circle(x, y, 0.035, Ink.ROPE, Ink.ROPE_EDGE, 0.012)]
    return drawn(
        "drum_layers",
        found,
        label("pulled into\nthe layer\nbelow", 0.98, 0.58, "right"),
        pointer((0.64, 0.55), (0.36, 0.32)),
        label("drum locked;\noff, down to\nthe dead end", 0.98, 0.16, "right"),
        arrow(((0.9, 0.3), (0.9, 0.44)), width=0.012, head=0.042),
    )


def contamination() -> Figure:
    """A stain rinsed and smelled; rust and paint hide what lies below."""
    stain: Point = (0.36, 0.42)
    blots = ((0, 0, 0.06), (0.06, 0.03, 0.045), (-0.06, 0.02, 0.045), (0.02, -0.045, 0.04))
    return drawn(
        "contamination",
        rope(((0.02, _AXIS), (0.98, _AXIS)), 0.18, strands=2),
        [Circle(stain[0] + dx, stain[1] - 0.02 + dy, r, Ink.INK) for dx, dy, r in blots],
        [Line(((0.64 + 0.03 * n, 0.33 + 0.02 * (n % 3)), (0.65 + 0.03 * n, 0.46)), Ink.MARK, 0.016) for n in range(5)],
        label("oil, chemical:\nrinse, smell", 0.06, 0.16),
        dashed(((0.3, 0.24), (0.35, 0.34))),
        label("rust, paint:\nwhat lies below?", 0.98, 0.62, "right"),
        dashed(((0.7, 0.55), (0.7, 0.49))),
    )


def tail_joint() -> Figure:
    """The joint between a mooring line and its tail."""
    line = (*((0.02, 0.44), (0.2, 0.44)), *curve((0.2, 0.44), (0.28, 0.5), (0.36, 0.5), (0.4, 0.44), 10)[1:])
    return drawn(
        "tail_joint",
        rope(line, 0.08),
        rope(tuple((x, 0.88 - y) for x, y in line[1:]), 0.08),
        placed(mirrored(lying(shackle(0, 0, 0.095, 0.045))), x=0.47, y=0.44),
        rope(((0.98, 0.44), (0.78, 0.44), (0.7, 0.49), (0.6, 0.48), (0.57, 0.44)), 0.1, "laid"),
        rope(((0.78, 0.44), (0.7, 0.39), (0.6, 0.4), (0.57, 0.44)), 0.1, "laid"),
        label("line", 0.1, 0.58, "centre"),
        label("mooring tail", 0.8, 0.6, "centre"),
        label("pin secured,\nright way round", 0.3, 0.15, "centre"),
        pointer((0.4, 0.22), (0.43, 0.34)),
        label("the tail\non record?", 0.98, 0.17, "right"),
    )


def _across(name: str, *, widest: bool) -> Figure:
    """The section of rope that is no longer round, between the caliper's jaws."""
    x, y, half, flat = 0.36, 0.32, 0.19, 0.62
    section: list[Shape] = [
        Polygon(arc(x, y, half, 0, 360, flat)[:-1], Ink.ROPE, Ink.ROPE_EDGE, 0.016),
        *(Circle(x + dx, y + dy, 0.05, ink=Ink.ROPE_EDGE, width=0.008)
          for dy, row in ((0.0, (-0.1, 0.0, 0.1)), (0.055, (-0.05, 0.05)), (-0.055, (-0.05, 0.05))) for dx in row),
    ]  # fmt: skip
    tool = (
        caliper((x - half, y), (x + half, y), 0.2) if widest
        else caliper((x, y + half * flat), (x, y - half * flat), 0.27)
    )  # fmt: skip
    turn = arc(x, y, 0.25, 215, 250)
    where = ("most", 0.98, 0.16) if widest else ("least", 0.98, 0.06)
    return drawn(
        name,
        section,
        tool,
        arrow(turn, width=0.012, head=0.042),
        label("turn it until it\nreads the", 0.98, where[2] + 0.13, "right") if widest else [],
        label(where[0], where[1], where[2] + 0.02, "right", bold=True) if widest else [],
        [] if widest else label("turn it until it reads the", 0.06, 0.64),
        [] if widest else label("least", 0.8, 0.64, bold=True),
    )


def _bundle(x: float, y: float, radius: float, lost: float) -> list[Shape]:
    """A strand cut across: its yarns; those lost are empty."""
    found: list[Shape] = [Circle(x, y, radius, Ink.PAPER, Ink.ROPE_EDGE, 0.012)]
    small = radius * 0.19
    spots = [(0.0, 0.0)] + [arc(0, 0, radius * part, a, a + 1)[0] for part, n in ((0.4, 6), (0.77, 12))
                            for a in (360 / n * k for k in range(n))]  # fmt: skip
    edge = sorted(spots, key=lambda one: one[0] + one[1], reverse=True)
    gone = set(edge[: round(len(spots) * lost)])
    for dx, dy in spots:
        if (dx, dy) in gone:
            found.append(Circle(x + dx, y + dy, small, Ink.INK))
        else:
            found.append(Circle(x + dx, y + dy, small, Ink.ROPE, Ink.ROPE_EDGE, 0.006))
    return found


def _cut(x: float, y: float) -> list[Shape]:
    return [
        Polygon(((x - 0.024, y + 0.035), (x + 0.024, y + 0.035), (x, y - 0.04)), Ink.INK),
        *(Line(((x + dx * 0.5, y + 0.01), (x + dx, y + 0.05)), Ink.INK, 0.008) for dx in (-0.045, 0.045)),
    ]


def strand_yarns() -> Figure:
    """One whole strand opened, its yarns counted."""
    return _strand("strand_yarns", lost=0)


def cut_yarns() -> Figure:
    """One damaged strand, its cut yarns counted."""
    return _strand("cut_yarns", lost=3)


def _strand(name: str, *, lost: int) -> Figure:
    """A strand lifted out of the rope and spread into its yarns; the first few may be cut."""
    found: list[Shape] = [*rope(((0.02, 0.16), (0.98, 0.16)), 0.17, strands=2)]
    count = 6
    for index in range(count):
        y = 0.36 + 0.052 * index
        path = curve((0.12, 0.24), (0.2, y), (0.26, y), (0.34, y), 10)
        back = curve((0.5, y), (0.56, y), (0.6, y), (0.68, 0.24), 10)
        pieces = [path, back] if index < lost else [(*path, *back)]
        for piece in pieces:
            found += [Line(piece, Ink.ROPE_EDGE, 0.034), Line(piece, Ink.ROPE, 0.02)]
    if lost:
        return drawn(
            name,
            found,
            label("cut yarns", 0.98, 0.42, "right", bold=True),
            pointer((0.68, 0.42), (0.44, 0.42)),
            label("one number a strand", 0.06, 0.66),
        )
    return drawn(
        name,
        found,
        label("yarns in\none strand", 0.98, 0.5, "right", bold=True),
        label("a whole one", 0.06, 0.66),
    )
