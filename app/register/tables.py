"""The tables: the log, what is projected from it, and what is local to this folder.

Times are UTC texts of one fixed length, so that they sort as they happened; words of the trade are stored by
their value. The projections that repeat what inspections say lie clustered by item and inspection, without any
further index: one more inspection touches few pages, and an item's rows are read in one piece.
"""

from datetime import date

from sqlalchemy import Index, LargeBinary, Table, Text, UniqueConstraint
from sqlmodel import Field, SQLModel


class Record(SQLModel, table=True):
    """One entry of the append-only log; `body` is the truth, the other columns repeat or seal it.

    Attributes:
        id: of the inspection, the work, the decision ...; of the revision for an item.
        item: the item it is about, so that a body nobody can read still holds the item it belongs to; empty for a
            round, which is about several.
        at: when, UTC.
        device, seq: who wrote it, and as which of that device's entries, counted from 1 without gaps.
        body_hash: SHA-256 of the body's UTF-8 bytes.
        seal: chains this entry to the one before it of the same device (`seals.py`).
    """

    __tablename__ = "record"
    __table_args__ = (
        UniqueConstraint("device", "seq"),
        Index("record_of_item", "item", "at", "device", "seq"),
    )

    id: str = Field(primary_key=True)
    kind: str
    item: str
    at: str
    device: str
    seq: int
    body: str = Field(sa_type=Text)
    body_hash: str
    seal: str


class Listed(SQLModel, table=True):
    """Projection: one item as the list shows it. Days are local dates.

    Attributes:
        revision: record id of the item revision shown.
        heads: how many revisions nobody has revised since; more than one disagree.
        order_key: sorts tags as people count (2 before 10).
        answer, door, sentence, next_due: while the inspection that is due is not overdue.
        open_holds: holds and removals that nothing has closed.
        last_day: of its latest record; for an earlier day the row does not speak.
        whereabouts: where it is, in the word of `Where`.
        due: the last day before it is overdue; none when it never is.
        late_answer, late_door, late_sentence: once it is overdue.
    """

    __tablename__ = "listed"
    __table_args__ = (
        Index("listed_in_order", "order_key", "id"),
        Index("listed_by_answer", "answer"),
        Index("listed_by_place", "place"),
        Index("listed_by_kind", "kind"),
        Index("listed_by_due", "due"),
        Index("listed_by_last_day", "last_day"),
    )

    id: str = Field(primary_key=True)
    revision: str
    heads: int
    tag: str
    order_key: str
    description: str
    place: str
    kind: str
    duty: str
    state: str
    answer: str
    door: str | None
    sentence: str
    open_holds: int
    last_day: date
    next_due: date | None
    due: date | None
    late_answer: str
    late_door: str | None
    late_sentence: str
    last_inspected: date | None
    whereabouts: str
    thumbnail: str | None


class ListedWord(SQLModel, table=True):
    """Projection: the folded words an item is found by."""

    __tablename__ = "listed_word"
    __table_args__ = (Index("words_of_item", "item", "word"), {"sqlite_with_rowid": False})

    word: str = Field(primary_key=True)
    item: str = Field(primary_key=True)


class ListedPart(SQLModel, table=True):
    """Projection: a part of an item as its shown revision has it; lengths as written."""

    __tablename__ = "part"
    __table_args__ = ({"sqlite_with_rowid": False},)

    item: str = Field(primary_key=True)
    part: str = Field(primary_key=True)
    kind: str
    end: str | None
    splice: str | None
    thimble: str
    lock_stitched: bool
    chafe_gear: bool
    required_bury: str | None
    required_by: str
    marks_at: str | None


class ListedReading(SQLModel, table=True):
    """Projection: one value of a reading of an inspection that counts; dropped values are left out.

    Attributes:
        inspection: record id.
        on, at: local date, and UTC.
        position: of the value among the reading's values, from 1.
        text: as written, with its unit.
        value: the same in `unit`, for indexes and drawing only; a limit is never compared with it.
    """

    __tablename__ = "reading"
    __table_args__ = ({"sqlite_with_rowid": False},)

    item: str = Field(primary_key=True)
    inspection: str = Field(primary_key=True)
    part: str = Field(primary_key=True)
    observation: str = Field(primary_key=True)
    position: int = Field(primary_key=True)
    on: date
    at: str
    text: str
    value: float
    unit: str
    method: str
    tension: str
    moisture: str


