"""An item as it hangs along its spine: what each of its parts looks like between the heights of its stations."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from app.figures import hardware
from app.figures.made import Made
from app.figures.rope import Make, rope
from app.figures.shapes import Circle, Ink, Line, Point, Polygon, Shape, arc, placed
from app.figures.splices import (
    MOST_TUCKS,
    TUCKS,
    Heights,
    Sizes,
    adjustable_eye,
    buried_eye,
    chafe_gear,
    end_to_end,
    locked_eye,
    passes,
    plain_end,
    sewn_eye,
    short_splice,
    tucked_eye,
    web_eye,
)
from inspection_rules.item import Item, Part
from inspection_rules.words import ENDLESS, Construction, FittingKind, ItemKind, PartKind, SpliceKind, Thimble

AXIS = 0.68
_RETURN = 0.2  # how far beside the axis the other leg of an endless item runs
_LAID = frozenset({Construction.LAID_3, Construction.LAID_4})
_COVERED = frozenset({Construction.DOUBLE_BRAID, Construction.KERNMANTLE, Construction.PARALLEL_CORE})


@dataclass(frozen=True)
class Section:
    """One part with the heights of its stations.

    Attributes:
        at: station name to the middle of its sign.
        step: height of one station.
        made: what its record says of how it was made.
    """

    part: Part
    at: dict[str, float] = field(default_factory=dict)
    step: float = 0.75
    made: Made = field(default_factory=Made)

    @property
    def top(self) -> float:
        """Where it begins."""
        return max(self.at.values()) + self.step / 2

    @property
    def bottom(self) -> float:
        """Where it ends."""
        return min(self.at.values()) - self.step / 2


@dataclass(frozen=True, slots=True)
class Look:
    """How the rope or web of an item looks."""

    make: Make
    width: float
    strands: int = 1


def look(item: Item) -> Look:
    """Return how the item's rope or web looks."""
    leg = Sizes().leg
    if item.kind is ItemKind.ROUNDSLING:
        return Look("web", leg * 1.5)
    if item.construction is Construction.WEBBING or item.kind is ItemKind.WEB_SLING:
        return Look("web", leg * 2)
    if item.construction in _LAID:
        return Look("laid", leg)
    return Look("braid", leg, 2 if item.construction in _COVERED else 1)


def drawn(item: Item, sections: Sequence[Section], tag: float | None, step: float) -> list[Shape]:
    """Return the item along its spine; rope is cut off where nothing ends it. `tag` is the height of its tag."""
    roped = [one for one in sections if one.part.kind is not PartKind.FITTING]
    found = _tag(tag, step, roped[0].top if roped else tag) if tag is not None else []
    if roped:
        found += _loop(item, roped) if item.kind in ENDLESS else _line(item, roped)
    for one in sections:
        if one.part.kind is PartKind.FITTING:
            found += _fitting(one)
    return found


def _line(item: Item, sections: Sequence[Section]) -> list[Shape]:
    """From one end to the other: the first end eye up, every other one turned over."""
    own = look(item)
    first = sections[0]
    found: list[Shape] = []
    upper, lower = first.top, sections[-1].bottom
    ends = [one for one in sections if one.part.kind is PartKind.TERMINATION]
    turned = [one for one in ends if one is not first]
    scale = _scale(ends)
    if ends and ends[0] is first:
        found += placed(_end(first, own, first.at, first.bottom, scale), x=AXIS)
        upper = first.bottom
    if turned:
        lower = max(one.top for one in turned)
    if upper > lower:
        found += rope(((AXIS, upper + 0.01), (AXIS, lower - 0.01)), own.width, own.make, strands=own.strands)
    for one in turned:
        # Drawn eye up, then turned over.
        found += placed(_end(one, own, {name: -y for name, y in one.at.items()}, -one.top, scale), x=AXIS, flip=True)
    found += [shape for one in sections if one.part.kind is PartKind.JOINT for shape in _joint(one, own)]
    if scale and _longer(item, ends, scale, upper - lower):
        found += _left_out((upper + lower) / 2, own.width)
    cut = [] if ends and ends[0] is first else [first.top]
    cut += [one.top for one in turned if one.top != lower]
    cut += [] if turned else [sections[-1].bottom]
    for y in cut:
        found += _broken(y, own.width)
    return found


