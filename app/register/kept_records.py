"""What is recorded of an item: inspections, what was done and decided, corrections, and where it stands."""

from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from sqlmodel import Session

from app.register import cases, effect, log, lookups, projections, settings
from app.register.bodies import Body, Correction, Inspected, body_of, head_of, item_record, when_text
from app.register.errors import RegisterError, telling
from app.register.handle import Handle
from app.register.keys import new_id
from app.register.past import Past, past
from inspection_rules.case import Case, Use
from inspection_rules.events import Acceptance, Decision, Disposal, Incident, Placed, WorkDone
from inspection_rules.judgement import Judgement, content_hash
from inspection_rules.record import Inspection, Person
from inspection_rules.standing import ItemRecord, Judged, Open, Standing, may_be_released

if TYPE_CHECKING:
    from app.photos import Photo


class KeptRecords(Handle):
    """The part of the register that keeps what was seen, done, decided and taken back."""

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
    def decided(self, since: date) -> list[tuple[str, Past]]:
        """Return what was released, condemned or accepted since a local date, newest first, each with its item's id.

        What was corrected is among them, with what took it out.
        """
        early = when_text(datetime.combine(since, time(), UTC) - timedelta(days=1))  # a local day begins elsewhere
        with Session(self._reader) as session:
            items = lookups.decided(session, early)
        found = [(item, one) for item in items for one in past(self._readable(item))]
        found = [
            (item, one) for item, one in found if isinstance(one.record, Decision | Acceptance) and one.on >= since
        ]
        return sorted(found, key=lambda pair: (pair[1].on, pair[1].id), reverse=True)

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


def _as_logged(body: Body | None, found: Iterable[log.Entry]) -> Body | None:
    """Return a record's body as it was logged before, perhaps by another device; the same where it was not."""
    if body is None:
        return None
    record_id = head_of(body)[0]
    here = next((one.body for one in found if one.id == record_id and one.body is not None), None)
    return here if here is not None and item_record(here) == item_record(body) else body
