"""What the as-made record of a splice says about how it was laid out: read once, and judged as it was made.

By simple acceptance, as its bury is: a splice made exactly to its layout is serviceable.
"""

from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.uncertainty import spread
from inspection_rules.words import COMPETENT, InspectionKind


def laid_out(case: Case, part: str) -> Measured | NotMeasured:
    """Return the length that was laid out from the end before tucking, mm."""
    return _as_made(case, part, "laid_out", "mm")


def strands_ended(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many strands end before the tail's end."""
    return _as_made(case, part, "strands_ended", "")


def passes(case: Case, part: str) -> Measured | NotMeasured:
    """Return how often the tail passes through the standing part before it goes down the centre."""
    return _as_made(case, part, "passes", "")


def pairs_beside(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many strand pairs lie on the poorer side of a pass's hole."""
    return _as_made(case, part, "pairs_beside", "")


def picks_between(case: Case, part: str) -> Measured | NotMeasured:
    """Return how many picks lie between the passes."""
    return _as_made(case, part, "picks_between", "")


def _as_made(case: Case, part: str, observation: str, unit: str) -> Measured | NotMeasured:
    made = case.since_made(part)[0]
    reading = made.reading(part, observation)
    if made.kind is not InspectionKind.AS_MADE or made.by.competence not in COMPETENT or reading is None:
        return NotMeasured("the as-made record does not say it")
    values: list[Fraction] = [value.to(unit) for value in reading.values]
    if not unit and len(set(values)) > 1:
        return NotMeasured("the counts differ: count again", attempted=True)
    good = spread(reading, nominal_diameter(case.item), unit)
    return Measured(
        value=min(values),
        unit=unit,
        u=good.of_mean(1) if unit else 0.0,
        u_source=good.source if unit else "counted",
        n=len(values),
        guarded=False,
        from_study=good.from_study,
        how="" if made is case.inspection else f"as made {made.on.isoformat()}",
    )
