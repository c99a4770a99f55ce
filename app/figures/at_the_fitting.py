"""Figures of fittings, one for each kind, of what is read on them, and of what an eye bore on."""

from app.figures.hardware import (
    bar,
    caliper,
    connector,
    crack,
    hook,
    hook_point,
    latch,
    pitted,
    ring,
    shackle,
    sheave,
)
from app.figures.rope import rope
from app.figures.rope import thimble as rim
from app.figures.shapes import Circle, Figure, Ink, Line, Polygon, Shape, arc, arrow, box, curve, dashed
from app.figures.tools import drawn, finger, label, lens, number, pointer, turning
from app.figures.webbing import face, strap

_X, _Y = 0.36, 0.28


def fittings() -> Figure:
    """Every fitting one by one, along the rope."""
    return drawn(
        "fittings",
        rope(((0.02, 0.62), (0.98, 0.62)), 0.07),
        hook(0.2, 0.2, 0.095, 0.045),
        latch(0.2, 0.2, 0.095),
        shackle(0.5, 0.34, 0.1, 0.036),
        connector(0.8, 0.34, 0.32, 0.032),
        [Line(((x, 0.6), (x, y)), Ink.INK, 0.01, "flat") for x, y in ((0.2, 0.47), (0.5, 0.46), (0.8, 0.5))],
        number("1", 0.08, 0.46),
        number("2", 0.36, 0.46),
        number("3", 0.64, 0.46),
        arrow(((0.36, 0.09), (0.62, 0.09)), width=0.014, head=0.048),
        label("one by one", 0.66, 0.08),
    )


def hook_whole() -> Figure:
    """A hook: its latch, its bowl, its point in line."""
    return drawn(
        "hook",
        hook(0.3, 0.22, 0.15, 0.07),
        latch(0.3, 0.22, 0.15),
        crack(0.41, 0.12, 0.03),
        finger((0.02, 0.06), (0.15, 0.105), 0.08),
        label("latch shuts\nby itself", 0.98, 0.56, "right"),
        pointer((0.62, 0.54), (0.3, 0.4)),
        label("not opened,\nnot twisted", 0.98, 0.35, "right"),
        label("crack, wear\nin the bowl", 0.98, 0.13, "right"),
        dashed(((0.62, 0.13), (0.5, 0.13))),
    )


def shackle_whole() -> Figure:
    """A shackle: bow, pin and how the pin is secured."""
    return drawn(
        "shackle",
        shackle(0.3, 0.42, 0.17, 0.066),
        label("bow worn\nor opened", 0.98, 0.55, "right"),
        pointer((0.66, 0.55), (0.47, 0.52)),
        label("pin straight,\nsecured,\nthe right one", 0.98, 0.2, "right"),
        pointer((0.58, 0.2), (0.53, 0.2)),
        finger((0.06, 0.62), (0.2, 0.56), 0.08),
    )


def master_link() -> Figure:
    """A link: worn at its top, bent, cracked at the weld."""
    return drawn(
        "master link",
        ring(0.3, 0.34, 0.17, 0.07, 1.5),
        [Line(arc(0.3, 0.34, 0.135, 60, 120, 1.5), Ink.MARK, 0.02, "flat")],
        crack(0.3, 0.09, 0.03),
        label("worn where\nit bears", 0.98, 0.55, "right"),
        pointer((0.62, 0.55), (0.36, 0.55)),
        label("bent,\nstretched", 0.98, 0.34, "right"),
        dashed(((0.64, 0.34), (0.52, 0.34))),
        label("crack\nat the weld", 0.98, 0.11, "right"),
        dashed(((0.64, 0.11), (0.36, 0.09))),
    )


def swivel() -> Figure:
    """A swivel: it turns freely, its joint has no play."""
    return drawn(
        "swivel",
        ring(0.32, 0.55, 0.1, 0.05),
        bar(((0.32, 0.45), (0.32, 0.28)), 0.05, "flat"),
        [Polygon(box(0.22, 0.3, 0.42, 0.4), Ink.METAL, Ink.INK, 0.012)],
        ring(0.32, 0.17, 0.11, 0.05),
        turning(0.32, 0.35, 0.19),
        label("turns freely,\nno play", 0.98, 0.36, "right"),
        label("rings worn?", 0.98, 0.6, "right"),
        dashed(((0.6, 0.6), (0.43, 0.58))),
    )


