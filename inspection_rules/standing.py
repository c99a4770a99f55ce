"""Where an item stands, from all of its records: a function of the whole history, never of the last entry.

A hold to look again closes when the observation is made. A hold to refer and a removal stay open until a
competent person's release names them; a removal also wants the mending its rule asks for on record, and one
that nothing mends is never released. What only an examination closes is closed by no signature: so it is with what
shared the load of an incident, and with a splice made anew. An acceptance closes the holds it names and leaves a watch;
a watch that rests on an acceptance which no longer counts is the hold it was. A release may set a date to look again
by, which never puts off another date. Condemned is final.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from inspection_rules.events import Acceptance, Decision, Incident, Placed, WorkDone
from inspection_rules.fields import Model, Text
from inspection_rules.history import (
    INCIDENT,
    NEW_SPLICE,
    Accepted,
    History,
    ItemRecord,
    Judged,
    Open,
    Released,
    looked_at,
    may_accept,
    order_of,
    releasable,
    shared,
    take_acceptance,
    take_decision,
    take_inspection,
    take_work,
)
from inspection_rules.item import Item
from inspection_rules.words import Answer, Door, State, Where, worst


class Standing(Model):
    """Where an item stands on a date.

    Attributes:
        answer, door: the worst of what is open, of the latest inspection and of being overdue.
        open: every hold and removal still open, worst first, then oldest first.
        accepted: the accepted conditions in force on that date, in the order of part and rule.
        released: what was released until a date and nobody competent has looked at since, in the same order.
        latest: id of the latest inspection; empty when there is none.
        due: the last day before it is overdue: the examination's, or that of a watch or a release that nobody has
            looked at again.
        next_due: the same; None while the item is not to be used.
        where: where it is, by whichever is later: what was said of it, or an inspection, which found it here.
        where_note, where_on: what was said of the place, and the local date since when; none while it is here.
    """

    state: State
    answer: Answer
    door: Door | None = None
    open: tuple[Open, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    released: tuple[Released, ...] = ()
    latest: Text = ""
    latest_on: date | None = None
    due: date | None = None
    next_due: date | None = None
    overdue: bool = False
    where: Where = Where.HERE
    where_note: Text = ""
    where_on: date | None = None
    sentence: Text


def standing(item: Item, records: Iterable[ItemRecord], on: date) -> Standing:
    """Return where `item` stands on a local date, from all its records in any order.

    Records of other items and records later than `on` are left out.
    """
    return _sum_up(_gathered(item, records, on), on)


def may_be_released(item: Item, records: Iterable[ItemRecord], on: date) -> tuple[Open, ...]:
    """Return which of an item's open holds and removals a competent person's release may close on a local date.

    The others want something else first: a look, an examination, work on record; or nothing brings the item back.
    """
    return tuple(releasable(_gathered(item, records, on)))


def _gathered(item: Item, records: Iterable[ItemRecord], on: date) -> History:
    history = History()
    for record in sorted(_of(item, records, on), key=order_of):
        if isinstance(record, Judged):
            take_inspection(history, record)
        elif isinstance(record, WorkDone):
            take_work(history, record)
        elif isinstance(record, Decision):
            take_decision(history, record)
        elif isinstance(record, Acceptance):
            take_acceptance(history, record)
        elif isinstance(record, Incident):
            history.open.setdefault((INCIDENT, ""), []).append(shared(record))
        elif isinstance(record, Placed):
            history.placed = record
        else:
            history.disposed = True
    return history


def _sum_up(history: History, on: date) -> Standing:
    entries = sorted(
        (one for several in history.open.values() for one in several),
        key=lambda one: (-one.ruling.answer.severity, one.on, one.ruling.rule, one.ruling.part),
    )
    latest = history.judged[-1] if history.judged else None
    head = {
        "open": tuple(entries),
        "accepted": tuple(one for _, one in sorted(history.accepted.items(), key=_by_part) if one.until >= on),
        "released": tuple(sorted(history.released.values(), key=lambda one: (one.part, one.rule, one.observation))),
        "latest": latest.inspection.id if latest else "",
        "latest_on": latest.inspection.on if latest else None,
        **_whereabouts(history.placed),
    }
    if history.condemned or history.disposed:
        state = State.DISPOSED if history.disposed else State.CONDEMNED
        return Standing(
            state=state, answer=Answer.REMOVE, sentence=f"{state.value.capitalize()}; never used again.", **head
        )
    if latest is None:
        return Standing(
            state=State.QUARANTINED,
            answer=Answer.HOLD,
            door=Door.REFER,
            sentence="No inspection is on record; a competent person records it as made or as found.",
            **head,
        )
    due = _due(history)
    overdue = due is not None and on > due
    answers = [one.ruling.answer for one in entries]
    if overdue:
        answers.append(Answer.HOLD)
    if history.watched or history.released:
        answers.append(Answer.WATCH)
    answer = worst(answers)
    if answer is Answer.HOLD:
        refer = overdue or any(one.ruling.door is Door.REFER for one in entries)
        door = Door.REFER if refer else Door.LOOK_AGAIN
    else:
        door = None
    stopped = answer in (Answer.HOLD, Answer.REMOVE)
    return Standing(
        state=State.QUARANTINED if stopped else State.IN_SERVICE,
        answer=answer,
        door=door,
        due=due,
        next_due=None if stopped else due,
        overdue=overdue,
        sentence=_sentence(entries, answer, due, overdue, any(one.until == due for one in history.released.values())),
        **head,
    )


def _whereabouts(placed: Placed | None) -> dict[str, Any]:
    if placed is None or placed.where is Where.HERE:
        return {}
    return {"where": placed.where, "where_note": placed.note, "where_on": placed.on}


def _due(history: History) -> date | None:
    """The soonest of the examination that is due, and of what nobody has looked at again: watches and releases."""
    days = [history.judged[-1].judgement.examination_due, *history.watched.values()]
    days += [one.until for one in history.released.values()]
    return min((day for day in days if day is not None), default=None)


def _sentence(entries: Sequence[Open], answer: Answer, due: date | None, overdue: bool, released: bool) -> str:
    if entries:
        return entries[0].ruling.sentence
    if overdue and due is not None:
        if released:
            return f"It was released until {due.isoformat()}, and no competent person has looked there again."
        return f"The inspection due by {due.isoformat()} has not been made."
    if due is None:
        return "Use it; inspect before each use."
    if released:
        return f"Use it. It was released until {due.isoformat()}; a competent person looks there again by then."
    word = "Look again" if answer is Answer.WATCH else "Next inspection"
    return f"Use it. {word} by {due.isoformat()}."


def _of(item: Item, records: Iterable[ItemRecord], on: date) -> Iterable[ItemRecord]:
    for record in records:
        if isinstance(record, Incident):
            about = record.items
        else:
            about = (record.inspection.item if isinstance(record, Judged) else record.item,)
        if item.id in about and _day(record) <= on:
            yield record


def _day(record: ItemRecord) -> date:
    return record.inspection.on if isinstance(record, Judged) else record.on


def _by_part(entry: tuple[tuple[str, str], Accepted]) -> tuple[str, str]:
    rule, part = entry[0]
    return part, rule


__all__ = [
    "INCIDENT",
    "NEW_SPLICE",
    "Accepted",
    "ItemRecord",
    "Judged",
    "Open",
    "Released",
    "Standing",
    "looked_at",
    "may_accept",
    "may_be_released",
    "standing",
]
