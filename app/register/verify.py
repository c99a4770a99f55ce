"""Checking a register against itself.

What this can show: a body, seal, header, projection, picture, original file or pack text that was changed or lost
without recomputing everything that depends on it, and entries missing from the middle of a device's chain. Of what
`pictures.db` lists of a picture, the time it was taken is held against the picture's own bytes, and the check sum of
its original file against the inspection's record, where that names it.

What it cannot show: the chain has no secret key, so whoever rewrites a body may recompute its hash and every
seal after it; entries cut off a chain's end leave no gap; and an original that was taken away is not missed, since no
record says that it was kept. Compare the last seal with one noted elsewhere to see either. Nothing covers the name that
a picture's file had and the place listed of it, nor its original's check sum where no record names it: in inspections
from before it was written down, and in records of work, decisions, incidents and disposals.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from sqlalchemy import func, text
from sqlmodel import Session, col, select

from app.register import details, effect, log
from app.register import pictures as pictures_kept
from app.register.bodies import NO_ITEM, Inspected, files_of, head_of, pictures_of, when_text
from app.register.guards import INSERT_ONLY, guards
from app.register.log import raw
from app.register.projections import Progress, Projected, project
from app.register.seals import GENESIS, seal, sha256
from app.register.tables import DETAIL_TABLES, Listed, ListedWord, LoadPath, PackText, Picture, Record, Thumbnail

_REBUILD = "Rebuild the register's lists."
_DETAILS = {
    "part": "parts", "reading": "readings", "finding": "findings", "ruling": "rulings",
    "open_ruling": "open holds and removals",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that is not as it was written.

    Attributes:
        record_id: the record; the item for a projection, the first record that names a lost or changed picture
            or pack, empty for a whole file.
        kind: file, guard, order, header, body, seal, unreadable, projection, picture, original or pack.
        sentence: what is wrong, for the person.
    """

    record_id: str
    kind: str
    sentence: str


@dataclass(frozen=True, slots=True)
class _Placed:
    order: tuple[str, str, int]
    fault: Fault


@dataclass(frozen=True, slots=True)
class ChainEnd:
    """The end of one device's chain: note its seal elsewhere, and nobody can cut entries off it unseen.

    Attributes:
        entries: how many the device has made.
        seal: of the last of them.
    """

    device: str
    entries: int
    seal: str


def chain_ends(session: Session) -> list[ChainEnd]:
    """Return where each device's chain ends, by device."""
    last = select(Record.device, func.max(Record.seq)).group_by(Record.device).subquery()
    query = select(Record).join(last, (col(Record.device) == last.c[0]) & (col(Record.seq) == last.c[1]))
    return [ChainEnd(one.device, one.seq, one.seal) for one in session.exec(query.order_by(Record.device))]


def verify(session: Session, pictures: Session, progress: Progress | None = None) -> list[Fault]:
    """Return every fault: of the files, then of the records in the order (at, device, seq), then of the rest.

    `progress` is told (done, all) records, pictures and original files.
    """
    steps = _steps(session, pictures, progress)
    faults = [*_files(session, "register.db"), *_files(pictures, "pictures.db")]
    named: dict[str, str] = {}
    packs: dict[str, str] = {}
    files: dict[str, set[str]] = {}
    faults += _records(session, steps, named, packs, files)
    faults += _projections(session)
    faults += _pictures(pictures, named, files, steps)
    faults += _originals(pictures, named, steps)
    faults += _packs(session, packs)
    return faults


def _steps(session: Session, pictures: Session, progress: Progress | None) -> Callable[[], None]:
    total = session.exec(select(func.count()).select_from(Record)).one()
    total += pictures.exec(select(func.count()).select_from(Picture)).one()
    total += len(pictures_kept.originals(pictures.connection()))
    done = 0

    def step() -> None:
        nonlocal done
        done += 1
        if progress:
            progress(done, total)

    return step


def _files(session: Session, name: str) -> Iterator[Fault]:
    for line in session.connection().execute(text("PRAGMA quick_check")).scalars():
        if line != "ok":
            yield Fault("", "file", f"{name} is damaged: {line}. Go on from the latest backup.")
    schema = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
    present = {row.name: row.sql for row in session.connection().execute(text(schema))}
    tables = set(session.connection().execute(text("SELECT name FROM sqlite_master WHERE type = 'table'")).scalars())
    for table in INSERT_ONLY.keys() & tables:
        for trigger, statement in guards(table).items():
            if present.get(trigger) != statement:
                yield Fault("", "guard", f"{name}: the guard {trigger}, which keeps records unchanged, was taken off.")


