"""When to look again: intervals since the last examination, counted in local calendar dates."""

import calendar
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta

from inspection_rules.case import Case
from inspection_rules.record import Inspection
from inspection_rules.rule import Interval, span
from inspection_rules.words import COMPETENT, InspectionKind, Service


@dataclass(frozen=True, slots=True)
class Due:
    """When an interval ends.

    Attributes:
        last: the inspection it runs from; None when there is none.
        by: the local date it ends on; None when nothing starts it.
    """

    last: Inspection | None
    by: date | None


def after(start: date, duration: str) -> date:
    """Return the date a duration after `start`; months clamp at the month's end."""
    number, unit = span(duration)
    if unit == "days":
        return start + timedelta(days=number)
    month = start.month - 1 + number
    year, month = start.year + month // 12, month % 12 + 1
    return date(year, month, min(start.day, calendar.monthrange(year, month)[1]))


def due(interval: Interval, case: Case, complete: Callable[[Inspection], bool]) -> Due | None:
    """Return when this interval ends for the case's item; None when it no longer runs.

    `complete` tells whether an inspection contains what its kind must: one that does not starts nothing.
    """
    last = _last(case, interval.since, complete)
    if interval.once:
        done = _last(case, interval.until, complete)
        if last is None or (done is not None and done.at >= last.at):
            return None
    if last is None:
        return Due(None, None)
    longest = interval.longest.get(case.item.service, interval.longest[Service.NORMAL])
    return Due(last, after(last.on, longest))


def _last(case: Case, kinds: tuple[InspectionKind, ...], complete: Callable[[Inspection], bool]) -> Inspection | None:
    """The latest of these kinds that a competent person made in full; before use nobody's competence is asked."""
    for one in reversed(case.history):
        by = one.kind is InspectionKind.BEFORE_USE or one.by.competence in COMPETENT
        if one.kind in kinds and by and complete(one):
            return one
    return None
