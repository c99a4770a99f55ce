"""Items in the register: entered, revised, found, and what a day asks for."""

from collections.abc import Iterable
from datetime import date, datetime

from sqlmodel import Session

from app.register import board, effect, log, lookups, rows
from app.register.board import Board
from app.register.errors import RegisterError, telling
from app.register.handle import Handle
from app.register.lookups import OpenRow, Point, RuledRow
from app.register.rows import Choices, ItemRow, Only, Today
from inspection_rules.item import Item
from inspection_rules.record import Person
from inspection_rules.words import Answer


class KeptItems(Handle):
    """The part of the register that knows its items."""

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
