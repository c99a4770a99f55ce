"""What every part of the register works with: its files, and how one record is appended and read."""

from collections.abc import Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING

from sqlalchemy import Connection
from sqlmodel import Session

from app.register import drafts, effect, log, pack_texts, packs, pictures, projections, rows, settings
from app.register.bodies import Body, Inspected, ItemRevised, body_of, head_of, pictures_of, shared_by
from app.register.engine import close_engine
from app.register.keys import new_id
from app.register.opening import Opened
from app.register.own_packs import OwnPacks
from app.register.people import Pins
from inspection_rules.book import RuleBook
from inspection_rules.item import Item
from inspection_rules.record import Person
from inspection_rules.standing import ItemRecord, Standing

if TYPE_CHECKING:
    from app.photos import Photo


class Handle:
    """The open files of a register, and the steps that every kind of record shares."""

    def __init__(self, opened: Opened) -> None:
        self.folder = opened.folder
        self.device = opened.device
        self._engine = opened.register
        self._reader = opened.register.execution_options(reads=True)
        self._pictures = opened.pictures
        self._picture_reader = opened.pictures.execution_options(reads=True)
        self._known: log.Known = {}
        self._book: tuple[packs.Signature, RuleBook] | None = None
        self.pins = Pins(self.folder, self._engine, self._reader)
        self.own_packs = OwnPacks(self.folder, self._engine)

    def close(self) -> None:
        """Close both files; the register cannot be used afterwards."""
        close_engine(self._engine)
        close_engine(self._pictures)

    def _enter_item(
        self, connection: Connection, item: Item, parents: tuple[str, ...], by: Person, at: datetime, offset: int
    ) -> None:
        body = ItemRevised(
            id=new_id(), at=at, utc_offset_minutes=offset, by=by, device=self.device, parents=parents, item=item
        )
        added = self._append(connection, body)
        projections.refresh(connection, item.id, self._known, added)

    def _log(self, record: ItemRecord, photos: Sequence["Photo"]) -> str:
        body = body_of(record, self.device)
        record_id, item, _ = head_of(body)
        self._keep_photos(photos, body)
        with self._engine.begin() as connection:
            added = self._append(connection, body)
            projections.refresh(connection, item, self._known, added)
            for other in shared_by(body) if added else ():
                if log.knows(connection, other):
                    projections.refresh(connection, other, self._known, ())
        return record_id

    def _append(self, connection: Connection, body: Body) -> list[Body]:
        """Append an entry and return it; nothing when it was there already."""
        added = [body] if log.append(connection, body, self._known) else []
        if isinstance(body, Inspected):
            pack_texts.keep(connection, body.judged.judgement.packs)
            drafts.discard(connection, body.judged.inspection.id)
        return added

    def _keep_photos(self, photos: Sequence["Photo"], body: Body | None) -> None:
        pictures.keep(self._pictures, photos)
        named = set(pictures_of(body) if body else ()) - {photo.sha256 for photo in photos}
        pictures.check_stored(self._picture_reader, named)

    def _stand(self, session: Session) -> rows.Stand:
        connection = session.connection()

        def stand(item_id: str, on: date) -> Standing:
            return effect.standing_of(item_id, log.entries(connection, item_id, self._known), on)

        return stand

    def _readable(self, item_id: str) -> list[log.Entry]:
        with self._reader.connect() as connection:
            return effect.readable(item_id, log.entries(connection, item_id, self._known))

    def _set(self, key: str, value: object) -> None:
        with self._engine.begin() as connection:
            settings.put(connection, key, value)
