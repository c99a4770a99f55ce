"""Remaining bury: how much of the tail still lies inside the standing part.

    B = L0 - s

L0 is measured on the laid-out tail before burying. Until slip is confirmed the as-made ruling stands, by
simple acceptance: a splice made exactly to its specification is serviceable. Once it is confirmed, B is judged
with its uncertainty against the splice's own required length.
"""

import math

from inspection_rules.case import Case, mean
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.slip import CONFIRMED_READINGS, track
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.uncertainty import spread
from inspection_rules.words import InspectionKind

CONFIRMED_K = 2.0


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
    """Return the remaining bury of the splice at `part`, mm."""
    made = case.baseline(InspectionKind.AS_MADE)
    reading = made.reading(part, "bury") if made else None
    if made is None or reading is None:
        if case.baseline(InspectionKind.AS_FOUND) is not None:
            return NotMeasured("bury not established: found without an as-made record", never_known=True)
        return NotMeasured("no as-made or as-found record: the bury is not known", attempted=True, refer=True)
    good = spread(reading, nominal_diameter(case.item), "mm")
    l0 = Measured(
        value=mean(reading.values, "mm"),
        unit="mm",
        u=good.of_mean(len(reading.values)),
        u_source=good.source,
        guarded=False,
        from_study=good.from_study,
        how=f"as made {made.on.isoformat()}",
    )
    moved = _confirmed_slip(case, part)
    return l0 if moved is None else remaining(l0, moved)


def _confirmed_slip(case: Case, part: str) -> Measured | None:
    """The largest slip that two readings of one visit have confirmed, now or before."""
    followed = track(case, part, CONFIRMED_K)
    if followed.baseline is None or followed.steps == 0:
        return None
    # What had come out at the last confirmed value is out, even if the present reading shows less.
    values = [followed.anchor] if followed.anchor is not None else []
    now = followed.now
    if now is not None and now.n >= CONFIRMED_READINGS and now.state == followed.baseline.state:
        values.append(now)
    if not values:
        return None
    largest = max(values, key=lambda offset: offset.value)
    return Measured(
        value=largest.value - followed.baseline.value,
        unit="mm",
        u=math.hypot(largest.u, followed.baseline.u),
        u_source=largest.source,
        from_study=largest.from_study and followed.baseline.from_study,
    )
