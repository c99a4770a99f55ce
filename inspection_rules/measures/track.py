"""Following a splice's marks from its bedded baseline to now: what is movement and what readings merely differ by.

How movement is told, with u the standard uncertainty of a difference of direct readings, the mean of four now
against a baseline of two (`movement_u`), whatever way it was read, so that a coarser way never hides movement:

- beyond 2 u it is read again at once, and all readings of the visit are averaged; within a week, of both visits;
- beyond 2.7 u on the mean of at least four readings, or beyond 4 u on two, it is confirmed movement.

Why the second step is not 2 u as well: with readings as good as the defaults say, a sound deck of 24 pairs of marks
read every month by the offset would be referred falsely 2.0 (6 mm rope) to 3.4 (60 mm) times a year. With 2.7 u it is
0.5 to 0.7 times, and another 0.2 times the readings of a visit lie too far apart to be averaged; 11 to 18 times a year
it costs two more readings. Creep of 1 mm a visit is then first held at 4 to 7 mm (95 of 100 by 6 to 11 mm), and before
the action value in at least 99 of 100 splices, whatever the method; for that the action value, half a diameter, is
never below 10 mm: with 4 mm, rope of 6 to 12 mm is held in time in 81 to 85 of 100 only. Rates of
`tests/inspection_rules/test_careers.py`, run longer. Common practice, no published source.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures.offset import Offset, join, offset_at
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.record import Inspection
from inspection_rules.uncertainty import direct_offset, scattered
from inspection_rules.words import COMPETENT, InspectionKind

BEDDED = (InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND)
REPEAT_DAYS = 7  # a visit this soon after a reading that left a doubt is its repeat
READINGS_NOW, READINGS_THEN = 4, 2


@dataclass(frozen=True, slots=True)
class Threshold:
    """How many u tell movement: `again` to read it again; `confirmed` pairs of readings averaged and u, most first."""

    again: float = 2.0
    confirmed: tuple[tuple[int, float], ...] = ((READINGS_NOW, 2.7), (2, 4.0))


STANDARD = Threshold()


class Motion(IntEnum):
    """What one difference of readings shows."""

    NONE = 0
    AGAIN = 1
    CONFIRMED = 2


@dataclass(frozen=True, slots=True)
class Track:
    """One splice's offsets in time.

    Attributes:
        steps: how many times movement was confirmed since the splice was made, the present visit included.
        out, u_out: how far the tail has come out, mm, and its standard uncertainty: the sum of the confirmed
            movements, or what the baselines themselves have moved by, beyond what readings differ by.
        comparable: whether the latest bedded-in or as-found record of the marks is one that slip may be reckoned from.
        moved_now: what the present offset shows against the baseline or the last confirmed value.
        back_now: the same on the other side of either.
        threshold_u: the standard uncertainty movement is judged with (see `movement_u`), mm.
    """

    steps: int
    out: Fraction
    u_out: float
    comparable: bool
    moved_now: Motion
    back_now: Motion
    threshold_u: float


def movement_u(diameter: Fraction) -> float:
    """Return the u of a difference by the direct method: mean of four readings now against two at the baseline.

    Movement is judged with this whatever method was used and however often it was read, since with a coarser
    reading's own u the same offset would look *less* like movement, and a worse method would yield a better answer.
    """
    direct = direct_offset(diameter)
    return math.hypot(direct.of_mean(READINGS_NOW), direct.of_mean(READINGS_THEN))


def motion(difference: Fraction, n: int, u: float, threshold: Threshold) -> Motion:
    """Return what a difference of offsets shows, mm, the mean of `n` readings: plus is out of the bury."""
    beyond = float(difference) / u
    enough = [k for readings, k in threshold.confirmed if n >= readings]
    if enough and beyond > min(enough):
        return Motion.CONFIRMED
    if beyond > threshold.again and n < threshold.confirmed[0][0]:
        return Motion.AGAIN
    return Motion.NONE


def is_baseline(visit: Inspection, kinds: tuple[InspectionKind, ...]) -> bool:
    """Whether an inspection is a baseline of one of these kinds: made by a competent person."""
    return visit.kind in kinds and visit.by.competence in COMPETENT


def baseline_offsets(case: Case, part: str) -> tuple[Offset, ...]:
    """Return the bedded-in and as-found offsets that slip may be reckoned from, oldest first.

    One read in another state than the record before it (as made, or the baseline that stood) tells nothing of how far
    the tail had come out by then, so it is no baseline: what came out would be hidden in it. Nor is a bedded-in record
    of a splice whose marks were never read before.
    """
    before: Offset | None = None
    found = []
    for visit in case.since_made(part):
        kind = visit.kind
        offset = offset_at(visit, part, case.item) if is_baseline(visit, (InspectionKind.AS_MADE, *BEDDED)) else None
        if offset is None:
            continue
        if kind is InspectionKind.AS_MADE:
            before = offset
        elif (before is None and kind is InspectionKind.AS_FOUND) or (before and before.state == offset.state):
            before = offset
            found.append(offset)
    return tuple(found)


def as_judged(case: Case, part: str) -> Offset | None:
    """Return the present offset, averaged with the reading before where that left a doubt a few days ago."""
    return next((one.offset for one in _followed(case, part, STANDARD) if one.visit is case.inspection), None)


def track(case: Case, part: str, threshold: Threshold = STANDARD) -> Track:
    """Follow the marks from the first baseline to now, counting and summing confirmed movements.

    Movement is reckoned from the last confirmed value, which starts at the first bedded baseline. That value never
    advances because an inspection passed. A competent person's later baseline moves it, but resets neither the
    count nor the sum: only a new as-made record of the splice does.
    """
    u = movement_u(nominal_diameter(case.item) or Fraction(48))
    first: Offset | None = None
    made: Offset | None = None
    comparable = True
    usable = _usable(case, part)
    steps, out, variance = 0, Fraction(0), 0.0
    moved = back = Motion.NONE
    for one in _followed(case, part, threshold):
        offset = one.offset
        if is_baseline(one.visit, (InspectionKind.AS_MADE,)):
            made = offset
        if one.moved is Motion.CONFIRMED and one.anchor is not None:
            steps += 1
            out += offset.value - one.anchor.value
            variance += offset.u**2 + one.anchor.u**2
            if made is not None and offset.state == made.state:
                # What it settled by on bedding in has left the bury too.
                out = max(out, offset.value - made.value)
        if is_baseline(one.visit, BEDDED):
            comparable = one.visit.id in usable
        if one.visit.id in usable:
            first = first or offset
            drift = offset.value - first.value
            # What a baseline was read from may be one reading: it stands as if it had been repeated.
            sure = motion(drift, max(offset.n, 2), u, threshold) is Motion.CONFIRMED
            if sure and drift > out:
                out, variance = drift, offset.u**2 + first.u**2
        if one.visit is case.inspection:
            moved, back = max(one.moved, one.from_base[0]), max(one.back, one.from_base[1])
    return Track(steps, out, math.sqrt(variance), comparable, moved, back, u)


@dataclass(frozen=True, slots=True)
class _Followed:
    """One visit: its offset as judged, the last confirmed value before it, and what it shows against that.

    `from_base` is what it shows, out and back, against the latest baseline, this visit's own included.
    """

    visit: Inspection
    offset: Offset
    anchor: Offset | None
    moved: Motion
    back: Motion
    from_base: tuple[Motion, Motion]


def _followed(case: Case, part: str, threshold: Threshold) -> Iterator[_Followed]:
    d = nominal_diameter(case.item)
    u = movement_u(d or Fraction(48))
    anchor: Offset | None = None
    base: Offset | None = None
    doubtful: Offset | None = None
    usable = _usable(case, part)
    for visit in case.since_made(part):
        offset = offset_at(visit, part, case.item)
        sets = visit.id in usable
        if offset is None:
            continue
        if not sets and visit is not case.inspection and _scattered(visit, part, d):
            continue  # it was held to be read again: a mean of such readings is no reading
        if doubtful is not None and not sets and _repeats(visit, offset, doubtful):
            offset = join(doubtful, offset)
        moved, back = _against(anchor, offset, u, threshold)
        base = offset if sets else base
        from_base = _against(base, offset, u, threshold)
        yield _Followed(visit, offset, anchor, moved, back, from_base)
        in_doubt = Motion.AGAIN in (moved, back, *from_base) and not sets
        doubtful = offset if in_doubt else None
        if sets or moved is Motion.CONFIRMED:
            anchor = offset


def _usable(case: Case, part: str) -> frozenset[str]:
    """The ids of the inspections whose marks slip may be reckoned from."""
    return frozenset(offset.inspection.id for offset in baseline_offsets(case, part))


def _against(then: Offset | None, now: Offset, u: float, threshold: Threshold) -> tuple[Motion, Motion]:
    """What an offset shows against another, out of the bury and into it; nothing where their states differ."""
    if then is None or then.state != now.state:
        return Motion.NONE, Motion.NONE
    step = now.value - then.value
    return motion(step, now.n, u, threshold), motion(-step, now.n, u, threshold)


def _repeats(visit: Inspection, offset: Offset, doubtful: Offset) -> bool:
    return offset.state == doubtful.state and (visit.on - doubtful.inspection.on).days <= REPEAT_DAYS


def _scattered(visit: Inspection, part: str, d: Fraction | None) -> bool:
    readings = (visit.reading(part, name) for name in ("mark_offset", "mark_tail", "mark_standing"))
    return any(scattered(reading, d, "mm") for reading in readings if reading is not None)
