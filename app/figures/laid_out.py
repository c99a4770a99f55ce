"""The layout of a splice to proportion: its lengths along the rope, each written at its own.

Only lengths of the layout are drawn, and only lengthwise: the rope's thickness is drawn larger than it is.
"""

from collections.abc import Sequence
from fractions import Fraction

from app.figures.shapes import Figure, Ink, Label, Line, Shape, arrow
from app.language import say, told
from inspection_rules.layout import LaidOut

# All sizes in type sizes.
SIDE, THICK, LINE, ROW = 1.0, 0.8, 1.3, 1.5
LETTER = 0.55  # how wide a letter is, about
FROM_THROAT = ("required bury", "required bury of the core's tail", "bury by the rule of thumb",
               "laid out from the end", "length of the lock stitching")  # fmt: skip
AT_THE_END = ("tapered end of the tail", "tapered, from the end")
BEFORE = "marks from the throat"


def layout_figure(layout: Sequence[LaidOut], size: float, written: dict[str, str]) -> Figure | None:
    """Draw a splice's lengths from its throat to the right in a box one unit wide.

    Args:
        layout: its figures.
        size: of the type, in box widths.
        written: by the name of a figure, its length for people.

    Returns:
        None where it has no length to draw.
    """
    by_name = {one.name: one for one in layout if one.unit == "mm"}
    rows = [by_name[name] for name in FROM_THROAT if name in by_name]
    longest = max((float(one.upto or one.value) for one in rows), default=0.0)
    if not longest:
        return None
    bury = next((float(one.value) for one in rows if one.name != "length of the lock stitching"), longest)
    marks = by_name.get(BEFORE)
    before = float(marks.value) if marks else 0.0
    left, right = SIDE * size, 1 - SIDE * size
    scale = (right - left) / (before + longest)
    throat = left + before * scale
    taper = next((by_name[name] for name in AT_THE_END if name in by_name), None)
    texts = {one.name: _lines(one, written, size) for one in (*rows, *([taper] if taper else []))}
    y = (sum(ROW + LINE * len(lines) for lines in texts.values()) + 1.5) * size

    def x(mm: Fraction | float) -> float:
        return throat + float(mm) * scale

    shapes: list[Shape] = [
        Line(((left, y), (right, y)), Ink.ROPE_EDGE, THICK * size, "flat"),
        Line(((left, y), (right, y)), Ink.ROPE, (THICK - 0.2) * size, "flat"),
    ]
    tapered = bury - float(taper.value) if taper is not None else bury
    for thick, ink in ((THICK * 2, Ink.ROPE_EDGE), (THICK * 2 - 0.2, Ink.ROPE)):
        shapes.append(Line(((throat, y), (x(tapered), y)), ink, thick * size, "flat"))
        shapes.append(Line(((x(tapered), y), (x(bury), y)), ink, thick * 0.75 * size, "flat"))
    stitched = by_name.get("length of the lock stitching")
    if stitched is not None:
        end = x(stitched.upto or stitched.value)
        for part in range(8):
            at = throat + (end - throat) * (part + 0.5) / 8
            shapes.append(Line(((at, y - 0.7 * size), (at, y + 0.7 * size)), Ink.THREAD, size * 0.12, "flat"))
    shapes.append(Line(((throat, y - 1.2 * size), (throat, y + 1.4 * size)), Ink.INK, size * 0.16, "flat"))
    shapes.append(Label(say("throat"), throat + 0.35 * size, y + 1.6 * size, "left", size, bold=True))
    top = y + 2.6 * size
    if marks is not None:
        shapes.append(Line(((left, y - size * 0.9), (left, y + size * 0.9)), Ink.MARK, size * 0.24, "flat"))
        lines = _lines(marks, written, size)
        for number, text in enumerate(reversed(lines)):
            shapes.append(Label(text, left, top + (0.3 + LINE * number) * size, "left", size))
        top += (0.2 + LINE * len(lines)) * size
    spans = [(one, throat, x(one.value)) for one in rows]
    if taper is not None:
        spans.append((taper, x(tapered), x(bury)))
    low = y - 2.0 * size
    for one, start, end in spans:
        shapes += _span(start, end, low, size)
        low -= 0.95 * size
        half = max(len(text) for text in texts[one.name]) * size * LETTER / 2
        at = min(max((start + end) / 2, half + 0.01), max(1 - half - 0.01, 0.5))
        for text in texts[one.name]:
            shapes.append(Label(text, at, low, "centre", size))
            low -= LINE * size
        low -= (ROW - 0.95) * size
    return Figure("layout of a splice", top, tuple(shapes))


def _span(start: float, end: float, y: float, size: float) -> list[Shape]:
    """Return a dimension whose bars and heads go with the type, so that they touch no words."""
    middle, head = (start + end) / 2, min(size * 0.5, abs(end - start) * 0.4)
    bars = [Line(((x, y - 0.4 * size), (x, y + 0.4 * size)), Ink.INK, size * 0.1, "flat") for x in (start, end)]
    ways = [arrow(((middle, y), (x, y)), Ink.INK, size * 0.08, head) for x in (start, end)]
    return [*bars, *ways[0], *ways[1]]


def _lines(one: LaidOut, written: dict[str, str], size: float) -> list[str]:
    """Return what is written at a length, in as many lines as it takes."""
    most = max(8, int(0.98 / (LETTER * size)))
    lines: list[str] = []
    for word in (*f"{told(one.name)}:".split(), *_pieces(written[one.name], most)):
        if lines and len(lines[-1]) + len(word) < most:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _pieces(text: str, most: int) -> list[str]:
    """Divide a length before what stands in brackets only, so that no number loses its unit, where there is room."""
    first, bracket, rest = text.partition(" (")
    pieces = [first, f"({rest}"] if bracket else [first]
    return [word for piece in pieces for word in ([piece] if len(piece) <= most else piece.split())]
