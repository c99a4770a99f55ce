"""Appending to the log, and reading an item's entries back."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, bindparam, exists, insert, or_
from sqlalchemy import select as sql_select
from sqlmodel import Session, col, select

from app.register.bodies import NO_ITEM, Body, ItemRevised, RoundMade, head_of, read, shared_by, when_text
from app.register.bodies import write as written
from app.register.errors import RegisterError
from app.register.seals import GENESIS, seal, sha256
from app.register.tables import Record, table

_RECORD = table("record")
_INSERT = insert(_RECORD)
_HASH_OF = sql_select(_RECORD.c.body_hash).where(_RECORD.c.id == bindparam("id"))
_OTHER = _RECORD.alias()
_LAST = sql_select(_OTHER).where(_OTHER.c.device == bindparam("device")).order_by(_OTHER.c.seq.desc()).limit(1)
# One question for all that appending needs to know.
_PLACE = sql_select(
    _HASH_OF.scalar_subquery().label("there"),
    _LAST.with_only_columns(_OTHER.c.seq).scalar_subquery().label("seq"),
    _LAST.with_only_columns(_OTHER.c.seal).scalar_subquery().label("seal"),
    exists().where(_OTHER.c.item == bindparam("item"), _OTHER.c.kind == "item").label("knows_item"),
)
_LOAD_PATH = table("load_path")
_SHARE = insert(_LOAD_PATH)
_INCIDENTS_OF = sql_select(_LOAD_PATH.c.incident).where(_LOAD_PATH.c.item == bindparam("item"))
_HEADS = sql_select(_RECORD.c.id, _RECORD.c.body_hash).order_by(_RECORD.c.at, _RECORD.c.device, _RECORD.c.seq)
_HEADS_OF = _HEADS.where(_RECORD.c.item == bindparam("item"))
_HEADS_WITH_SHARED = _HEADS.where(or_(_RECORD.c.item == bindparam("item"), _RECORD.c.id.in_(_INCIDENTS_OF)))
_KNOWS = sql_select(exists().where(_RECORD.c.item == bindparam("item")))
_AT_ONCE = 500
INCIDENT = "incident"

# Bodies that were read before, by their hash: a hash has one body for ever.
Known = dict[str, Body]
_MOST_KNOWN = 512


@dataclass(frozen=True, slots=True)
class Entry:
    """One record of an item; `body` is None when it cannot be read, and `fault` then says why."""

    id: str
    body: Body | None
    fault: str = ""


def append(connection: Connection, body: Body, known: Known) -> bool:
    """Add an entry at the end of its device's chain; False when exactly this entry is there already.

    Raises:
        RegisterError: the id belongs to another record, or the item was never entered.
    """
    text = written(body)
    body_hash = sha256(text.encode())
    record_id, item, at = head_of(body)
    place = connection.execute(_PLACE, {"id": record_id, "device": body.device, "item": item}).one()
    if place.there == body_hash:
        return False
    if place.there is not None:
        raise RegisterError(
            f"record {record_id} is in the register already and says something else. Nothing was changed. "
            "Enter it under a new id, or as a correction of that record."
        )
    if not place.knows_item and not isinstance(body, ItemRevised | RoundMade):
        raise no_item(item)
    seq, previous = (1, GENESIS) if place.seq is None else (place.seq + 1, place.seal)
    connection.execute(
        _INSERT,
        {
            "id": record_id, "kind": body.kind, "item": item, "at": when_text(at), "device": body.device,
            "seq": seq, "body": text, "body_hash": body_hash, "seal": seal(previous, body_hash),
        },
    )  # fmt: skip
    _share(connection, record_id, body)
    _remember(known, body_hash, body)
    return True


def take_in(connection: Connection, rows: Iterable[Mapping[str, object]]) -> set[str]:
    """Insert whole rows of another register's log that are missing here; return the items here that they touch.

    An incident touches every item that shared its load; one that is not here yet is held once it comes. A round
    touches none: it says what was found, and what it names may come later.

    Raises:
        RegisterError: a row's id is known here with another body.
    """
    touched: set[str] = set()
    for row in rows:
        known = connection.scalar(_HASH_OF, {"id": row["id"]})
        if known is None:
            connection.execute(_INSERT, dict(row))
            touched.add(str(row["item"]))
            if row["kind"] == INCIDENT:
                touched.update(_take_in_incident(connection, row))
        elif known != row["body_hash"]:
            raise RegisterError(f"record {row['id']} is here already and says something else. Nothing was taken in.")
    return {item for item in touched if item != NO_ITEM and knows(connection, item)}


def knows(connection: Connection, item_id: str) -> bool:
    """Tell whether any record here is an item's own."""
    return bool(connection.scalar(_KNOWS, {"item": item_id}))


