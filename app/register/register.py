"""The register: one method for each thing a person does with it."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

from sqlalchemy import Connection
from sqlmodel import Session

from app.register import (
    board,
    cases,
    drafts,
    effect,
    log,
    lookups,
    opening,
    pack_texts,
    packs,
    pictures,
    projections,
    rounds,
    rows,
    settings,
)
from app.register import verify as checks
from app.register.board import Board
from app.register.bodies import (
    Body,
    Correction,
    Inspected,
    ItemRevised,
    RoundMade,
    body_of,
    head_of,
    item_record,
    pictures_of,
    shared_by,
)
from app.register.drafts import Draft
from app.register.engine import close_engine
from app.register.errors import RegisterError, telling
from app.register.keys import new_id
from app.register.lookups import OpenRow, Point, RuledRow
from app.register.opening import Opened
from app.register.own_packs import OwnPacks
from app.register.past import Past, past
from app.register.people import Pins
from app.register.projections import Progress
from app.register.rounds import PlaceRow, RoundDraft, SignedRound
from app.register.rows import Choices, ItemRow, Only, Today
from app.register.verify import ChainEnd, Fault
from inspection_rules.book import RuleBook
from inspection_rules.case import Case, Site, Use
from inspection_rules.judgement import Judgement, content_hash
from inspection_rules.record import Acceptance, Decision, Disposal, Incident, Inspection, Item, Person, Placed, WorkDone
from inspection_rules.rounds import Round, RoundSummary
from inspection_rules.standing import ItemRecord, Judged, Open, Standing, may_be_released
from inspection_rules.words import Answer, InspectionKind

if TYPE_CHECKING:
    from app.photos import Photo


class Register:
    """An open register: a folder with `register.db` and `pictures.db`.

    Every method that writes returns only once what it wrote is on the disk, and writes all of it or nothing.
    Every method raises `RegisterError`, with what was kept and what to do, when it cannot do its work. Use one
    register from one thread at a time; other processes may use the same folder.
    """

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

    @classmethod
    def create(cls, path: Path, device: str) -> Self:
        """Make an empty register in a folder, which may exist already, and open it.

        Args:
            path: the folder.
            device: the name under which this device's entries are chained.
        """
        return cls.open(opening.create(path), device)

    @classmethod
    def open(cls, path: Path, device: str | None = None, *, progress: Progress | None = None) -> Self:
        """Open the register in a folder.

        Args:
            path: the folder, or the `register.db` in it.
            device: who writes from here on; without it, whoever opened it last under a name.
            progress: told (done, all) items while an older register's projections are made anew.
        """
        return cls(opening.open_files(path, device, progress))

    def close(self) -> None:
        """Close both files; the register cannot be used afterwards."""
        close_engine(self._engine)
        close_engine(self._pictures)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    # Items

    @telling
    def add_item(self, item: Item, by: Person, at: datetime, utc_offset_minutes: int = 0) -> str:
        """Enter a new item and return its id."""
        with self._engine.begin() as connection:
            if log.knows(connection, item.id):
                raise RegisterError(
                    f"item {item.id} is in the register already. Revise it, or give the new one its own id."
                )
            self._enter_item(connection, item, (), by, at, utc_offset_minutes)
        return item.id

    @telling
    def add_items(self, items: Iterable[Item], by: Person, at: datetime, utc_offset_minutes: int = 0) -> list[str]:
        """Enter several new items, all of them or none, and return their ids."""
        added = []
        with self._engine.begin() as connection:
            for item in items:
                if log.knows(connection, item.id):
                    raise RegisterError(
                        f"item {item.id} is in the register already. None of the items was entered. Give the new one "
                        "its own id."
                    )
                self._enter_item(connection, item, (), by, at, utc_offset_minutes)
                added.append(item.id)
        return added

    @telling
    def revise_item(self, item: Item, by: Person, at: datetime, utc_offset_minutes: int = 0) -> str:
        """Enter an item anew, in place of every revision that stands, and return its id."""
        with self._engine.begin() as connection:
            parents = tuple(head.id for head in effect.heads(log.entries(connection, item.id, self._known)))
            if not parents:
                raise log.no_item(item.id)
            self._enter_item(connection, item, parents, by, at, utc_offset_minutes)
        return item.id

    def item(self, item_id: str) -> Item:
        """Return an item as it stands; of revisions that disagree (`heads`), the latest."""
        return self.heads(item_id)[-1]

    @telling
    def heads(self, item_id: str) -> list[Item]:
        """Return the item's revisions that nobody has revised since, oldest first: more than one disagree."""
        with self._reader.connect() as connection:
            found = effect.heads(log.entries(connection, item_id, self._known))
        if not found:
            raise log.no_item(item_id)
        return [one.item for one in found]

    @telling
    def find(
        self,
        text: str = "",
        *,
        limit: int = 200,
        after: ItemRow | None = None,
        on: date | None = None,
        only: Only = rows.ALL,
    ) -> list[ItemRow]:
        """Return items in the order of their tags.

        Args:
            text: each of its words begins a word of the item's tag, description, place, kind, duty or fibre.
            limit: at most this many.
            after: the last row of the page before.
            on: the local date that says what is overdue; today's without it.
            only: what the list is narrowed to.
        """
        with Session(self._reader) as session:
            return rows.find(session, text, on or date.today(), limit, after, self._stand(session), only)

    @telling
    def by_code(self, text: str, on: date | None = None) -> list[ItemRow]:
        """Return the items whose tag or id a label's text is; separators and leading zeros do not matter."""
        with Session(self._reader) as session:
            return rows.by_code(session, text, on or date.today(), self._stand(session))

    @telling
    def choices(self) -> Choices:
        """Return the places and kinds that the list can be narrowed to."""
        with Session(self._reader) as session:
            return rows.choices(session)

    @telling
    def tags(self) -> list[tuple[str, str]]:
        """Return place and tag of every item, in the order of their tags."""
        with Session(self._reader) as session:
            return lookups.tags(session)

    @telling
    def today(self, on: date) -> Today:
        """Return what a local date asks for: due within 14 days, overdue, held, removed."""
        with Session(self._reader) as session:
            return rows.today(session, on, self._stand(session))

    @telling
    def board(self, on: date, place: str = "", most: int = 40) -> Board:
        """Return what a local date asks for, at one place or at all, in groups: the first of each and how many.

        Unlike in `today`, what is ashore, on loan or not found is a group of its own, and what was looked at that day.
        """
        with Session(self._reader) as session:
            return board.board(session, on, place, most, self._stand(session))

    @telling
    def open_rulings(self, answer: Answer | None = None) -> list[OpenRow]:
        """Return the holds and removals, or those of one answer, that no record has closed yet, worst first.

        A missed inspection, a condemnation and an unreadable record stop an item without a ruling: see `today`.
        """
        with Session(self._reader) as session:
            return lookups.open_rulings(session, answer)

    @telling
    def ruled_by(self, rule: str) -> list[RuledRow]:
        """Return what a rule said about which item, at every inspection that counts."""
        with Session(self._reader) as session:
            return lookups.ruled_by(session, rule)

    @telling
    def series(self, item_id: str, part: str, observation: str) -> list[Point]:
        """Return a reading of an item's part at every inspection that counts, oldest first."""
        with Session(self._reader) as session:
            return lookups.series(session, item_id, part, observation)

    # Inspections and what follows from them

    @telling
    def case(self, inspection: Inspection, *, on: date, use: Use | None = None) -> Case:
        """Return all a judgement of this inspection needs: the item, its past, the regimes, the site."""
        with self._reader.connect() as connection:
            found = log.entries(connection, inspection.item, self._known)
            regimes, site = settings.regimes(connection), settings.site(connection)
        return cases.case(inspection, found, on=on, use=use, regimes=regimes, site=site)

    @telling
    def log_inspection(self, inspection: Inspection, judgement: Judgement, photos: Sequence["Photo"] = ()) -> str:
        """Log an inspection with its judgement and return its id; its draft is gone with the same commit.

        A judgement that was made of another inspection, or of this one before it was changed, is refused.

        The pictures are on the disk before the record that names them. Logging the same once more changes
        nothing.
        """
        if judgement.inspection_sha256 and judgement.inspection_sha256 != content_hash(inspection):
            raise RegisterError(
                f"inspection {inspection.id} was changed after it was judged. Nothing was logged. Judge it again."
            )
        return self._log(Judged(inspection=inspection, judgement=judgement), photos)

    @telling
    def log_work(self, work: WorkDone, photos: Sequence["Photo"] = ()) -> str:
        """Log work done on an item and return its id."""
        return self._log(work, photos)

    @telling
    def log_decision(self, decision: Decision, photos: Sequence["Photo"] = ()) -> str:
        """Log what a competent person decided and return its id."""
        return self._log(decision, photos)

    @telling
    def log_disposal(self, disposal: Disposal, photos: Sequence["Photo"] = ()) -> str:
        """Log that an item was destroyed and return the record's id; evidence of an open incident is refused."""
        with self._reader.connect() as connection:
            found = log.entries(connection, disposal.item, self._known)
        if found:
            cases.check_disposable(disposal.item, found)
        return self._log(disposal, photos)

    @telling
    def accept(self, acceptance: Acceptance, photos: Sequence["Photo"] = ()) -> str:
        """Log a condition that a competent person accepted for a time and return the record's id.

        It closes the holds it names; one that may not be accepted is refused.
        """
        with self._reader.connect() as connection:
            found = log.entries(connection, acceptance.item, self._known)
        cases.check_acceptable(acceptance, found)
        return self._log(acceptance, photos)

    @telling
    def log_incident(self, incident: Incident, photos: Sequence["Photo"] = ()) -> str:
        """Log an incident and return the record's id.

        It holds its item and every item that shared the load, wherever they belong; one that is not in this register
        yet is held once it comes.
        """
        return self._log(incident, photos)

    @telling
    def log_placed(self, placed: Placed) -> str:
        """Log where an item is and return the record's id; it changes no answer and no date."""
        return self._log(placed, ())

    # Rounds

    @telling
    def places(self, on: date) -> list[PlaceRow]:
        """Return where items lie, with how many, and what of them is stopped or due on a local date."""
        with Session(self._reader) as session:
            return rounds.places(session, on)

    @telling
    def walking_order(self, place: str) -> tuple[str, ...]:
        """Return the ids of a place's items in the order they are walked: as it was set, the others by their tags."""
        with Session(self._reader) as session:
            return rounds.walking_order(session, place)

    @telling
    def set_walking_order(self, place: str, items: Iterable[str]) -> None:
        """Set in which order the items of a place are walked."""
        self._set(settings.WALKING_ORDER + place, list(items))

    @telling
    def rows_of(self, items: Sequence[str], on: date) -> dict[str, ItemRow]:
        """Return how some items stand on a local date, as the list shows it, by their ids."""
        with Session(self._reader) as session:
            return rounds.rows_of(session, items, on, self._stand(session))

    @telling
    def looks(self, items: Iterable[str], since: date) -> list[Judged]:
        """Return the inspections since a local date that may answer for their items in a round, oldest first."""
        with self._reader.connect() as connection:
            return rounds.looks(connection, items, since, self._known)

    @telling
    def round_summary(self, made: Round) -> RoundSummary:
        """Return what a round says as things stand: ready or not, and what stops it."""
        with Session(self._reader) as session:
            return rounds.summary(session, made, self._stand(session))

    @telling
    def log_round(self, made: Round, seen: RoundSummary) -> str:
        """Log a round as it is signed and return its id; its draft is gone with the same commit.

        What it says of items that are ashore, on loan or not found is logged with it (`log_placed`).

        Args:
            seen: the answer that the person signs. One that is not what the register says now is refused.
        """
        with self._engine.begin() as connection:
            session = Session(connection)
            rounds.check(connection, made, self._known)
            if rounds.summary(session, made, self._stand(session)) != seen:
                raise RegisterError(
                    "what is known of the round's items has changed since its summary was shown. The round was not "
                    "logged; all inspections were kept. Look at the summary again, then sign."
                )
            placed = rounds.placed(session, made)
            body = RoundMade(device=self.device, made=made, summary=seen, regimes=settings.regimes(connection))
            if self._append(connection, body):
                for one in placed:
                    added = self._append(connection, body_of(one, self.device))
                    projections.refresh(connection, one.item, self._known, added)
            drafts.discard(connection, made.id)
        return made.id

    @telling
    def round(self, round_id: str) -> SignedRound:
        """Return a signed round."""
        with Session(self._reader) as session:
            return rounds.one(session, round_id)

    @telling
    def rounds(self, place: str = "", limit: int = 50) -> list[SignedRound]:
        """Return the signed rounds of one place or of all, the newest first."""
        with Session(self._reader) as session:
            return rounds.signed(session, place, limit)

    @telling
    def save_round(self, draft: RoundDraft) -> None:
        """Keep a round under way in place of what was kept of it before."""
        with self._engine.begin() as connection:
            rounds.save(connection, draft)

    @telling
    def round_under_way(self) -> RoundDraft | None:
        """Return the unfinished round that was touched last."""
        with Session(self._reader) as session:
            return rounds.under_way(session)

    @telling
    def discard_round(self, round_id: str) -> None:
        """Forget an unfinished round; the inspections that were logged in it stay."""
        with self._engine.begin() as connection:
            drafts.discard(connection, round_id)

    @telling
    def correct(
        self,
        supersedes: str,
        reason: str,
        by: Person,
        at: datetime,
        replacement: ItemRecord | None = None,
        *,
        utc_offset_minutes: int = 0,
        photos: Sequence["Photo"] = (),
    ) -> str:
        """Log that a record was wrong, with what is entered in its place, and return the correction's id.

        The wrong record stays readable and no longer counts. A condemnation, a disposal and an incident cannot be
        corrected. An inspection that stops the item is corrected only by a competent person, with an inspection of
        the same kind by a competent person in its place that looks at the same places.
        """
        put = None if replacement is None else body_of(replacement, self.device)
        self._keep_photos(photos, put)
        with self._engine.begin() as connection:
            added: list[Body] = []
            item = cases.item_of(connection, supersedes)
            found = log.entries(connection, item, self._known)
            put = _as_logged(put, found)
            cases.check_correctable(supersedes, found, by, put)
            if put is not None:
                if head_of(put)[1] != item:
                    raise RegisterError(f"the replacement is not of item {item}. Nothing was kept. Correct its item.")
                added += self._append(connection, put)
            correction = Correction(
                id=new_id(), at=at, utc_offset_minutes=utc_offset_minutes, by=by, device=self.device, item=item,
                supersedes=supersedes, replacement=head_of(put)[0] if put else "", reason=reason,
            )  # fmt: skip
            added += self._append(connection, correction)
            projections.refresh(connection, item, self._known, added)
        return correction.id

    @telling
    def judged(self, item_id: str) -> list[Judged]:
        """Return the inspections that count, with their judgements, oldest first."""
        return effect.judged_of(effect.in_force(self._readable(item_id)))

    @telling
    def history(self, item_id: str) -> list[ItemRecord]:
        """Return every record of what was seen, done, decided, accepted or happened, oldest first.

        Corrected ones are included, and the incidents of other items that it shared the load of.
        """
        return effect.all_records(self._readable(item_id))

    @telling
    def corrections(self, item_id: str) -> list[Correction]:
        """Return the corrections of an item's records, oldest first."""
        return [one.body for one in self._readable(item_id) if isinstance(one.body, Correction)]

    @telling
    def past(self, item_id: str) -> tuple[Past, ...]:
        """Return every record of an item with what took it out, corrections and revisions included, oldest first."""
        return past(self._readable(item_id))

    @telling
    def standing(self, item_id: str, on: date) -> Standing:
        """Return where an item stands on a local date, from all of its records up to then."""
        with self._reader.connect() as connection:
            return effect.standing_of(item_id, log.entries(connection, item_id, self._known), on)

    @telling
    def may_be_released(self, item_id: str, on: date) -> tuple[Open, ...]:
        """Return which of an item's open holds and removals a competent person's release may close on a local date."""
        found = self._readable(item_id)
        return may_be_released(effect.heads(found)[-1].item, effect.in_force(found), on)

    @telling
    def may_correct(self, record_id: str, by: Person) -> str:
        """Say why a correction by this person, with nothing in its place, is refused; empty where it is not."""
        with self._reader.connect() as connection:
            item = cases.item_of(connection, record_id)
            found = log.entries(connection, item, self._known)
        try:
            cases.check_correctable(record_id, found, by, None)
        except RegisterError as refused:
            return str(refused).replace(f"record {record_id}", "This record", 1)
        return ""

    @telling
    def standing_with(self, judged: Judged, on: date) -> Standing:
        """Return where its item will stand on a local date once this inspection is logged."""
        item_id = judged.inspection.item
        with self._reader.connect() as connection:
            found = log.entries(connection, item_id, self._known)
        added = log.Entry(judged.inspection.id, Inspected(device=self.device, judged=judged))
        return effect.standing_of(item_id, [*found, added], on)

    @telling
    def book(self) -> RuleBook:
        """Return the rules this register judges by: those that ship, and the packs in its folder `packs`.

        Such a pack is a site's, a maker's or a further regime's, one file each. One that cannot be used is told, and
        nothing is judged until it is put right or taken away. The texts are kept, so that what was judged by them
        stays readable.
        """
        now = packs.signature(self.folder)
        if self._book is None or self._book[0] != now:
            book = packs.book(self.folder)
            if now:
                with self._engine.begin() as connection:
                    for text in packs.texts(self.folder):
                        pack_texts.keep_text(connection, text)
            self._book = (now, book)
        return self._book[1]

    @telling
    def pack_text(self, sha256: str) -> str | None:
        """Return the text of a pack that a judgement used; None when it was not kept."""
        with self._reader.connect() as connection:
            return pack_texts.get(connection, sha256)

    @telling
    def keep_pack(self, text: str) -> str:
        """Keep the text of a site's own pack, so that judgements under it stay readable; return its SHA-256."""
        with self._engine.begin() as connection:
            return pack_texts.keep_text(connection, text)

    # Settings

    @telling
    def regimes(self) -> tuple[str, ...]:
        """Return the regimes this register answers to."""
        with self._reader.connect() as connection:
            return settings.regimes(connection)

    @telling
    def set_regimes(self, regimes: Iterable[str]) -> None:
        """Set the regimes this register answers to."""
        self._set(settings.REGIMES, list(regimes))

    @telling
    def site(self) -> Site:
        """Return what the organisation has set for itself."""
        with self._reader.connect() as connection:
            return settings.site(connection)

    @telling
    def set_site(self, site: Site) -> None:
        """Set what the organisation has set for itself."""
        self._set(settings.SITE, site.model_dump(mode="json"))

    @telling
    def people(self) -> list[Person]:
        """Return who inspects here."""
        with self._reader.connect() as connection:
            return settings.people(connection)

    @telling
    def set_people(self, people: Iterable[Person]) -> None:
        """Set who inspects here."""
        self._set(settings.PEOPLE, [person.model_dump(mode="json") for person in people])

    # Drafts and pictures

    @telling
    def save_draft(self, draft: Draft) -> None:
        """Keep an inspection under way in place of what was kept of it before."""
        with self._engine.begin() as connection:
            drafts.save(connection, draft)

    @telling
    def draft(self, item_id: str, kind: InspectionKind) -> Draft | None:
        """Return the unfinished inspection of this item and kind that was touched last."""
        with Session(self._reader) as session:
            return drafts.latest(session, item_id, kind)

    @telling
    def drafts(self) -> list[Draft]:
        """Return all unfinished inspections, the one touched last first."""
        with Session(self._reader) as session:
            return drafts.every(session)

    @telling
    def discard_draft(self, inspection_id: str) -> None:
        """Forget an unfinished inspection; its pictures stay."""
        with self._engine.begin() as connection:
            drafts.discard(connection, inspection_id)

    @telling
    def keep_photo(self, photo: "Photo") -> str:
        """Store a photograph at once and return the hash that records name it by."""
        pictures.keep(self._pictures, [photo])
        return photo.sha256

    @telling
    def picture(self, sha: str) -> bytes | None:
        """Return a stored photograph's JPEG bytes; None when there is none."""
        with Session(self._picture_reader) as session:
            return pictures.picture(session, sha)

    @telling
    def thumbnail(self, sha: str) -> bytes | None:
        """Return the small JPEG of a stored photograph; None when there is none."""
        with Session(self._picture_reader) as session:
            return pictures.thumbnail(session, sha)

    @telling
    def has_picture(self, sha: str) -> bool:
        """Tell whether a photograph is stored."""
        with self._picture_reader.connect() as connection:
            return sha in pictures.stored(connection, [sha])

    # Keeping it sound

    @telling
    def verify(self, progress: Progress | None = None) -> list[Fault]:
        """Check every record, seal, projection, picture and pack text; see `verify.py` for what that can show."""
        with Session(self._reader) as session, Session(self._picture_reader) as pictures_session:
            return checks.verify(session, pictures_session, progress)

    @telling
    def chain_ends(self) -> list[ChainEnd]:
        """Return how many entries each device has made and the last seal: what an auditor notes down."""
        with Session(self._reader) as session:
            return checks.chain_ends(session)

    @telling
    def rebuild(self, progress: Progress | None = None) -> None:
        """Make every projection anew from the records."""
        with self._engine.begin() as connection:
            projections.rebuild(connection, progress)

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


def _as_logged(body: Body | None, found: Iterable[log.Entry]) -> Body | None:
    """Return a record's body as it was logged before, perhaps by another device; the same where it was not."""
    if body is None:
        return None
    record_id = head_of(body)[0]
    here = next((one.body for one in found if one.id == record_id and one.body is not None), None)
    return here if here is not None and item_record(here) == item_record(body) else body
