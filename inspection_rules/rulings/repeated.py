"""A reading made again after one that did not pass: judged together with those it repeats.

Tried three times, an item exactly at its limit would pass one of them 14 times in 100. So within a week of a reading
that did not pass, the next one passes only if the mean of both lies inside the limit by 2 u of one visit, u not made
smaller by the second try: then it is 5.1 in 100, all three tries together (`test_three_tries.py`). Where the repeat is
read in another way, each visit counts by 1/u²; a first reading ten times coarser then leaves 7 in 100.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from inspection_rules.case import Case
from inspection_rules.measures import MEASURES
from inspection_rules.quantity import Measured
from inspection_rules.record import Inspection
from inspection_rules.words import BASELINE_KINDS

REPEAT_DAYS = 7
REPEAT_K = 2.0


@dataclass(frozen=True, slots=True)
class Joined:
    """A value with those it repeats: their mean, in the unit of the measure, and the day of the first of them."""

    value: Fraction
    since: date


def with_doubtful(
    case: Case, part: str, measure: str, now: Measured, doubtful: Callable[[Measured], bool]
) -> Joined | None:
    """Return the mean of this visit's value with those of the week before, from the first that did not pass on.

    Args:
        doubtful: whether a value by itself does not pass, beyond the limit or in doubt.
    """
    values: list[Measured] = []
    since: date | None = None
    for visit in _week_before(case, part):
        then = MEASURES[measure].compute(_as_of(case, visit), part)
        if not isinstance(then, Measured) or then.u == 0 or then.read_on not in (None, visit.on):
            continue
        if since is None and doubtful(then):
            since = visit.on
        if since is not None:
            values.append(then)
    if since is None or now.u == 0:
        return None
    weighed = [(one.value, Fraction(1 / one.u**2)) for one in (*values, now)]
    mean = sum((value * weight for value, weight in weighed), Fraction(0)) / sum(weight for _, weight in weighed)
    return Joined(mean.limit_denominator(10**6), since)


def _week_before(case: Case, part: str) -> list[Inspection]:
    """The visits of the last week, oldest first, back to the last work on this part: what was read before is past."""
    visits = case.since_made(part) if part else case.history
    worked = max((one.at for one in case.work if one.part in ("", part)), default=None)
    return [
        one
        for one in visits
        if one is not case.inspection
        and (case.inspection.on - one.on).days <= REPEAT_DAYS
        and (worked is None or one.at > worked)
    ]


def _as_of(case: Case, visit: Inspection) -> Case:
    """The case as it was when this visit was judged."""
    before = case.history[: case.history.index(visit)]
    return case.model_copy(
        update={
            "on": visit.on,
            "inspection": visit,
            "baselines": tuple(one for one in before if one.kind in BASELINE_KINDS),
            "earlier": tuple(one for one in before if one.kind not in BASELINE_KINDS),
            "work": tuple(one for one in case.work if one.at <= visit.at),
        }
    )
