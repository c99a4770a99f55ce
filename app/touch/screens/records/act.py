"""One thing to record about one item: what was said so far, who acts, and how it is logged."""

from collections.abc import Callable
from datetime import UTC, date
from typing import Any

from pydantic import ValidationError

from app.language import say, told
from app.register import RegisterError, new_id
from app.touch.services import Services
from app.touch.typed import Typed
from app.touch.widgets.page import Page
from app.touch.wording import who
from inspection_rules.item import Item
from inspection_rules.record import Person
from inspection_rules.standing import Open, Standing
from inspection_rules.words import COMPETENT

MOST_NAME, MOST_TEXT = 120, 2000
Stamp = dict[str, Any]


class Act:
    """What several pages ask for one record.

    Attributes:
        item, standing, releasable: as they were when the first page was opened.
        said, numbers, pictures: what was typed and taken so far; a page that is left and opened again shows it.
    """

    def __init__(
        self,
        services: Services,
        app: Any,
        home: Page | None,
        item: Item,
        standing: Standing,
        releasable: tuple[Open, ...] = (),
    ) -> None:
        """`home` is the page left, with all that lies on it, once the record is logged; the act's first without it."""
        self.services, self.app, self.home = services, app, home
        self.item, self.standing, self.releasable = item, standing, releasable
        self.said: dict[str, str] = {}
        self.numbers: dict[str, Typed] = {}
        self.pictures: list[str] = []
        self._logging = False

    @property
    def person(self) -> Person:
        """Who acts: the first page asked for it."""
        person: Person = self.app.person
        return person

    @property
    def competent(self) -> bool:
        """Whether whoever acts may decide what only a competent person decides."""
        return self.person.competence in COMPETENT

    @property
    def today(self) -> date:
        """The local date."""
        return self.services.today()

    def push(self, page: Page) -> None:
        """Lay the next page on top."""
        if self.home is None:
            self.home = page
        self.app.stack.push(page)

    def stamp(self) -> Stamp:
        """Return what every record has: id, item, when, on which clock, by whom."""
        now = self.services.now()
        offset = now.utcoffset()
        return {
            "id": new_id(),
            "item": self.item.id,
            "at": now.astimezone(UTC),
            "utc_offset_minutes": int(offset.total_seconds() // 60) if offset else 0,
            "by": self.person,
        }

    def log(self, work: Callable[[Stamp], object], then: Callable[[], None] | None = None) -> None:
        """Log on the register's thread; then leave the pages of this act, or show why it was refused.

        Args:
            work: makes the record and logs it, with the stamp of who tapped, and when.
            then: what comes next, once the pages are gone.
        """
        if self._logging:  # a second finger on the same button
            return
        self._logging = True
        stamp = self.stamp()  # now, by whoever signs: not when the thread comes to it

        def done(_result: object) -> None:
            self.app.stack.pop(self.home)
            if then is not None:
                then()

        def failed(error: Exception) -> None:
            self._logging = False
            self.app.failed(_telling(error))

        self.services.records.do(lambda: work(stamp), done, failed)


def _telling(error: Exception) -> Exception:
    if isinstance(error, ValidationError):
        first = error.errors()[0]
        return RegisterError(say("{why}. Nothing was logged. Go back and put it right.", why=told(first["msg"])))
    return error


class ActPage(Page):
    """A page of one act: at its head stand the item and who acts in which competence."""

    def __init__(self, act: Act, heading: str, **kwargs: Any) -> None:
        super().__init__(heading=heading, **kwargs)
        self.act = act
        act.app.bind(person=self._changed)
        self._head()

    def build(self) -> None:
        """Make the page's content anew; called when somebody else acts."""

    def _changed(self, *_changed: object) -> None:
        self._head()
        if self.manager is not None:
            self.build()

    def _head(self) -> None:
        self.under = f"{self.act.item.tag} · {who(self.act.person)}"


def capital(text: str) -> str:
    """Return a text with its first letter as a capital and the others as they are."""
    return text[:1].upper() + text[1:]


def clean(text: str, most: int = MOST_TEXT) -> str:
    """Return a typed text as a record takes it: without control characters, and no longer than it may be."""
    kept = "".join(" " if one in "\r\u2028\u2029" else one for one in text if one in "\n\r\t" or one.isprintable())
    return kept.strip()[:most].strip()


def one_line(text: str) -> str:
    """Return a typed text as a name: one line."""
    return clean(" ".join(text.split()), MOST_NAME)