def _records(
    session: Session,
    step: Callable[[], None],
    named: dict[str, str],
    packs: dict[str, str],
    files: dict[str, set[str]],
) -> Iterator[Fault]:
    """Go through all records; what they name is put into `named`, `packs` and, of each picture's file, `files`."""
    placed: list[_Placed] = []
    device, seq, previous = "", 0, GENESIS
    order = (col(Record.device), col(Record.seq))
    names: list[tuple[tuple[str, str, int], str, tuple[str, ...], tuple[str, ...]]] = []
    for record in session.exec(select(Record).order_by(*order).execution_options(yield_per=200)):
        if record.device != device:
            device, seq, previous = record.device, 0, GENESIS
        number = record.seq if isinstance(record.seq, int) else seq + 1
        place = (str(record.at), str(record.device), number)
        entry = log.opened(record)
        found = list(_record(record, entry, seq, previous))
        placed += [_Placed(place, Fault(record.id, kind, sentence)) for kind, sentence in found]
        seq, previous = number, str(record.seal)
        body = entry.body
        if body is not None:
            stamps = body.judged.judgement.packs if isinstance(body, Inspected) else ()
            for sha, original in files_of(body):
                files.setdefault(sha, set()).add(original)
            names.append((place, record.id, pictures_of(body), tuple(stamp.sha256 for stamp in stamps)))
        session.expunge(record)
        step()
    for _, record_id, hashes, stamps_of in sorted(names):
        for sha in hashes:
            named.setdefault(sha, record_id)
        for sha in stamps_of:
            packs.setdefault(sha, record_id)
    yield from (one.fault for one in sorted(placed, key=lambda one: one.order))


def _record(record: Record, entry: log.Entry, seq: int, previous: str) -> Iterator[tuple[str, str]]:
    where = f"Record {record.id}"
    if record.seq != seq + 1:
        yield "order", f"{where} is number {record.seq} of device {record.device} and follows number {seq}."
    changed = sha256(raw(record.body)) != record.body_hash
    if changed:
        yield "body", f"{where}: the text was changed after it was sealed."
    # After a gap the seal before is not known, so only the gap is told.
    if record.seq == seq + 1 and seal(previous, str(record.body_hash)) != record.seal:
        yield "seal", f"{where}: the seal does not follow from the record before it."
    if changed:
        return
    if entry.body is None:
        yield "unreadable", f"{where}: {entry.fault}."
        return
    record_id, item, at = head_of(entry.body)
    told = (record_id, item, when_text(at), entry.body.device, entry.body.kind)
    if told != (record.id, record.item, record.at, record.device, record.kind):
        yield "header", f"{where}: its id, item, time, device or kind is not the one in its text."


def _projections(session: Session) -> Iterator[Fault]:
    listed = {one.id: one for one in session.exec(select(Listed))}
    items = session.exec(select(Record.item).where(Record.item != NO_ITEM).distinct().order_by(Record.item)).all()
    for item_id in items:
        found = log.entries(session.connection(), item_id, {})
        projected = project(item_id, found)
        session.expunge_all()
        one = listed.pop(item_id, None)
        if one is None:
            yield Fault(item_id, "projection", f"Item {item_id} is missing from the list. {_REBUILD}")
            continue
        wrong = [name for name, value in projected.row.items() if getattr(one, name) != value]
        if wrong:
            yield Fault(
                item_id, "projection",
                f"Item {item_id}: {', '.join(wrong)} in the list is not what its records say. {_REBUILD}",
            )  # fmt: skip
        words = frozenset(session.exec(select(ListedWord.word).where(ListedWord.item == item_id)))
        if words != projected.words:
            yield Fault(
                item_id, "projection",
                f"Item {item_id} is not found by its own words. {_REBUILD}",
            )  # fmt: skip
        yield from _details(session, item_id, projected, found)
    yield from _load_paths(session)
    strays = {*listed, *session.exec(select(ListedWord.item).distinct())}
    for table in DETAIL_TABLES:
        strays |= set(session.connection().scalars(table.select().with_only_columns(table.c.item).distinct()))
    strays -= set(items)
    for item_id in sorted(strays):
        yield Fault(item_id, "projection", f"Item {item_id} is listed without any record. {_REBUILD}")


