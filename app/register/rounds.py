"""Rounds: the set of items looked at together, the one under way, and those that were signed.

A round is a record of its own in the log. It is about no single item, so it stands there under `NO_ITEM` and changes
nothing that is projected of an item; what was seen of each item is in the inspections it names.
"""

import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from pydantic import ValidationError
from sqlalchemy import ColumnElement, Connection, case, func, insert
from sqlalchemy import select as core_select
from sqlmodel import Session, col, select

from app.register import drafts, effect, log, rows, settings
from app.register.bodies import NO_ITEM, RoundMade, write
from app.register.errors import RegisterError
from app.register.keys import new_id
from app.register.rows import ItemRow
from app.register.tables import KeptDraft, Listed, Record, table
from inspection_rules.events import Placed
from inspection_rules.fields import Model, Name, Text
from inspection_rules.rounds import COUNTING, MOST_ITEMS, Round, RoundSummary, sum_up
from inspection_rules.rounds import Whereabouts as Found
from inspection_rules.standing import Judged, Standing
from inspection_rules.words import Answer, State, Where

WHERE = {Found.NOT_FOUND: Where.NOT_FOUND, Found.ASHORE: Where.ASHORE, Found.ON_LOAN: Where.ON_LOAN}
_AT_ONCE = 500
_READ_AT_ONCE = 20


@dataclass(frozen=True, slots=True)
class RoundDraft:
    """A round under way.

    Attributes:
        made: what was said so far; its `at` is when it was begun.
        hands: id of the item the hands are at; empty before the first.
        taken: ids of inspections that were counted once, so that what was said after them stands.
        own_use: ids of those that were told another use than the round when they were counted: both count.
    """

    made: Round
    hands: str = ""
    taken: tuple[str, ...] = ()
    own_use: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SignedRound:
    """A round in the log, with the answer it was signed with.

    Attributes:
        regimes: those that counted then.
        device, seal: who wrote the record, and its seal.
    """

    made: Round
    summary: RoundSummary
    regimes: tuple[str, ...]
    device: str
    seal: str


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """A place with how many items lie there, and how many of them are stopped, overdue or due within 14 days.

    Attributes:
        removed: how many of those that are stopped are to be removed. watched: how many are to be watched.
    """

    place: str
    items: int
    stopped: int
    overdue: int
    due: int
    removed: int
    watched: int


class _Body(Model):
    version: Literal[1] = 1
    made: Round
    hands: Text = ""
    taken: tuple[Name, ...] = ()
    own_use: tuple[Name, ...] = ()


# --- what lies at a place -----------------------------------------------------------------------------------


def places(session: Session, on: date) -> list[PlaceRow]:
    """Return every place that has items which are not disposed of, the one with the most items first."""
    late = col(Listed.due) < on
    stopped = col(Listed.answer).in_([one.value for one in rows.STOPPED])
    removed, watched = (col(Listed.answer) == one.value for one in (Answer.REMOVE, Answer.WATCH))
    soon = col(Listed.next_due).between(on, on + rows.SOON)

    def count(which: ColumnElement[bool]) -> ColumnElement[int]:
        return func.sum(case((which, 1), else_=0))

    query = (
        core_select(
            col(Listed.place),
            func.count(),
            count(stopped),
            count(late & ~stopped),
            count(soon),
            count(removed),
            count(watched),
        )
        .where(col(Listed.place) != "", col(Listed.state) != State.DISPOSED.value)
        .group_by(col(Listed.place))
        .order_by(func.count().desc(), col(Listed.place))
    )
    return [PlaceRow(*one) for one in session.connection().execute(query)]


def walking_order(session: Session, place: str) -> tuple[str, ...]:
    """Return the ids of a place's items in the order they are walked: as a person set it, the others by their tags.

    What is disposed of is left out.
    """
    query = select(Listed.id).where(col(Listed.place) == place, col(Listed.state) != State.DISPOSED.value)
    there = session.exec(query.order_by(col(Listed.order_key), col(Listed.id)).limit(MOST_ITEMS)).all()
    known = set(there)
    first = [one for one in settings.walking_order(session.connection(), place) if one in known]
    return tuple(dict.fromkeys((*first, *there)))


def rows_of(session: Session, items: Sequence[str], on: date, stand: rows.Stand) -> dict[str, ItemRow]:
    """Return the rows of some items by their ids; one that is not in the register is left out."""
    return {one.id: rows.row(one, on, stand) for one in _listed(session, items)}


def summary(session: Session, made: Round, stand: rows.Stand) -> RoundSummary:
    """Return a round's answer as the register stands on the round's day."""
    listed = {one.id: one for one in _listed(session, made.items)}
    return sum_up(made, listed, {one: _standing(row, made.on, stand) for one, row in listed.items()})


