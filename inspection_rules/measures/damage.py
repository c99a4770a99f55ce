"""Damages read one by one: each value of such a reading is a damage of its own, and the worst is judged.

Where the rope was lost in several places close together, the damages may also add up (`rulings/combined.py`).
"""

from fractions import Fraction
from typing import NamedTuple

from inspection_rules.case import Case
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Reading
from inspection_rules.uncertainty import Spread, spread


class Damage(NamedTuple):
    """One damage.

    Attributes:
        place: where along the rope it lies, mm from end A; None when that is not known.
        size: in the unit of its measure.
        u: the standard uncertainty of `size`, same unit.
    """

    place: Fraction | None
    size: Fraction
    u: float


def damages_read(case: Case, part: str, observation: str, unit: str) -> list[Damage]:
    """Return each damage of one reading, in the order of its values; empty when it was not read.

    Places count only where there is one for each value: else nobody knows which damage lies where.
    """
    reading = case.inspection.reading(part, observation)
    if reading is None:
        return []
    good = spread_of_one(case, reading, unit)
    places: list[Fraction | None] = [place.to("mm") for place in reading.places]
    if len(places) != len(reading.values):
        places = [None] * len(reading.values)
    return [Damage(place, value.to(unit), good.of_mean(1)) for place, value in zip(places, reading.values, strict=True)]


def spread_of_one(case: Case, reading: Reading, unit: str) -> Spread:
    """Return how good the reading of one damage is.

    The values differ because the damages do, so how far apart they lie says nothing about the reading.
    """
    alone = reading.model_copy(update={"values": reading.values[:1]})
    return spread(alone, nominal_diameter(case.item), unit)


def worst_read(case: Case, part: str, observation: str, unit: str) -> Measured | NotMeasured:
    """Return the largest damage of one reading, in `unit`."""
    reading = case.inspection.reading(part, observation)
    if reading is None:
        return NotMeasured("the damage was not read")
    good = spread_of_one(case, reading, unit)
    several = len(reading.values)
    return Measured(
        value=max(value.to(unit) for value in reading.values),
        unit=unit,
        u=good.of_mean(1),
        u_source=good.source,
        from_study=good.from_study,
        how=f"the largest of {several}" if several > 1 else "",
    )
