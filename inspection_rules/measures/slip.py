"""Slip of a buried tail: how far it has moved out of its bury since the bedded baseline.

    s = (a_tail - a_standing) now - (a_tail - a_standing) at the baseline        + = leaving the bury

The marks sit in the eye, one on each leg, at the same distance from the throat. Both legs carry about the
same load, so stretch largely cancels. Best read directly as the offset between the two marks with the legs
laid together; read as two distances, the place of the throat counts twice. `track` tells movement from what
readings differ by; `routes` are the other ways to the same slip.

There is no published slip limit for a fibre-rope splice.
"""

import math
from datetime import date
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures.offset import Offset, offset_at
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.measures.track import as_judged, baseline_offsets, is_baseline
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.uncertainty import scattered
from inspection_rules.words import InspectionKind, Moisture, Tension


def slip(case: Case, part: str) -> Measured | NotMeasured:
    """Return the slip of the splice at `part` since its baseline, mm; negative means into the bury."""
    now = as_judged(case, part)
    if now is None:
        halves = [o for o in ("mark_tail", "mark_standing") if case.inspection.reading(part, o)]
        if len(halves) == 2:
            return NotMeasured("the two marks were read in different states; read both in one", attempted=True)
        if halves:
            return NotMeasured("only one of the two marks was read; read both", attempted=True)
        return NotMeasured("the marks were not read")
    for name in ("mark_offset", "mark_tail", "mark_standing"):
        reading = case.inspection.reading(part, name)
        apart = scattered(reading, nominal_diameter(case.item), "mm") if reading else ""
        if apart:
            return NotMeasured(apart, attempted=True)
    base, name = reference(case, part)
    return _since(base, now, name)


def settling(case: Case, part: str) -> Measured | NotMeasured:
    """Return how far the tail has come out since the record before, mm: for a bedding-in record.

    That is the baseline it replaces, where there is one, else the as-made record.
    """
    now = offset_at(case.inspection, part, case.item)
    if now is None:
        return NotMeasured("the marks were not read")
    before = earlier_baseline(case, part)
    if before is not None:
        return _since(before, now, "the baseline before")
    return _since(_latest(case, part, InspectionKind.AS_MADE), now, "as made")


def settled_by(case: Case, part: str) -> Fraction | None:
    """Return how far the tail had come out when the first bedded-in record was made, mm; None where not comparable."""
    made = _latest(case, part, InspectionKind.AS_MADE)
    bedded = baseline_offsets(case, part)
    if made is None or not bedded or bedded[0].state != made.state:
        return None
    return bedded[0].value - made.value


def earlier_baseline(case: Case, part: str) -> Offset | None:
    """Return the bedded-in or as-found offset that stood before the inspection being judged."""
    past = [one for one in baseline_offsets(case, part) if one.inspection is not case.inspection]
    return past[-1] if past else None


def reference(case: Case, part: str) -> tuple[Offset | None, str]:
    """Return the offset slip is reckoned from, and its name: bedded in, else as found, else as made."""
    bedded = baseline_offsets(case, part)
    if bedded:
        return bedded[-1], bedded[-1].inspection.kind.value
    made = _latest(case, part, InspectionKind.AS_MADE)
    return (made, "as made, not bedded in yet") if made is not None else (None, "")


def last_read(case: Case, part: str) -> date | None:
    """Return the local date the marks were last read, the inspection being judged included."""
    found = [one.on for one in case.since_made(part) if offset_at(one, part, case.item) is not None]
    return found[-1] if found else None


def is_bedded(case: Case, part: str) -> bool:
    """Whether a bedded-in or as-found baseline that slip may be reckoned from exists after it was last made."""
    return bool(baseline_offsets(case, part))


def in_words(state: tuple[Tension, Moisture]) -> str:
    """Return a state as people say it: hand-taut and dry."""
    return f"{state[0].value} and {state[1].value}"


def _since(base: Offset | None, now: Offset, name: str) -> Measured | NotMeasured:
    if base is None:
        return NotMeasured("no baseline of the marks is on record", attempted=True, refer=True)
    if base.state != now.state:
        return NotMeasured(
            f"not comparable: the baseline was read {in_words(base.state)}, this {in_words(now.state)}; "
            f"read it {in_words(base.state)}",
            attempted=True,
        )
    how = f"since {base.inspection.on.isoformat()} ({name})"
    if now.joined is not None:
        how += f", the mean with the reading of {now.joined.isoformat()} that left a doubt"
    return Measured(
        value=now.value - base.value,
        unit="mm",
        u=math.hypot(now.u, base.u),
        u_source=now.good.source,
        n=now.n,
        from_study=now.good.from_study and base.good.from_study,
        how=how,
    )


def _latest(case: Case, part: str, *kinds: InspectionKind) -> Offset | None:
    offsets = [offset_at(visit, part, case.item) for visit in case.since_made(part) if is_baseline(visit, kinds)]
    found = [offset for offset in offsets if offset is not None]
    return found[-1] if found else None
