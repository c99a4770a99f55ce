"""The item list: one row for each item, found by its words, and what today asks for."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from itertools import islice

from sqlalchemy import ColumnElement, and_, case, exists, func, or_, tuple_
from sqlalchemy.orm import Mapped
from sqlmodel import Session, col, select

from app.register.tables import Listed, ListedWord
from app.register.words import LONGEST, code, order_key, words
from inspection_rules.standing import Standing
from inspection_rules.words import Answer, Door, State, Where

SOON = timedelta(days=14)
# A word that more items have than this is looked up item by item in the list's order instead.
_RARE = 1000
_AFTER_EVERY_LETTER = "\U0010ffff"
# Where an item stands on a day, from its records.
Stand = Callable[[str, date], Standing]


@dataclass(frozen=True, slots=True)
class ItemRow:
    """One item as the list shows it on a local date.

    Attributes:
        kind, duty: their words; empty for an item that cannot be read.
        next_due: None while the item is not to be used.
        whereabouts: where it is; what is not here is overdue, held or removed all the same.
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
    whereabouts: Where
    thumbnail: str | None


class Stance(StrEnum):
    """What an item's answer means for using it."""

    DO_NOT_USE = "do not use"
    WATCH = "watch"
    SERVICEABLE = "serviceable"


STOPPED = frozenset({Answer.HOLD, Answer.REMOVE})
ANSWERS = {
    Stance.DO_NOT_USE: STOPPED,
    Stance.WATCH: frozenset({Answer.WATCH}),
    Stance.SERVICEABLE: frozenset({Answer.SERVICEABLE}),
}


@dataclass(frozen=True, slots=True)
class Only:
    """What a list is narrowed to: a place and a kind as they are written, what the answer means; empty for all."""

    place: str = ""
    kind: str = ""
    stance: Stance | None = None


ALL = Only()


@dataclass(frozen=True, slots=True)
class Choices:
    """The places and kinds there are, with how many items each has; the places with the most items first."""

    places: tuple[tuple[str, int], ...]
    kinds: tuple[tuple[str, int], ...]


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


@dataclass(frozen=True, slots=True)
class _Shown:
    """What of a row depends on the day."""

    state: State
    answer: Answer
    door: Door | None
    sentence: str
    next_due: date | None
    overdue: bool
    held_by_rule: bool
    last_inspected: date | None
    whereabouts: Where


def find(
    session: Session, text: str, on: date, limit: int, after: ItemRow | None, stand: Stand, only: Only = ALL
) -> list[ItemRow]:
    """Return items that have a word beginning with each word of `text`, in the order of their tags."""
    wanted = words(text)
    if text.strip() and not wanted:
        return []
    counts = {word: _count(session, word) for word in wanted}
    rare = [word for word in wanted if counts[word] < _RARE]
    query = select(Listed).where(*(_has(word) for word in wanted), *_only(only, on))
    if rare:
        ids = _ids(session, min(rare, key=counts.__getitem__))
        # Few enough to sort here: the database might walk the whole list for its order instead.
        found = sorted(session.exec(query.where(col(Listed.id).in_(ids))), key=lambda one: (one.order_key, one.id))
        if after:
            found = [one for one in found if (one.order_key, one.id) > (order_key(after.tag), after.id)]
        return _first(found, on, stand, only, limit)
    if after:
        query = query.where(tuple_(col(Listed.order_key), col(Listed.id)) > tuple_(order_key(after.tag), after.id))
    query = query.order_by(col(Listed.order_key), col(Listed.id)).execution_options(yield_per=limit)
    return _first(session.exec(query), on, stand, only, limit)


def by_code(session: Session, text: str, on: date, stand: Stand) -> list[ItemRow]:
    """Return the items whose tag or id is this text, whatever its case, accents, separators and leading zeros."""
    wanted = code(text)
    query = select(Listed).where(col(Listed.id) == text.strip())
    if wanted:
        word = "".join(wanted)[:LONGEST]
        tagged = select(ListedWord.item).where(col(ListedWord.word) == word)
        query = select(Listed).where(or_(col(Listed.id) == text.strip(), col(Listed.id).in_(tagged)))
    found = [one for one in session.exec(query) if one.id == text.strip() or code(one.tag) == wanted]
    return [row(one, on, stand) for one in sorted(found, key=lambda one: (one.order_key, one.id))]