def _loop(item: Item, sections: Sequence[Section]) -> list[Shape]:
    """An item without ends: the leg in the hands on the axis, the other one beside it."""
    own = look(item)
    top, bottom = sections[0].top - 0.24, sections[-1].bottom + 0.24
    wide = own.width * 0.9
    middle, radius = AXIS + _RETURN / 2, _RETURN / 2
    if top - bottom < 0.1:
        top, bottom = top + 0.1, bottom - 0.1
    path = (
        *arc(middle, top, radius, 0, 180), (AXIS, bottom), *arc(middle, bottom, radius, 180, 360)[1:],
        (AXIS + _RETURN, top),
    )  # fmt: skip
    found = rope(path, wide, own.make, strands=own.strands)
    if item.kind is ItemKind.ROUNDSLING:
        found += [Line(((AXIS - wide * 0.3, top), (AXIS - wide * 0.3, bottom)), Ink.ROPE_EDGE, 0.012, "flat")]
    if item.kind is ItemKind.SOFT_SHACKLE:
        found += [Circle(middle, bottom - radius * 1.1, wide * 0.75, Ink.ROPE, Ink.ROPE_EDGE, 0.02)]
    return [*found, *(shape for one in sections if one.part.kind is PartKind.JOINT for shape in _joint(one, own))]


def _joint(section: Section, own: Look) -> list[Shape]:
    """A splice in the body, over all of its stations."""
    middle = (section.top + section.bottom) / 2
    half = (section.top - section.bottom) / 2 * 0.6
    if section.part.splice is SpliceKind.TUCKED_SHORT_SPLICE:
        return placed(short_splice(half, own.width, reach=1.0), x=AXIS, y=middle)
    return placed(end_to_end(half, own.width, own.width * 1.6, reach=1.0), x=AXIS, y=middle)


def _end(section: Section, own: Look, at: dict[str, float], end: float, scale: float) -> list[Shape]:
    """One termination, eye up, its places at these heights; places not asked for lie between."""
    part, step, made = section.part, section.step, section.made
    heights = _to_scale(made, at, end, scale) if scale else _heights(at, end, step)
    sizes = Sizes()
    in_eye = part.thimble is not Thimble.NONE
    match part.splice:
        case SpliceKind.PLAIN_END:
            return plain_end(heights, own.width, own.make, strands=own.strands)
        case SpliceKind.SEWN_EYE if own.make == "web":
            return web_eye(heights, sizes, own.width)
        case SpliceKind.SEWN_EYE:
            return sewn_eye(heights, sizes)
        case SpliceKind.TUCKED_EYE:
            count = min(made.tucks or TUCKS, MOST_TUCKS)
            found = tucked_eye(heights, sizes, in_eye=in_eye, count=count, tails_out=not part.tails_buried)
            return [*found, *(chafe_gear(heights, sizes) if part.chafe_gear else [])]
        case SpliceKind.ADJUSTABLE_EYE:
            return adjustable_eye(heights, sizes, in_eye=in_eye, strands=own.strands)
    marked = part.marks_at is not None or "marks" in at
    buried = buried_eye(heights, sizes, in_eye=in_eye, stitched=part.lock_stitched, marked=marked, strands=own.strands)
    if part.splice is SpliceKind.LOCKED_EYE:
        buried += locked_eye(heights, sizes)
    if part.splice is SpliceKind.TUCK_AND_BURY_EYE:
        buried += passes(heights, sizes)
    return [*buried, *(chafe_gear(heights, sizes) if part.chafe_gear else [])]


_PLACES = ("marks", "throat", "stitch", "bury", "tip")
EYE, REST = 0.3, 0.12  # least from the middle of an eye to its throat; standing part below the longest bury, of it


def _scale(ends: Sequence[Section]) -> float:
    """Box widths of one mm along the ends; 0 where a place has a station of its own or a bury is not on record.

    One scale for all ends, by the longest bury, so that a shorter one is seen to be shorter.
    """
    buried = [one for one in ends if one.made.bury is not None]
    if not buried or any(name in one.at for one in ends for name in (*_PLACES, "tucks", "adjustable")):
        return 0
    most = max(one.made.bury or 0 for one in buried)
    room = min(one.step / 2 for one in buried) - EYE
    return room / (most * (1 + REST)) if most > 0 and room > 0.1 else 0


def _to_scale(made: Made, at: dict[str, float], end: float, scale: float) -> Heights:
    """The places of an end by its own lengths; an eye is never drawn smaller than it can be seen."""
    eye = max(at.values())
    bury = (made.bury or 0) * scale
    throat = eye - max(EYE, (made.eye or 0) * scale * 0.75)
    throat = max(throat, end + bury * (1 + REST))
    tip = throat - bury if bury else end + (throat - end) * 0.3
    marks = throat + min(max((made.marks or 0) * scale, 0.05), (eye - throat) * 0.6)
    stitch = throat - min(0.09, (throat - tip) * 0.3)
    return Heights(eye, marks, throat, stitch, (throat + tip) / 2, tip, end)


def _longer(item: Item, ends: Sequence[Section], scale: float, room: float) -> bool:
    """Whether the rope between the ends is longer than it is drawn: then part of it is shown to be left out."""
    if item.length is None:
        return False
    spliced = sum((one.made.bury or 0) + (one.made.eye or 0) for one in ends)
    return (float(item.length.to("mm")) - spliced) * scale > room


