"""What a figure puts beside the rope: fingers, a tape, and arrows that turn or point."""

from collections.abc import Sequence

from app.figures.shapes import Circle, Figure, Ink, Label, Line, Point, Polygon, Shape, arc, arrow, box, dashed, ticks

HEIGHT = 0.7
LABEL = 0.058


def drawn(name: str, *groups: Sequence[Shape]) -> Figure:
    """Return a figure of the common height from groups of shapes, the bottom-most first."""
    return Figure(name, HEIGHT, tuple(shape for group in groups for shape in group))


def label(text: str, x: float, y: float, anchor: str = "left", *, bold: bool = False) -> list[Shape]:
    """Return a label of the common size; each line of the text is a label of its own."""
    side = {"left": "left", "centre": "centre", "right": "right"}
    lines = text.split("\n")
    top = y + LABEL * 0.6 * (len(lines) - 1)
    return [
        Label(line, x, top - LABEL * 1.2 * index, side[anchor], LABEL, bold)  # type: ignore[arg-type]
        for index, line in enumerate(lines)
    ]


def finger(knuckle: Point, tip: Point, thick: float = 0.1, *, nail: bool = True) -> list[Shape]:
    """Return a finger that touches the rope with its tip; the nail shows which way it points."""
    (x0, y0), (x1, y1) = knuckle, tip
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    found: list[Shape] = [
        Line((knuckle, tip), Ink.INK, thick, "round"),
        Line((knuckle, tip), Ink.HAND, thick - 0.018, "round"),
    ]
    if nail:
        middle = (x1 + ux * thick * 0.12, y1 + uy * thick * 0.12)
        back = (middle[0] - ux * thick * 0.22, middle[1] - uy * thick * 0.22)
        found += [Line((back, middle), Ink.INK, thick * 0.5), Line((back, middle), Ink.PAPER, thick * 0.5 - 0.014)]
    return found


def tape(path: Sequence[Point], width: float = 0.06, *, spacing: float = 0.03, side: int = 1) -> list[Shape]:
    """Return a measuring tape along a path, its ticks on the right of the path, or on the left for side -1."""
    found: list[Shape] = [
        Line(tuple(path), Ink.INK, width + 0.014, "flat"),
        Line(tuple(path), Ink.TAPE, width, "flat"),
    ]
    for (x, y), (x1, y1) in ((path[0], path[1]), (path[-1], path[-2])):
        long = ((x1 - x) ** 2 + (y1 - y) ** 2) ** 0.5
        nx, ny = (y1 - y) / long * (width / 2 + 0.007), -(x1 - x) / long * (width / 2 + 0.007)
        found.append(Line(((x - nx, y - ny), (x + nx, y + ny)), Ink.INK, 0.007, "flat"))
    for index, ((x, y), (tx, ty)) in enumerate(ticks(path, spacing)):
        reach = width * (0.62 if index % 5 == 0 else 0.36)
        edge = (x + ty * side * width / 2, y - tx * side * width / 2)
        inner = (edge[0] - ty * side * reach, edge[1] + tx * side * reach)
        found.append(Line((edge, inner), Ink.INK, 0.006, "flat"))
    return found


def turning(x: float, y: float, radius: float, *, flat: float = 0.34) -> list[Shape]:
    """Return an arrow round upright rope: turn it and look at the other faces."""
    return [
        *dashed(arc(x, y, radius, 25, 155, flat), Ink.INK, 0.008),
        *arrow(arc(x, y, radius, 170, 378, flat), width=0.012, head=0.042),
    ]


def turning_along(x: float, y: float, radius: float, *, flat: float = 0.3) -> list[Shape]:
    """Return an arrow round rope that lies across the figure."""

    def turned(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x + (py - y), y + (px - x)) for px, py in points)

    return [
        *dashed(turned(arc(x, y, radius, 25, 155, flat)), Ink.INK, 0.008),
        *arrow(turned(arc(x, y, radius, 170, 378, flat)), width=0.012, head=0.042),
    ]


def pointer(start: Point, end: Point) -> list[Shape]:
    """Return an arrow that says: look here."""
    return arrow((start, end), width=0.012, head=0.042)


def number(text: str, x: float, y: float) -> list[Shape]:
    """Return a numbered disc."""
    return [Circle(x, y, 0.042, Ink.INK), Label(text, x, y, "centre", 0.056, True, Ink.PAPER)]


def lens(x: float, y: float, radius: float) -> list[Shape]:
    """Return a ring round the place to look at."""
    return [Circle(x, y, radius, ink=Ink.INK, width=0.012)]


def plate(left: float, bottom: float, right: float, top: float) -> list[Shape]:
    """Return a plain card with an outline."""
    return [Polygon(box(left, bottom, right, top), Ink.PAPER, Ink.INK, 0.01)]
