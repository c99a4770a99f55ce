"""Stretch: the permanent elongation of HMPE that stays under tension for years.

    e = (L - L0) / L0        between two gauge marks, both lengths read in one state

Such rope creeps, and 10 % is where it is discarded: suggested in industry guidelines for general HMPE types, as quoted
in an offshore trade article of August 2012 (secondary). For slings and whatever else is slacked it tells nothing.
"""

import math
from fractions import Fraction

from inspection_rules.case import Case, mean
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.track import is_baseline
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Inspection, Reading
from inspection_rules.uncertainty import scattered, spread
from inspection_rules.words import BASELINE_KINDS, InspectionKind, Tension

READINGS_EACH = 2
# The length of a rope that is not held at its reference tension is known to about 2 %: derived from CI 1500 as quoted.
UNCONTROLLED_PERCENT = 2.0


def elongation_percent(now: Fraction, then: Fraction, u_now: float, u_then: float) -> tuple[Fraction, float]:
    """Return (L - L0) / L0 in per cent and its standard uncertainty in points, from two lengths in one unit."""
    ratio = now / then
    u = math.hypot(u_now / float(then), float(ratio) * u_then / float(then))
    return (ratio - 1) * 100, u * 100


def permanent_elongation(case: Case, part: str) -> Measured | NotMeasured:
    """Return the elongation between the gauge marks since their first baseline, in per cent.

    Creep adds up over the rope's whole life, so a later baseline never starts it anew.
    """
    now = case.inspection.reading(part, "gauge_length")
    if now is None:
        return NotMeasured("the gauge length was not read")
    base = next((one for one in case.since_made(part) if _starts(one, part)), None)
    if base is case.inspection:
        return NotMeasured("this is the first baseline of the gauge length")
    then = base.reading(part, "gauge_length") if base is not None else None
    if base is None or then is None:
        return NotMeasured("no baseline of the gauge length is on record", attempted=True, refer=True)
    if now.state != then.state:
        return NotMeasured(
            f"not comparable: the baseline was read {_words(then)}, this {_words(now)}; read it {_words(then)}",
            attempted=True,
        )
    if len(now.values) < READINGS_EACH:
        return NotMeasured("read the gauge length twice", attempted=True)
    d = nominal_diameter(case.item)
    apart = scattered(now, d, "mm") or scattered(then, d, "mm")
    if apart:
        return NotMeasured(apart, attempted=True)
    length = mean(then.values, "mm")
    if length == 0:
        return NotMeasured("the gauge length at the baseline is zero", attempted=True, refer=True)
    goods = spread(now, d, "mm"), spread(then, d, "mm")
    value, u = elongation_percent(
        mean(now.values, "mm"), length, goods[0].of_mean(len(now.values)), goods[1].of_mean(len(then.values))
    )
    held = now.tension is Tension.REFERENCE
    found = base.kind is InspectionKind.AS_FOUND
    return Measured(
        value=value,
        unit="%",
        u=u if held else math.hypot(u, UNCONTROLLED_PERCENT),
        u_source=goods[0].source,
        n=len(now.values),
        from_study=held and all(good.from_study for good in goods),
        how=f"since {base.kind.value} {base.on.isoformat()}"
        + ("; what it had stretched before is not known" if found else ""),
    )


def _starts(one: Inspection, part: str) -> bool:
    return is_baseline(one, tuple(BASELINE_KINDS)) and one.reading(part, "gauge_length") is not None


def _words(read: Reading) -> str:
    return f"{read.tension.value} and {read.moisture.value}"
