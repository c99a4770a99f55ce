"""Counts and lengths that are judged as last read: full tucks, strand tails, the tail an adjustable eye keeps."""

import math

from inspection_rules.case import Case
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Inspection
from inspection_rules.uncertainty import spread
from inspection_rules.words import SpliceKind

SIDES = ("tucks_one_side", "tucks_other_side")


def tucks(case: Case, part: str) -> Measured | NotMeasured:
    """Return the number of full tucks of the strand with the fewest, as last counted.

    Of a short splice that is the side with fewer; with one side uncounted it is not known.
    """
    if case.item.part(part).splice is not SpliceKind.TUCKED_SHORT_SPLICE:
        return latest(case, part, "tucks", "")
    sides = [latest(case, part, side, "") for side in SIDES]
    counted = [side for side in sides if isinstance(side, Measured)]
    if len(counted) == len(SIDES):
        return min(counted, key=lambda side: side.value)
    return NotMeasured(
        "only one side of the short splice was counted; count both" if counted else "it was never read",
        attempted=bool(counted),
    )


def tail(case: Case, part: str) -> Measured | NotMeasured:
    """Return the shortest strand tail beyond the last full tuck, mm, as last read."""
    return latest(case, part, "tail", "mm")


def extra_tucks(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many tucks more the tapered and buried strand tails have, of the one with the fewest."""
    return latest(case, part, "extra_tucks", "")


def clear_length(case: Case, part: str) -> Measured | NotMeasured:
    """Return the clear length of rope between a sling's eye splices, mm, as last read."""
    return latest(case, part, "clear_length", "mm")


def free_tail(case: Case, part: str) -> Measured | NotMeasured:
    """Return the tail an adjustable eye keeps beyond its bury at its longest setting, mm, as last read."""
    return latest(case, part, "free_tail", "mm")


def tail_shortening(case: Case, part: str) -> Measured | NotMeasured:
    """Return how much shorter the shortest tail is than when the splice was last made or first read, mm."""
    now = case.inspection.reading(part, "tail")
    if now is None:
        return NotMeasured("the tails were not read")
    past = [one for one in case.since_made(part) if one is not case.inspection]
    base = next((one for one in past if one.reading(part, "tail")), None)
    then = base.reading(part, "tail") if base else None
    if base is None or then is None:
        return NotMeasured("no earlier reading of the tails to compare with")
    d = nominal_diameter(case.item)
    goods = spread(now, d, "mm"), spread(then, d, "mm")
    return Measured(
        value=min(q.to("mm") for q in then.values) - min(q.to("mm") for q in now.values),
        unit="mm",
        u=math.hypot(goods[0].of_mean(1), goods[1].of_mean(1)),
        u_source=goods[0].source,
        n=len(now.values),
        guarded=False,  # the limit already is what two readings differ by
        from_study=all(good.from_study for good in goods),
        how=f"since {base.kind.value} {base.on.isoformat()}",
    )


def latest(case: Case, part: str, observation: str, unit: str) -> Measured | NotMeasured:
    """Return the smallest value of the last visit that read this observation since the part was made."""
    read: list[Inspection] = [one for one in case.since_made(part) if one.reading(part, observation)]
    reading = read[-1].reading(part, observation) if read else None
    if reading is None:
        return NotMeasured("it was never read")
    good = spread(reading, nominal_diameter(case.item), unit)
    value = min(q.to(unit) for q in reading.values)  # of the strand with the fewest, or the shortest
    return Measured(
        value=value,
        unit=unit,
        u=good.of_mean(1) if unit else 0.0,
        u_source=good.source if unit else "counted",
        n=len(reading.values),
        from_study=good.from_study,
        how="" if read[-1] is case.inspection else f"read {read[-1].on.isoformat()}",
        read_on=read[-1].on,
    )