class ListedFinding(SQLModel, table=True):
    """Projection: a finding of an inspection that counts; `conditions` are ids with a comma and a blank between."""

    __tablename__ = "finding"
    __table_args__ = ({"sqlite_with_rowid": False},)

    item: str = Field(primary_key=True)
    inspection: str = Field(primary_key=True)
    part: str = Field(primary_key=True)
    observation: str = Field(primary_key=True)
    on: date
    at: str
    seen: str
    conditions: str


class ListedRuling(SQLModel, table=True):
    """Projection: a ruling of an inspection that counts, as it was made then.

    Attributes:
        position: in the judgement, from 1; rulings on the item first, then those on the use.
        value, limit, u: decimal texts in `unit`.
    """

    __tablename__ = "ruling"
    __table_args__ = ({"sqlite_with_rowid": False},)

    item: str = Field(primary_key=True)
    inspection: str = Field(primary_key=True)
    position: int = Field(primary_key=True)
    on: date
    at: str
    rule: str
    pack: str
    part: str
    scope: str
    answer: str
    door: str | None
    value: str | None
    limit: str | None
    u: str | None
    unit: str
    sentence: str


class OpenRuling(SQLModel, table=True):
    """Projection: a hold or removal that nothing has closed, once all records of the item count.

    Attributes:
        position: worst first, then oldest first, from 1.
        inspection, on: which inspection it comes from, and its local date.
    """

    __tablename__ = "open_ruling"
    __table_args__ = ({"sqlite_with_rowid": False},)

    item: str = Field(primary_key=True)
    position: int = Field(primary_key=True)
    inspection: str
    on: date
    rule: str
    pack: str
    part: str
    answer: str
    door: str | None
    sentence: str
    mends: str


class LoadPath(SQLModel, table=True):
    """Projection: an incident that holds an item it is not recorded on, known here or not yet."""

    __tablename__ = "load_path"
    __table_args__ = ({"sqlite_with_rowid": False},)

    item: str = Field(primary_key=True)
    incident: str = Field(primary_key=True)


class PackText(SQLModel, table=True):
    """The text of a pack a judgement used, once, by its SHA-256: what was decided stays readable."""

    __tablename__ = "pack_text"

    sha256: str = Field(primary_key=True)
    text: str = Field(sa_type=Text)


class KeptDraft(SQLModel, table=True):
    """An inspection under way, local to this folder and rewritten with every tap."""

    __tablename__ = "draft"
    __table_args__ = (Index("draft_of_item", "item", "kind"),)

    id: str = Field(primary_key=True)
    item: str
    kind: str
    touched: int
    body: str = Field(sa_type=Text)


class Setting(SQLModel, table=True):
    """Something set for this folder: the regimes, the site, the people, the device, versions."""

    __tablename__ = "setting"

    key: str = Field(primary_key=True)
    value: str = Field(sa_type=Text)


class Picture(SQLModel, table=True):
    """In `pictures.db`: a photograph by the SHA-256 of its stored bytes."""

    __tablename__ = "picture"

    sha256: str = Field(primary_key=True)
    original_sha256: str
    width: int
    height: int
    taken_at: str | None
    place: str | None
    source_name: str
    source_format: str
    jpeg: bytes = Field(sa_type=LargeBinary)


class Thumbnail(SQLModel, table=True):
    """In `pictures.db`: the small picture of a photograph, apart so that lists never read the large ones."""

    __tablename__ = "thumbnail"

    picture: str = Field(primary_key=True)
    sha256: str
    jpeg: bytes = Field(sa_type=LargeBinary)


class Original(SQLModel, table=True):
    """In `pictures.db`: the untouched file a photograph was made from, where the person wants those kept.

    The bytes come last, so that asking which are kept reads none of them.

    Attributes:
        sha256: of the file.
        picture: the photograph that was made from it at first; others may name it by `original_sha256`.
    """

    __tablename__ = "original"
    __table_args__ = (Index("original_of_picture", "picture"),)

    sha256: str = Field(primary_key=True)
    picture: str
    source_name: str
    source_format: str
    size: int
    file: bytes = Field(sa_type=LargeBinary)


def table(name: str) -> Table:
    """Return a table for Core inserts."""
    return SQLModel.metadata.tables[name]


# Made anew by a rebuild, in whatever shape they were.
DETAIL_TABLES = tuple(map(table, ("part", "reading", "finding", "ruling", "open_ruling")))
PROJECTION_TABLES = (*map(table, ("listed", "listed_word", "load_path")), *DETAIL_TABLES)
REGISTER_TABLES = (*map(table, ("record", "pack_text", "draft", "setting")), *PROJECTION_TABLES)
PICTURE_TABLES = tuple(map(table, ("picture", "thumbnail", "original")))