def looks(connection: Connection, items: Iterable[str], since: date, known: log.Known) -> list[Judged]:
    """Return the inspections of some items since a local date that may answer for them in a round, oldest first."""
    session = Session(connection)
    seen = {one.id for one in _listed(session, list(items)) if one.last_inspected and one.last_inspected >= since}
    found = [
        judged
        for item in sorted(seen)
        for judged in effect.inspected(log.entries(connection, item, known)).values()
        if judged.inspection.kind in COUNTING and judged.inspection.on >= since
    ]
    return sorted(found, key=lambda one: one.inspection.at)


def _listed(session: Session, items: Sequence[str]) -> list[Listed]:
    found: list[Listed] = []
    for first in range(0, len(items), _AT_ONCE):
        found += session.exec(select(Listed).where(col(Listed.id).in_(items[first : first + _AT_ONCE])))
    return found


def _standing(listed: Listed, on: date, stand: rows.Stand) -> Standing:
    if on < listed.last_day:
        return stand(listed.id, on)
    row = rows.row(listed, on, stand)
    return Standing(
        state=State(listed.state), answer=row.answer, door=row.door, sentence=row.sentence,
        latest_on=row.last_inspected, overdue=row.overdue, where=row.whereabouts,
    )  # fmt: skip


# --- under way ----------------------------------------------------------------------------------------------


def save(connection: Connection, draft: RoundDraft) -> None:
    """Keep a round under way in place of what was kept of it before, in the caller's transaction."""
    body = write(_Body(made=draft.made, hands=draft.hands, taken=draft.taken, own_use=draft.own_use))
    drafts.discard(connection, draft.made.id)
    values = {"id": draft.made.id, "item": NO_ITEM, "kind": drafts.ROUND, "touched": time.time_ns(), "body": body}
    connection.execute(insert(table("draft")), values)


def under_way(session: Session) -> RoundDraft | None:
    """Return the round under way that was touched last; None when there is none."""
    query = select(KeptDraft).where(KeptDraft.kind == drafts.ROUND).order_by(col(KeptDraft.touched).desc())
    kept = session.exec(query.limit(1)).first()
    if kept is None:
        return None
    try:
        body = _Body.model_validate_json(kept.body)
    except ValidationError:
        raise RegisterError(
            f"the unfinished round {kept.id} cannot be read by this version. It was kept. Update this program, or "
            "discard that round and make it again."
        ) from None
    return RoundDraft(body.made, body.hands, body.taken, body.own_use)


# --- signed -------------------------------------------------------------------------------------------------


def check(connection: Connection, made: Round, known: log.Known) -> None:
    """Check that a round may be logged: the register has its items, and every inspection it names counts.

    Raises:
        RegisterError: it has not.
    """
    for item in made.items:
        if not log.knows(connection, item):
            raise log.no_item(item)
    for entry in made.entries:
        if entry.inspection and entry.inspection not in effect.inspected(log.entries(connection, entry.item, known)):
            raise RegisterError(
                f"the round names inspection {entry.inspection} of item {entry.item}, which is not in this register or "
                "was corrected since. The round was not logged; all inspections were kept. Look at that item again."
            )


def placed(session: Session, made: Round) -> list[Placed]:
    """Return the records of where items are that a round adds: of those it says something new of."""
    listed = {one.id: one for one in _listed(session, made.items)}
    return [
        Placed(
            id=new_id(), item=one.item, at=made.at, utc_offset_minutes=made.utc_offset_minutes, by=made.by,
            where=WHERE[one.whereabouts], note=one.note,
        )
        for one in made.entries
        if one.whereabouts in WHERE and listed[one.item].whereabouts != WHERE[one.whereabouts].value
    ]  # fmt: skip


def signed(session: Session, place: str, limit: int) -> list[SignedRound]:
    """Return the rounds in the log, the newest first; one that cannot be read is left out, and `verify` tells."""
    query = select(Record).where(Record.item == NO_ITEM)
    query = query.order_by(col(Record.at).desc(), col(Record.device).desc(), col(Record.seq).desc())
    found: list[SignedRound] = []
    for record in session.exec(query.execution_options(yield_per=_READ_AT_ONCE)):
        one = _signed(record)
        if one is not None and place in ("", one.made.place):
            found.append(one)
            if len(found) == limit:
                break
    return found


def one(session: Session, round_id: str) -> SignedRound:
    """Return one round from the log.

    Raises:
        RegisterError: there is no such round, or it cannot be read.
    """
    record = session.get(Record, round_id)
    if record is None or record.item != NO_ITEM:
        raise RegisterError(f"there is no round {round_id} in this register. Check its id.")
    entry = log.opened(record)
    if not isinstance(entry.body, RoundMade):
        raise RegisterError(f"round {round_id} cannot be read: {entry.fault}. Check the register.")
    return SignedRound(entry.body.made, entry.body.summary, entry.body.regimes, record.device, record.seal)


def _signed(record: Record) -> SignedRound | None:
    opened = log.opened(record).body
    if not isinstance(opened, RoundMade):
        return None
    return SignedRound(opened.made, opened.summary, opened.regimes, record.device, record.seal)