def connector_whole() -> Figure:
    """A connector: its gate closes by itself, locks, and its nose meets."""
    return drawn(
        "connector",
        connector(0.24, 0.35, 0.5, 0.046, ajar=28),
        arrow(arc(0.28, 0.26, 0.22, 112, 78), width=0.012, head=0.042),
        finger((0.54, 0.28), (0.36, 0.32), 0.085),
        label("let go: it shuts\nby itself, locks", 0.98, 0.56, "right"),
        label("worn where\nit bears", 0.98, 0.13, "right"),
        pointer((0.63, 0.13), (0.3, 0.09)),
    )


def pulley() -> Figure:
    """A pulley: its sheave turns freely, its groove is smooth, its axle has no play."""
    return drawn(
        "pulley",
        sheave(0.32, 0.27, 0.17),
        arrow(arc(0.32, 0.27, 0.1, 200, -20), width=0.012, head=0.042),
        label("sheave turns\nfreely", 0.98, 0.4, "right"),
        pointer((0.6, 0.4), (0.42, 0.32)),
        label("groove\nsmooth", 0.98, 0.14, "right"),
        pointer((0.7, 0.13), (0.47, 0.19)),
        label("side plates true", 0.98, 0.62, "right"),
        dashed(((0.5, 0.62), (0.4, 0.5))),
    )


def thimble_alone() -> Figure:
    """A thimble by itself: its points, its groove."""
    outline = (
        *arc(0.3, 0.42, 0.19, 180, 0),
        *curve((0.49, 0.42), (0.49, 0.24), (0.33, 0.14), (0.3, 0.06))[1:],
        *curve((0.3, 0.06), (0.27, 0.14), (0.11, 0.24), (0.11, 0.42))[1:],
    )
    return drawn(
        "thimble fitting",
        rim(outline, 0.07),
        [Line(arc(0.3, 0.42, 0.19, 150, 30), Ink.INK, 0.012, "flat")],
        label("groove worn\nor sharp", 0.98, 0.55, "right"),
        pointer((0.62, 0.55), (0.46, 0.55)),
        label("points\nopened,\nspread", 0.98, 0.17, "right"),
        pointer((0.7, 0.17), (0.36, 0.1)),
    )


def friction_saver() -> Figure:
    """A friction saver: a strap with a ring at either end over a limb."""
    return drawn(
        "friction saver",
        [Circle(0.34, 0.42, 0.2, Ink.FAINT, Ink.INK, 0.01), Circle(0.34, 0.42, 0.15, Ink.PAPER)],
        strap(((0.1, 0.2), (0.115, 0.42), *arc(0.34, 0.42, 0.225, 180, 0)[1:], (0.56, 0.2)), 0.05),
        ring(0.1, 0.13, 0.068, 0.032),
        ring(0.56, 0.13, 0.05, 0.03),
        [Line(((x, 0.25), (x, 0.33)), Ink.THREAD, 0.012, "flat") for x in (0.105, 0.565)],
        label("strap and\nsewing\nwhole", 0.98, 0.55, "right"),
        dashed(((0.76, 0.5), (0.575, 0.42))),
        label("rings\nworn?", 0.98, 0.14, "right"),
        pointer((0.8, 0.14), (0.63, 0.13)),
    )


def adjuster() -> Figure:
    """An adjuster: it grips under load and lets go when asked."""
    return drawn(
        "adjuster",
        rope(((0.24, 0.69), (0.24, 0.01)), 0.12),
        [Polygon(((0.13, 0.44), (0.4, 0.5), (0.4, 0.26), (0.13, 0.2)), Ink.METAL, Ink.INK, 0.012)],
        rope(((0.24, 0.385), (0.24, 0.29)), 0.12),
        [Circle(0.345, 0.38, 0.045, Ink.PAPER, Ink.INK, 0.012), Circle(0.345, 0.38, 0.012, Ink.INK)],
        arrow(((0.06, 0.6), (0.06, 0.4)), width=0.014, head=0.048),
        label("load it\nby hand:\nit grips", 0.98, 0.52, "right"),
        label("cam, edges\nnot worn", 0.98, 0.16, "right"),
        pointer((0.62, 0.2), (0.41, 0.33)),
    )


