"""What an item's own record says of how each of its ends was made: the lengths and counts its drawing is drawn by."""

from collections.abc import Iterable
from dataclasses import dataclass

from inspection_rules.item import Item, Part
from inspection_rules.record import Inspection, Reading
from inspection_rules.words import InspectionKind

DIAMETERS_OF_EYE = 15  # inside length of an eye that nobody measured, in rope diameters: it is drawn, never judged


@dataclass(frozen=True, slots=True)
class Made:
    """One termination as it was made; None for what its record does not say.

    Attributes:
        bury: length of the buried tail, in mm: measured when it was made, else what its instruction wants.
        eye: inside length of the eye, in mm.
        marks: distance of its reference marks from the throat, in mm.
        tucks: full tucks of each strand.
        diameter: of the rope, in mm.
    """

    bury: float | None = None
    eye: float | None = None
    marks: float | None = None
    tucks: int | None = None
    diameter: float | None = None


def as_made(item: Item, part: Part, inspections: Iterable[Inspection] = ()) -> Made:
    """Return how a termination was made, by its as-made record where there is one, else by the item's own."""
    own = [one for one in inspections if one.kind is InspectionKind.AS_MADE]
    own.sort(key=lambda one: (one.at, one.id))

    def read(name: str) -> Reading | None:
        return next((found for one in reversed(own) if (found := one.reading(part.id, name)) is not None), None)

    def mean(name: str) -> float | None:
        reading = read(name)
        return sum(float(value.to("mm")) for value in reading.values) / len(reading.values) if reading else None

    tucks = read("tucks")
    across = item.diameter or item.circumference
    diameter = float(across.to("mm")) / (1 if item.diameter else 3) if across is not None else None
    wanted = float(part.required_bury.to("mm")) if part.required_bury is not None else None
    eye = mean("eye_length")
    return Made(
        bury=mean("bury") or wanted,
        eye=eye if eye is not None or diameter is None else diameter * DIAMETERS_OF_EYE,
        marks=float(part.marks_at.to("mm")) if part.marks_at is not None else None,
        tucks=int(tucks.values[-1].value) if tucks is not None else None,
        diameter=diameter,
    )
