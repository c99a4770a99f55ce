"""Where an item stands, from all of its records: a function of the whole history, never of the last entry.

A hold to look again closes when the observation is made. A hold to refer and a removal stay open until a
competent person's release names them; a removal also wants the mending its rule asks for on record, and one
that nothing mends is never released. Condemned is final.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from inspection_rules.fields import Model, Moment, Name, Text
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.record import Decision, Disposal, Inspection, Item, WorkDone
from inspection_rules.words import (
    COMPETENT,
    Answer,
    Competence,
    DecisionKind,
    Door,
    InspectionKind,
    Mend,
    Scope,
    Seen,
    State,
    worst,
)

EXAMINATIONS = frozenset({InspectionKind.AS_FOUND, InspectionKind.PERIODIC, InspectionKind.AFTER_INCIDENT})
WORK_MENDS = frozenset({Mend.RE_IDENTIFY, Mend.RE_SPLICE, Mend.RE_STITCH, Mend.REPLACE_FITTING, Mend.REPAIR_AND_PROOF})


class Judged(Model):
    """An inspection with the judgement that was made of it then."""

    inspection: Inspection
    judgement: Judgement


ItemRecord = Judged | WorkDone | Decision | Disposal


class Open(Model):
    """A hold or removal that nothing has closed yet.

    Attributes:
        competence: rank of whoever looked, in the order of `Competence`; a doubt that a competent person left is
            not cleared by a user's look.
    """

    inspection: Name
    on: date
    at: Moment
    competence: int = 0
    ruling: Ruling


class Standing(Model):
    """Where an item stands on a date.

    Attributes:
        answer, door: the worst of what is open, of the latest inspection and of being overdue.
        open: every hold and removal still open, worst first, then oldest first.
        latest: id of the latest inspection; empty when there is none.
        due: the last day before it is overdue: the examination's, or a watch's that nobody has looked at again.
        next_due: the same; None while the item is not to be used.
    """

    state: State
    answer: Answer
    door: Door | None = None
    open: tuple[Open, ...] = ()
    latest: Text = ""
    latest_on: date | None = None
    due: date | None = None
    next_due: date | None = None
    overdue: bool = False
    sentence: Text


@dataclass
class _History:
    """What has been gathered while reading the records from the oldest to the newest."""

    open: dict[tuple[str, str], list[Open]] = field(default_factory=dict)
    watched: dict[tuple[str, str, str], date | None] = field(default_factory=dict)
    work: list[WorkDone] = field(default_factory=list)
    judged: list[Judged] = field(default_factory=list)
    condemned: bool = False
    disposed: bool = False


def standing(item: Item, records: Iterable[ItemRecord], on: date) -> Standing:
    """Return where `item` stands on a local date, from all its records in any order.

    Records of other items and records later than `on` are left out.
    """
    history = _History()
    for record in sorted(_of(item, records, on), key=_order):
        if isinstance(record, Judged):
            _take_inspection(history, record)
        elif isinstance(record, WorkDone):
            history.work.append(record)
        elif isinstance(record, Decision):
            _take_decision(history, record)
        else:
            history.disposed = True
    return _sum_up(history, on)


def _take_inspection(history: _History, judged: Judged) -> None:
    history.judged.append(judged)
    firing = {
        (ruling.pack, ruling.rule, ruling.part, ruling.observation): ruling
        for ruling in judged.judgement.rulings
        if ruling.scope is Scope.ITEM and ruling.answer in (Answer.HOLD, Answer.REMOVE)
    }
    for key in list(history.open):
        still = [one for one in history.open[key] if not _closed_by(one, judged, firing)]
        if still:
            history.open[key] = still
        else:
            del history.open[key]
    for watch in list(history.watched):
        if _looked_at(watch, judged):
            del history.watched[watch]
    for ruling in judged.judgement.rulings:
        if ruling.scope is Scope.ITEM and ruling.answer is Answer.WATCH:
            until = ruling.look_again or judged.judgement.next_due
            history.watched[ruling.rule, ruling.part, ruling.observation] = until
    for ruling in firing.values():
        entry = Open(
            inspection=judged.inspection.id,
            on=judged.inspection.on,
            at=judged.inspection.at,
            competence=_rank(judged.inspection),
            ruling=ruling,
        )
        history.open.setdefault((ruling.rule, ruling.part), []).append(entry)


def _rank(inspection: Inspection) -> int:
    return list(Competence).index(inspection.by.competence)


def _closed_by(one: Open, judged: Judged, firing: dict[tuple[str, str, str, str], Ruling]) -> bool:
    ruling = one.ruling
    if ruling.answer is Answer.REMOVE or (ruling.pack, ruling.rule, ruling.part, ruling.observation) in firing:
        return False
    inspection = judged.inspection
    if ruling.mends is Mend.EXAMINE:
        kinds = ruling.closed_by or EXAMINATIONS
        return inspection.kind in kinds and inspection.by.competence in COMPETENT
    if ruling.door is not Door.LOOK_AGAIN:
        return False
    if _rank(inspection) < one.competence:
        return False
    return _looked_at((ruling.rule, ruling.part, ruling.observation), judged)


def _looked_at(key: tuple[str, str, str], judged: Judged) -> bool:
    """Whether an inspection made the observation that a ruling stands on, or was judged by the same rule again."""
    rule, part, observation = key
    if any((ruling.rule, ruling.part) == (rule, part) for ruling in judged.judgement.rulings):
        return True
    finding = judged.inspection.finding(part, observation)
    looked = finding is not None and finding.seen is not Seen.NOT_EXAMINED
    return looked or judged.inspection.reading(part, observation) is not None


def _take_decision(history: _History, decision: Decision) -> None:
    if decision.kind is DecisionKind.CONDEMN:
        history.condemned = True
        return
    dates = {judged.inspection.id: _order(judged) for judged in history.judged}
    for reference in decision.examined:
        key = (reference.rule, reference.part)
        if reference.inspection not in dates:
            continue
        still = [
            one
            for one in history.open.get(key, [])
            if dates[one.inspection] > dates[reference.inspection] or not _may_release(one, history)
        ]
        if still:
            history.open[key] = still
        else:
            history.open.pop(key, None)


def _may_release(one: Open, history: _History) -> bool:
    ruling = one.ruling
    if ruling.door is Door.LOOK_AGAIN:
        return False  # what was not seen is not passed by a signature: it closes by being looked at
    if ruling.mends is Mend.LOOK or (ruling.answer is Answer.HOLD and ruling.mends not in WORK_MENDS):
        return True
    if ruling.mends not in WORK_MENDS:
        return False
    done = [w for w in history.work if w.mends is ruling.mends and w.part == ruling.part and w.at >= one.at]
    if not done:
        return False
    if ruling.mends is not Mend.RE_SPLICE:
        return True
    # A re-spliced termination is a new part: it comes back with an as-made record of its own.
    return any(
        judged.inspection.kind is InspectionKind.AS_MADE
        and judged.inspection.at >= done[0].at
        and judged.inspection.by.competence in COMPETENT
        and any(entry.part == ruling.part for entry in judged.inspection.entries)
        for judged in history.judged
    )


def _sum_up(history: _History, on: date) -> Standing:
    entries = sorted(
        (one for several in history.open.values() for one in several),
        key=lambda one: (-one.ruling.answer.severity, one.on, one.ruling.rule, one.ruling.part),
    )
    latest = history.judged[-1] if history.judged else None
    head = {
        "open": tuple(entries),
        "latest": latest.inspection.id if latest else "",
        "latest_on": latest.inspection.on if latest else None,
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
    if history.watched:
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
        sentence=_sentence(entries, answer, due, overdue),
        **head,
    )


def _due(history: _History) -> date | None:
    """The soonest of the examination that is due and the watches nobody has looked at again."""
    days = [history.judged[-1].judgement.examination_due, *history.watched.values()]
    return min((day for day in days if day is not None), default=None)


def _sentence(entries: Sequence[Open], answer: Answer, due: date | None, overdue: bool) -> str:
    if entries:
        return entries[0].ruling.sentence
    if overdue and due is not None:
        return f"The inspection due by {due.isoformat()} has not been made."
    if due is None:
        return "Use it; inspect before each use."
    word = "Look again" if answer is Answer.WATCH else "Next inspection"
    return f"Use it. {word} by {due.isoformat()}."


def _of(item: Item, records: Iterable[ItemRecord], on: date) -> Iterable[ItemRecord]:
    for record in records:
        owner = record.inspection.item if isinstance(record, Judged) else record.item
        if owner == item.id and _day(record) <= on:
            yield record


def _day(record: ItemRecord) -> date:
    return record.inspection.on if isinstance(record, Judged) else record.on


def _order(record: ItemRecord) -> tuple[datetime, str]:
    one = record.inspection if isinstance(record, Judged) else record
    return one.at, one.id