def absorber() -> Figure:
    """An energy absorber: its cover whole, nothing of it drawn out."""
    whole: list[Shape] = [
        Polygon(box(0.2, 0.46, 0.5, 0.62), Ink.PAPER, Ink.INK, 0.012),
        *(Line(((0.225 + 0.05 * n, 0.49), (0.225 + 0.05 * n, 0.59)), Ink.THREAD, 0.01, "flat") for n in range(6)),
    ]
    folds = tuple((0.24 + 0.035 * n, 0.2 if n % 2 else 0.1) for n in range(8))
    return drawn(
        "energy absorber",
        face(0.02, 0.22, 0.54, 0.08),
        face(0.48, 0.68, 0.54, 0.08),
        whole,
        face(0.02, 0.22, 0.15, 0.08),
        face(0.5, 0.68, 0.15, 0.08),
        [Polygon(box(0.17, 0.09, 0.26, 0.21), Ink.PAPER, Ink.INK, 0.012)],
        [Line(folds, Ink.ROPE_EDGE, 0.022), Line(folds, Ink.ROPE, 0.01)],
        label("cover\nwhole", 0.98, 0.54, "right"),
        label("drawn out:\nit has worked", 0.98, 0.34, "right"),
        pointer((0.57, 0.34), (0.42, 0.23)),
    )


def hook_throat() -> Figure:
    """The caliper across the hook's narrowest gap, the latch pressed in."""
    x, y, radius = 0.48, 0.2, 0.15
    tip = hook_point(x, y, radius)
    end, start = (tip[0] + 0.03, tip[1] + 0.045), (x - 0.035, y + radius * 1.42 + 0.01)
    return drawn(
        "hook_throat",
        hook(x, y, radius, 0.07),
        caliper(start, end, 0.13, side=-1),
        [Line(((x + 0.01, y + radius * 1.5), (x - 0.02, y + 0.03)), Ink.INK, 0.034, "flat"),
         Line(((x + 0.01, y + radius * 1.5), (x - 0.02, y + 0.03)), Ink.PAPER, 0.016, "flat")],
        label("latch\npressed in", 0.98, 0.32, "right"),
        pointer((0.7, 0.32), (0.52, 0.32)),
        label("narrowest\ngap", 0.98, 0.56, "right"),
        label("or mark\nto mark", 0.02, 0.08),
    )  # fmt: skip


def fitting_thickness() -> Figure:
    """The caliper on the bowl of a hook, turned until it reads least."""
    x, y, radius = 0.26, 0.33, 0.115
    return drawn(
        "fitting_thickness",
        hook(x, y, radius, 0.08),
        caliper((x, y - radius + 0.05), (x, y - radius - 0.05), 0.22, 0.034),
        label("where it\nbears", 0.98, 0.55, "right"),
        label("turn it:\nthe least", 0.98, 0.16, "right"),
    )


def bore_on() -> Figure:
    """A gloved hand over the pin or bitt the eye bore on, the rope off it."""
    grip: list[Shape] = []
    for index in range(3):
        grip += finger((0.16 + 0.07 * index, 0.67), (0.2 + 0.075 * index, 0.52), 0.075, nail=False)
    return drawn(
        "bore_on",
        [Polygon(box(0.06, 0.02, 0.62, 0.1), Ink.METAL, Ink.INK, 0.012)],
        [Polygon(box(0.2, 0.1, 0.48, 0.5), Ink.METAL, Ink.INK, 0.012)],
        [Polygon(box(0.15, 0.44, 0.53, 0.52), Ink.METAL, Ink.INK, 0.012)],
        [Polygon(((0.48, 0.26), (0.54, 0.31), (0.48, 0.33)), Ink.INK)],
        [Line(((0.2, y), (0.48, y)), Ink.INK, 0.008, "flat") for y in (0.2, 0.225, 0.25)],
        pitted(0.3, 0.36, 0.05),
        grip,
        lens(0.5, 0.295, 0.085),
        label("rope off,\nglove on", 0.98, 0.58, "right"),
        label("a burr cuts\nthe next rope", 0.98, 0.32, "right"),
        label("grooves,\nrust", 0.98, 0.13, "right"),
        dashed(((0.74, 0.15), (0.49, 0.21))),
    )
