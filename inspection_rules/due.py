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


def due(interval: Interval, case: Case, complete: Callable[[Inspection], bool], part: str = "") -> Due | None:
    """Return when this interval ends; None when it no longer runs.

    An interval that runs `once` is a part's own, since each splice is made and bedded in by itself; the others
    are the item's. `complete` tells whether an inspection contains what its kind must for the whole item: one
    that does not starts nothing.
    """
    if interval.once:
        return _once(interval, case, part)
    return _ends(interval, case, _latest(interval, case, complete))


def _latest(interval: Interval, case: Case, complete: Callable[[Inspection], bool]) -> Inspection | None:
    """The record an interval runs from: of those as made the first, since a new eye makes no new rope."""
    counted = [one for one in case.history if _counts(one, interval.since)]
    looks = [one for one in counted if one.kind is not InspectionKind.AS_MADE]
    last = next((one for one in reversed(looks) if complete(one)), None)
    if last is not None:
        return last
    return next((one for one in counted if one.kind is InspectionKind.AS_MADE and complete(one)), None)


def _once(interval: Interval, case: Case, part: str) -> Due | None:
    spoken = [one for one in case.since_made(part) if any(entry.part == part for entry in one.entries)]
    made = next((one for one in spoken if _counts(one, interval.since)), None)
    if made is None or any(_counts(one, interval.until) for one in spoken if one.at >= made.at):
        return None
    return _ends(interval, case, made)


def _ends(interval: Interval, case: Case, last: Inspection | None) -> Due:
    if last is None:
        return Due(None, None)
    longest = interval.longest.get(case.item.service, interval.longest[Service.NORMAL])
    return Due(last, after(last.on, longest))


def _counts(one: Inspection, kinds: tuple[InspectionKind, ...]) -> bool:
    """Of one of these kinds and by a competent person; before use nobody's competence is asked."""
    by = one.kind is InspectionKind.BEFORE_USE or one.by.competence in COMPETENT
    return one.kind in kinds and by
