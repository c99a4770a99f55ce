"""What an item's records open and close, one after the other: holds and removals, watches, accepted conditions."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime

from inspection_rules.due import after
from inspection_rules.events import Acceptance, Decision, Disposal, Incident, Placed, Reference, WorkDone
from inspection_rules.fields import Day, Hash, Model, Moment, Name, Text
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.mending import WORK_MENDS
from inspection_rules.record import Inspection
from inspection_rules.rule import PRACTICE
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
)

EXAMINATIONS = frozenset({InspectionKind.AS_FOUND, InspectionKind.PERIODIC, InspectionKind.AFTER_INCIDENT})
INCIDENT = "incident"
NEW_SPLICE = "new-splice"


class Judged(Model):
    """An inspection with the judgement that was made of it then."""

    inspection: Inspection
    judgement: Judgement


ItemRecord = Judged | WorkDone | Decision | Disposal | Acceptance | Incident | Placed


class Open(Model):
    """A hold or removal that nothing has closed yet.

    Attributes:
        inspection: id of the inspection it comes from, of the incident, or of the re-splicing.
        competence: rank of whoever looked, in the order of `Competence`; a doubt that a competent person left is
            not cleared by a user's look.
    """

    inspection: Name
    on: date
    at: Moment
    competence: int = 0
    ruling: Ruling


class Accepted(Model):
    """A condition that a competent person accepted and that may be no bigger now.

    Attributes:
        acceptance: id of the acceptance; a finding names it when it is no bigger.
        observation: where it is looked at; empty for an age or for what the record lacks.
        extent: how big it was when it was accepted.
        until: the last local day it is accepted for.
    """

    acceptance: Name
    rule: Name
    part: Text = ""
    observation: Text = ""
    title: Name
    extent: Text
    by: Name
    on: Day
    until: Day
    pictures: tuple[Hash, ...] = ()


class Released(Model):
    """What a competent person released until a date, and where somebody competent looks again by then.

    Attributes:
        decision: id of the release. title: of the rule that had stopped the item.
        until: the last local day it is released for.
    """

    decision: Name
    rule: Name
    part: Text = ""
    observation: Text = ""
    title: Name
    until: Day


@dataclass
class History:
    """What has been gathered while reading the records from the oldest to the newest.

    Attributes:
        watched: by rule, part and observation, until when somebody looks there again.
        released: the same for what a release set a date for: a competent person looks there again.
    """

    open: dict[tuple[str, str], list[Open]] = field(default_factory=dict)
    watched: dict[tuple[str, str, str], date | None] = field(default_factory=dict)
    released: dict[tuple[str, str, str], Released] = field(default_factory=dict)
    accepted: dict[tuple[str, str], Accepted] = field(default_factory=dict)
    work: list[WorkDone] = field(default_factory=list)
    judged: list[Judged] = field(default_factory=list)
    placed: Placed | None = None
    condemned: bool = False
    disposed: bool = False


def take_inspection(history: History, judged: Judged) -> None:
    """Close what this inspection closes, and open what was found at it."""
    history.judged.append(judged)
    history.placed = None  # whoever inspected it had it here
    said = [_as_it_counts(ruling, history) for ruling in judged.judgement.rulings]
    firing = {
        (ruling.pack, ruling.rule, ruling.part, ruling.observation): ruling
        for ruling in said
        if ruling.scope is Scope.ITEM and ruling.answer in (Answer.HOLD, Answer.REMOVE)
    }
    for key in list(history.open):
        still = [one for one in history.open[key] if not _closed_by(one, judged, firing)]
        if still:
            history.open[key] = still
        else:
            del history.open[key]
    for watch in list(history.watched):
        if looked_at(watch, judged):
            del history.watched[watch]
    if judged.inspection.by.competence in COMPETENT:
        for place in [place for place in history.released if looked_at(place, judged)]:
            del history.released[place]
    for key in [key for key in history.accepted if key[1] and key[1] in _made_anew(judged.inspection)]:
        del history.accepted[key]
    for ruling in said:
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
        if ruling.rule == NEW_SPLICE and ruling.part and ruling.part not in _made_anew(inspection):
            return False  # it is the record of another splice
        return inspection.kind in kinds and inspection.by.competence in COMPETENT and inspection.at > one.at
    if ruling.door is not Door.LOOK_AGAIN:
        return False
    if _rank(inspection) < one.competence:
        return False
    return looked_at((ruling.rule, ruling.part, ruling.observation), judged)


def looked_at(key: tuple[str, str, str], judged: Judged) -> bool:
    """Whether an inspection made the observation that a ruling stands on, or was judged by the same rule again.

    `key` is the ruling's rule, part and observation.
    """
    rule, part, observation = key
    if any((ruling.rule, ruling.part) == (rule, part) for ruling in judged.judgement.rulings):
        return True
    finding = judged.inspection.finding(part, observation)
    looked = finding is not None and finding.seen is not Seen.NOT_EXAMINED
    return looked or judged.inspection.reading(part, observation) is not None


def take_work(history: History, work: WorkDone) -> None:
    """Keep what was done; a new splice is held until a competent person has recorded it as made.

    What was read on the splice before it would otherwise be compared with the new one, and pass it unseen.
    """
    history.work.append(work)
    if work.mends is not Mend.RE_SPLICE:
        return
    history.open[NEW_SPLICE, work.part] = [
        Open(
            inspection=work.id,
            on=work.on,
            at=work.at,
            ruling=Ruling(
                rule=NEW_SPLICE,
                pack="common-practice",
                title="A new splice",
                part=work.part,
                answer=Answer.HOLD,
                door=Door.REFER,
                source=PRACTICE,
                sentence=f"It was re-spliced on {work.on}, and the new splice is not on record as made.",
                action="Do not use it; have a competent person record the new splice as made.",
                mends=Mend.EXAMINE,
                closed_by=(InspectionKind.AS_MADE,),
            ),
        )
    ]


def take_decision(history: History, decision: Decision) -> None:
    """Condemn, or close the holds and removals a release names, where they may be released."""
    if decision.kind is DecisionKind.CONDEMN:
        history.condemned = True
        return
    dates = {judged.inspection.id: order_of(judged) for judged in history.judged}
    for reference in decision.examined:
        key = (reference.rule, reference.part)
        if reference.inspection not in dates:
            continue
        latest = dates[reference.inspection]
        may = {id(one) for one in history.open.get(key, []) if _may_release(one, history)}
        closed = [one for one in history.open.get(key, []) if id(one) in may and (one.at, one.inspection) <= latest]
        _close(history, key, latest, may)
        for ruling in (one.ruling for one in closed):
            place = (ruling.rule, ruling.part, ruling.observation)
            history.released.pop(place, None)  # the newest release speaks
            if decision.until is not None:
                history.released[place] = Released(
                    decision=decision.id,
                    rule=ruling.rule,
                    part=ruling.part,
                    observation=ruling.observation,
                    title=ruling.title,
                    until=decision.until,
                )


def _close(history: History, key: tuple[str, str], latest: tuple[datetime, str], may: set[int]) -> None:
    """Close what was found up to an inspection and may be closed."""
    left = [one for one in history.open.get(key, []) if (one.at, one.inspection) > latest or id(one) not in may]
    if left:
        history.open[key] = left
    else:
        history.open.pop(key, None)


def may_accept(reference: Reference, judged: Iterable[Judged]) -> Ruling | None:
    """Return the hold a reference names, or the watch an acceptance made of it, where it may be accepted; else None."""
    named = (one for one in judged if one.inspection.id == reference.inspection)
    rulings = (ruling for one in named for ruling in one.judgement.rulings)
    wanted = (reference.rule, reference.part)
    return next((one for one in rulings if (one.rule, one.part) == wanted and one.if_accepted), None)


def take_acceptance(history: History, acceptance: Acceptance) -> None:
    """Close the holds an acceptance names, where they may be accepted, and watch them until its end."""
    dates = {judged.inspection.id: order_of(judged) for judged in history.judged}
    for reference in acceptance.examined:
        ruling = may_accept(reference, history.judged)
        if ruling is None:
            continue
        key = (reference.rule, reference.part)
        may = {id(one) for one in history.open.get(key, []) if one.ruling.if_accepted}
        _close(history, key, dates[reference.inspection], may)
        again = min(acceptance.until, after(acceptance.on, ruling.if_accepted))
        history.watched[ruling.rule, ruling.part, ruling.observation] = again
        history.accepted[key] = Accepted(
            acceptance=acceptance.id,
            rule=ruling.rule,
            part=ruling.part,
            observation=ruling.observation,
            title=ruling.title,
            extent=acceptance.extent,
            by=acceptance.by.name,
            on=acceptance.on,
            until=acceptance.until,
            pictures=acceptance.pictures,
        )


def _as_it_counts(ruling: Ruling, history: History) -> Ruling:
    """A watch that rests on an acceptance is a hold where that acceptance is not the one that counts on record."""
    if not ruling.accepted:
        return ruling
    counting = history.accepted.get((ruling.rule, ruling.part))
    if counting is not None and counting.acceptance == ruling.accepted:
        return ruling
    return ruling.model_copy(
        update={
            "answer": Answer.HOLD,
            "door": Door.REFER,
            "sentence": f"{ruling.sentence} That acceptance does not count on this record.",
            "action": "Do not use it; have a competent person examine it.",
            "look_again": None,
        }
    )


def _made_anew(inspection: Inspection) -> set[str]:
    """The parts an as-made record by a competent person speaks of."""
    made = inspection.kind is InspectionKind.AS_MADE and inspection.by.competence in COMPETENT
    return {entry.part for entry in inspection.entries} if made else set()


def shared(incident: Incident) -> Open:
    """The hold of everything that shared an incident's load, until each has been examined after it."""
    return Open(
        inspection=incident.id,
        on=incident.on,
        at=incident.at,
        competence=list(Competence).index(incident.by.competence),
        ruling=Ruling(
            rule=INCIDENT,
            pack="common-practice",
            title="Incident",
            answer=Answer.HOLD,
            door=Door.REFER,
            source=PRACTICE,
            sentence=f"It shared the load of an incident on {incident.on}: {incident.what}.",
            action="Do not use it, and keep it as it is; have a competent person examine it after the incident.",
            mends=Mend.EXAMINE,
            closed_by=(InspectionKind.AFTER_INCIDENT,),
        ),
    )


