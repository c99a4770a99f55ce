"""Fittings: how far a hook has opened and how much thinner a fitting has worn, against its new dimensions.

Both are in per cent of what the fitting was when new, which its record gives: the maker's figure, or what was
measured on the new fitting. That figure is taken as stated; the doubt is that of today's reading.
"""

from fractions import Fraction

from inspection_rules.case import Case, mean
from inspection_rules.quantity import Measured, NotMeasured, Quantity
from inspection_rules.record import Reading
from inspection_rules.uncertainty import scattered, spread


def hook_opening(case: Case, part: str) -> Measured | NotMeasured:
    """Return how much wider a hook's throat opens than when new, in per cent of the new opening."""
    return _against_new(case, part, "hook_throat", case.item.part(part).throat_opening, "throat opening", sign=1)


def fitting_wear(case: Case, part: str) -> Measured | NotMeasured:
    """Return how much thinner a fitting is at its thinnest place than when new, in per cent of the new thickness."""
    return _against_new(case, part, "fitting_thickness", case.item.part(part).thickness, "thickness", sign=-1)


def _against_new(
    case: Case, part: str, observation: str, new: Quantity | None, what: str, *, sign: int
) -> Measured | NotMeasured:
    reading = case.inspection.reading(part, observation)
    if reading is None:
        return NotMeasured(f"the {what} was not read")
    if new is None or new.value == 0:
        return NotMeasured(f"the {what} when new is not on record: its maker gives it", attempted=True, refer=True)
    apart = scattered(reading, None, "mm")
    if apart:
        return NotMeasured(apart, attempted=True)
    was = new.to("mm")
    good = spread(reading, None, "mm")
    return Measured(
        value=sign * _change(reading, was),
        unit="%",
        u=good.of_mean(len(reading.values)) / float(was) * 100,
        u_source=good.source,
        n=len(reading.values),
        from_study=good.from_study,
        how=f"{new} when new",
    )


def _change(reading: Reading, was: Fraction) -> Fraction:
    return (mean(reading.values, "mm") / was - 1) * 100
