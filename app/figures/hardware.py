"""What hangs on a rope or sling: hooks, links, connectors and the like, and the caliper that is held to them."""

import math
from collections.abc import Sequence

from app.figures.shapes import Cap, Circle, Ink, Line, Point, Polygon, Shape, arc, curve, ticks

_RIM = 0.018


def bar(path: Sequence[Point], width: float, cap: Cap = "round") -> list[Shape]:
    """Return round metal along a path, with its outline."""
    return [Line(tuple(path), Ink.INK, width + _RIM, cap), Line(tuple(path), Ink.METAL, width, cap)]


def ring(x: float, y: float, radius: float, width: float, flat: float = 1) -> list[Shape]:
    """Return a closed link about a middle; `flat` above 1 makes it longer than wide."""
    return bar(arc(x, y, radius, 0, 360, flat), width)


def hook(x: float, y: float, radius: float, width: float) -> list[Shape]:
    """Return a hook whose bowl is about (x, y), its point to the left, its eye above."""
    back = curve((x, y + 2.0 * radius), (x, y + 1.4 * radius), (x + 1.0 * radius, y + 1.1 * radius),
                 (x + radius * math.cos(math.radians(20)), y + radius * math.sin(math.radians(20))), 14)  # fmt: skip
    bowl = arc(x, y, radius, 20, -205)
    return [*ring(x, y + 2.35 * radius, radius * 0.42, width * 0.8), *bar((*back, *bowl[1:]), width)]


def hook_point(x: float, y: float, radius: float) -> Point:
    """Return where the point of such a hook ends."""
    return x + radius * math.cos(math.radians(-205)), y + radius * math.sin(math.radians(-205))


def latch(x: float, y: float, radius: float) -> list[Shape]:
    """Return the latch of such a hook, closed: from the shank to the point."""
    tip = hook_point(x, y, radius)
    end = (tip[0] + radius * 0.28, tip[1] + radius * 0.06)
    start = (x + radius * 0.06, y + 1.5 * radius)
    return [
        Line((start, end), Ink.INK, 0.036, "flat"),
        Line((start, end), Ink.PAPER, 0.018, "flat"),
        Circle(*start, 0.018, Ink.METAL, Ink.INK, 0.008),
    ]


def shackle(x: float, y: float, radius: float, width: float, *, pin: float = 0.0) -> list[Shape]:
    """Return a bow shackle, its pin below; `pin` is how far that has come out to the right."""
    bow = (
        (x - radius * 0.62, y - radius * 1.35),
        *curve((x - radius * 0.62, y - radius * 1.2), (x - radius * 0.62, y - radius * 0.6),
               (x - radius, y - radius * 0.5), (x - radius, y), 10),
        *arc(x, y, radius, 180, 0)[1:],
        *curve((x + radius, y), (x + radius, y - radius * 0.5), (x + radius * 0.62, y - radius * 0.6),
               (x + radius * 0.62, y - radius * 1.2), 10)[1:],
        (x + radius * 0.62, y - radius * 1.35),
    )  # fmt: skip
    low = y - radius * 1.35
    left, right = x - radius * 0.95 + pin, x + radius * 1.15 + pin
    return [
        *bar(((left, low), (right, low)), width * 0.8, "flat"),
        *bar(bow, width),
        Circle(x - radius * 0.62, low, width * 0.62, Ink.METAL, Ink.INK, 0.009),
        Circle(x + radius * 0.62, low, width * 0.62, Ink.METAL, Ink.INK, 0.009),
        Polygon(((right, low - width * 0.55), (right + width * 0.5, low - width * 0.55),
                 (right + width * 0.5, low + width * 0.55), (right, low + width * 0.55)),
                Ink.METAL, Ink.INK, 0.009),
    ]  # fmt: skip


