"""Rounds in the register: signed ones, the one under way, and the order in which a place is walked."""

from collections.abc import Iterable, Sequence
from datetime import date

from sqlmodel import Session

from app.register import drafts, projections, rounds, settings
from app.register.bodies import RoundMade, body_of
from app.register.errors import RegisterError, telling
from app.register.handle import Handle
from app.register.rounds import PlaceRow, RoundDraft, SignedRound
from app.register.rows import ItemRow
from inspection_rules.rounds import Round, RoundSummary
from inspection_rules.standing import Judged


class KeptRounds(Handle):
    """The part of the register that keeps rounds."""

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
