"""Slip of a buried tail: how far it has moved out of its bury since the bedded baseline.

    s = (a_tail - a_standing) now - (a_tail - a_standing) at the baseline        + = leaving the bury

The marks sit in the eye, one on each leg, at the same distance from the throat. Both legs carry about the
same load, so stretch largely cancels. Best read directly as the offset between the two marks with the legs
laid together; read as two distances, the place of the throat counts twice.

There is no published slip limit for a fibre-rope splice.
"""

import math
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from inspection_rules.case import Case, mean
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import Measured, NotMeasured
from inspection_rules.record import Inspection, Item, Reading
from inspection_rules.uncertainty import Spread, direct_offset, scattered, spread
from inspection_rules.words import COMPETENT, InspectionKind, Moisture, Tension

BEDDED = (InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND)
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
        steps: how many times movement was confirmed since the splice was made, the present visit included.
        out, u_out: how far the tail has come out, mm, and its standard uncertainty: the sum of the confirmed
            movements, or what the baselines themselves have moved by, beyond what readings differ by.
        comparable: whether all baselines since the splice was made were read in one state.
        moved_now: the present offset lies beyond the threshold, against the baseline or the last confirmed value.
        back_now: it lies as far on the other side of either.
        threshold_u: the standard uncertainty movement is judged with (see `movement_u`), mm.
    """

    steps: int
    out: Fraction
    u_out: float
    comparable: bool
    moved_now: bool
    back_now: bool
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
    bedded = [
        offset
        for one in case.since_made(part)
        if is_baseline(one, BEDDED) and (offset := offset_at(one, part, case.item)) is not None
    ]
    if made is None or not bedded or bedded[0].state != made.state:
        return None
    return bedded[0].value - made.value


def earlier_baseline(case: Case, part: str) -> Offset | None:
    """Return the bedded-in or as-found offset that stood before the inspection being judged."""
    past = [one for one in case.since_made(part) if one is not case.inspection and is_baseline(one, BEDDED)]
    found = [offset for one in past if (offset := offset_at(one, part, case.item)) is not None]
    return found[-1] if found else None


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
    bedded = _latest(case, part, *BEDDED)
    if bedded is not None:
        return bedded, bedded.inspection.kind.value
    made = _latest(case, part, InspectionKind.AS_MADE)
    return (made, "as made, not bedded in yet") if made is not None else (None, "")


def last_read(case: Case, part: str) -> date | None:
    """Return the local date the marks were last read, the inspection being judged included."""
    found = [one.on for one in case.since_made(part) if offset_at(one, part, case.item) is not None]
    return found[-1] if found else None


def is_bedded(case: Case, part: str) -> bool:
    """Whether a bedded-in or as-found baseline of the marks exists after the splice was last made."""
    return _latest(case, part, *BEDDED) is not None


def track(case: Case, part: str, hold_k: float) -> Track:
    """Follow the marks from the first baseline to now, counting and summing confirmed movements.

    Movement is confirmed at a visit when the reading was repeated at once and its mean lies more than
    `hold_k` × `movement_u` beyond the last confirmed value, which starts at the first bedded baseline. That
    value never advances because an inspection passed. A competent person's later baseline moves it, but resets
    neither the count nor the sum: only a new as-made record of the splice does.
    """
    u = movement_u(nominal_diameter(case.item) or Fraction(48))
    limit = hold_k * u
    anchor: Offset | None = None
    first: Offset | None = None
    made = _latest(case, part, InspectionKind.AS_MADE)
    comparable = True
    steps, out, variance = 0, Fraction(0), 0.0
    moved = back = False
    for visit in case.since_made(part):
        offset = offset_at(visit, part, case.item)
        sets = is_baseline(visit, BEDDED)
        if offset is None or (anchor is None and not sets):
            continue
        if anchor is not None and offset.state == anchor.state:
            step = offset.value - anchor.value
            beyond = float(step) > limit
            if visit is case.inspection:
                moved, back = beyond, float(step) < -limit
            if beyond and offset.n >= CONFIRMED_READINGS:
                steps += 1
                out += step
                variance += offset.u**2 + anchor.u**2
                if made is not None and offset.state == made.state:
                    # What it settled by on bedding in has left the bury too.
                    out = max(out, offset.value - made.value)
                if visit is not case.inspection:
                    anchor = offset
        if sets:
            anchor, first = offset, first or offset
            comparable = comparable and offset.state == first.state
            drift = offset.value - first.value
            if comparable and float(drift) > limit and drift > out:
                out, variance = drift, offset.u**2 + first.u**2
    now, base = offset_at(case.inspection, part, case.item), _latest(case, part, *BEDDED)
    if now is not None and base is not None and now.state == base.state:
        moved = moved or float(now.value - base.value) > limit
        back = back or float(now.value - base.value) < -limit
    return Track(steps, out, math.sqrt(variance), comparable, moved, back, u)


def _latest(case: Case, part: str, *kinds: InspectionKind) -> Offset | None:
    offsets = [offset_at(visit, part, case.item) for visit in case.since_made(part) if is_baseline(visit, kinds)]
    found = [offset for offset in offsets if offset is not None]
    return found[-1] if found else None


def is_baseline(visit: Inspection, kinds: tuple[InspectionKind, ...]) -> bool:
    """Whether an inspection is a baseline of one of these kinds: made by a competent person."""
    return visit.kind in kinds and visit.by.competence in COMPETENT


def _offset(inspection: Inspection, value: Fraction, good: Spread, n: int, reading: Reading) -> Offset:
    return Offset(inspection, value, good.of_mean(n), n, reading.state, good.source, good.from_study)


def _words(state: tuple[Tension, Moisture]) -> str:
    return f"{state[0].value} and {state[1].value}"
