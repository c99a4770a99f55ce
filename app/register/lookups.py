"""Questions about many inspections at once: a reading over time, what is open, what a rule has judged."""

from dataclasses import dataclass
from datetime import date
from itertools import groupby
from statistics import fmean

from sqlmodel import Session, col, select

from app.register.tables import Listed, ListedReading, ListedRuling, OpenRuling, Record
from inspection_rules.words import Answer, Door, Moisture, Scope, State, Tension


@dataclass(frozen=True, slots=True)
class Point:
    """One reading of one inspection, to be drawn and shown; nothing is judged by it.

    Attributes:
        on: local date.
        mean: of the values, in `unit`.
        values: as written, in the order they were read.
        tension, moisture: readings compare only in the same state.
    """

    on: date
    inspection: str
    mean: float
    unit: str
    values: tuple[str, ...]
    tension: Tension
    moisture: Moisture


@dataclass(frozen=True, slots=True)
class OpenRow:
    """A hold or removal that nothing has closed yet.

    Attributes:
        item: its id.
        inspection, on: the inspection it comes from, and its local date.
        part: id of the part; empty for the item.
        mends: what may bring the item back, in words.
    """

    item: str
    tag: str
    place: str
    inspection: str
    on: date
    rule: str
    pack: str
    part: str
    answer: Answer
    door: Door | None
    sentence: str
    mends: str


@dataclass(frozen=True, slots=True)
class RuledRow:
    """What one rule said about one part at one inspection.

    Attributes:
        item: its id.
        part: id of the part; empty for the item.
        value, limit, u: decimal texts in `unit`; None where the rule has no number.
    """

    item: str
    tag: str
    inspection: str
    on: date
    pack: str
    part: str
    scope: Scope
    answer: Answer
    door: Door | None
    value: str | None
    limit: str | None
    u: str | None
    unit: str
    sentence: str


def series(session: Session, item_id: str, part: str, observation: str) -> list[Point]:
    """Return a reading at every inspection that counts, oldest first."""
    query = select(ListedReading).where(
        ListedReading.item == item_id, ListedReading.part == part, ListedReading.observation == observation
    )
    rows = sorted(session.exec(query), key=lambda one: (one.at, one.inspection, one.unit, one.position))
    points = []
    # One reading has one unit, but for days beside months, which no mean can join.
    for _, several in groupby(rows, key=lambda one: (one.inspection, one.unit)):
        values = list(several)
        first = values[0]
        points.append(
            Point(
                first.on, first.inspection, fmean(one.value for one in values), first.unit,
                tuple(one.text for one in values), Tension(first.tension), Moisture(first.moisture),
            )
        )  # fmt: skip
    return points


def tags(session: Session) -> list[tuple[str, str]]:
    """Return place and tag of every item, in the order of their tags."""
    query = select(Listed.place, Listed.tag).order_by(col(Listed.order_key), col(Listed.id))
    return [(place, tag) for place, tag in session.exec(query)]


def decided(session: Session, since: str) -> list[str]:
    """Return the ids of the items that somebody decided about since a time, in the log's own writing of it."""
    query = select(Record.item).where(col(Record.kind).in_(("decision", "accepted condition")), Record.at >= since)
    return list(session.exec(query.distinct()))


def open_rulings(session: Session, answer: Answer | None) -> list[OpenRow]:
    """Return what is open on items not disposed of, worst first, then oldest first."""
    query = select(OpenRuling, Listed).where(Listed.id == OpenRuling.item, Listed.state != State.DISPOSED.value)
    if answer is not None:
        query = query.where(OpenRuling.answer == answer.value)
    query = query.order_by(col(OpenRuling.on), col(Listed.order_key), col(Listed.id), col(OpenRuling.position))
    rows = [
        OpenRow(
            one.item, listed.tag, listed.place, one.inspection, one.on, one.rule, one.pack, one.part,
            Answer(one.answer), Door(one.door) if one.door else None, one.sentence, one.mends,
        )
        for one, listed in session.exec(query)
    ]  # fmt: skip
    return sorted(rows, key=lambda row: -row.answer.severity)


def ruled_by(session: Session, rule: str) -> list[RuledRow]:
    """Return every ruling of a rule at the inspections that count, by tag, then oldest first."""
    query = select(ListedRuling, Listed.tag).where(ListedRuling.rule == rule, Listed.id == ListedRuling.item)
    query = query.order_by(
        col(Listed.order_key), col(Listed.id), col(ListedRuling.at), col(ListedRuling.inspection),
        col(ListedRuling.position),
    )  # fmt: skip
    return [
        RuledRow(
            one.item, tag, one.inspection, one.on, one.pack, one.part, Scope(one.scope), Answer(one.answer),
            Door(one.door) if one.door else None, one.value, one.limit, one.u, one.unit, one.sentence,
        )
        for one, tag in session.exec(query)
    ]  # fmt: skip
