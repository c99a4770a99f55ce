"""What is projected from the log, so that lists need not read bodies: a pure function of an item's records."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, bindparam, delete, insert, select, update

from app.register import effect, log, settings
from app.register.tables import table
from app.register.words import index_words, order_key
from inspection_rules.standing import ItemRecord, Judged, Standing

# Raised whenever `project` gives something else for the same records; an older register is then rebuilt.
PROJECTION_VERSION = 2
Progress = Callable[[int, int], None]
Row = dict[str, object]

_LISTED, _LISTED_WORD = table("listed"), table("listed_word")
_UPDATE = update(_LISTED).where(_LISTED.c.id == bindparam("of"))
_INSERT, _INSERT_WORD = insert(_LISTED), insert(_LISTED_WORD)
_WORDS = select(_LISTED_WORD.c.word).where(_LISTED_WORD.c.item == bindparam("of"))
_FORGET_WORDS = delete(_LISTED_WORD).where(_LISTED_WORD.c.item == bindparam("of"))


@dataclass(frozen=True, slots=True)
class Projected:
    """An item's row in the list and the words it is found by."""

    row: Row
    words: frozenset[str]


def project(item_id: str, found: list[log.Entry]) -> Projected:
    """Return what the list shows of an item, from all of its records, which are at least one."""
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
        "thumbnail": _shown_picture(inspections),
    }
    texts = (item.tag, item.description, item.place, item.kind.value, item.duty.value, item.fibre.value)
    return Projected(row, index_words(texts))


def refresh(connection: Connection, item_id: str, known: log.Known) -> None:
    """Bring an item's row and words up to its records, in the caller's transaction."""
    words = refresh_row(connection, item_id, known)
    if set(connection.scalars(_WORDS, {"of": item_id})) != words:
        connection.execute(_FORGET_WORDS, {"of": item_id})
        connection.execute(_INSERT_WORD, [{"word": one, "item": item_id} for one in sorted(words)])


def refresh_row(connection: Connection, item_id: str, known: log.Known) -> frozenset[str]:
    """Bring an item's row up to its records, and return its words, which only a revision of it changes."""
    projected = project(item_id, log.entries(connection, item_id, known))
    if not connection.execute(_UPDATE, {**projected.row, "of": item_id}).rowcount:
        connection.execute(_INSERT, projected.row)
    return projected.words


def rebuild(connection: Connection, progress: Progress | None = None) -> None:
    """Forget every projection and make it anew from the bodies, in the caller's transaction."""
    connection.execute(delete(_LISTED))
    connection.execute(delete(_LISTED_WORD))
    items = list(connection.scalars(select(table("record").c.item).distinct()))
    for done, item_id in enumerate(items, 1):
        refresh(connection, item_id, {})
        if progress:
            progress(done, len(items))
    settings.put(connection, settings.PROJECTION, PROJECTION_VERSION)


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
        "thumbnail": None,
    }
    return Projected(row, index_words((item_id,)))
