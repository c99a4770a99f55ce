"""The rope as the spine of an inspection: its stations evenly spaced for the thumb, the rope drawn between."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.figures.rope import Make, rope
from app.figures.shapes import Figure, Ink, Line, Point, Polygon, Shape, placed
from app.figures.splices import Heights, Sizes, buried_eye, plain_end, sewn_eye, tucked_eye
from inspection_rules.record import Item, Part
from inspection_rules.words import Construction, ItemKind, PartKind, SpliceKind, Thimble

AXIS = 0.68
SIGN_SIZE = 0.2
LABEL_X = 0.04
LABEL_WIDTH = 0.36

_ORDER = ("eye", "marks", "throat", "stitch", "bury", "tucks", "tip")
_LAID = frozenset({Construction.LAID_3, Construction.LAID_4})
_WEB = frozenset({ItemKind.WEB_SLING, ItemKind.ROUNDSLING})
_TUCKED = frozenset({SpliceKind.TUCKED_EYE})
_NO_EYE = frozenset({SpliceKind.TUCKED_SHORT_SPLICE, SpliceKind.END_TO_END})


@dataclass(frozen=True, slots=True)
class Station:
    """A place on the spine.

    Attributes:
        part, name: as the walk names it; the part is empty for the item as a whole.
        x, y: the middle of its sign, in box widths.
    """

    part: str
    name: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Spine:
    """The drawn rope and its stations, from the top down.

    Attributes:
        figure: one unit wide, as high as its stations need.
        stations: in the order of the real rope: a second end is met tip first and its eye last.
    """

    figure: Figure
    stations: tuple[Station, ...]

    def station(self, part: str, name: str) -> Station:
        """Return a station.

        Raises:
            KeyError: the spine was not asked for it.
        """
        for one in self.stations:
            if (one.part, one.name) == (part, name):
                return one
        raise KeyError((part, name))

    def at(self, y: float) -> Station:
        """Return the station nearest to a height, as a tap finds it."""
        return min(self.stations, key=lambda one: abs(one.y - y))


def spine(item: Item, stations: Sequence[tuple[str, str]], step: float = 0.75) -> Spine:
    """Draw an item's rope with these stations.

    Args:
        stations: part id and station name of each wanted place, in any order, repeats ignored; the item as
            a whole has the empty part.
        step: height of one station, in widths of the spine.

    Raises:
        ValueError: no station, or a part that the item does not have.
    """
    wanted = list(dict.fromkeys(stations))
    known = {"", *(part.id for part in item.parts)}
    for part, name in wanted:
        if part not in known:
            raise ValueError(f"station {name}: the item has no part '{part}'")
    if not wanted:
        raise ValueError("a spine needs at least one station")
    ordered = _in_rope_order(item, wanted)
    height = step * len(ordered)
    found = tuple(
        Station(part, name, AXIS, height - step * (index + 0.5)) for index, (part, name) in enumerate(ordered)
    )
    return Spine(Figure("spine", height, tuple(_drawn(item, found, step))), found)


def _in_rope_order(item: Item, wanted: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """The tag first, one end from its eye down, the body, the other ends up to their eyes, the rest last."""
    first, others = _ends(item)
    bodies = [part for part in item.parts if part.kind is not PartKind.TERMINATION]
    found = [one for one in wanted if one == ("", "tag")]
    for part in ([first] if first else []) + bodies + others:
        own = sorted((one for one in wanted if one[0] == part.id), key=lambda one: _rank(one[1]))
        found += reversed(own) if part in others else own
    return found + [one for one in wanted if one not in found]


def _rank(name: str) -> int:
    return _ORDER.index(name) if name in _ORDER else len(_ORDER)


def _ends(item: Item) -> tuple[Part | None, list[Part]]:
    ends = sorted(item.terminations, key=lambda part: part.end or "")
    return (ends[0], ends[1:]) if ends else (None, [])


def _drawn(item: Item, stations: tuple[Station, ...], step: float) -> list[Shape]:
    """The rope through all stations of parts, cut off half a station beyond where nothing ends it."""
    places: dict[str, dict[str, float]] = {}
    for one in stations:
        if one.part:
            places.setdefault(one.part, {})[one.name] = one.y
    tag = next((one.y for one in stations if (one.part, one.name) == ("", "tag")), None)
    if not places:
        return _tag(tag, step, tag - step / 2) if tag is not None else []
    make = _make(item)
    width = Sizes().leg * (2.2 if make == "web" else 1)
    heights = [y for names in places.values() for y in names.values()]
    top, bottom = max(heights) + step / 2, min(heights) - step / 2
    found = _tag(tag, step, top) if tag is not None else []
    first, others = _ends(item)
    upper = top
    if first and first.id in places:
        upper = min(places[first.id].values()) - step / 2
        found += placed(_end(first, make, places[first.id], upper, step), x=AXIS)
    seen = [part for part in others if part.id in places]
    starts = {part.id: max(places[part.id].values()) + step / 2 for part in seen}
    lower = max(starts.values(), default=bottom)
    if upper > lower:
        found += rope(((AXIS, upper + 0.01), (AXIS, lower - 0.01)), width, make)
    for part in seen:
        # Drawn eye up, then turned over.
        turned = {name: -y for name, y in places[part.id].items()}
        found += placed(_end(part, make, turned, -starts[part.id], step), x=AXIS, flip=True)
    open_ends = [start for start in starts.values() if start != lower]
    open_ends += [upper] if upper == top else []
    open_ends += [] if seen else [lower]
    for y in open_ends:
        found += _broken(y, width)
    return found


def _make(item: Item) -> Make:
    if item.kind in _WEB:
        return "web"
    return "laid" if item.construction in _LAID else "braid"


def _end(part: Part, make: Make, at: dict[str, float], end: float, step: float) -> list[Shape]:
    """One termination, eye up, its places at these heights; places not asked for lie between."""
    heights = _heights(at, end, step)
    sizes = Sizes()
    in_eye = part.thimble is not Thimble.NONE
    if part.splice in _NO_EYE:
        return plain_end(heights, sizes.leg, make)
    if part.splice is SpliceKind.SEWN_EYE:
        return sewn_eye(heights, sizes)
    if part.splice in _TUCKED:
        return tucked_eye(heights, sizes, in_eye=in_eye)
    return buried_eye(
        heights, sizes, in_eye=in_eye, stitched=part.lock_stitched, marked=part.marks_at is not None or "marks" in at
    )


def _heights(at: dict[str, float], end: float, step: float) -> Heights:
    names = ("eye", "marks", "throat", "stitch", "bury", "tip")
    known = {name: at[name] for name in names if name in at}
    if "tucks" in at:
        known["bury"] = at["tucks"]
        known["tip"] = at["tucks"] - step * 0.22
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


def _broken(y: float, width: float) -> list[Shape]:
    """A rope that goes on outside the drawing."""
    half = width * 0.75
    wave: tuple[Point, ...] = tuple(
        (AXIS + part * half, y + dy) for part, dy in ((-1, -0.02), (-0.33, 0.02), (0.33, -0.02), (1, 0.02))
    )
    return [Line(wave, Ink.PAPER, 0.05, "flat"), Line(wave, Ink.ROPE_EDGE, 0.012, "flat")]


def _tag(y: float, step: float, top: float) -> list[Shape]:
    high = min(0.15, step * 0.24)
    wide = 0.2
    corners = (
        (AXIS - wide, y - high), (AXIS + wide * 0.7, y - high), (AXIS + wide, y - high * 0.5),
        (AXIS + wide, y + high * 0.5), (AXIS + wide * 0.7, y + high), (AXIS - wide, y + high),
    )  # fmt: skip
    cord = ((AXIS + wide * 0.86, y), (AXIS + wide * 1.2, y - high * 1.1), (AXIS + wide * 0.3, top - step / 2 + 0.14))
    return [Polygon(corners, Ink.PAPER, Ink.INK, 0.012), Line(cord, Ink.THREAD, 0.012)]
