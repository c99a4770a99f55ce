"""What is set for this folder, the rules it judges by, and what is under way: drafts and pictures."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from sqlmodel import Session

from app.register import drafts, pack_texts, packs, pictures, settings
from app.register.drafts import Draft
from app.register.errors import telling
from app.register.handle import Handle
from app.register.pictures import KeptOriginal
from inspection_rules.book import RuleBook
from inspection_rules.case import Site
from inspection_rules.record import Person
from inspection_rules.words import InspectionKind

if TYPE_CHECKING:
    from app.photos import Photo


class KeptSettings(Handle):
    """The part of the register that is no record: rules, settings, drafts, pictures."""

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
        """Store a photograph at once, with its original where that comes along; both or neither.

        Returns the hash that records name it by.
        """
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
    def original_hash(self, sha: str) -> str | None:
        """Return the SHA-256 of the file a stored photograph was made from; None when there is no such photograph."""
        with self._picture_reader.connect() as connection:
            return pictures.original_hash(connection, sha)

    @telling
    def kept_original(self, sha: str) -> KeptOriginal | None:
        """Tell of the original file of a stored photograph; None when it was not kept."""
        with self._picture_reader.connect() as connection:
            return pictures.kept_original(connection, sha)

    @telling
    def original(self, sha: str) -> bytes | None:
        """Return the original file of a stored photograph, untouched; None when it was not kept."""
        with self._picture_reader.connect() as connection:
            return pictures.original(connection, sha)

    @telling
    def has_picture(self, sha: str) -> bool:
        """Tell whether a photograph is stored."""
        with self._picture_reader.connect() as connection:
            return sha in pictures.stored(connection, [sha])
