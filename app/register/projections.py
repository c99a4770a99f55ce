"""What is projected from the log, so that lists need not read bodies: a pure function of an item's records."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, bindparam, delete, insert, select, update
from sqlmodel import SQLModel

from app.register import details, effect, log, settings
from app.register.bodies import NO_ITEM, Body, Correction, Inspected, ItemRevised, head_of
from app.register.details import Row
from app.register.tables import DETAIL_TABLES, PROJECTION_TABLES, table
from app.register.words import index_words, order_key
from inspection_rules.standing import ItemRecord, Judged, Standing

# Raised whenever something else is projected from the same records, or into other tables; an older register is
# then rebuilt.
PROJECTION_VERSION = 6
Progress = Callable[[int, int], None]

_LISTED, _LISTED_WORD = table("listed"), table("listed_word")
_UPDATE = update(_LISTED).where(_LISTED.c.id == bindparam("of"))
_INSERT, _INSERT_WORD = insert(_LISTED), insert(_LISTED_WORD)
_WORDS = select(_LISTED_WORD.c.word).where(_LISTED_WORD.c.item == bindparam("of"))
_FORGET_WORDS = delete(_LISTED_WORD).where(_LISTED_WORD.c.item == bindparam("of"))
_ADD = {one.name: insert(one) for one in DETAIL_TABLES}
_FORGET = {one.name: delete(one).where(one.c.item == bindparam("of")) for one in DETAIL_TABLES}
_FORGET_INSPECTION = [
    _FORGET[name].where(table(name).c.inspection == bindparam("record")) for name in details.OF_INSPECTION
]


@dataclass(frozen=True, slots=True)
class Projected:
    """An item's row in the list, the words it is found by, its parts, and what is still open on it."""

    row: Row
    words: frozenset[str]
    parts: list[Row]
    still_open: list[Row]


def project(item_id: str, found: list[log.Entry]) -> Projected:
    """Return what is projected of an item as a whole, from all of its records, which are at least one."""
    heads = effect.heads(found)
    records = effect.in_force(found)
    last_day = max(map(_day, records), default=date.min)
    now = effect.standing_of(item_id, found, last_day)
    if not heads:
        return _unknown(item_id, now, last_day)
    item = heads[-1].item
    late = effect.standing_of(item_id, found, date.max)
    inspections = effect.judged_of(records)
    latest = next((one for one in inspections if one.inspection.id == now.latest), None)
    unreadable = any(one.body is None for one in found)
    row: Row = {
        "id": item_id,
        "revision": heads[-1].id,
        "heads": len(heads),
        "tag": item.tag,
        "order_key": order_key(item.tag),
        "description": item.description,
        "place": item.place,
        "kind": item.kind.value,
        "duty": item.duty.value,
        "state": now.state.value,
        "answer": now.answer.value,
        "door": now.door.value if now.door else None,
        "sentence": now.sentence,
        "open_holds": len(now.open),
        "last_day": last_day,
        "next_due": now.next_due,
        "due": None if unreadable else now.due,
        "late_answer": late.answer.value,
        "late_door": late.door.value if late.door else None,
        "late_sentence": late.sentence,
        "last_inspected": latest.inspection.on if latest else None,
        "whereabouts": now.where.value,
        "thumbnail": _shown_picture(inspections),
    }
    texts = (item.tag, item.description, item.place, item.kind.value, item.duty.value, item.fibre.value)
    return Projected(row, index_words(texts), details.of_parts(item_id, item), details.of_open(item_id, now.open))