def _load_paths(session: Session) -> Iterator[Fault]:
    wanted = {(item, one) for one, others in log.shared(session.connection()).items() for item in others}
    stored = {(one.item, one.incident) for one in session.exec(select(LoadPath))}
    for item, incident in sorted(wanted ^ stored):
        yield Fault(
            incident, "projection", f"Incident {incident}: that it holds item {item} is not as listed. {_REBUILD}"
        )  # fmt: skip


def _details(session: Session, item_id: str, projected: Projected, found: list[log.Entry]) -> Iterator[Fault]:
    wanted = details.of_inspections(item_id, effect.inspected(found))
    wanted |= {"part": projected.parts, "open_ruling": projected.still_open}
    for table in DETAIL_TABLES:
        of_item = table.select().where(table.c.item == item_id)
        try:
            stored = {tuple(row) for row in session.connection().execute(of_item)}
        except (TypeError, ValueError):
            stored = set()  # a date that is no date any more
        if stored != {tuple(row[column.name] for column in table.columns) for row in wanted[table.name]}:
            yield Fault(
                item_id, "projection",
                f"Item {item_id}: its {_DETAILS[table.name]} as listed are not what its records say. {_REBUILD}",
            )  # fmt: skip


def _pictures(
    session: Session, named: dict[str, str], files: dict[str, set[str]], step: Callable[[], None]
) -> Iterator[Fault]:
    missing = dict(named)
    for sha in session.exec(select(Picture.sha256).order_by(Picture.sha256)).all():
        record_id = missing.pop(sha, "")
        row = select(Picture.jpeg, Picture.original_sha256, Picture.taken_at).where(Picture.sha256 == sha)
        jpeg, original, taken = session.exec(row).one()
        if sha256(raw(jpeg)) != sha:
            yield Fault(record_id, "picture", f"Picture {sha} was changed after it was stored.")
        elif not _taken_then(raw(jpeg), taken):
            yield Fault(
                record_id, "picture",
                f"Picture {sha}: the time it was taken, as listed, is not the one in the picture itself.",
            )  # fmt: skip
        if sha in files and original not in files[sha]:
            yield Fault(
                record_id, "picture",
                f"Picture {sha}: the check sum of its original file, as listed, is not the one in its record.",
            )  # fmt: skip
        small = session.get(Thumbnail, sha)
        if small is None or sha256(raw(small.jpeg)) != small.sha256:
            yield Fault(record_id, "picture", f"The thumbnail of picture {sha} was changed or lost.")
        session.expunge_all()
        step()
    for sha, record_id in missing.items():
        yield Fault(record_id, "picture", f"Record {record_id} names picture {sha}, which is not stored.")


def _taken_then(jpeg: bytes, taken: str | None) -> bool:
    """Whether the time listed of a picture is the one in its own bytes, which its record names by their hash."""
    from app.photos.day import taken_at  # a register that is only read and written needs no image library

    try:
        return taken_at(jpeg) == taken
    except ValueError:  # no picture that can be read: then its bytes say nothing against it
        return True


def _originals(session: Session, named: dict[str, str], step: Callable[[], None]) -> Iterator[Fault]:
    connection = session.connection()
    for sha, picture in pictures_kept.originals(connection):
        file = pictures_kept.original_file(connection, sha)
        if sha256(raw(file)) != sha:
            yield Fault(
                named.get(picture, ""), "original",
                f"The original file of picture {picture} was changed after it was stored.",
            )  # fmt: skip
        step()


def _packs(session: Session, packs: dict[str, str]) -> Iterator[Fault]:
    for pack in session.exec(select(PackText)).all():
        record_id = packs.pop(pack.sha256, "")
        if sha256(raw(pack.text)) != pack.sha256:
            yield Fault(record_id, "pack", f"The text of pack {pack.sha256} was changed after it was kept.")
    for sha, record_id in packs.items():
        yield Fault(record_id, "pack", f"Record {record_id} was judged under pack {sha}, whose text is not kept.")
