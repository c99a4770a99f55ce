"""Remaining bury: how much of a tail still lies inside the standing part.

    B = L0 - s

L0 is measured on the laid-out tail before burying. Until slip is confirmed the as-made ruling stands, by
simple acceptance: a splice made exactly to its specification is serviceable. Once it is confirmed, B is judged
with its uncertainty against the splice's own required length.

A double-braid eye has two tails and two lengths, its cover's and its core's: what has slipped is off both. An
end-to-end splice has two tails and one length: the shorter tail counts.
"""

import math

from inspection_rules.case import Case, mean
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.slip import last_read
from inspection_rules.measures.track import track
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Reading
from inspection_rules.uncertainty import spread
from inspection_rules.words import COMPETENT, InspectionKind, SpliceKind


def remaining(as_made: Measured, slip: Measured) -> Measured:
    """Return L0 - s, both in mm, with u = √(u(L0)² + u(s)²)."""
    return Measured(
        value=as_made.value - slip.value,
        unit="mm",
        u=math.hypot(as_made.u, slip.u),
        u_source=as_made.u_source,
        from_study=as_made.from_study and slip.from_study,
        how="as made less confirmed slip",
    )


def remaining_bury(case: Case, part: str) -> Measured | NotMeasured:
    """Return the remaining bury of the splice at `part`, mm: of its only tail, its cover's, or its shorter one."""
    two = case.item.part(part).splice is SpliceKind.END_TO_END
    return _remaining(case, part, ("bury", "other_bury") if two else ("bury",))


def remaining_core_bury(case: Case, part: str) -> Measured | NotMeasured:
    """Return the remaining bury of a double-braid eye's core tail, mm."""
    return _remaining(case, part, ("core_bury",))


def _remaining(case: Case, part: str, observations: tuple[str, ...]) -> Measured | NotMeasured:
    visits = case.since_made(part)
    first = visits[0]
    made = first if first.kind is InspectionKind.AS_MADE and first.by.competence in COMPETENT else None
    readings = [reading for name in observations if made and (reading := made.reading(part, name))]
    if made is None or not readings:
        if any(one.kind is InspectionKind.AS_FOUND and one.by.competence in COMPETENT for one in visits):
            return NotMeasured(
                "bury not established: found without an as-made record",
                never_known=True,
                since=last_read(case, part),
            )
        return NotMeasured("no as-made or as-found record: the bury is not known", attempted=True, refer=True)
    if len(readings) < len(observations):
        return NotMeasured("only one of the two tails is in the as-made record", attempted=True, refer=True)
    l0 = min((_as_made(reading, case, made.on.isoformat()) for reading in readings), key=lambda one: one.value)
    followed = track(case, part)
    if followed.out == 0 and not followed.comparable:
        return NotMeasured(
            "bury not established: the marks' baselines were read in different states",
            never_known=True,
            since=last_read(case, part),
        )
    if followed.out == 0:
        return l0
    # What was confirmed to have come out is out, whatever the marks or a later baseline say now.
    return remaining(l0, Measured(followed.out, "mm", followed.u_out, l0.u_source))


def _as_made(reading: Reading, case: Case, on: str) -> Measured:
    good = spread(reading, nominal_diameter(case.item), "mm")
    return Measured(
        value=mean(reading.values, "mm"),
        unit="mm",
        u=good.of_mean(len(reading.values)),
        u_source=good.source,
        guarded=False,
        from_study=good.from_study,
        how=f"as made {on}",
    )
