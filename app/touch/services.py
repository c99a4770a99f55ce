"""What the screens ask for: records, judgements, photographs; each answer comes later, on the window's thread."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from app.device import Device
from app.figures.measured import Series, measured
from app.register import Draft, Past, Register, RegisterError, new_id
from app.touch import visit as visits
from app.touch.guide import Guide, guide
from app.touch.memory import Memory, agreed, remembered
from app.touch.visit import Visit
from app.touch.workers import Failed, Worker
from inspection_rules.book import RuleBook
from inspection_rules.case import Use
from inspection_rules.item import Item
from inspection_rules.judge import judge
from inspection_rules.judgement import Judgement
from inspection_rules.record import Inspection, Person
from inspection_rules.standing import NEW_SPLICE, Judged, Standing
from inspection_rules.use_told import Needs, askable, joined, needs
from inspection_rules.walk import Step, walk
from inspection_rules.words import InspectionKind

if TYPE_CHECKING:
    from app.photos import Photo

Now = Callable[[], datetime]


@dataclass(frozen=True, slots=True)
class Begun:
    """An inspection to be made or taken up again, with what was read before and what the register's rules say of it."""

    visit: Visit
    memory: Memory
    guide: Guide
    resumed: bool


@dataclass(frozen=True, slots=True)
class Looked:
    """All that the item screen shows.

    Attributes:
        kinds: the inspections that ask something of this item.
        past: every record of it, oldest first.
        series: what was measured on it, the one nearest to its limit first.
        regimes: those that count. book: the rules and observations in use.
    """

    item: Item
    standing: Standing
    judged: tuple[Judged, ...]
    drafts: tuple[Draft, ...]
    kinds: tuple[InspectionKind, ...]
    past: tuple[Past, ...]
    series: tuple[Series, ...]
    regimes: tuple[str, ...]
    book: RuleBook


@dataclass(frozen=True, slots=True)
class Intake:
    """What became of one photograph file: kept under its hash, or refused with a sentence.

    Both where the photograph is kept and its original is not, which was to be kept as well. `again` is whether the same
    file may be kept another time: only the storage was in the way.
    """

    name: str
    sha256: str = ""
    refused: str = ""
    again: bool = False


@dataclass(frozen=True, slots=True)
class Told:
    """What an inspection says, and where its item stands once it is logged: that counts everything on record."""

    judgement: Judgement
    standing: Standing