def share_all(connection: Connection) -> None:
    """Project anew which incidents hold which other items, from the bodies."""
    for record_id, others in shared(connection).items():
        for item in others:
            connection.execute(_SHARE, {"item": item, "incident": record_id})


def shared(connection: Connection) -> dict[str, tuple[str, ...]]:
    """Return, for each incident that can be read, the other items it holds."""
    with Session(connection) as session:
        found = [opened(one) for one in session.exec(select(Record).where(Record.kind == INCIDENT))]
    return {one.id: shared_by(one.body) for one in found if one.body is not None}


def _take_in_incident(connection: Connection, row: Mapping[str, object]) -> tuple[str, ...]:
    if sha256(raw(row["body"])) != row["body_hash"]:
        return ()
    try:
        body = read(str(row["body"]))
    except RegisterError:
        return ()  # what cannot be read holds its own item, and `verify` tells
    _share(connection, str(row["id"]), body)
    return shared_by(body)


def _share(connection: Connection, record_id: str, body: Body) -> None:
    rows = [{"item": item, "incident": record_id} for item in shared_by(body)]
    if rows:
        connection.execute(_SHARE, rows)


def entries(connection: Connection, item_id: str, known: Known) -> list[Entry]:
    """Return an item's records in the order (at, device, seq); bodies not known yet are read and remembered.

    The incidents of other items that it shared the load of are among them.
    """
    shared_some = connection.scalar(_INCIDENTS_OF, {"item": item_id}) is not None
    heads = connection.execute(_HEADS_WITH_SHARED if shared_some else _HEADS_OF, {"item": item_id}).all()
    found = {head.id: Entry(head.id, known[head.body_hash]) for head in heads if head.body_hash in known}
    unread = [head.id for head in heads if head.id not in found]
    for first in range(0, len(unread), _AT_ONCE):
        with Session(connection) as session:
            query = select(Record).where(col(Record.id).in_(unread[first : first + _AT_ONCE]))
            for record in session.exec(query):
                entry = found[record.id] = opened(record)
                if entry.body is not None:
                    _remember(known, record.body_hash, entry.body)
    return [found[head.id] for head in heads]


def opened(record: Record) -> Entry:
    """Return a record with its body read, or with what is wrong with it."""
    if sha256(raw(record.body)) != record.body_hash:
        return Entry(record.id, None, "its text is not the one that was sealed")
    try:
        return Entry(record.id, read(record.body))
    except RegisterError as error:
        return Entry(record.id, None, str(error))


def _remember(known: Known, body_hash: str, body: Body) -> None:
    if len(known) >= _MOST_KNOWN:
        known.clear()
    known[body_hash] = body


def raw(stored: object) -> bytes:
    """Return a column's bytes as they lie in the file, whatever type a forger or a bad disk has made of it."""
    return stored if isinstance(stored, bytes) else str(stored).encode(errors="surrogateescape")


def no_item(item_id: str) -> RegisterError:
    """Return the refusal for an item that is not there."""
    return RegisterError(f"item {item_id} is not in this register. Add the item first, or check its id.")
