"""What today asks for, as its first page shows it: each group's first rows and how many there are."""

from dataclasses import dataclass, field
from datetime import date

from sqlalchemy import ColumnElement, and_, case, func, not_
from sqlmodel import Session, col, select

from app.register import rows
from app.register.rows import SOON, STOPPED, ItemRow
from app.register.tables import Listed
from inspection_rules.words import Answer, State, Where

MOST_AHEAD = 200  # items whose standing is put together from their records: some seconds


@dataclass(frozen=True, slots=True)
class Group:
    """The first rows of a group, and how many it has."""

    count: int = 0
    rows: list[ItemRow] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Board:
    """What a date asks for; disposed items are in no group, any other is in one of the first five at most.

    Attributes:
        removed: out of service.
        held: a hold is open; it may be overdue as well.
        overdue: nothing but the missed inspection stops it.
        due: in use, and the next inspection is within 14 days.
        elsewhere: ashore, on loan or not found, whatever its answer.
        looked_at: inspected on that date, whatever else is said of it.
        ahead: how many items have records of a later day: the device's clock is wrong, or was. Only the first
            `MOST_AHEAD` of them are in a group.
    """

    removed: Group
    held: Group
    overdue: Group
    due: Group
    elsewhere: Group
    looked_at: Group
    ahead: int = 0


def board(session: Session, on: date, place: str, most: int, stand: rows.Stand) -> Board:
    """Return what a local date asks for; counted by the database, which reads no more than `most` rows of a group.

    A row does not speak for a day before its latest record. Such items are read one by one, and not all of them: there
    are many only when the clock of the device is far behind, and then the person has to be told that first.
    """
    due = col(Listed.due)
    late = case((due < on, True), else_=False)
    answer = case((due < on, col(Listed.late_answer)), else_=col(Listed.answer))
    here = col(Listed.whereabouts) == Where.HERE.value
    missed = and_(late, col(Listed.open_holds) == 0)
    is_held = answer == Answer.HOLD.value
    in_use = answer.not_in([one.value for one in STOPPED])
    soon = and_(in_use, not_(late), col(Listed.next_due) <= on + SOON)
    speaks = [col(Listed.last_day) <= on, col(Listed.state) != State.DISPOSED.value]
    if place:
        speaks.append(col(Listed.place) == place)
    later = [col(Listed.last_day) > on, *([col(Listed.place) == place] if place else [])]
    ahead = _ahead(session, on, later, stand)

    def group(name: str, *which: ColumnElement[bool]) -> Group:
        where = (*speaks, *which)
        count = session.exec(select(func.count()).select_from(Listed).where(*where)).one()
        found = select(Listed).where(*where).order_by(due, col(Listed.order_key), col(Listed.id)).limit(most)
        more = ahead.get(name, [])
        shown = [*more, *(rows.row(one, on, stand) for one in session.exec(found))]
        return Group(count + len(more), shown[:most])

    return Board(
        removed=group("removed", here, answer == Answer.REMOVE.value),
        held=group("held", here, is_held, not_(missed)),
        overdue=group("overdue", here, is_held, missed),
        due=group("due", here, soon),
        elsewhere=group("elsewhere", not_(here)),
        looked_at=group("looked_at", col(Listed.last_inspected) == on),
        ahead=session.exec(select(func.count()).select_from(Listed).where(*later)).one(),
    )


def _ahead(session: Session, on: date, later: list[ColumnElement[bool]], stand: rows.Stand) -> dict[str, list[ItemRow]]:
    query = select(Listed).where(*later).order_by(col(Listed.order_key), col(Listed.id)).limit(MOST_AHEAD)
    groups: dict[str, list[ItemRow]] = {}
    for one in session.exec(query):
        name, row = rows.group_of(one, on, stand)
        if name and row.whereabouts is not Where.HERE:
            name = "elsewhere"
        if name:
            groups.setdefault(name, []).append(row)
        if row.last_inspected == on:
            groups.setdefault("looked_at", []).append(row)
    return groups
