"""Slip of a buried tail: how far it has moved out of its bury since the bedded baseline.

    s = (a_tail - a_standing) now - (a_tail - a_standing) at the baseline        + = leaving the bury

The marks sit in the eye, one on each leg, at the same distance from the throat. Both legs carry about the
same load, so stretch largely cancels. Best read directly as the offset between the two marks with the legs
laid together; read as two distances, the place of the throat counts twice.

There is no published slip limit for a fibre-rope splice.
"""

import math
from dataclasses import dataclass
from fractions import Fraction

from inspection_rules.case import Case, mean
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Inspection, Item, Reading
from inspection_rules.uncertainty import Spread, direct_offset, spread
from inspection_rules.words import InspectionKind, Moisture, Tension

CONFIRMED_READINGS = 2  # the repeat taken at once; one reading alone never confirms


@dataclass(frozen=True, slots=True)
class Offset:
    """The marks' offset (tail leg minus standing leg) at one visit: mm, its u, how many readings, its state."""

    inspection: Inspection
    value: Fraction
    u: float
    n: int
    state: tuple[Tension, Moisture]
    source: str
    from_study: bool


@dataclass(frozen=True, slots=True)
class Track:
    """One splice's offsets in time.

    Attributes:
        baseline: the one slip is reckoned from: bedded in or as found; None before bedding in.
        now: the offset of the inspection being judged, if it was read.
        steps: how many times movement was confirmed since the splice was made, the present visit included.
        moved_now: slip now lies beyond the threshold, against the baseline or the last confirmed value.
        anchor: the last confirmed offset before now, or the baseline's.
        threshold_u: the standard uncertainty movement is judged with (see `movement_u`), mm.
    """

    baseline: Offset | None
    now: Offset | None
    steps: int
    moved_now: bool
    anchor: Offset | None
    threshold_u: float


def movement_u(diameter: Fraction) -> float:
    """Return the u of a difference by the direct method: mean of two readings now against one at the baseline.

    Movement is judged with this whatever method was used, since with a coarser reading's own u the same
    offset would look *less* like movement, and a worse method would yield a better answer.
    """
    direct = direct_offset(diameter)
    return math.hypot(direct.of_mean(2), direct.of_mean(1))


def offset_at(inspection: Inspection, part: str, item: Item) -> Offset | None:
    """Return the marks' offset at a visit, from the direct reading or else from the two distances."""
    d = nominal_diameter(item)
    direct = inspection.reading(part, "mark_offset")
    if direct is not None:
        good = spread(direct, d, "mm")
        return _offset(inspection, mean(direct.values, "mm"), good, len(direct.values), direct)
    tail, standing = inspection.reading(part, "mark_tail"), inspection.reading(part, "mark_standing")
    if tail is None or standing is None or tail.state != standing.state:
        return None
    n = min(len(tail.values), len(standing.values))
    goods = spread(tail, d, "mm"), spread(standing, d, "mm")
    u = math.hypot(goods[0].of_mean(len(tail.values)), goods[1].of_mean(len(standing.values)))
    study = all(good.from_study for good in goods)
    value = mean(tail.values, "mm") - mean(standing.values, "mm")
    return Offset(inspection, value, u, n, tail.state, goods[0].source, study)


def slip(case: Case, part: str) -> Measured | NotMeasured:
    """Return the slip of the splice at `part` since its baseline, mm; negative means into the bury."""
    now = offset_at(case.inspection, part, case.item)
    if now is None:
        halves = [o for o in ("mark_tail", "mark_standing") if case.inspection.reading(part, o)]
        if len(halves) == 2:
            return NotMeasured("the two marks were read in different states; read both in one", attempted=True)
        if halves:
            return NotMeasured("only one of the two marks was read; read both", attempted=True)
        return NotMeasured("the marks were not read")
    base, name = reference(case, part)
    return _since(base, now, name)


def settling(case: Case, part: str) -> Measured | NotMeasured:
    """Return how far the tail has settled since the splice was made, mm: for a bedding-in record."""
    now = offset_at(case.inspection, part, case.item)
    if now is None:
        return NotMeasured("the marks were not read")
    return _since(_latest(case, part, InspectionKind.AS_MADE), now, "as made")


def _since(base: Offset | None, now: Offset, name: str) -> Measured | NotMeasured:
    if base is None:
        return NotMeasured("no baseline of the marks is on record", attempted=True, refer=True)
    if base.state != now.state:
        return NotMeasured(
            f"not comparable: the baseline was read {_words(base.state)}, this {_words(now.state)}; "
            f"read it {_words(base.state)}",
            attempted=True,
        )
    return Measured(
        value=now.value - base.value,
        unit="mm",
        u=math.hypot(now.u, base.u),
        u_source=now.source,
        n=now.n,
        from_study=now.from_study and base.from_study,
        how=f"since {base.inspection.on.isoformat()} ({name})",
    )


def reference(case: Case, part: str) -> tuple[Offset | None, str]:
    """Return the offset slip is reckoned from, and its name: bedded in, else as found, else as made."""
    bedded = _latest(case, part, InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND)
    if bedded is not None:
        return bedded, bedded.inspection.kind.value
    made = _latest(case, part, InspectionKind.AS_MADE)
    return (made, "as made, not bedded in yet") if made is not None else (None, "")


def is_bedded(case: Case, part: str) -> bool:
    """Whether a bedded-in or as-found baseline of the marks exists after the splice was last made."""
    return _latest(case, part, InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND) is not None


def track(case: Case, part: str, hold_k: float) -> Track:
    """Follow the marks from the first baseline to now, counting confirmed movements.

    Movement is confirmed at a visit when the reading was repeated at once and their mean lies more than
    `hold_k` × `movement_u` beyond the last confirmed value, which starts at the first bedded baseline. It
    never advances because an inspection passed, and a later baseline does not reset the count: only a new
    as-made record of the splice does.
    """
    u = movement_u(nominal_diameter(case.item) or Fraction(48))
    now = offset_at(case.inspection, part, case.item)
    baseline = _latest(case, part, InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND)
    anchor: Offset | None = None
    steps = 0
    moved = False
    for visit in _since_made(case):
        offset = offset_at(visit, part, case.item)
        is_now = visit is case.inspection
        if offset is None:
            continue
        if anchor is None:
            if visit.kind in (InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND):
                anchor = offset
            continue
        if offset.state != anchor.state:
            continue
        beyond = float(offset.value - anchor.value) > hold_k * u
        if is_now:
            moved = beyond
        if beyond and offset.n >= CONFIRMED_READINGS:
            steps += 1
            if not is_now:
                anchor = offset
    if now is not None and baseline is not None and now.state == baseline.state:
        moved = moved or float(now.value - baseline.value) > hold_k * u
    return Track(baseline, now, steps, moved, anchor, u)


def _since_made(case: Case) -> list[Inspection]:
    visits = list(case.history)
    made = [i for i, visit in enumerate(visits) if visit.kind is InspectionKind.AS_MADE]
    return visits[made[-1] :] if made else visits


def _latest(case: Case, part: str, *kinds: InspectionKind) -> Offset | None:
    offsets = [offset_at(visit, part, case.item) for visit in _since_made(case) if visit.kind in kinds]
    found = [offset for offset in offsets if offset is not None]
    return found[-1] if found else None


def _offset(inspection: Inspection, value: Fraction, good: Spread, n: int, reading: Reading) -> Offset:
    return Offset(inspection, value, good.of_mean(n), n, reading.state, good.source, good.from_study)


def _words(state: tuple[Tension, Moisture]) -> str:
    return f"{state[0].value} and {state[1].value}"