def connector(x: float, y: float, high: float, width: float, *, ajar: float = 0.0) -> list[Shape]:
    """Return a connector with a screwed gate at its right; `ajar` degrees is how far that stands open inwards."""
    half, side = high / 2, high * 0.24
    frame = (
        (x + side, y - half * 0.38),
        *arc(x, y - half * 0.62, side, 0, -180, 1.2),
        (x - side * 1.08, y),
        *arc(x, y + half * 0.55, side * 1.2, 180, 0, 1.1),
        (x + side * 1.16, y + half * 0.42),
    )
    hinge, nose = (x + side, y - half * 0.38), (x + side * 1.16, y + half * 0.42)
    long, lean = math.dist(hinge, nose), math.atan2(nose[1] - hinge[1], nose[0] - hinge[0]) + math.radians(ajar)
    end = (hinge[0] + long * math.cos(lean), hinge[1] + long * math.sin(lean))
    sleeve = tuple(
        (hinge[0] + long * part * math.cos(lean), hinge[1] + long * part * math.sin(lean)) for part in (0.45, 0.88)
    )
    return [
        *bar(frame, width),
        *bar((hinge, end), width * 0.7),
        Line(sleeve, Ink.INK, width + 0.034, "flat"),
        Line(sleeve, Ink.METAL, width + 0.014, "flat"),
        *(Line(((px - width * 0.5 * dy, py + width * 0.5 * dx), (px + width * 0.5 * dy, py - width * 0.5 * dx)),
               Ink.INK, 0.006, "flat") for (px, py), (dx, dy) in list(ticks(sleeve, 0.024))[1:]),
        Circle(*hinge, width * 0.34, Ink.PAPER, Ink.INK, 0.008),
    ]  # fmt: skip


def sheave(x: float, y: float, radius: float) -> list[Shape]:
    """Return a pulley's wheel between its cheeks, seen from the side."""
    cheek = arc(x, y, radius * 1.28, 215, -35)
    top = ((x + radius * 0.35, y - radius * 1.5), (x - radius * 0.35, y - radius * 1.5))
    low = tuple((px, 2 * y - py) for px, py in (*cheek, *top))
    return [
        Polygon(tuple(low), Ink.PAPER, Ink.INK, 0.011),
        Circle(x, y, radius, Ink.METAL, Ink.INK, 0.011),
        Circle(x, y, radius * 0.72, Ink.PAPER, Ink.INK, 0.008),
        Circle(x, y, radius * 0.2, Ink.METAL, Ink.INK, 0.009),
        Circle(x, y + radius * 1.5, radius * 0.2, Ink.PAPER, Ink.INK, 0.01),
    ]


def caliper(start: Point, end: Point, reach: float = 0.15, jaw: float = 0.04, side: int = 1) -> list[Shape]:
    """Return a caliper over the distance between two points, its beam `reach` away on the left of that line.

    With `side` -1 the beam lies on the right of it.
    """
    long = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long

    def at(u: float, v: float) -> Point:
        return start[0] + u * ux - side * v * uy, start[1] + u * uy + side * v * ux

    def plate(*corners: Point) -> Polygon:
        return Polygon(tuple(at(*corner) for corner in corners), Ink.TAPE, Ink.INK, 0.009)

    beam = 0.055
    found: list[Shape] = [
        plate((-jaw, reach), (long + 0.16, reach), (long + 0.16, reach + beam), (-jaw, reach + beam)),
        plate((-jaw, reach + beam), (-jaw, 0.0), (0.0, -0.03), (0.0, reach + beam)),
        plate((long, reach + beam * 1.35), (long, -0.03), (long + jaw, 0.0), (long + jaw, reach + beam * 1.35)),
    ]
    for index in range(int((long + 0.1) / 0.022)):
        u = 0.02 + index * 0.022
        if u < long - 0.004 or u > long + jaw + 0.008:
            found.append(Line((at(u, reach), at(u, reach + beam * (0.6 if index % 5 == 0 else 0.35))), Ink.INK, 0.005,
                              "flat"))  # fmt: skip
    return found


def crack(x: float, y: float, size: float = 0.05) -> list[Shape]:
    """Return a crack in metal."""
    return [Line(((x - size, y + size * 0.5), (x - size * 0.2, y + size * 0.1), (x - size * 0.05, y - size * 0.35),
                  (x + size * 0.7, y - size * 0.6)), Ink.INK, 0.012)]  # fmt: skip


def pitted(x: float, y: float, size: float = 0.05) -> list[Shape]:
    """Return pits of corrosion."""
    spots = ((-0.7, 0.2), (-0.2, -0.5), (0.2, 0.4), (0.55, -0.2), (0.9, 0.35))
    return [Circle(x + dx * size, y + dy * size, size * 0.16, Ink.INK) for dx, dy in spots]
