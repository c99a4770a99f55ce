"""The rope as the spine of an inspection: its stations evenly spaced for the thumb, the rope drawn between."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.figures.along import AXIS, Section, drawn
from app.figures.made import as_made
from app.figures.shapes import Figure
from inspection_rules.item import Item
from inspection_rules.record import Inspection

SIGN_SIZE = 0.2
LABEL_X = 0.04
LABEL_WIDTH = 0.36


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


def spine(
    item: Item, stations: Sequence[tuple[str, str]], step: float = 0.75, inspections: Iterable[Inspection] = ()
) -> Spine:
    """Draw an item with these stations, from the top down in the order they are given: the order of the hands.

    Each end is drawn by its own as-made record: eye, marks, bury, sewing, tucks, thimble, chafe gear. Where its places
    are stations of their own they stand evenly apart for the thumb; else they lie to proportion, all ends to one scale.

    Args:
        stations: part id and station name of each wanted place as the walk visits them, repeats ignored; the item
            as a whole has the empty part. The stations of one part follow each other.
        step: height of one station, in widths of the spine.
        inspections: of the item; those as made tell what was measured then.

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
    height = step * len(wanted)
    found = tuple(Station(part, name, AXIS, height - step * (index + 0.5)) for index, (part, name) in enumerate(wanted))
    known_of = tuple(inspections)
    sections: dict[str, Section] = {}
    for one in found:
        if one.part:
            own = sections.setdefault(
                one.part, Section(item.part(one.part), {}, step, as_made(item, item.part(one.part), known_of))
            )
            own.at[one.name] = one.y
    tag = next((one.y for one in found if (one.part, one.name) == ("", "tag")), None)
    return Spine(Figure("spine", height, tuple(drawn(item, tuple(sections.values()), tag, step))), found)
