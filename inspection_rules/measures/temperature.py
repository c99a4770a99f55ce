"""The hottest and the coldest that a rope will meet in this use."""

from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.quantity import Measured, NotMeasured, Quantity
from inspection_rules.uncertainty import DEFAULT

U_TEMPERATURE_C = 2.0  # what is expected of a place, not read on the rope; judgement, no source
NONE = "no temperature was named for this use"


def hottest(case: Case, part: str) -> Measured | NotMeasured:
    """Return the hottest it will meet, °C: of all temperatures that were said, so that neither hides the other."""
    said = _said(case)
    return _expected(max(said, key=_celsius)) if said else NotMeasured(NONE)


def coldest(case: Case, part: str) -> Measured | NotMeasured:
    """Return the coldest it will meet, °C: of all temperatures that were said."""
    said = _said(case)
    return _expected(min(said, key=_celsius)) if said else NotMeasured(NONE)


def _said(case: Case) -> list[Quantity]:
    use = case.use
    return [] if use is None else [one for one in (use.hottest, use.coldest) if one is not None]


def _celsius(said: Quantity) -> Fraction:
    return said.to("°C")


def _expected(said: Quantity) -> Measured:
    return Measured(said.to("°C"), "°C", U_TEMPERATURE_C, DEFAULT, how=f"{said.text} expected")
