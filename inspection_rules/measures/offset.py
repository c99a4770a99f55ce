"""The offset of a splice's two reference marks at one visit: tail leg minus standing leg."""

import math
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from inspection_rules.case import mean
from inspection_rules.item import Item
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.record import Inspection
from inspection_rules.uncertainty import Spread, spread
from inspection_rules.words import Moisture, Tension


@dataclass(frozen=True, slots=True)
class Offset:
    """The marks' offset at one visit.

    Attributes:
        value: mm; plus when the tail leg's mark is farther from the throat.
        good: how good one reading is, of the difference where two distances were read.
        n: how many readings `value` is the mean of.
        state: the tension and moisture it was read in.
        joined: the day of the earlier reading it is averaged with, where that left a doubt.
    """

    inspection: Inspection
    value: Fraction
    good: Spread
    n: int
    state: tuple[Tension, Moisture]
    joined: date | None = None

    @property
    def u(self) -> float:
        """Standard uncertainty of `value`, mm."""
        return self.good.of_mean(self.n)


def offset_at(inspection: Inspection, part: str, item: Item) -> Offset | None:
    """Return the marks' offset at a visit, from the direct reading or else from the two distances."""
    d = nominal_diameter(item)
    direct = inspection.reading(part, "mark_offset")
    if direct is not None:
        values = direct.values
        return Offset(inspection, mean(values, "mm"), spread(direct, d, "mm"), len(values), direct.state)
    tail, standing = inspection.reading(part, "mark_tail"), inspection.reading(part, "mark_standing")
    if tail is None or standing is None or tail.state != standing.state:
        return None
    goods = spread(tail, d, "mm"), spread(standing, d, "mm")
    n = min(len(tail.values), len(standing.values))
    good = Spread(
        repeat=math.hypot(goods[0].repeat, goods[1].repeat),
        fixed=math.hypot(goods[0].fixed, goods[1].fixed),
        source=goods[0].source,
        from_study=all(one.from_study for one in goods),
    )
    value = mean(tail.values, "mm") - mean(standing.values, "mm")
    return Offset(inspection, value, good, n, tail.state)


def join(doubtful: Offset, repeat: Offset) -> Offset:
    """Return the mean of all readings of two visits, as good as the coarser of the two ways they were read.

    A repeat that was read in a better way than what it repeats stands by itself.
    """
    if repeat.good.of_mean(1) < doubtful.good.of_mean(1):
        return repeat
    n = doubtful.n + repeat.n
    coarser = max(doubtful.good, repeat.good, key=lambda good: good.of_mean(1))
    return replace(
        repeat,
        value=(doubtful.n * doubtful.value + repeat.n * repeat.value) / n,
        good=Spread(
            max(doubtful.good.repeat, repeat.good.repeat),
            max(doubtful.good.fixed, repeat.good.fixed),
            coarser.source,
            doubtful.good.from_study and repeat.good.from_study,
        ),
        n=n,
        joined=doubtful.joined or doubtful.inspection.on,
    )