def _left_out(y: float, width: float) -> list[Shape]:
    """Rope of which a length is left out of the drawing."""
    gap = Line(tuple((x, py + y) for x, py in _wave(width)), Ink.PAPER, 0.07, "flat")
    edges = [
        Line(tuple((x, py + y + dy) for x, py in _wave(width)), Ink.ROPE_EDGE, 0.012, "flat") for dy in (0.04, -0.04)
    ]
    return [gap, *edges]


def _heights(at: dict[str, float], end: float, step: float) -> Heights:
    names = ("eye", "marks", "throat", "stitch", "bury", "tip")
    known = {name: at[name] for name in names if name in at}
    for name in ("tucks", "adjustable"):
        if name in at:
            known["bury"] = at[name]
            known["tip"] = at[name] - step * 0.22
    top = max(at.values())
    known.setdefault("eye", top if "throat" not in known or top > known["throat"] else top + step * 0.2)
    fixed = sorted(known.items(), key=lambda one: names.index(one[0]))
    found: dict[str, float] = dict(fixed)
    for name in names:
        if name in found:
            continue
        index = names.index(name)
        above = [n for n in names[:index] if n in known][-1]
        below = next((n for n in names[index:] if n in known), None)
        low, place = (known[below], names.index(below)) if below else (end, len(names))
        part = (index - names.index(above)) / (place - names.index(above))
        found[name] = known[above] + (low - known[above]) * part
    return Heights(end=end, **found)


def _fitting(section: Section) -> list[Shape]:
    """What hangs on the item, its sign in its opening."""
    y = (section.top + section.bottom) / 2
    size = min(0.3, section.step * 0.36)
    match section.part.fitting:
        case FittingKind.HOOK:
            return hardware.hook(AXIS, y - size * 0.28, size * 0.56, size * 0.24)
        case FittingKind.SHACKLE:
            return hardware.shackle(AXIS, y + size * 0.1, size * 0.6, size * 0.2)
        case FittingKind.SWIVEL:
            return [
                *hardware.ring(AXIS, y + size * 0.62, size * 0.36, size * 0.18),
                *hardware.ring(AXIS, y - size * 0.5, size * 0.5, size * 0.2),
            ]
        case FittingKind.CONNECTOR:
            return hardware.connector(AXIS, y, size * 2, size * 0.18)
        case FittingKind.PULLEY:
            return hardware.sheave(AXIS, y - size * 0.1, size * 0.62)
        case FittingKind.ADJUSTER:
            plate = [(AXIS - size * 0.6, y + size * 0.9), (AXIS + size * 0.6, y + size * 0.9),
                     (AXIS + size * 0.6, y - size * 0.9), (AXIS - size * 0.6, y - size * 0.9)]  # fmt: skip
            return [Polygon(tuple(plate), Ink.METAL, Ink.INK, 0.018)]
        case FittingKind.ABSORBER:
            pack: list[Shape] = [
                Polygon(((AXIS - size * 0.62, y + size * 0.85), (AXIS + size * 0.62, y + size * 0.85),
                         (AXIS + size * 0.62, y - size * 0.85), (AXIS - size * 0.62, y - size * 0.85)),
                        Ink.PAPER, Ink.INK, 0.018),
            ]  # fmt: skip
            for row in (-0.7, -0.5, 0.5, 0.7):
                pack.append(Line(((AXIS - size * 0.5, y + size * row), (AXIS + size * 0.5, y + size * row)),
                                 Ink.THREAD, 0.014, "flat"))  # fmt: skip
            return pack
        case FittingKind.THIMBLE | FittingKind.MASTER_LINK | FittingKind.FRICTION_SAVER | None:
            return hardware.ring(AXIS, y, size * 0.66, size * 0.22, 1.3)


def _broken(y: float, width: float) -> list[Shape]:
    """A rope that goes on outside the drawing."""
    wave = tuple((x, py + y) for x, py in _wave(width))
    return [Line(wave, Ink.PAPER, 0.05, "flat"), Line(wave, Ink.ROPE_EDGE, 0.012, "flat")]


def _wave(width: float) -> tuple[Point, ...]:
    half = width * 0.75
    return tuple((AXIS + part * half, dy) for part, dy in ((-1, -0.02), (-0.33, 0.02), (0.33, -0.02), (1, 0.02)))


def _tag(y: float, step: float, top: float) -> list[Shape]:
    high = min(0.15, step * 0.24)
    wide = 0.2
    corners = (
        (AXIS - wide, y - high), (AXIS + wide * 0.7, y - high), (AXIS + wide, y - high * 0.5),
        (AXIS + wide, y + high * 0.5), (AXIS + wide * 0.7, y + high), (AXIS - wide, y + high),
    )  # fmt: skip
    cord = ((AXIS + wide * 0.86, y), (AXIS + wide * 1.2, y - high * 1.1), (AXIS + wide * 0.3, top - step / 2 + 0.14))
    return [Polygon(corners, Ink.PAPER, Ink.INK, 0.012), Line(cord, Ink.THREAD, 0.012)]