def refresh(connection: Connection, item_id: str, known: log.Known, added: Sequence[Body] | None = None) -> None:
    """Bring what is projected of an item up to its records, in the caller's transaction.

    Args:
        added: the records that are not projected yet, when all others are: only what these change is written.
            Without it everything is written anew.
    """
    found = log.entries(connection, item_id, known)
    projected = project(item_id, found)
    if not connection.execute(_UPDATE, {**projected.row, "of": item_id}).rowcount:
        connection.execute(_INSERT, projected.row)
    _put(connection, item_id, "open_ruling", projected.still_open)
    if added is None or _awaited(added, found):
        _put_item(connection, item_id, projected)
        for name in details.OF_INSPECTION:
            connection.execute(_FORGET[name], {"of": item_id})
        _add(connection, details.of_inspections(item_id, effect.inspected(found)))
    for body in added or ():
        if isinstance(body, ItemRevised):
            _put_item(connection, item_id, projected)
        elif isinstance(body, Inspected):
            # It may have been corrected before it came.
            counted = {one: judged for one, judged in effect.inspected(found).items() if one == head_of(body)[0]}
            _add(connection, details.of_inspections(item_id, counted))
        elif isinstance(body, Correction):
            for statement in _FORGET_INSPECTION:
                connection.execute(statement, {"of": item_id, "record": body.supersedes})


def _awaited(added: Sequence[Body], found: list[log.Entry]) -> bool:
    """Whether one of these is what a correction from before was waiting for: then that counts from now on."""
    fresh = {head_of(body)[0] for body in added}
    corrections = (one.body for one in found if one.id not in fresh)
    return any(isinstance(body, Correction) and body.replacement in fresh for body in corrections)


def rebuild(connection: Connection, progress: Progress | None = None) -> None:
    """Make every projection anew from the bodies, its table too, in the caller's transaction."""
    SQLModel.metadata.drop_all(connection, tables=PROJECTION_TABLES)
    SQLModel.metadata.create_all(connection, tables=PROJECTION_TABLES)
    log.share_all(connection)
    record = table("record").c
    items = list(connection.scalars(select(record.item).where(record.item != NO_ITEM).distinct()))
    for done, item_id in enumerate(items, 1):
        refresh(connection, item_id, {})
        if progress:
            progress(done, len(items))
    settings.put(connection, settings.PROJECTION, PROJECTION_VERSION)


def _put_item(connection: Connection, item_id: str, projected: Projected) -> None:
    """Write what only a revision of the item changes."""
    if set(connection.scalars(_WORDS, {"of": item_id})) != projected.words:
        connection.execute(_FORGET_WORDS, {"of": item_id})
        connection.execute(_INSERT_WORD, [{"word": one, "item": item_id} for one in sorted(projected.words)])
    _put(connection, item_id, "part", projected.parts)


def _put(connection: Connection, item_id: str, name: str, rows: Iterable[Row]) -> None:
    connection.execute(_FORGET[name], {"of": item_id})
    _add(connection, {name: list(rows)})


def _add(connection: Connection, rows: dict[str, list[Row]]) -> None:
    for name, several in rows.items():
        if several:
            connection.execute(_ADD[name], several)


def _day(record: ItemRecord) -> date:
    return record.inspection.on if isinstance(record, Judged) else record.on


def _shown_picture(inspections: list[Judged]) -> str | None:
    for one in reversed(inspections):
        for picture in one.inspection.all_pictures():
            return picture
    return None


def _unknown(item_id: str, now: Standing, last_day: date) -> Projected:
    """An item whose own entry is missing or cannot be read: held under its id, so that it is not out of sight."""
    door = now.door.value if now.door else None
    row: Row = {
        "id": item_id,
        "revision": "",
        "heads": 0,
        "tag": item_id,
        "order_key": order_key(item_id),
        "description": "",
        "place": "",
        "kind": "",
        "duty": "",
        "state": now.state.value,
        "answer": now.answer.value,
        "door": door,
        "sentence": now.sentence,
        "open_holds": len(now.open),
        "last_day": last_day,
        "next_due": None,
        "due": None,
        "late_answer": now.answer.value,
        "late_door": door,
        "late_sentence": now.sentence,
        "last_inspected": now.latest_on,
        "whereabouts": now.where.value,
        "thumbnail": None,
    }
    return Projected(row, index_words((item_id,)), [], details.of_open(item_id, now.open))