def releasable(history: History) -> list[Open]:
    """Return what a competent person's release may close now."""
    return [one for several in history.open.values() for one in several if _may_release(one, history)]


def _may_release(one: Open, history: History) -> bool:
    ruling = one.ruling
    if ruling.door is Door.LOOK_AGAIN:
        return False  # what was not seen is not passed by a signature: it closes by being looked at
    if ruling.mends is Mend.EXAMINE:
        return False  # nor is an examination that was not made
    if ruling.mends is Mend.LOOK or (ruling.answer is Answer.HOLD and ruling.mends not in WORK_MENDS):
        return True
    if ruling.mends not in WORK_MENDS:
        return False
    # One question goes through all fittings and is the item's: replacing any of its fittings may be its mending.
    anywhere = ruling.mends is Mend.REPLACE_FITTING and not ruling.part
    done = [
        w for w in history.work if w.mends is ruling.mends and (anywhere or w.part == ruling.part) and w.at >= one.at
    ]
    if not done:
        return False
    if ruling.mends is not Mend.RE_SPLICE:
        return True
    # A re-spliced termination is a new part: it comes back with an as-made record of its own.
    return any(
        judged.inspection.kind is InspectionKind.AS_MADE
        and judged.inspection.at >= done[-1].at
        and judged.inspection.by.competence in COMPETENT
        and any(entry.part == ruling.part for entry in judged.inspection.entries)
        for judged in history.judged
    )


def order_of(record: ItemRecord) -> tuple[datetime, str]:
    """Return what records are sorted by: when, then their id."""
    one = record.inspection if isinstance(record, Judged) else record
    return one.at, one.id