class Services:
    """The one door from the screens to the register, the rules and the photographs.

    `now` gives the present time with its offset. Methods with `done` return at once.
    """

    def __init__(self, register: Register, device: Device, now: Now, failed: Failed) -> None:
        self.register, self.device, self.now = register, device, now
        self.records = Worker("register", failed)
        self.pictures = Worker("photographs", failed)

    @property
    def idle(self) -> bool:
        """Whether all that was asked for has been answered."""
        return self.records.idle and self.pictures.idle

    def close(self) -> None:
        """Finish what was asked for; nothing is answered any more."""
        self.pictures.close()
        self.records.close()

    def today(self) -> date:
        """Return the local date."""
        return self.now().date()

    def look(self, item_id: str, done: Callable[[Looked], None]) -> None:
        """Read an item with its standing and history."""
        on = self.today()

        def work() -> Looked:
            register = self.register
            drafts = tuple(draft for draft in register.drafts() if draft.inspection.item == item_id)
            item, regimes = register.item(item_id), register.regimes()
            book, judged = register.book(), tuple(register.judged(item_id))
            kinds = tuple(kind for kind in InspectionKind if walk(item, kind, regimes, book))
            return Looked(
                item, register.standing(item_id, on), judged, drafts, kinds, register.past(item_id), measured(judged),
                regimes, book,
            )  # fmt: skip

        self.records.do(work, done)

    def begin(
        self,
        item_id: str,
        kind: InspectionKind,
        by: Person,
        done: Callable[[Begun], None],
        failed: Failed | None = None,
        use: Use | None = None,
    ) -> None:
        """Begin an inspection, or take up the one that was interrupted; `use` is what was told of a whole round's."""
        now = self.now()
        offset = now.utcoffset()

        def work() -> Begun:
            register, book = self.register, self.register.book()
            item = register.item(item_id)
            draft = register.draft(item_id, kind)
            told = guide(item, kind, register.regimes(), book)
            steps = [step for step in told.possible if step.needed]
            if kind is InspectionKind.AS_MADE:
                steps = self._of_new_splices(item, steps, told, now.date())
            if draft is None:
                inspection = Inspection(
                    id=new_id(),
                    item=item_id,
                    at=now.astimezone(UTC),
                    by=by,
                    kind=kind,
                    utc_offset_minutes=int(offset.total_seconds() // 60) if offset else 0,
                )
                visit = visits.start(item, inspection, steps, use=use)
            else:
                had = {(entry.part, entry.observation) for entry in draft.inspection.entries} | {draft.step}
                had |= {step.key for step in steps}
                steps = [step for step in told.possible if step.key in had]
                told_of_it = joined(use, draft.use)  # what was told of this one stays; the round judges for its own
                visit = visits.start(item, draft.inspection, steps, draft.step, draft.photos, told_of_it)
            judged = list(register.judged(item_id))
            accepted = register.standing(item_id, now.date()).accepted
            memory = replace(remembered(judged), agreed=agreed(accepted, judged, book))
            return Begun(visit, memory, told, draft is not None)

        self.records.do(work, done, failed)

    def _of_new_splices(self, item: Item, steps: list[Step], told: Guide, on: date) -> list[Step]:
        """While new splices wait for their record, it is of them alone: what it speaks of becomes new with it."""
        register = self.register
        still_open = register.standing(item.id, on).open
        new = {one.ruling.part for one in still_open if one.ruling.rule == NEW_SPLICE and one.ruling.part}
        bare = new - {step.part for step in steps}
        optional = [step for step in told.possible if not step.needed]
        asked = [step for step in steps if step.part in new] + [step for step in optional if step.part in bare]
        return asked or steps

    def save(self, visit: Visit, done: Callable[[], None], failed: Failed | None = None) -> None:
        """Keep the inspection under way as a draft; `done` only once it is on the disk."""
        draft = Draft(inspection=visit.inspection, step=visit.at, photos=visit.photos, use=visit.use)
        self.records.do(lambda: self.register.save_draft(draft), lambda _none: done(), failed)

    def judge(self, visit: Visit, done: Callable[[Told], None]) -> None:
        """Judge an inspection and its use as they are, today: it may have been begun on another day."""
        on = self._day_of(visit.inspection)
        self.records.do(lambda: self._told(visit, on), done)

    def log(self, visit: Visit, done: Callable[[Told], None], failed: Failed | None = None) -> None:
        """Judge a signed inspection once more as it will be logged, and log it; its draft goes with it."""
        on = self._day_of(visit.inspection)

        def work() -> Told:
            told = self._told(visit, on)
            self.register.log_inspection(visit.inspection, told.judgement)
            return told

        self.records.do(work, done, failed)

    def _day_of(self, inspection: Inspection) -> date:
        return max(self.today(), inspection.on)

    def _told(self, visit: Visit, on: date) -> Told:
        inspection = visit.inspection
        judgement = judge(self.register.case(inspection, on=on, use=visit.use), self.register.book())
        return Told(judgement, self.register.standing_with(Judged(inspection=inspection, judgement=judgement), on))

    def askable(self, items: Sequence[str], done: Callable[[tuple[tuple[str, ...], frozenset[Needs]]], None]) -> None:
        """Say what of a use the rules that count can use for any of these items, and what they have to know together.

        The first are names of the fields of `Use`.
        """

        def work() -> tuple[tuple[str, ...], frozenset[Needs]]:
            register = self.register
            regimes, book = register.regimes(), register.book()
            each = [(item, book.chosen(regimes, item)) for item in map(register.item, items)]
            heard = {field for item, packs in each for field in askable(item, packs)}
            fields = tuple(field for field in Use.model_fields if field in heard)
            return fields, frozenset(needs(item, packs) for item, packs in each)

        self.records.do(work, done)

    def discard(self, draft_id: str, done: Callable[[], None]) -> None:
        """Throw an interrupted inspection away."""
        self.records.do(lambda: self.register.discard_draft(draft_id), lambda _none: done())

    def take_in(
        self,
        name: str,
        read: Callable[[], bytes],
        done: Callable[[Intake], None],
        keep_place: bool = False,
        keep_original: bool = False,
    ) -> None:
        """Take in one photograph file and keep it; a file that is refused says why.

        Args:
            keep_place: whether the place on the globe that the camera wrote down stays with it.
            keep_original: whether the untouched file is kept as well.
        """

        def work() -> "Photo | Intake":
            from app.photos import PhotoRefused, intake  # not before a picture asks for it: the first page comes sooner

            try:
                return intake(read(), name, keep_place, keep_original)
            except PhotoRefused as refused:
                return Intake(name, refused=str(refused))
            except OSError as error:
                return Intake(name, refused=f"{name}: cannot be read ({error.strerror or error}). Choose another file.")

        def taken(photo: "Photo | Intake") -> None:
            if isinstance(photo, Intake):
                done(photo)
            else:
                self.records.do(lambda: _kept(self.register, photo), done)

        self.pictures.do(work, taken)


def _kept(register: Register, photo: "Photo") -> Intake:
    """Keep a photograph; where its original finds no room, the photograph alone, and say so."""
    name, said = photo.source_name, ""
    try:
        return Intake(name, register.keep_photo(photo))
    except RegisterError as error:
        said = f"{name}: the picture was not kept. {error}"
    if photo.original is not None:
        with suppress(RegisterError):
            sha = register.keep_photo(replace(photo, original=None))
            said = (
                f"{name}: the picture is kept, its original file could not be stored. Most often the disk is full: "
                "keep the camera's own file, free some space and choose it again."
            )
            return Intake(name, sha, said, again=True)
    return Intake(name, refused=said, again=True)
