"""A rope to scale: how much of it is spliced, and where the marks and the joints lie.

Only what is on record is drawn, and only lengthwise: the rope's thickness is drawn larger than it is.
"""

from collections.abc import Iterator, Mapping

from app.figures.measured import number
from app.figures.shapes import Anchor, Figure, Ink, Label, Line, Shape, span
from app.language import say
from inspection_rules.item import Item, Part

# All sizes in type sizes.
SIDE, THICK, LINE = 1.4, 0.55, 1.35


def rope_to_scale(item: Item, size: float, names: Mapping[str, str]) -> Figure | None:
    """Draw the item from throat to throat in a box one unit wide.

    Args:
        item: with the length of its rope; what its splices need as their bury is drawn thick.
        size: of the type, in box widths.
        names: of its parts, for people.

    Returns:
        None where the length is not on record, nothing lies along it, or its splices need more than there is.
    """
    if item.length is None or not item.length.value:
        return None
    whole = float(item.length.to("mm"))
    buries = {part.id: _mm(part.required_bury) for part in item.terminations}
    joints = [part for part in item.parts if part.from_a is not None and _mm(part.from_a) <= whole]
    if sum(buries.values()) > whole or not (joints or any(buries.values())):
        return None
    left, right = SIDE * size, 1 - SIDE * size
    y = (LINE * 2 + 1.2) * size

    def x(mm: float) -> float:
        return left + (right - left) * mm / whole

    shapes: list[Shape] = [*_rope(x(0), x(whole), y, size)]
    words: list[Shape] = []
    for part in item.terminations:
        first = part.end == "A" or len(item.terminations) == 1
        start, end = (0.0, buries[part.id]) if first else (whole - buries[part.id], whole)
        anchor: Anchor = "left" if first else "right"
        at = 0.004 if first else 0.996
        words.append(Label(names.get(part.id, ""), at, y + 1.3 * size, anchor, size, bold=True))
        if buries[part.id]:
            shapes += _thick(x(start), x(end), y, size)
            words.append(Label(say("bury {bury}", bury=str(part.required_bury)), at, y - 1.5 * size, anchor, size))
    for part in joints:
        place = x(_mm(part.from_a))
        shapes += [Line(((place, y - THICK * size), (place, y + THICK * size)), Ink.MARK, size * 0.2, "flat")]
        words.append(Label(names.get(part.id, ""), place, y + 1.3 * size, "centre", size))
    low = 0.75 * size
    shapes += span((left, low), (right, low), width=size * 0.08, head=size * 0.5)
    text = str(item.length)
    words.append(Label(text, 0.5, low + 0.85 * size, "centre", size))
    return Figure("rope to scale", y + 2.2 * size, (*shapes, *words))


def splice_to_scale(part: Part, read: float | None, size: float) -> Figure | None:
    """Draw a splice along the rope: its marks before the throat and its bury after it, the bury that was read below.

    Args:
        part: with the bury it needs, or where its marks were put.
        read: the bury last judged, mm; None where there is none.
        size: of the type, in box widths.

    Returns:
        None where no length of it is on record.
    """
    needed, marks = _mm(part.required_bury), _mm(part.marks_at)
    longest = max(needed, read or 0.0)
    if not longest:
        return None
    left, right = SIDE * size, 1 - SIDE * size
    scale = (right - left) / (marks + longest)
    throat = left + marks * scale
    y = 5.2 * size
    shapes: list[Shape] = [*_rope(left, right, y, size), *_thick(throat, throat + (read or needed) * scale, y, size)]
    shapes.append(Line(((throat, y - size), (throat, y + 1.5 * size)), Ink.INK, size * 0.16, "flat"))
    shapes.append(Label(say("throat"), throat + 0.4 * size, y + 1.6 * size, "left", size))
    if marks:
        shapes.append(Line(((left, y - size * 0.7), (left, y + size * 0.7)), Ink.MARK, size * 0.22, "flat"))
        text = say("marks at {distance}", distance=str(part.marks_at))
        shapes.append(Label(text, 0.004, y + (1.6 + LINE) * size, "left", size))
    rows = [(needed, say("needs {bury}", bury=str(part.required_bury)))] if needed else []
    rows += [(read, say("now {bury}", bury=number(read, "mm")))] if read else []
    for row, (mm, text) in enumerate(rows):
        low = y - (1.5 + 1.6 * row) * size
        shapes += span((throat, low), (throat + mm * scale, low), width=size * 0.08, head=size * 0.5)
        shapes.append(Label(text, throat + mm * scale / 2, low - 0.75 * size, "centre", size))
    return Figure("splice to scale", y + (2.4 + (LINE if marks else 0)) * size, tuple(shapes))


def _rope(left: float, right: float, y: float, size: float) -> Iterator[Shape]:
    yield Line(((left, y), (right, y)), Ink.ROPE_EDGE, THICK * size, "flat")
    yield Line(((left, y), (right, y)), Ink.ROPE, (THICK - 0.16) * size, "flat")


def _thick(left: float, right: float, y: float, size: float) -> Iterator[Shape]:
    """The rope with its tail inside, which ends in a mark."""
    yield Line(((left, y), (right, y)), Ink.ROPE_EDGE, THICK * 1.9 * size, "flat")
    yield Line(((left, y), (right, y)), Ink.ROPE, (THICK * 1.9 - 0.2) * size, "flat")


def _mm(length: object) -> float:
    return float(length.to("mm")) if hasattr(length, "to") else 0.0
