"""The item list: one row for each item, found by its words, and what today asks for."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import ColumnElement, and_, exists, func, not_, or_, tuple_
from sqlmodel import Session, col, select

from app.register.tables import Listed, ListedWord
from app.register.words import order_key, words
from inspection_rules.words import Answer, Door, State

SOON = timedelta(days=14)
# A word that more items have than this is looked up item by item in the list's order instead.
_RARE = 1000
_AFTER_EVERY_LETTER = "\U0010ffff"


@dataclass(frozen=True, slots=True)
class ItemRow:
    """One item as the list shows it on a local date.

    Attributes:
        kind, duty: their words; empty for an item that cannot be read.
        next_due: None while the item is not to be used.
        thumbnail: hash of a picture of the latest inspection that has one.
    """

    id: str
    tag: str
    description: str
    place: str
    kind: str
    duty: str
    answer: Answer
    door: Door | None
    next_due: date | None
    overdue: bool
    sentence: str
    last_inspected: date | None
    thumbnail: str | None


@dataclass(frozen=True, slots=True)
class Today:
    """What a date asks for; each item is in one list at most, and disposed items are in none.

    Attributes:
        due: in use, and the next inspection is within 14 days.
        overdue: nothing but the missed inspection stops it.
        held: a hold is open; it may be overdue as well.
        removed: out of service.
    """

    due: list[ItemRow]
    overdue: list[ItemRow]
    held: list[ItemRow]
    removed: list[ItemRow]


def find(session: Session, text: str, on: date, limit: int, after: ItemRow | None) -> list[ItemRow]:
    """Return items that have a word beginning with each word of `text`, in the order of their tags."""
    wanted = words(text)
    if text.strip() and not wanted:
        return []
    counts = {word: _count(session, word) for word in wanted}
    rare = [word for word in wanted if counts[word] < _RARE]
    query = select(Listed).where(*(_has(word) for word in wanted))
    if rare:
        ids = _ids(session, min(rare, key=counts.__getitem__))
        # Few enough to sort here: the database might walk the whole list for its order instead.
        found = sorted(session.exec(query.where(col(Listed.id).in_(ids))), key=lambda one: (one.order_key, one.id))
        if after:
            found = [one for one in found if (one.order_key, one.id) > (order_key(after.tag), after.id)]
        return [row(one, on) for one in found[:limit]]
    if after:
        query = query.where(tuple_(col(Listed.order_key), col(Listed.id)) > tuple_(order_key(after.tag), after.id))
    query = query.order_by(col(Listed.order_key), col(Listed.id)).limit(limit)
    return [row(one, on) for one in session.exec(query)]


def today(session: Session, on: date) -> Today:
    """Return what a local date asks for."""
    answer, due = col(Listed.answer), col(Listed.due)
    removed = and_(answer == Answer.REMOVE.value, col(Listed.state) != State.DISPOSED.value)
    late = and_(due < on, col(Listed.open_holds) == 0, answer != Answer.REMOVE.value)
    held = and_(answer == Answer.HOLD.value, or_(due.is_(None), not_(late)))
    usable = answer.in_([Answer.SERVICEABLE.value, Answer.WATCH.value])
    soon = and_(usable, due >= on, due <= on + SOON)
    lists = [_rows(session, where, on) for where in (soon, late, held, removed)]
    return Today(*lists)


def row(listed: Listed, on: date) -> ItemRow:
    """Return an item's row on a local date that is not before its latest record."""
    late = listed.due is not None and on > listed.due
    door = listed.late_door if late else listed.door
    return ItemRow(
        id=listed.id,
        tag=listed.tag,
        description=listed.description,
        place=listed.place,
        kind=listed.kind,
        duty=listed.duty,
        answer=Answer(listed.late_answer if late else listed.answer),
        door=Door(door) if door else None,
        next_due=None if late else listed.next_due,
        overdue=late,
        sentence=listed.late_sentence if late else listed.sentence,
        last_inspected=listed.last_inspected,
        thumbnail=listed.thumbnail,
    )


def _rows(session: Session, where: ColumnElement[bool], on: date) -> list[ItemRow]:
    query = select(Listed).where(where).order_by(col(Listed.due), col(Listed.order_key), col(Listed.id))
    return [row(one, on) for one in session.exec(query)]


def _begins(word: str) -> ColumnElement[bool]:
    column = col(ListedWord.word)
    return and_(column >= word, column < word + _AFTER_EVERY_LETTER)


def _has(word: str) -> ColumnElement[bool]:
    return exists().where(col(ListedWord.item) == col(Listed.id), _begins(word))


def _count(session: Session, word: str) -> int:
    first = select(ListedWord.item).where(_begins(word)).limit(_RARE).subquery()
    return session.exec(select(func.count()).select_from(first)).one()


def _ids(session: Session, word: str) -> Sequence[str]:
    return session.exec(select(ListedWord.item).where(_begins(word)).distinct()).all()