def choices(session: Session) -> Choices:
    """Return what a list can be narrowed to."""

    def counted(column: Mapped[str]) -> tuple[tuple[str, int], ...]:
        found = session.exec(select(column, func.count()).where(column != "").group_by(column))
        return tuple(sorted(found, key=lambda one: (-one[1], order_key(one[0]))))

    return Choices(counted(col(Listed.place)), counted(col(Listed.kind)))


def _only(only: Only, on: date) -> list[ColumnElement[bool]]:
    narrowed: list[ColumnElement[bool]] = []
    if only.place:
        narrowed.append(col(Listed.place) == only.place)
    if only.kind:
        narrowed.append(col(Listed.kind) == only.kind)
    if only.stance is not None:
        answers = [one.value for one in ANSWERS[only.stance]]
        now = case((col(Listed.due) < on, col(Listed.late_answer)), else_=col(Listed.answer))
        # A row does not speak for a day before its latest record; `_first` asks the records then.
        narrowed.append(or_(now.in_(answers), col(Listed.last_day) > on))
    return narrowed


def _first(found: Iterable[Listed], on: date, stand: Stand, only: Only, limit: int) -> list[ItemRow]:
    shown = (row(one, on, stand) for one in found)
    if only.stance is None:
        return list(islice(shown, limit))
    answers = ANSWERS[only.stance]
    return list(islice((one for one in shown if one.answer in answers), limit))


def today(session: Session, on: date, stand: Stand) -> Today:
    """Return what a local date asks for."""
    due, last_day = col(Listed.due), col(Listed.last_day)
    stopped = col(Listed.answer).in_([Answer.HOLD.value, Answer.REMOVE.value])
    query = select(Listed).where(or_(stopped, due <= on + SOON, last_day > on))
    lists: dict[str, list[ItemRow]] = {"due": [], "overdue": [], "held": [], "removed": []}
    for listed in session.exec(query.order_by(due, col(Listed.order_key), col(Listed.id))):
        shown = _shown(listed, on, stand)
        name = _list_of(shown, on)
        if name:
            lists[name].append(_row(listed, shown))
    return Today(**lists)


def row(listed: Listed, on: date, stand: Stand) -> ItemRow:
    """Return an item's row on a local date."""
    return _row(listed, _shown(listed, on, stand))


def group_of(listed: Listed, on: date, stand: Stand) -> tuple[str, ItemRow]:
    """Return which of the lists of `Today` an item is in on a local date, empty for none, with its row."""
    shown = _shown(listed, on, stand)
    return _list_of(shown, on), _row(listed, shown)


def _shown(listed: Listed, on: date, stand: Stand) -> _Shown:
    if on < listed.last_day:
        # A clock ran ahead, or the past is asked for: the records up to that day say it, not the row.
        stands = stand(listed.id, on)
        return _Shown(
            stands.state, stands.answer, stands.door, stands.sentence, stands.next_due, stands.overdue,
            bool(stands.open), stands.latest_on, stands.where,
        )  # fmt: skip
    late = listed.due is not None and on > listed.due
    door = listed.late_door if late else listed.door
    return _Shown(
        state=State(listed.state),
        answer=Answer(listed.late_answer if late else listed.answer),
        door=Door(door) if door else None,
        sentence=listed.late_sentence if late else listed.sentence,
        next_due=None if late else listed.next_due,
        overdue=late,
        held_by_rule=listed.open_holds > 0,
        last_inspected=listed.last_inspected,
        whereabouts=Where(listed.whereabouts),
    )


def _list_of(shown: _Shown, on: date) -> str:
    if shown.state is State.DISPOSED:
        return ""
    if shown.answer is Answer.REMOVE:
        return "removed"
    if shown.answer is Answer.HOLD:
        return "overdue" if shown.overdue and not shown.held_by_rule else "held"
    return "due" if shown.next_due is not None and shown.next_due <= on + SOON else ""


def _row(listed: Listed, shown: _Shown) -> ItemRow:
    return ItemRow(
        id=listed.id,
        tag=listed.tag,
        description=listed.description,
        place=listed.place,
        kind=listed.kind,
        duty=listed.duty,
        answer=shown.answer,
        door=shown.door,
        next_due=shown.next_due,
        overdue=shown.overdue,
        sentence=shown.sentence,
        last_inspected=shown.last_inspected,
        whereabouts=shown.whereabouts,
        thumbnail=listed.thumbnail,
    )


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
